"""Calls: kept whenever one differs from the last, and never changed."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest

from quarterwalk.office.models import CallRow, WalkRow
from quarterwalk.office.services import calls, fields
from quarterwalk.office.services.fields import SeasonDates
from tests.office.people import People, made_ready
from tests.office.seasoned import walk_in
from tests.office.sender import Sender
from tests.office.weathered import planted, weathered


def told() -> list[dict[str, object]]:
    return [json.loads(row.content) for row in CallRow.objects.order_by("pk")]


def test_a_call_is_kept_once_however_often_its_entries_come(bobs: Sender, people: People) -> None:
    said = bobs.walk(people.home)
    bobs.send(*said)
    bobs.send(*said)
    calls.keep([said[0]["walk"]])
    assert CallRow.objects.count() == 1
    assert told()[0]["office"] == {"provisional": False, "why": []}


def test_a_call_that_was_one_for_now_is_followed_by_another(bobs: Sender, people: People) -> None:
    said = bobs.walk(people.home)
    bobs.send(*said[:50], *said[51:])
    bobs.send(said[50])
    assert [call["office"] for call in told()] == [
        {"provisional": True, "why": ["Waiting for 1 more entry from the phone."]},
        {"provisional": False, "why": []},
    ]


def test_a_changed_rule_is_kept_beside_the_call_before(bobs: Sender, people: People) -> None:
    bobs.send(*bobs.walk(people.home), *bobs.walk(people.east))
    before = list(CallRow.objects.order_by("pk").values())
    fields.set_rule(field=people.home, guideline="oklahoma", line="")
    after = list(CallRow.objects.order_by("pk").values())
    assert after[:2] == before
    assert len(after) == 3
    fields.set_rule(field=people.home, guideline="southern-high-plains", line="")
    assert CallRow.objects.count() == 4  # it differs from the last, though not from the first


def test_without_a_rule_or_a_date_there_is_a_reading_and_no_call(
    bobs: Sender, people: People
) -> None:
    fields.set_rule(field=people.home, guideline="", line="")
    fields.set_dates(field=people.east, year=2026, dates=SeasonDates(planted=date(2026, 5, 1)))
    bobs.send(*bobs.walk(people.home), *bobs.walk(people.east))
    found = calls.calls_for(WalkRow.objects.all())
    assert [each.call for each in found.values()] == [None, None]
    assert [each.reading.plants for each in found.values()] == [100, 100]
    assert not CallRow.objects.exists()


def test_a_struck_or_unopened_or_empty_walk_has_no_call(bobs: Sender, people: People) -> None:
    opened = bobs.open(people.home)
    struck = bobs.walk(people.home, 4)
    lost = bobs.walk(people.home, 4)[1:]
    bobs.send(opened, *struck, bobs.say("struck", {"seq": struck[0]["seq"]}, struck[0]["walk"]))
    bobs.send(*lost)
    assert WalkRow.objects.count() == 3
    assert calls.calls_for(WalkRow.objects.all()) == {}


def test_what_is_lacking_is_told_in_words(bobs: Sender, people: People) -> None:
    opened = bobs.open(people.home, method="sweep")
    walk = opened["walk"]
    twice = [bobs.check(walk, "NW", 1, sweeps=25) for _ in range(3)]
    bobs.send(opened, *twice, bobs.check(walk, "NW", 2), bobs.check(walk, "NW", 3))
    assert calls.lacking(WalkRow.objects.get()) == (
        "The walk is still going on.",
        "2 plants were entered twice; the first entry counts.",
        "2 samples have no number of sweeps and can't count.",
    )
    bobs.send(bobs.say("handed-over", {"to": people.alice.public_id, "entries": 9}, walk))
    assert calls.lacking(WalkRow.objects.get())[:2] == (
        "Waiting for 2 more entries from the phone.",
        "The walk was handed over; nobody has gone on yet.",
    )


def kept(walk_id: str) -> list[dict[str, Any]]:
    return [json.loads(row.content) for row in CallRow.objects.filter(walk_id=walk_id)]


def test_the_line_that_was_chosen_is_the_line(people: People) -> None:
    made_ready(people.home)  # 28 insects on 100 plants; published is 25 to 30
    walk_id = walk_in(people.home, people.bob, nymphs=7, lost=2)
    fields.set_rule(field=people.home, guideline="southern-high-plains", line="30")
    assert [call["call"]["verdict"] for call in kept(walk_id)] == ["treat", "look-sooner"]
    assert [call["call"]["guideline"]["line"] for call in kept(walk_id)] == [25, 30]


def test_the_season_of_the_walks_year_counts(people: People) -> None:
    made_ready(people.home)
    late = SeasonDates(first_square=date(2027, 6, 17))
    fields.set_dates(field=people.home, year=2027, dates=late)
    [call] = kept(walk_in(people.home, people.bob, nymphs=1, lost=0))
    assert (call["stage"]["name"], call["stage"]["squaring_weeks"]) == ("squaring", [2])


def test_a_call_comes_once_rule_and_dates_do(people: People) -> None:
    walk_id = walk_in(people.home, people.bob, nymphs=9, lost=2)
    assert kept(walk_id) == []
    made_ready(people.home)
    assert [call["call"]["verdict"] for call in kept(walk_id)] == ["treat"]


def test_what_is_lacking_leaves_the_cores_call_as_it_is(people: People) -> None:
    made_ready(people.home)
    walk_id = walk_in(people.home, people.bob, nymphs=9, lost=2)
    [whole] = kept(walk_id)
    WalkRow.objects.filter(walk_id=walk_id).update(waiting=3)
    calls.keep([walk_id])
    later = kept(walk_id)[1]
    why = ["Waiting for 3 more entries from the phone."]
    assert later.pop("office") == {"provisional": True, "why": why}
    assert whole.pop("office") == {"provisional": False, "why": []}
    assert later == whole


def test_the_last_treatment_before_the_walk_counts(people: People) -> None:
    made_ready(people.home)
    dates = SeasonDates(first_square=date(2026, 6, 8))
    treated = [date(2026, 6, 10), date(2026, 6, 15), date(2026, 6, 18)]
    fields.set_dates(field=people.home, year=2026, dates=dates, treated=treated)
    [call] = kept(walk_in(people.home, people.bob, nymphs=9, lost=2))
    assert call["call"]["verdict"] == "look-sooner"
    assert "recently-treated" in [reason["code"] for reason in call["call"]["reasons"]]


def test_rounding_in_the_last_digit_makes_no_new_call(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    walk_id = walk_in(people.home, people.bob, nymphs=9, lost=1)
    row = CallRow.objects.get()
    told = json.loads(row.content)
    told["crop"]["chances"]["before"] += 1e-16 + 2e-17
    told["crop"]["chances"]["weeks"][0] += 1e-15
    row.content = json.dumps(told, ensure_ascii=False, sort_keys=True)
    row.sha256 = "of other digits"
    row.save()
    calls.keep([walk_id])
    assert CallRow.objects.count() == 1
    told["crop"]["chances"]["weeks"][0] += 1e-3
    CallRow.objects.update(content=json.dumps(told, ensure_ascii=False, sort_keys=True))
    calls.keep([walk_id])
    assert CallRow.objects.count() == 2


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ('{"a": [0.3, 1]}', '{"a": [0.30000000000000004, 1]}', True),
        ('{"a": 0.3}', '{"a": 0.31}', False),
        ('{"a": 1}', '{"a": 2}', False),
        ('{"a": null}', '{"a": 0.0}', False),
        ('{"a": 1}', '{"a": 1, "b": 1}', False),
        ('{"a": [1]}', '{"a": [1, 1]}', False),
    ],
)
def test_calls_are_the_same_but_for_the_last_digits(one: str, other: str, same: bool) -> None:
    assert calls._says_the_same(one, other) is same
