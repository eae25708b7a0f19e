"""The journal's one way in: held after the commit or not at all, and decided by a lead."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

import pytest

from quarterwalk.journal import Note, read_entry
from quarterwalk.office import clock
from quarterwalk.office.models import (
    CallRow,
    CheckRow,
    Device,
    EntryState,
    JournalEntry,
    Membership,
    RemarkRow,
    WalkRow,
)
from quarterwalk.office.services import journal as service
from quarterwalk.office.services.journal import Pen, Saying, decide, take, take_file
from quarterwalk.office.services.refused import ServiceRefused
from tests.office.conftest import Moment
from tests.office.people import People
from tests.office.sender import Said, Sender, answers, line, wall


def body(said: Sequence[Said]) -> bytes:
    return b"\n".join(map(line, said))


class Broken(Exception):
    """What a test breaks things with."""


@pytest.mark.parametrize("where", ["project", "calls", "project_outside"])
@pytest.mark.django_db(transaction=True)
def test_what_breaks_half_way_leaves_nothing_behind(
    bobs: Sender, people: People, monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    def breaks(*_: object, **__: object) -> None:
        raise Broken

    with monkeypatch.context() as patch:
        patch.setattr(service.calls if where == "calls" else service,
                      "keep" if where == "calls" else where, breaks)  # fmt: skip
        with pytest.raises(Broken):
            take(bobs.device, body(bobs.walk(people.home, 4)))
    assert not any(model.objects.exists() for model in (JournalEntry, WalkRow, CheckRow, CallRow))


def test_the_bytes_are_kept_as_they_came(bobs: Sender, people: People) -> None:
    said = bobs.open(people.home)
    odd = line(said).replace(b'{"v": 1', b'{ "v" :1')
    assert answers(bobs.post(b"\n\n" + odd + b"\r\n \t\n")) == ["held"]
    row = JournalEntry.objects.get()
    assert bytes(row.raw) == odd
    assert (row.key_device, row.key_seq, row.walk_id) == (
        said["device"], said["seq"], said["walk"],
    )  # fmt: skip


def test_a_saved_journal_file_says_the_same_as_the_phone(bobs: Sender, people: People) -> None:
    said = bobs.walk(people.home, 8)
    bobs.send(*said[:4])
    told = take_file(people.near, body(said))
    assert [one.answer for one in told] == ["already-held"] * 4 + ["held"] * (len(said) - 4)
    row = WalkRow.objects.get()
    assert (row.plants, row.state, row.waiting) == (8, "closed", 0)


def test_a_saved_journal_comes_in_though_its_phone_was_ended(bobs: Sender, people: People) -> None:
    Device.objects.filter(pk=bobs.device.pk).update(revoked_at=clock.now())
    told = take_file(people.near, body(bobs.walk(people.home, 4)))
    assert {one.answer for one in told} == {"held"}


def test_a_long_journal_file_is_taken_whole(
    bobs: Sender, people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(service, "_AT_ONCE", 7)
    said = bobs.walk(people.home, 40)
    assert len(take_file(people.near, body([*said, *said]))) == 2 * len(said)
    assert WalkRow.objects.get().plants == 40
    assert JournalEntry.objects.count() == len(said)


def test_a_journal_file_with_many_odd_lines_is_answered_line_by_line(people: People) -> None:
    many = b"\n".join(b"%d" % n for n in range(5_000))
    assert len(take_file(people.near, many)) == 5_000


# deciding


def waiting(bobs: Sender, said: Said, why: str) -> JournalEntry:
    assert answers(bobs.send(said)) == [f"quarantined {why}"]
    return JournalEntry.objects.get(state=EntryState.QUARANTINED)


def test_a_lead_vouches_for_a_clock_that_was_off(
    bobs: Sender, people: People, moment: Moment
) -> None:
    said = {**bobs.open(people.home), "at": wall(moment.now - timedelta(days=300))}
    entry = waiting(bobs, said, "clock")
    assert not WalkRow.objects.exists()
    decide(entry=entry, by=people.alice, take_it=True, why="its battery was empty")
    entry.refresh_from_db()
    assert (entry.state, entry.decided_by, entry.decided_at, entry.decided_why) == (
        "held", people.alice, moment.now, "its battery was empty",
    )  # fmt: skip
    assert WalkRow.objects.get().state == "open"
    assert answers(bobs.send(said)) == ["already-held"]
    with pytest.raises(ServiceRefused, match="counts already"):
        decide(entry=entry, by=people.alice, take_it=True, why="again")


def test_a_lead_vouches_for_who_lost_the_right_to_walk(bobs: Sender, people: People) -> None:
    Membership.objects.filter(person=people.bob).delete()
    entry = waiting(bobs, bobs.open(people.home), "lost-rights")
    decide(entry=entry, by=people.alice, take_it=True, why="he walked it before he left")
    assert WalkRow.objects.get().field == people.home


def test_what_is_left_out_stays_and_may_be_taken_later(bobs: Sender, people: People) -> None:
    said = {**bobs.open(people.home), "by": people.gil.public_id}
    entry = waiting(bobs, said, "unknown-person")
    decide(entry=entry, by=people.alice, take_it=False, why="not his to walk")
    assert not WalkRow.objects.exists()
    assert answers(bobs.send(said)) == ["quarantined unknown-person"]
    assert JournalEntry.objects.count() == 1
    decide(entry=entry, by=people.alice, take_it=True, why="he was asked to")
    assert WalkRow.objects.get().state == "open"


def no_vouching(bobs: Sender, people: People) -> list[tuple[Said | bytes, str]]:
    opened = bobs.open(people.home)
    bobs.send(opened)
    charlies = Sender(people.charlie, people.far)
    away = charlies.open(people.away)
    charlies.send(away)
    return [
        (b"{", "not-json"),
        (bobs.say("note", {"text": ""}), "schema"),
        ({**opened, "tick": 1}, "other-bytes"),
        (away | {"tick": 1}, "other-device"),
        (bobs.open(people.away), "unknown-field"),
        (bobs.check(away["walk"], "NW", 1), "other-walk"),
    ]


@pytest.mark.parametrize("which", range(6))
def test_a_lead_cannot_vouch_for_what_cannot_be(bobs: Sender, people: People, which: int) -> None:
    said, why = no_vouching(bobs, people)[which]
    entry = waiting(bobs, said, why)  # type: ignore[arg-type]
    with pytest.raises(ServiceRefused, match="can't be taken"):
        decide(entry=entry, by=people.alice, take_it=True, why="please")
    entry.refresh_from_db()
    assert (entry.state, entry.decided_by) == ("quarantined", None)


def test_of_two_that_wait_under_one_number_one_can_be_taken(
    bobs: Sender, people: People, moment: Moment
) -> None:
    first = {**bobs.open(people.home), "at": wall(moment.now + timedelta(days=9))}
    second = {**first, "tick": 7}
    assert answers(bobs.send(first, second)) == ["quarantined clock"] * 2
    one, other = JournalEntry.objects.order_by("pk")
    decide(entry=one, by=people.alice, take_it=True, why="this one")
    with pytest.raises(ServiceRefused, match="can't be taken"):
        decide(entry=other, by=people.alice, take_it=True, why="this one too")


# the office's own


def test_the_office_numbers_its_entries_without_gaps(people: People, moment: Moment) -> None:
    for count in (2, 1):
        pen = Pen(people.near, people.alice)
        for _ in range(count):
            pen.write(Saying(Note("wet", people.home.public_id), moment.now))
        pen.close()
    rows = JournalEntry.objects.order_by("key_seq")
    assert [row.key_seq for row in rows] == [1, 2, 3]
    assert {read_entry(bytes(row.raw)).by for row in rows} == {people.alice.public_id}
    assert RemarkRow.objects.count() == 3


def test_no_phone_uses_up_the_numbers_of_the_office(
    bobs: Sender, people: People, moment: Moment
) -> None:
    own = service.office_device(people.near).device_id
    claim: dict[str, Any] = {"device": own, "seq": 999_999_999}
    waiting(bobs, {**bobs.say("note", {"text": "x", "field": people.home.public_id}), **claim},
            "other-device")  # fmt: skip
    pen = Pen(people.near, people.alice)
    pen.write(Saying(Note("wet", people.home.public_id), moment.now))
    pen.close()
    assert JournalEntry.objects.get(state=EntryState.HELD).key_seq == 1
