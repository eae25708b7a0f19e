"""Every address of the office."""

from __future__ import annotations

from django.urls import include, path

from quarterwalk.office.views import (
    begin,
    crop,
    desk,
    district,
    doors,
    field,
    fields,
    imports,
    inbox,
    journal_file,
    people,
    phone_page,
    phones,
    plantings,
    season,
    seen,
    walk,
    walks,
    weather,
)

handler404 = "quarterwalk.office.views.faults.not_found"
handler500 = "quarterwalk.office.views.faults.broken"

urlpatterns = [
    path("", fields.fields, name="fields"),
    path("fields/import", fields.fields_import, name="fields-import"),
    path("fields/<str:field_id>", field.field, name="field"),
    path("fields/<str:field_id>/rule", field.field_rule, name="field-rule"),
    path("fields/<str:field_id>/dates", crop.field_dates, name="field-dates"),
    path("fields/<str:field_id>/closed", field.field_closed, name="field-closed"),
    path("fields/<str:field_id>/season", season.field_season, name="field-season"),
    path("fields/<str:field_id>/season.pdf", season.field_season_pdf, name="field-season-pdf"),
    path("fields/<str:field_id>/seen", seen.field_seen, name="field-seen"),
    path("seen/<int:pk>/strike", seen.seen_strike, name="seen-strike"),
    path("fields/<str:field_id>/walk", desk.desk_walk, name="desk-walk"),
    path("plantings/import", plantings.plantings_import, name="plantings-import"),
    path("weather/import", weather.weather_import, name="weather-import"),
    path("weather/<int:pk>/remove", weather.weather_remove, name="weather-remove"),
    path("walks/import", walks.walks_import, name="walks-import"),
    path("walks/<str:walk_id>.csv", walk.walk_table, name="walk-table"),
    path("walks/<str:walk_id>", walk.walk, name="walk"),
    path("walks/<str:walk_id>/strike", walk.walk_strike, name="walk-strike"),
    path("import", imports.imports, name="imports"),
    path("inbox", inbox.inbox, name="inbox"),
    path("inbox/<int:pk>", inbox.entry, name="entry"),
    path("journal/import", journal_file.journal_import, name="journal-import"),
    path("phones", phones.phones, name="phones"),
    path("phones/code", phones.phone_code, name="phone-code"),
    path("phones/<str:device_id>/end", phones.phone_revoke, name="phone-revoke"),
    path("people", people.people, name="people"),
    path("people/add", people.person_add, name="person-add"),
    path("people/<int:pk>", people.person_role, name="person-role"),
    path("people/<int:pk>/link", people.person_link, name="person-link"),
    path("people/<int:pk>/remove", people.person_remove, name="person-remove"),
    path("district", district.district_switch, name="district-switch"),
    path("sign-in", doors.sign_in, name="account_login"),
    path("sign-out", doors.sign_out, name="account_logout"),
    path("inactive", doors.inactive, name="account_inactive"),
    path("password", doors.password, name="password"),
    path("join/<str:token>", doors.join, name="join"),
    path("begin/<str:token>", begin.begin, name="begin"),
    path("healthy", doors.healthy, name="healthy"),
    path("phone/", phone_page.phone_page, name="phone"),
    path("phone/<path:name>", phone_page.phone_file, name="phone-file"),
    path("sync/", include("quarterwalk.office.sync.urls")),
]
