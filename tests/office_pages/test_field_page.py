from __future__ import annotations

from datetime import UTC, date, datetime

from quarterwalk.office.models import FieldRow
from quarterwalk.office.services.fields import SeasonDates, close_field, set_dates
from tests.office.people import People
from tests.office_pages.visits import visitor, words


def the_page(people: People, who: str = "alice") -> str:
    client = visitor(getattr(people, who))
    return client.get(f"/fields/{people.home.public_id}").content.decode()


def test_a_lead_reads_how_a_field_is_judged_and_can_change_it(people: People, walk_id: str) -> None:
    page = the_page(people)
    assert "Line 25 per 100, the lower end of 25 to 30; edition 2026.1" in page
    assert "First square 20 June" in page
    for name in ("rule", "dates", "closed"):
        assert f'href="/fields/{people.home.public_id}/{name}"' in page


def test_a_scout_reads_it_and_can_change_nothing(people: People, walk_id: str) -> None:
    page = the_page(people, "bob")
    assert "First square 20 June" in page
    assert f"/fields/{people.home.public_id}/rule" not in page
    assert f"/fields/{people.home.public_id}/walk" in page


def test_a_scout_sees_todays_stops_and_a_grower_the_quarters_alone(people: People) -> None:
    assert "20 stops in 2 loops." in the_page(people, "bob")
    assert "20 stops in 2 loops." not in the_page(people, "gil")
    assert "four quarters of equal area" in the_page(people, "gil")


def test_walks_are_listed_with_who_walked_and_their_call(people: People, walk_id: str) -> None:
    page = the_page(people)
    assert f'href="/walks/{walk_id}"' in page
    assert "1 July Bob Tarn 36" in words(page)


def test_a_field_without_a_walk_says_how_one_comes(people: People) -> None:
    assert "No walk yet. A walk from a phone comes here by itself" in the_page(people)


def test_a_closed_field_says_until_when_in_the_districts_own_time(people: People) -> None:
    # 12:00 UTC on 2 July is 7 in the morning in Chicago
    until = datetime(2026, 7, 2, 12, tzinfo=UTC)
    close_field(field=people.home, until=until, why="Sprayed by plane.")
    told = words(the_page(people, "gil"))
    assert "Closed until 2 July, 07:00. Nobody walks in before. Sprayed by plane." in told


def test_a_time_that_is_over_closes_nothing(people: People) -> None:
    close_field(field=people.home, until=datetime(2026, 6, 30, 12, tzinfo=UTC), why="")
    assert "Nobody walks in before" not in the_page(people)


def test_a_field_too_large_for_one_walk_says_so(people: People) -> None:
    said = "acres are too many for one walk of 100 plants (over 160). Walk it as parts"
    assert said not in the_page(people)
    FieldRow.objects.filter(pk=people.home.pk).update(acres=161.0)
    assert f"Home 80: 161 {said}" in words(the_page(people))
    assert said not in words(the_page(people, "gil"))


def test_a_call_to_treat_leads_a_lead_to_the_day_of_treatment(people: People, walk_id: str) -> None:
    link = f'<a href="/fields/{people.home.public_id}/dates">Treated? Give the day</a>'
    assert link in the_page(people)
    assert link not in the_page(people, "bob")
    dates = SeasonDates(planted=date(2026, 5, 14), first_square=date(2026, 6, 20))
    set_dates(field=people.home, year=2026, dates=dates, treated=[date(2026, 7, 1)])
    assert link not in the_page(people)


def test_what_plantings_tell_besides_dates_stands_in_one_line(people: People) -> None:
    dates = SeasonDates(
        planted=date(2026, 5, 14), variety="Early 12", water="dry", hail="2026-06-10 2026-06-18"
    )
    set_dates(field=people.home, year=2026, dates=dates, treated=[])
    assert "Variety Early 12, water: dry, hail on 10 June and 18 June" in words(the_page(people))
