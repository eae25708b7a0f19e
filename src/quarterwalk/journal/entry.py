"""One entry of a journal: read from its line, and written as one."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from quarterwalk.errors import shown
from quarterwalk.journal.at_odds import at_odds
from quarterwalk.journal.body import Body, Kind
from quarterwalk.journal.fault import EntryFault, FaultCode
from quarterwalk.journal.form import Content, misfit
from quarterwalk.journal.ids import Key
from quarterwalk.journal.plain import body_from, body_to, kind_of
from quarterwalk.journal.raised import VERSION, raised
from quarterwalk.journal.strict_json import key_in, read_object

LARGEST = 16_384
"""The largest entry that is taken; a plant check has about 300. [bytes]"""


@dataclass(frozen=True, slots=True)
class Entry:
    """Something that was done on a device, at a moment, by a person.

    Parameters
    ----------
    device : str
        Which device wrote it. [12 characters]
    seq : int
        Its place among that device's entries. [from 1, without gaps]
    at_text : str
        The device's wall time, as it was written. [ISO 8601, milliseconds, offset]
    tick : int
        The device's own steady count since its page was opened. [milliseconds]
    by : str
        Which person. [8 characters]
    walk : str or None
        The walk's id; None for a sighting or a note outside a walk.
    body : Body
        What it says; its form gives the entry's kind.
    v : int
        The version of the format.
    """

    device: str
    seq: int
    at_text: str
    tick: int
    by: str
    walk: str | None
    body: Body
    v: int = VERSION

    @property
    def key(self) -> Key:
        """Which entry this is, among all that were ever written."""
        return Key(self.device, self.seq)

    @property
    def kind(self) -> Kind:
        """What it is about."""
        return kind_of(self.body)

    @property
    def at(self) -> datetime:
        """The device's wall time, with its offset."""
        return datetime.fromisoformat(self.at_text)


def time_text(at: datetime) -> str:
    """Write a time as entries hold it.

    Parameters
    ----------
    at : datetime
        A time with an offset. [aware]

    Returns
    -------
    str
        Such as ``2026-06-18T09:41:07.250-05:00``.
    """
    return at.isoformat(timespec="milliseconds")


def read_entry(line: bytes) -> Entry:
    """Read one line of a journal.

    Parameters
    ----------
    line : bytes
        One entry, without the line's end. [JSON in UTF-8]

    Returns
    -------
    Entry
        What it says, in the newest form.

    Raises
    ------
    EntryFault
        Where it can't be taken, whatever the bytes are; it carries the entry's key
        where that can be read.
    """
    content, twice = _found(line)
    key = key_in(content)
    try:
        why = _why_not(content, twice)
    except RecursionError:
        why = "brackets stand too deep in one another."
    if why is not None:
        raise EntryFault(FaultCode.SCHEMA, why, key)
    return _entry_from(raised(content))


def write_entry(entry: Entry) -> bytes:
    """Write an entry as one line, without the line's end.

    Parameters
    ----------
    entry : Entry
        What is to be kept. [entry]

    Returns
    -------
    bytes
        Compact JSON in UTF-8, always under `LARGEST`; the same entry always gives the
        same bytes.

    Raises
    ------
    EntryFault
        Where no device could have written it.
    """
    content: dict[str, Any] = {
        "v": entry.v,
        "device": entry.device,
        "seq": entry.seq,
        "at": entry.at_text,
        "tick": entry.tick,
        "by": entry.by,
        **({} if entry.walk is None else {"walk": entry.walk}),
        "kind": entry.kind.value,
        "body": body_to(entry.body),
    }
    why = _why_not(content, None)
    if why is not None:
        raise EntryFault(FaultCode.SCHEMA, why, key_in(content))
    return json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode()


def _found(line: bytes) -> tuple[Content, str | None]:
    """Read the object; one that is too large is read for its key only."""
    if len(line) <= LARGEST:
        return read_object(line)
    try:
        key = key_in(read_object(line)[0])
    except EntryFault:
        key = None
    why = f"an entry has at most {LARGEST:,} bytes, this one {len(line):,}."
    raise EntryFault(FaultCode.TOO_LARGE, why, key)


def _why_not(content: Content, twice: str | None) -> str | None:
    """Say what keeps an object from being an entry."""
    if twice is not None:
        return f"the key {shown(twice)} stands twice."
    try:
        newest = raised(content)
    except KeyError:
        return f"v must be a whole number from 1 to {VERSION}: this office knows no other format."
    return misfit(newest) or at_odds(newest)


def _entry_from(content: Content) -> Entry:
    return Entry(
        device=content["device"],
        seq=content["seq"],
        at_text=content["at"],
        tick=content["tick"],
        by=content["by"],
        walk=content.get("walk"),
        body=body_from(Kind(content["kind"]), content["body"]),
        v=content["v"],
    )
