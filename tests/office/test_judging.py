"""Every reason for which an entry is set aside, and that later ones go on."""

from __future__ import annotations

import json
from datetime import timedelta
from typing import Any

import pytest

from quarterwalk.office.models import EntryState, JournalEntry, Membership
from quarterwalk.office.services.journal import take_file
from tests.office.conftest import Moment
from tests.office.people import People
from tests.office.sender import Sender, answers, line, wall


def goes_on(bobs: Sender, bad: Any, why: str) -> JournalEntry:
    """Send a bad entry between two good ones: it is set aside with its bytes, they are held."""
    before = bobs.open(FIELDS["home"])
    after = bobs.check(before["walk"], "NW", 1)
    told = answers(bobs.send(before, bad, after))
    assert told == ["held", f"quarantined {why}", "held"]
    kept = JournalEntry.objects.get(state=EntryState.QUARANTINED)
    assert (kept.why, bytes(kept.raw), kept.device) == (why, line(bad), bobs.device)
    assert kept.said
    assert answers(bobs.send(bad)) == [f"quarantined {why}"]
    assert JournalEntry.objects.filter(state=EntryState.QUARANTINED).count() == 1
    return kept


FIELDS: dict[str, Any] = {}


@pytest.fixture(autouse=True)
def _fields(people: People) -> None:
    FIELDS.update(home=people.home, away=people.away)


@pytest.mark.parametrize(
    "bad",
    [
        b"{",
        b"\xff\xfe",
        b"[1]",
        b'{"v":1,"v":1}',
        b"null",
        b'"' + b"[" * 20_000,
        b'{"v":NaN}',
        b"\x00",
    ],
)
def test_a_line_that_is_no_entry(bobs: Sender, bad: bytes) -> None:
    told = answers(bobs.send(bad))[0]
    assert told.startswith("quarantined ")
    assert goes_on(bobs, bad, told.split()[1]).key_seq is None


def test_an_entry_that_is_too_large(bobs: Sender) -> None:
    large = bobs.say("note", {"text": "x" * 20_000, "field": FIELDS["home"].public_id})
    kept = goes_on(bobs, large, "too-large")
    assert (kept.key_device, kept.key_seq) == (bobs.device.device_id, large["seq"])


@pytest.mark.parametrize(
    "odd",
    [
        {"tick": 1.5},
        {"body": {"text": ""}},
        {"body": {"text": "\ud800", "field": "aaaaaaaa"}},
        {"body": {"text": "a\x00b", "field": "aaaaaaaa"}},
        {"kind": "\ud800"},
        {"v": 2},
        {"more": None},
    ],
)
def test_an_entry_of_another_form(bobs: Sender, odd: dict[str, Any]) -> None:
    said = {**bobs.say("note", {"text": "wet", "field": FIELDS["home"].public_id}), **odd}
    goes_on(bobs, json.dumps(said).encode(), "schema")


def test_another_entry_of_the_same_number(bobs: Sender) -> None:
    first = bobs.open(FIELDS["home"])
    assert answers(bobs.send(first)) == ["held"]
    other = {**first, "tick": 1}
    goes_on(bobs, other, "other-bytes")
    assert answers(bobs.send(first)) == ["already-held"]


def test_two_entries_of_one_number_in_one_batch(bobs: Sender) -> None:
    first = bobs.open(FIELDS["home"])
    told = answers(bobs.send(first, {**first, "tick": 1}, first))
    assert told == ["held", "quarantined other-bytes", "already-held"]


def test_an_entry_that_claims_another_phone(bobs: Sender, people: People) -> None:
    alices = Sender(people.alice, people.near)
    kept = goes_on(bobs, alices.open(FIELDS["home"]), "other-device")
    assert kept.key_device == alices.device.device_id


def test_a_field_of_another_district(bobs: Sender) -> None:
    goes_on(bobs, bobs.open(FIELDS["away"]), "unknown-field")


def test_somebody_of_another_district(bobs: Sender, people: People) -> None:
    said = {**bobs.open(FIELDS["home"]), "by": people.charlie.public_id}
    goes_on(bobs, said, "unknown-person")


def test_a_grower_does_not_walk(bobs: Sender, people: People) -> None:
    said = {**bobs.open(FIELDS["home"]), "by": people.gil.public_id}
    goes_on(bobs, said, "unknown-person")


@pytest.mark.parametrize("off", [timedelta(days=1, seconds=1), -timedelta(days=60, seconds=1)])
def test_a_time_far_off(bobs: Sender, moment: Moment, off: timedelta) -> None:
    goes_on(bobs, {**bobs.open(FIELDS["home"]), "at": wall(moment.now + off)}, "clock")


@pytest.mark.parametrize("off", [timedelta(hours=23), -timedelta(days=59)])
def test_a_time_not_so_far_off(bobs: Sender, moment: Moment, off: timedelta) -> None:
    said = {**bobs.open(FIELDS["home"]), "at": wall(moment.now + off)}
    assert answers(bobs.send(said)) == ["held"]


@pytest.mark.parametrize("at", ["0001-01-01T00:00:00.000+14:00", "9999-12-31T23:59:59.999-14:00"])
def test_a_time_at_the_end_of_the_calendar(bobs: Sender, at: str) -> None:
    told = answers(bobs.send({**bobs.open(FIELDS["home"]), "at": at}))
    assert told in (["quarantined schema"], ["quarantined clock"])


def test_a_walk_that_was_opened_in_another_district(bobs: Sender, people: People) -> None:
    charlies = Sender(people.charlie, people.far)
    opened = charlies.open(FIELDS["away"])
    assert answers(charlies.send(opened)) == ["held"]
    goes_on(bobs, bobs.check(opened["walk"], "NW", 2), "other-walk")


def test_a_walk_that_nobody_knows_the_phone_of(bobs: Sender) -> None:
    goes_on(bobs, bobs.check("zzzzzzzzzzzz-3", "NW", 2), "other-walk")


def test_only_the_office_writes_for_a_desk_or_a_table(bobs: Sender) -> None:
    goes_on(bobs, bobs.open(FIELDS["home"], source="desk"), "schema")


def test_only_the_office_names_another_scout(bobs: Sender) -> None:
    opened = bobs.open(FIELDS["home"])
    told = answers(bobs.send(opened, bobs.check(opened["walk"], "NE", 1, scout="Somebody")))
    assert told == ["held", "quarantined schema"]


@pytest.mark.parametrize("how", ["removed", "grower"])
def test_who_lost_the_right_to_walk_is_set_aside(bobs: Sender, people: People, how: str) -> None:
    part = Membership.objects.filter(person=people.bob)
    if how == "removed":
        part.delete()
    else:
        part.update(role="grower", grower=people.home.grower)
    said = bobs.open(FIELDS["home"])
    assert answers(bobs.send(said)) == ["quarantined lost-rights"]


def test_an_entry_once_set_aside_waits_for_a_person_even_when_the_clock_comes_round(
    bobs: Sender, moment: Moment
) -> None:
    said = {**bobs.open(FIELDS["home"]), "at": wall(moment.now + timedelta(days=2))}
    assert answers(bobs.send(said)) == ["quarantined clock"]
    moment.later(days=2)
    assert answers(bobs.send(said)) == ["quarantined clock"]


def test_a_journal_file_of_a_phone_that_was_never_paired_here(bobs: Sender, people: People) -> None:
    charlies = Sender(people.charlie, people.far)
    told = take_file(people.near, line(charlies.open(FIELDS["away"])))
    assert [(one.answer, one.why) for one in told] == [("quarantined", "other-device")]


def test_nobody_writes_as_the_office(bobs: Sender, people: People) -> None:
    take_file(people.near, b"{")  # from now on the office has a device of its own
    own = people.near.devices.get(kind="office")
    said = {**bobs.open(FIELDS["home"]), "device": own.device_id, "walk": f"{own.device_id}-1"}
    told = take_file(people.near, line({**said, "seq": 1}))
    assert [one.why for one in told] == ["other-device"]
