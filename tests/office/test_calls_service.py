"""Calls: kept whenever one differs from the last, and never changed."""

from __future__ import annotations

import json
from datetime import date

from quarterwalk.office.models import CallRow, WalkRow
from quarterwalk.office.services import calls, fields
from quarterwalk.office.services.fields import SeasonDates
from tests.office.people import People
from tests.office.sender import Sender


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
