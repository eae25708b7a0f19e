"""When a field is looked at that does not square yet: from four true leaves on, weekly."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.call.clock_told import in_doubt
from quarterwalk.crop import Seen, StageName
from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.due import Due, due_of
from quarterwalk.office.pages.season import stage_words
from quarterwalk.office.queries.standing import standings
from quarterwalk.office.services.seen import note_seen
from tests.office.people import People
from tests.office.weathered import planted, weathered
from tests.office_pages.visits import visitor, words
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


def test_so_it_is_while_the_crop_may_square_but_most_likely_does_not(people: People) -> None:
    note_seen(field=people.home, seen=Seen(date(2026, 6, 10), true_leaves=4), by=people.bob)
    [told] = standings(FieldRow.objects.filter(pk=people.home.pk), date(2026, 6, 12))
    assert told.crop.stage is not None
    assert told.crop.stage.name is StageName.SQUARING
    assert stage_words(told.crop.stage) == "before squaring, about 8 in 10"
    assert due(people, date(2026, 6, 12)) == Due(
        date(2026, 6, 17), "Wed 17 June", "looked at 10 June"
    )


def test_a_note_does_not_put_off_what_a_walks_call_asks_for(people: People) -> None:
    walk_in(people.home, people.bob, date(2026, 6, 10), nymphs=25, lost=3)
    before = due(people, date(2026, 6, 12))
    note_seen(field=people.home, seen=Seen(date(2026, 6, 11), true_leaves=4), by=people.bob)
    assert due(people, date(2026, 6, 12)) == before


def test_a_bloom_in_doubt_ends_nothing(people: People) -> None:
    walked = date(2026, 6, 28)
    walk_in(people.home, people.bob, walked, nymphs=25, lost=3)
    page = f"/fields/{people.home.public_id}"
    note_seen(field=people.home, seen=Seen(date(2026, 6, 20), bloom=True), by=people.bob)
    [told] = standings(FieldRow.objects.filter(pk=people.home.pk), walked)
    assert in_doubt(told.crop.stage)
    for on, since in ((walked, "walked today"), (date(2026, 6, 29), "walked 28 June")):
        assert due(people, on) == Due(on, "check the flowers and the day of planting", since)
    said = words(visitor(people.alice).get(page).content.decode())
    assert "Due now: check the flowers and the day of planting. Walked 28 June." in said
    listed = words(visitor(people.alice).get("/").content.decode())
    assert "Due today 1 Home 80" in listed
    assert listed.count("the day of planting") == 1


def test_a_field_that_may_square_is_due_as_any_other(people: People) -> None:
    assert due(people, date(2026, 6, 20)) == Due(date(2026, 6, 20), "first look", "no walk yet")
