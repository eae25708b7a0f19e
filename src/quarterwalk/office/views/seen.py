"""What was seen of a field's crop: noted, and struck."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from quarterwalk.office import access, clock
from quarterwalk.office.access_season import seen_to_strike
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.forms.seen import SeenForm
from quarterwalk.office.pages.seen import seen_page, seen_taken
from quarterwalk.office.queries.field import seen_in
from quarterwalk.office.services.seen import note_seen, strike_seen
from quarterwalk.office.translate import season_on
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_http_methods(["GET", "POST"])
def field_seen(request: HttpRequest, field_id: str) -> HttpResponse:
    """Say what was seen of a field's crop."""
    person = signed_in(request)
    row = access.field_walked(person, field_id)
    today = clock.today(row.district)
    form = SeenForm(sent(request), initial={"on": today})
    if form.is_valid():
        with refusals(form):
            seen = form.seen
            note_seen(field=row, seen=seen, by=person, looked_at=form.looked_at)
            tell(request, *seen_taken(season_on(row, seen.on), seen))
            return redirect("field", field_id)
    part = access.part_of(person, row.district.public_id)
    page = seen_page(row, part, seen_in(row, today.year))
    return show(request, "field/seen.html", page, form)


@require_POST
def seen_strike(request: HttpRequest, pk: int) -> HttpResponse:
    """Strike what was noted; it stays to read, and counts nowhere."""
    seen = seen_to_strike(signed_in(request), pk)
    strike_seen(seen=seen, by=signed_in(request))
    tell(request, "The note is struck. It counts nowhere any more.")
    return redirect("field-seen", seen.field.public_id)
