"""Pages of entries that wait for a decision."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from quarterwalk.office.models import District, EntryState, JournalEntry
from quarterwalk.office.pages.days import moment
from quarterwalk.office.pages.page import Link

_WHY = {
    "not-json": "It can't be read: it is cut off, or is no entry of a walk.",
    "too-large": "It is larger than an entry may be.",
    "schema": "It does not have the form of an entry.",
    "other-bytes": "Another entry with the same number is held already, with other content.",
    "other-device": "It says it was written by another phone than the one that sent it.",
    "unknown-field": "It names a field that is not in this district.",
    "unknown-person": "Whoever wrote it is nobody who walks in this district.",
    "lost-rights": "The phone's person may not walk in this district any more.",
    "clock": "Its time is far from the office's time.",
    "other-walk": "It belongs to a walk of another district.",
    "decided": "It was set aside before.",
}
_KINDS = {
    "walk-opened": "a walk was begun",
    "plant-checked": "a plant was checked",
    "plant-skipped": "a plant was passed over",
    "sighted": "something was seen on the way",
    "quadrant-noted": "a quarter was noted",
    "struck": "an entry was struck",
    "handed-over": "a walk was handed over",
    "walk-closed": "a walk was closed",
    "note": "a note was written",
}

# Reasons whose sentence in the journal adds something that a lead can use.
_SAID_BESIDE = frozenset({"too-large", "schema", "other-device", "clock"})

# The reasons that a lead's word can lift; the others stay whatever a person says.
_LIFTED = frozenset({"unknown-person", "lost-rights", "clock", "decided"})

# Characters of spoiled bytes that are shown. [count]
_MOST_SHOWN = 2000


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One entry that waits."""

    what: str
    to: str
    phone: str
    came: str
    why: str


@dataclass(frozen=True, slots=True)
class InboxPage:
    """Everything that waits."""

    title: str
    said: tuple[str, ...]
    entries: tuple[EntryLine, ...]


def inbox_page(entries: Iterable[JournalEntry], district: District) -> InboxPage:
    """List the entries that wait.

    Parameters
    ----------
    entries : iterable of JournalEntry
        The oldest first.
    district : District
        Its zone tells the times.

    Returns
    -------
    InboxPage
    """
    lines = tuple(_line(entry, district.time_zone) for entry in entries)
    if not lines:
        said = "Nothing waits. What a phone sends and the office can't take by itself comes here."
    else:
        said = "The office can't take these by itself. Take each, or leave it out; nothing is lost."
    return InboxPage("Inbox", (said,), lines)


def _line(entry: JournalEntry, zone: str) -> EntryLine:
    return EntryLine(
        what=_what(_content(entry)),
        to=reverse("entry", args=[entry.pk]),
        phone=_phone(entry),
        came=moment(entry.received_at, zone),
        why=_why(entry),
    )


@dataclass(frozen=True, slots=True)
class EntryPage:
    """One entry.

    Parameters
    ----------
    title : str
        What it tells of.
    above : Link
        The inbox.
    why : str
        Why it waits.
    told : tuple of (str, str)
        What its bytes say, by name.
    raw : str
        The bytes as they came, where they can't be read.
    came : str
        When it came, and from where.
    walk : Link or None
        The walk that it belongs to.
    can_take : bool
        Whether a lead's word can take it.
    decided : tuple of str
        What was decided already.
    """

    title: str
    above: Link
    why: str
    told: tuple[tuple[str, str], ...]
    raw: str
    came: str
    walk: Link | None
    can_take: bool
    decided: tuple[str, ...]


def entry_page(entry: JournalEntry) -> EntryPage:
    """Show one entry.

    Parameters
    ----------
    entry : JournalEntry
        The entry.

    Returns
    -------
    EntryPage
    """
    content, zone = _content(entry), entry.device.district.time_zone
    to_walk = reverse("walk", args=[entry.walk_id]) if entry.walk_id else ""
    return EntryPage(
        title=f"An entry: {_what(content)}",
        above=Link("Inbox", reverse("inbox")),
        why=_why(entry),
        told=tuple(_told(content)),
        raw="" if content else bytes(entry.raw)[:_MOST_SHOWN].decode("utf-8", "replace"),
        came=f"Came {moment(entry.received_at, zone)}, {_phone(entry)}.",
        walk=Link("The walk it belongs to", to_walk) if to_walk else None,
        can_take=entry.why in _LIFTED,
        decided=_decided(entry, zone),
    )


def _why(entry: JournalEntry) -> str:
    why, said = _WHY.get(entry.why, entry.said), entry.said
    if not said or entry.why not in _SAID_BESIDE:
        return why
    if said[:1].islower():  # it begins with the name of what is wrong, which stays as it is
        return f"{why} What is wrong in it: {said}"
    return f"{why} {said}"


def _phone(entry: JournalEntry) -> str:
    person = entry.device.person
    return f"from {entry.device}" + (f", paired by {person.name}" if person is not None else "")


def _decided(entry: JournalEntry, zone: str) -> tuple[str, ...]:
    if entry.state != EntryState.LEFT_OUT or entry.decided_at is None:
        return ()
    by = f" by {entry.decided_by}" if entry.decided_by is not None else ""
    when = moment(entry.decided_at, zone)
    return (f"Left out{by} on {when}: {entry.decided_why}",)


def _content(entry: JournalEntry) -> dict[str, object]:
    try:
        content = json.loads(bytes(entry.raw))
    except ValueError:
        return {}
    return content if isinstance(content, dict) else {}


def _what(content: dict[str, object]) -> str:
    return _KINDS.get(str(content.get("kind", "")), "something that can't be read")


def _told(content: dict[str, object]) -> list[tuple[str, str]]:
    """Lay the content out by name; what lies inside the body stands beside the rest."""
    told = []
    for name, value in content.items():
        inside = value.items() if isinstance(value, dict) else [(name, value)]
        told += [(str(key), _plain(each)) for key, each in inside]
    return told


def _plain(value: object) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
