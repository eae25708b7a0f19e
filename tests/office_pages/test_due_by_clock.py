"""When a field is looked at that does not square yet: from four true leaves on, weekly."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.crop import Seen
from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.due import Due, due_of
from quarterwalk.office.queries.standing import standings
from quarterwalk.office.services.seen import note_seen
from tests.office.people import People
from tests.office.weathered import planted, weathered
from tests.office_pages.walked import walk_in

# by the invented weather the crop has four true leaves from the first of June on
EARLY, LEAVES = date(2026, 5, 20), date(2026, 6, 1)


@pytest.fixture(autouse=True)
def _home(people: People) -> None:
    weathered(people.near)
    planted(people.home)


def due(people: People, today: date) -> Due:
    [told] = standings(FieldRow.objects.filter(pk=people.home.pk), today)
    return due_of(told, today)


def test_before_four_true_leaves_the_first_look_is_still_to_come(people: People) -> None:
    told = due(people, EARLY)
    assert told.on is not None
    assert EARLY < told.on <= LEAVES
    assert told.since == "first look, at four true leaves"


def test_from_four_true_leaves_on_a_field_is_due(people: People) -> None:
    assert due(people, date(2026, 6, 4)) == Due(date(2026, 6, 4), "first look", "no walk yet")


def test_a_week_after_a_walk_it_is_due_again(people: People) -> None:
    walk_in(people.home, people.bob, date(2026, 6, 2), nymphs=0, lost=0)
    told = due(people, date(2026, 6, 3))
    assert told == Due(date(2026, 6, 9), "Tue 9 June", "walked 2 June")


def test_a_note_of_what_was_seen_is_a_look_too(people: People) -> None:
    note_seen(field=people.home, seen=Seen(date(2026, 6, 3), true_leaves=4), by=people.bob)
    told = due(people, date(2026, 6, 4))
    assert told == Due(date(2026, 6, 10), "Wed 10 June", "looked at 3 June")


def test_a_field_that_may_square_is_due_as_any_other(people: People) -> None:
    assert due(people, date(2026, 6, 20)) == Due(date(2026, 6, 20), "first look", "no walk yet")
