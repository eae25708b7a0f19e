"""What somebody saw of a crop: taken where it can be, struck where it was wrong."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from quarterwalk.crop import Seen
from quarterwalk.office.models import CallRow, SeenRow
from quarterwalk.office.services.fields import SeasonDates, set_dates
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.seen import note_seen, strike_seen
from tests.office.people import People
from tests.office.seasoned import DAY, walk_in
from tests.office.weathered import planted, weathered


def test_a_note_makes_the_calls_of_its_field_anew_and_so_does_striking_it(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    seen = note_seen(field=people.home, seen=Seen(DAY, squaring_branches=3.5), by=people.bob)
    assert CallRow.objects.count() == 2
    strike_seen(seen=seen, by=people.alice)
    first, _, last = CallRow.objects.order_by("pk")
    assert last.content == first.content


def test_a_struck_note_stays_to_read_with_who_struck_it(people: People) -> None:
    seen = note_seen(field=people.home, seen=Seen(DAY, nodes=7), by=people.bob)
    strike_seen(seen=seen, by=people.alice)
    strike_seen(seen=seen, by=people.bob)  # twice is as good as once
    row = SeenRow.objects.get()
    assert (row.nodes, row.by, row.struck_by) == (7, people.bob, people.alice)


@pytest.mark.parametrize(
    ("on", "told", "about"),
    [
        (DAY, {}, ""),
        (DAY, {"bloom": False, "nawf": 7.0}, "nawf"),
        (date(2026, 6, 19), {"nodes": 7.0}, "on"),
        (date(2026, 5, 8), {"true_leaves": 2.0}, "on"),
    ],
)
def test_what_cannot_be_is_refused(
    people: People, on: date, told: dict[str, Any], about: str
) -> None:
    planted(people.home)
    with pytest.raises(ServiceRefused) as refused:
        note_seen(field=people.home, seen=Seen(on, **told), by=people.bob)
    assert refused.value.about == about
    assert not SeenRow.objects.exists()


@pytest.mark.parametrize(
    "dates",
    [
        SeasonDates(planted=date(2025, 5, 8)),
        SeasonDates(first_square=date(2025, 6, 8)),
    ],
)
def test_a_look_of_an_earlier_year_needs_a_season_of_that_year(
    people: People, dates: SeasonDates
) -> None:
    look = Seen(date(2025, 6, 20), nodes=7.0)
    with pytest.raises(ServiceRefused, match="Nothing is known of a season of 2025"):
        note_seen(field=people.home, seen=look, by=people.bob)
    set_dates(field=people.home, year=2025, dates=dates)
    people.home.refresh_from_db()
    assert note_seen(field=people.home, seen=look, by=people.bob).on == look.on


def test_bloom_may_be_given_without_first_square_where_planting_is(people: People) -> None:
    told = SeasonDates(planted=date(2026, 5, 8), bloom=date(2026, 7, 6))
    set_dates(field=people.home, year=2026, dates=told)
    early = SeasonDates(planted=date(2026, 5, 8), bloom=date(2026, 5, 9))
    with pytest.raises(ServiceRefused, match="at least 28 days after planting"):
        set_dates(field=people.home, year=2026, dates=early)
