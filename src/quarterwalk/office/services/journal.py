"""The journal's one way in: what phones send, what files bring, what the office writes itself."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction

from quarterwalk.journal import Body, Entry, Key, split_lines, time_text, walk_id, write_entry
from quarterwalk.journal import WalkOpened as Opening
from quarterwalk.office import clock
from quarterwalk.office.models import (
    Device,
    DeviceKind,
    District,
    EntryState,
    JournalEntry,
    Person,
)
from quarterwalk.office.services import calls
from quarterwalk.office.services.judging import Judge, Verdict
from quarterwalk.office.services.projections import project, project_outside
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.turn import take_turn

HELD, ALREADY, ASIDE = "held", "already-held", "quarantined"
"""What an entry is answered."""

# Lines of a journal file that are taken in one go, as many as of a phone. [count]
_AT_ONCE = 2_000


@dataclass(frozen=True, slots=True)
class Answer:
    """What became of one line.

    Parameters
    ----------
    key : Key or None
        The entry's, where the line gives it.
    answer : str
        `HELD`, `ALREADY` or `ASIDE`.
    why : str
        Code of why it was set aside; empty otherwise.
    walk : str
        The walk that it belongs to; empty where it belongs to none or was set aside.
    """

    key: Key | None
    answer: str
    why: str = ""
    walk: str = ""


def take(device: Device, body: bytes) -> list[Answer]:
    """Take a batch of entries from a phone: each is answered by itself.

    When this returns, what it calls held is on the disk.

    Parameters
    ----------
    device : Device
        Who sent it.
    body : bytes
        Entries, one a line.

    Returns
    -------
    list of Answer
        One for each line, in order.
    """
    return _take(device.district, split_lines(body), lambda _key: device)


def take_file(district: District, body: bytes) -> list[Answer]:
    """Take a journal file that a phone saved, brought by hand.

    Parameters
    ----------
    district : District
        Where its walks lie.
    body : bytes
        Entries, one a line; of any phone that was paired here.

    Returns
    -------
    list of Answer
        One for each line, in order.
    """
    own = office_device(district)
    paired = district.devices.filter(kind=DeviceKind.PHONE).select_related("person")
    phones = {device.device_id: device for device in paired}

    def sender(key: Key | None) -> Device:
        return own if key is None else phones.get(key.device, own)

    lines = split_lines(body)
    return [
        answer
        for start in range(0, len(lines), _AT_ONCE)
        for answer in _take(district, lines[start : start + _AT_ONCE], sender)
    ]


@transaction.atomic
def _take(
    district: District, lines: Sequence[bytes], sender: Callable[[Key | None], Device]
) -> list[Answer]:
    # a walk's rows are made from all its entries, so two batches of one walk may not be
    # half-way at the same time
    take_turn(district)
    judge = Judge(district, clock.now())
    read = [judge.read(line, sender) for line in lines]
    judge.look_up(read)
    answers, kept = [], []
    for each in read:
        verdict = judge.judge(each)
        answers.append(_answer(verdict))
        if verdict.is_new:
            kept.append(judge.row(each, verdict))
    JournalEntry.objects.bulk_create(kept)
    _project([judge.entry_of(row) for row in kept if row.state == EntryState.HELD])
    return answers


def _answer(verdict: Verdict) -> Answer:
    if verdict.why:
        return Answer(verdict.key, ASIDE, verdict.why)
    return Answer(verdict.key, HELD if verdict.is_new else ALREADY, walk=verdict.walk)


def _project(entries: Sequence[Entry]) -> None:
    """Bring the rows up to date with entries that were just stored."""
    walks = sorted({entry.walk for entry in entries if entry.walk is not None})
    project(walks)
    project_outside([entry for entry in entries if entry.walk is None])
    calls.keep(walks)


@transaction.atomic
def decide(*, entry: JournalEntry, by: Person, take_it: bool, why: str) -> None:
    """Decide on an entry that was set aside.

    Parameters
    ----------
    entry : JournalEntry
        The entry.
    by : Person
        The lead who decides.
    take_it : bool
        Whether it is to count: only where nothing but the lead's word is lacking.
    why : str
        The reason, which is kept.

    Raises
    ------
    ServiceRefused
        If it can't count whatever a person says.
    """
    district = take_turn(entry.device.district)
    row = JournalEntry.objects.select_related("device__person").get(pk=entry.pk)
    if row.state == EntryState.HELD:
        raise ServiceRefused("This entry counts already.")
    taken = _vouched(district, row) if take_it else None
    row.state = EntryState.HELD if take_it else EntryState.LEFT_OUT
    row.decided_by, row.decided_at, row.decided_why = by, clock.now(), why
    row.save(update_fields=["state", "decided_by", "decided_at", "decided_why"])
    if taken is not None:
        _project([taken])


def _vouched(district: District, row: JournalEntry) -> Entry:
    """Judge an entry again, now that a lead vouches for its person and its time."""
    judge = Judge(district, clock.now(), vouched=True)
    told = judge.read(bytes(row.raw), lambda _key: row.device)
    judge.look_up([told])
    why, said = judge.fault(told)
    if why or told.entry is None:
        raise ServiceRefused(f"It can't be taken: {said}")
    return told.entry


def office_device(district: District) -> Device:
    """Give the device by which the office itself writes: typed-in walks and tables.

    Parameters
    ----------
    district : District
        Whose.

    Returns
    -------
    Device
    """
    found, _ = Device.objects.get_or_create(
        district=district,
        kind=DeviceKind.OFFICE,
        defaults={"paired_at": clock.now(), "label": "the office"},
    )
    return found


@dataclass(frozen=True, slots=True)
class Saying:
    """Something that the office writes into the journal.

    Parameters
    ----------
    body : Body
        What it says.
    at : datetime
        When it was, with a zone.
    walk : str or None
        The walk; None opens one, or belongs to none.
    """

    body: Body
    at: datetime
    walk: str | None = None


class Pen:
    """Writes entries of the office's device, one number after another.

    Use it inside a transaction: `close` stores what was written and brings the rows up to
    date.
    """

    def __init__(self, district: District, by: Person) -> None:
        take_turn(district)
        self._device = office_device(district)
        self._by = by
        # what was set aside may claim any number
        own = JournalEntry.objects.filter(state=EntryState.HELD, key_device=self._device.device_id)
        last = own.order_by("-key_seq").values_list("key_seq", flat=True).first()
        self._next = (last or 0) + 1
        self._written: list[tuple[Entry, bytes]] = []

    @property
    def device_id(self) -> str:
        """The device that writes."""
        return self._device.device_id

    def write(self, saying: Saying) -> Entry:
        """Write one entry.

        Parameters
        ----------
        saying : Saying
            What, and when.

        Returns
        -------
        Entry
            With its number; for an opening, the walk is its own key.

        Raises
        ------
        EntryFault
            If it says what no entry can hold.
        """
        seq, walk = self._next, saying.walk
        if isinstance(saying.body, Opening):
            walk = walk_id(self._device.device_id, seq)
        entry = Entry(
            device=self._device.device_id,
            seq=seq,
            at_text=time_text(saying.at),
            tick=0,
            by=self._by.public_id,
            walk=walk,
            body=saying.body,
        )
        self._written.append((entry, write_entry(entry)))
        self._next += 1
        return entry

    def close(self) -> None:
        """Store what was written, and bring the rows up to date."""
        now = clock.now()
        JournalEntry.objects.bulk_create(
            JournalEntry(
                device=self._device,
                key_device=entry.device,
                key_seq=entry.seq,
                walk_id=entry.walk or "",
                raw=raw,
                sha256=hashlib.sha256(raw).hexdigest(),
                received_at=now,
                state=EntryState.HELD,
            )
            for entry, raw in self._written
        )
        _project([entry for entry, _ in self._written])
        self._written = []
