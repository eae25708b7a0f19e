"""Whether an entry may count: what is asked of its bytes, its key, its person and its time."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from quarterwalk.journal import (
    Entry,
    EntryFault,
    Key,
    PlantChecked,
    PlantSkipped,
    Source,
    WalkOpened,
    opening_key,
)
from quarterwalk.office.access import may_walk, walkers
from quarterwalk.office.models import (
    Device,
    DeviceKind,
    District,
    EntryState,
    JournalEntry,
)
from quarterwalk.office.services.entries import entry_of

AHEAD, BEHIND = timedelta(days=1), timedelta(days=60)
"""How far an entry's time may lie from the office's; past it a person looks (our own rule)."""


@dataclass(frozen=True, slots=True)
class Read:
    """One line as far as it could be read."""

    raw: bytes
    sha256: str
    key: Key | None
    device: Device
    entry: Entry | None
    fault: EntryFault | None


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether one line counts.

    Parameters
    ----------
    key : Key or None
        The entry's, where the line gives it.
    why : str
        Code of why it does not count; empty where it does.
    said : str
        The same as a sentence for whoever decides.
    walk : str
        The walk that it belongs to; empty for none.
    is_new : bool
        Whether these bytes were not here before.
    """

    key: Key | None
    why: str = ""
    said: str = ""
    walk: str = ""
    is_new: bool = True


class Judge:
    """Judges the lines of one batch against what the office knows at this moment.

    Parameters
    ----------
    district : District
        Where the batch comes in.
    now : datetime
        The office's time.
    vouched : bool
        A lead vouches for person, rights and time.
    """

    def __init__(self, district: District, now: datetime, *, vouched: bool = False) -> None:
        self._district = district
        self._now = now
        self._vouched = vouched
        self._held: dict[Key, str] = {}
        self._aside: dict[tuple[int, str], str] = {}
        self._people = {person.public_id for person in walkers(district)}
        self._fields = set(district.fields.values_list("public_id", flat=True))
        self._devices = set(district.devices.values_list("device_id", flat=True))
        self._rights: dict[int, bool] = {}
        self._entries: dict[str, Entry] = {}

    def read(self, raw: bytes, sender: Callable[[Key | None], Device]) -> Read:
        """Read one line, and find out who sent it.

        Parameters
        ----------
        raw : bytes
            The line.
        sender : callable
            Gives the device, by the key that the line claims.

        Returns
        -------
        Read
        """
        sha256 = hashlib.sha256(raw).hexdigest()
        try:
            entry = entry_of(raw)
        except EntryFault as fault:
            return Read(raw, sha256, fault.key, sender(fault.key), None, fault)
        self._entries[sha256] = entry
        return Read(raw, sha256, entry.key, sender(entry.key), entry, None)

    def look_up(self, read: Iterable[Read]) -> None:
        """Look up which keys and which bytes of a batch are here already.

        Parameters
        ----------
        read : iterable of Read
            The batch.
        """
        lines = list(read)
        names = {line.key.device for line in lines if line.key is not None}
        seqs = [line.key.seq for line in lines if line.key is not None]
        held = JournalEntry.objects.filter(
            state=EntryState.HELD, key_device__in=names, key_seq__in=seqs
        )
        self._held = {
            Key(device, seq): sha256
            for device, seq, sha256 in held.values_list("key_device", "key_seq", "sha256")
            if seq is not None
        }
        aside = JournalEntry.objects.exclude(state=EntryState.HELD).filter(
            device__in={line.device.pk for line in lines},
            sha256__in=[line.sha256 for line in lines],
        )
        self._aside = {
            (device, sha256): why
            for device, sha256, why in aside.values_list("device_id", "sha256", "why")
        }

    def judge(self, line: Read) -> Verdict:
        """Say whether a line counts, and remember it for the rest of the batch.

        Parameters
        ----------
        line : Read
            The line.

        Returns
        -------
        Verdict
        """
        if line.key is not None and self._held.get(line.key) == line.sha256:
            walk = line.entry.walk if line.entry is not None else None
            return Verdict(line.key, walk=walk or "", is_new=False)
        before = self._aside.get((line.device.pk, line.sha256))
        if before is not None:  # a lead decides, whatever has changed since
            return Verdict(line.key, before, is_new=False)
        why, said = self.fault(line)
        if why:
            self._aside[line.device.pk, line.sha256] = why
            return Verdict(line.key, why, said)
        if line.key is not None:
            self._held[line.key] = line.sha256
        return Verdict(line.key, walk=(line.entry.walk if line.entry else None) or "")

    def row(self, line: Read, verdict: Verdict) -> JournalEntry:
        """Give the row that keeps a line.

        Parameters
        ----------
        line : Read
            The line.
        verdict : Verdict
            What was judged.

        Returns
        -------
        JournalEntry
        """
        return JournalEntry(
            device=line.device,
            key_device=line.key.device if line.key is not None else "",
            key_seq=line.key.seq if line.key is not None else None,
            walk_id=(line.entry.walk if line.entry is not None else None) or "",
            raw=line.raw,
            sha256=line.sha256,
            received_at=self._now,
            state=EntryState.QUARANTINED if verdict.why else EntryState.HELD,
            why=verdict.why,
            said=verdict.said[:300],
        )

    def entry_of(self, row: JournalEntry) -> Entry:
        """Give the entry of a row of this batch.

        Parameters
        ----------
        row : JournalEntry
            One that counts.

        Returns
        -------
        Entry
        """
        return self._entries[row.sha256]

    def fault(self, line: Read) -> tuple[str, str]:
        """Say what is wrong with a line.

        Parameters
        ----------
        line : Read
            The line.

        Returns
        -------
        (str, str)
            A code and a sentence, both empty where nothing is wrong.
        """
        if line.fault is not None:
            return line.fault.code.value, line.fault.why
        entry = line.entry
        if entry is None:
            return "not-json", "It can't be read."
        if line.device.kind == DeviceKind.OFFICE or entry.device != line.device.device_id:
            return "other-device", f"It says it was written by {entry.device}."
        if entry.key in self._held:
            return "other-bytes", "Another entry of this number is held already."
        return self._who_or_where(line.device, entry) or self._when(entry) or ("", "")

    def _who_or_where(self, device: Device, entry: Entry) -> tuple[str, str] | None:
        if not self._vouched:
            if not self._may(device):
                return "lost-rights", f"{device.person} may not walk here any more."
            if entry.by not in self._people:
                return "unknown-person", "Whoever wrote it is not one who walks here."
        field = getattr(entry.body, "field", None)
        if field is not None and field not in self._fields:
            return "unknown-field", "It names a field that is not in this district."
        opened_by = opening_key(entry.walk) if entry.walk is not None else None
        if opened_by is not None and opened_by.device not in self._devices:
            return "other-walk", "The walk was not opened by a phone of this district."
        return _as_the_office(entry)

    def _may(self, device: Device) -> bool:
        if device.person is None:
            return False
        if device.pk not in self._rights:
            self._rights[device.pk] = may_walk(device.person, self._district)
        return self._rights[device.pk]

    def _when(self, entry: Entry) -> tuple[str, str] | None:
        if self._vouched or -BEHIND <= entry.at - self._now <= AHEAD:
            return None
        return (
            "clock",
            f"Its time is {entry.at_text}; the office's was {self._now:%Y-%m-%d %H:%M} UTC.",
        )


def _as_the_office(entry: Entry) -> tuple[str, str] | None:
    """Say what a phone wrote that only the office may write."""
    body = entry.body
    if isinstance(body, WalkOpened) and (body.source is not Source.PHONE or body.label):
        return "schema", "Only the office opens a walk from a desk or a table."
    if isinstance(body, PlantChecked | PlantSkipped) and (body.scout or body.on):
        return "schema", "Only the office names a scout or a day with a plant."
    return None
