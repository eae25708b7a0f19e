"""White flowers that were noted, where first square was given and first bloom was not."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quarterwalk.crop import CropDates, Seen, StageName
from quarterwalk.office import clock
from quarterwalk.office.crop_clocks import Clocks, CropStanding
from quarterwalk.office.models import CallRow, CardRow, FieldRow, SeenRow
from quarterwalk.office.queries.seasons import with_season
from quarterwalk.office.services import calls
from quarterwalk.office.services.cards import cards_for
from quarterwalk.office.services.fields import SeasonDates, set_dates, set_rule
from quarterwalk.office.services.seen import note_seen, strike_seen
from tests.office.people import People
from tests.office.seasoned import DAY, more_fields, walk_in
from tests.office.weathered import weathered

SQUARE = date(2026, 5, 24)
FLOWERS = date(2026, 6, 16)


@pytest.fixture(autouse=True)
def _ready(people: People) -> None:
    ready(people.home)


def ready(field: FieldRow, rule: str = "southern-high-plains", **dates: date) -> None:
    set_rule(field=field, guideline=rule, line="")
    set_dates(field=field, year=2026, dates=SeasonDates(first_square=SQUARE, **dates))


def stands(*fields: FieldRow, on: date = DAY) -> list[CropStanding]:
    rows = with_season(FieldRow.objects.filter(pk__in=[field.pk for field in fields]))
    clocks = Clocks(rows, {on.year})
    return [clocks.standing(row, on) for row in rows]


def noted(people: People, on: date = FLOWERS, **told: Any) -> Any:
    return note_seen(field=people.home, seen=Seen(on, **(told or {"bloom": True})), by=people.bob)


def verdicts() -> list[str]:
    calls: Iterable[CallRow] = CallRow.objects.order_by("pk")
    return [json.loads(each.content)["call"]["verdict"] for each in calls]


def codes() -> set[str]:
    newest = CallRow.objects.order_by("-pk")[0]
    return {reason["code"] for reason in json.loads(newest.content)["call"]["reasons"]}


def test_the_first_day_on_which_they_were_noted_stands_for_first_bloom(people: People) -> None:
    for weather in (False, True):
        if weather:
            weathered(people.near)
        (before,) = stands(people.home)
        assert before.stage is not None
        assert before.stage.name is StageName.SQUARING
        notes = [noted(people, DAY), noted(people)]
        (after,) = stands(people.home)
        assert after.dates == CropDates(SQUARE, bloom=FLOWERS)
        assert after.stage is not None
        assert (after.stage.name, after.stage.days_blooming) == (StageName.BLOOMING, (2, 2))
        (earlier,) = stands(people.home, on=date(2026, 6, 15))
        assert earlier.dates == CropDates(SQUARE)
        for note in notes:
            strike_seen(seen=note, by=people.alice)
        assert stands(people.home) == [before]


def test_noting_and_striking_them_makes_the_calls_from_that_day_on_anew(people: People) -> None:
    walk_in(people.home, people.bob, nymphs=25, lost=3, on=date(2026, 6, 15))
    walk_in(people.home, people.bob, nymphs=25, lost=3, on=FLOWERS)
    walk_in(people.home, people.bob, nymphs=25, lost=3)
    assert verdicts() == ["treat"] * 3
    note = noted(people)
    assert verdicts() == ["treat"] * 3 + ["none"] * 2
    assert {"season-over", "bloom-seen"} <= codes()
    strike_seen(seen=note, by=people.alice)
    assert verdicts() == ["treat"] * 3 + ["none"] * 2 + ["treat"] * 2


def test_looks_at_several_fields_make_each_field_s_calls_anew_from_its_first(
    people: People,
) -> None:
    ready(people.east)
    for field in (people.home, people.east):
        for on in (date(2026, 6, 12), FLOWERS):
            walk_in(field, people.bob, nymphs=25, lost=3, on=on)
    told = {people.home: date(2026, 6, 14), people.east: date(2026, 6, 12)}
    calls.keep_for_looks(
        SeenRow.objects.create(field=field, on=on, bloom=True, by=people.bob, at=clock.now())
        for field, on in told.items()
    )
    anew = [json.loads(each.content) for each in CallRow.objects.order_by("pk")[4:]]
    assert sorted((each["field"], date.fromisoformat(each["date"])) for each in anew) == [
        ("East 80", date(2026, 6, 12)),
        ("East 80", FLOWERS),
        ("Home 80", FLOWERS),
    ]


def test_flowers_that_were_noted_hold_before_a_later_look_that_found_none(people: People) -> None:
    walk_in(people.home, people.bob, nymphs=25, lost=3)
    noted(people)
    noted(people, date(2026, 6, 17), bloom=False)
    assert verdicts() == ["treat", "none"]


@pytest.mark.parametrize("on", [date(2026, 5, 20), date(2026, 6, 3)])
def test_flowers_that_came_too_soon_are_told_and_change_nothing_else(
    people: People, on: date
) -> None:
    walk_in(people.home, people.bob, nymphs=25, lost=3)
    noted(people, on)
    assert verdicts() == ["treat"] * 2
    assert "seen-left-out" in codes()


@pytest.mark.parametrize(
    ("told", "made"), [({"nodes": 9.0, "plants": 20, "pinhead": 3}, False), ({"nawf": 7.0}, True)]
)
def test_other_notes_make_no_call_anew(people: People, told: dict[str, Any], made: bool) -> None:
    walk_in(people.home, people.bob, nymphs=25, lost=3)
    with CaptureQueriesContext(connection) as asked:
        noted(people, **told)
    assert (CallRow.objects.count() == 2) == made
    # the plants of the walk are not even looked at
    assert any("checkrow" in each["sql"].lower() for each in asked) == made


def test_a_first_bloom_that_is_given_holds(people: People) -> None:
    noted(people)
    walk_in(people.home, people.bob, nymphs=25, lost=3)
    assert verdicts() == ["none"]
    ready(people.home, bloom=date(2026, 6, 17))
    assert "bloom-seen" not in codes()
    noted(people, DAY)
    assert verdicts() == ["none"] * 2
    (told,) = stands(people.home)
    assert told.dates == CropDates(SQUARE, bloom=date(2026, 6, 17))


def test_a_rule_that_holds_on_for_a_week_counts_it_from_them(people: People) -> None:
    ready(people.home, "coastal-bend")
    noted(people, date(2026, 6, 12))
    walk_in(people.home, people.bob, nymphs=25, lost=3)
    assert verdicts() == ["treat"]
    noted(people, date(2026, 6, 11))
    assert verdicts() == ["treat", "none"]


def test_the_card_for_the_phone_knows_them(people: People) -> None:
    def card(on: date) -> Any:
        (row,) = with_season(FieldRow.objects.filter(pk=people.home.pk))
        given = cards_for([row], on, {})
        return json.loads(bytes(CardRow.objects.get(sha256=given[row.pk].sha256).raw))

    before = card(DAY)
    assert before["season"]["to"] > DAY.isoformat()
    assert "Leave host weeds" in " ".join(before["texts"]["care"])
    noted(people)
    after = card(DAY)
    assert after["season"]["to"] == after["treat_days"][-1]["to"] == "2026-06-15"
    assert "The field blooms." in after["season"]["words"]
    assert "may be cleared" in " ".join(after["texts"]["care"])


def test_one_query_more_tells_the_flowers_of_all_fields(people: People) -> None:
    def asked(fields: list[FieldRow]) -> int:
        rows = list(with_season(FieldRow.objects.filter(pk__in=[row.pk for row in fields])))
        with CaptureQueriesContext(connection) as queries:
            clocks = Clocks(rows, {2026})
            [clocks.standing(row, DAY) for row in rows]
        return len(queries)

    noted(people)
    more = [people.home, *more_fields(people.near, 4)]
    for row in more[1:]:
        ready(row)
        note_seen(field=row, seen=Seen(FLOWERS, bloom=True), by=people.bob)
    assert asked(more) == asked(more[:1]) == 1
    for row in more:
        ready(row, bloom=FLOWERS)
    assert asked(more) == 0
