"""Rows of walks say what their entries say, and are made again to the last bit."""

from __future__ import annotations

import pytest

from quarterwalk.office.models import CheckRow, QuadrantNoteRow, RemarkRow, WalkRow
from quarterwalk.office.services.projections import rebuild
from tests.office.people import People
from tests.office.sender import Sender


@pytest.fixture
def walked(bobs: Sender, people: People) -> str:
    """A walk with a plant struck, a plant twice, a note, sightings in the walk and outside."""
    opened = bobs.open(people.home)
    walk: str = opened["walk"]
    slip = bobs.check(walk, "NW", 2, insects={"adults": 9, "nymphs": 9})
    said = [
        opened,
        bobs.check(walk, "NW", 1, stop=1, note="on the edge"),
        slip,
        bobs.say("struck", {"seq": slip["seq"]}, walk),
        bobs.check(walk, "NW", 2),
        bobs.check(walk, "NW", 2),
        bobs.say("plant-skipped", {"quadrant": "SE", "plant": 1, "why": "hailed"}, walk),
        bobs.say("quadrant-noted", {"quadrant": "NW", "lost": "small", "water": False,
                                    "other_pests": "some", "branches": [4, 30, 0, 30, 30]}, walk),
        bobs.say("sighted", {"what": "host-weeds", "quadrant": "SE", "stop": 3}, walk),
        bobs.say("note", {"text": "wind"}, walk),
        bobs.say("sighted", {"what": "spray-sign", "field": people.east.public_id}),
        bobs.say("note", {"text": "gate locked", "field": people.east.public_id}),
    ]  # fmt: skip
    bobs.send(*said)
    return walk


def test_every_row_says_what_its_entry_said(walked: str, people: People) -> None:
    row = WalkRow.objects.get()
    assert (row.walk_id, row.state, row.field, row.plants, row.doubled, row.scouts) == (
        walked, "open", people.home, 2, 1, "Bob Tarn",
    )  # fmt: skip
    checks = CheckRow.objects.filter(walk=row).order_by("position")
    assert [(c.quadrant, c.plant, c.adults, c.skipped, c.why, c.note) for c in checks] == [
        ("NW", 1, 0, False, "", "on the edge"),
        ("NW", 2, 0, False, "", ""),
        ("SE", 1, None, True, "hailed", ""),
    ]
    note = QuadrantNoteRow.objects.get()
    assert (note.quadrant, note.lost, note.water, note.other_pests, note.branches) == (
        "NW", "small", False, "some", "4 30 0 30 30",
    )  # fmt: skip
    told = RemarkRow.objects.order_by("seq")
    assert [(r.what, r.text, r.walk_id, r.field, r.by) for r in told] == [
        ("host-weeds", "", walked, people.home, "Bob Tarn"),
        ("note", "wind", walked, people.home, "Bob Tarn"),
        ("spray-sign", "", None, people.east, "Bob Tarn"),
        ("note", "gate locked", None, people.east, "Bob Tarn"),
    ]


def test_a_struck_walk_keeps_its_plants_to_read(bobs: Sender, walked: str) -> None:
    bobs.send(bobs.say("struck", {"seq": 1}, walked))
    row = WalkRow.objects.get()
    assert (row.state, row.plants, row.checks.count()) == ("void", 2, 3)
    assert rebuild(check=True).differing == ()


def test_a_walk_whose_opening_is_not_here_yet_shows_its_plants(
    bobs: Sender, people: People
) -> None:
    opened, plant = bobs.open(people.home), None
    plant = bobs.check(opened["walk"], "NW", 1)
    bobs.send(plant)
    row = WalkRow.objects.get()
    assert (row.state, row.field, row.plants, row.checks.count()) == ("unopened", None, 1, 1)
    assert rebuild(check=True).differing == ()
    bobs.send(opened)
    row.refresh_from_db()
    assert (row.state, row.field, row.checks.count()) == ("open", people.home, 1)


def test_two_scouts_of_one_name_number_their_own_plants(bobs: Sender, people: People) -> None:
    name = "W" * 80
    for person in (people.alice, people.bob):
        person.name = name
        person.save()
    opened = bobs.open(people.home)
    first, second = (bobs.check(opened["walk"], "NW", 1) for _ in range(2))
    bobs.send(opened, first, {**second, "by": people.alice.public_id})
    row = WalkRow.objects.get()
    assert [check.scout for check in row.checks.all()] == [name, f"{name} 2"]
    assert (row.scouts, row.plants, row.doubled) == (f"{name}, {name} 2", 2, 0)


def test_rows_as_they_stand_need_no_making_again(walked: str) -> None:
    done = rebuild(check=True)
    assert (done.entries, done.walks, done.differing) == (12, 1, ())


ALTERED = (
    (WalkRow, {"plants": 7}),
    (WalkRow, {"field": None}),
    (CheckRow, {"nymphs": 3}),
    (CheckRow, {"position": 99}),
    (QuadrantNoteRow, {"water": True}),
    (RemarkRow, {"text": "no wind"}),
)


@pytest.mark.parametrize(("model", "change"), ALTERED)
def test_a_row_altered_by_hand_is_found_and_made_again(
    walked: str, model: type[WalkRow], change: dict[str, object]
) -> None:
    row = model.objects.exclude(walk_id=None).order_by("pk")[:1]
    model.objects.filter(pk__in=[each.pk for each in row]).update(**change)
    assert rebuild(check=True).differing == (walked,)
    assert rebuild(check=True).differing == (walked,)
    assert rebuild(check=False).differing == (walked,)
    assert rebuild(check=True).differing == ()


def test_a_remark_outside_walks_altered_by_hand_is_named_by_its_key(
    walked: str, bobs: Sender
) -> None:
    RemarkRow.objects.filter(walk=None, what="note").update(text="gate open")
    found = (f"{bobs.device.device_id}-12",)
    assert rebuild(check=False).differing == found
    assert rebuild(check=True).differing == ()


def test_rows_that_no_entry_tells_of_go(walked: str, people: People) -> None:
    WalkRow.objects.create(walk_id="zzzzzzzzzzzz-1", district=people.near, state="open")
    RemarkRow.objects.filter(walk=None).delete()
    CheckRow.objects.all().delete()
    assert walked in rebuild(check=False).differing
    assert [row.walk_id for row in WalkRow.objects.all()] == [walked]
    assert (CheckRow.objects.count(), RemarkRow.objects.count()) == (3, 4)
