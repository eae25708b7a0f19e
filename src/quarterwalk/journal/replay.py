"""From the entries of a walk to its record, in whatever order they came."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from quarterwalk.journal.body import (
    HandedOver,
    Note,
    QuadrantNoted,
    Sighted,
    Struck,
    WalkClosed,
    WalkOpened,
)
from quarterwalk.journal.entry import Entry
from quarterwalk.journal.ids import Key, opening_key
from quarterwalk.journal.plants import plants_of
from quarterwalk.journal.record import QuadrantNote, Remark, Sighting, WalkRecord, WalkState


def replay(walk_id: str, entries: Iterable[Entry], names: Mapping[str, str]) -> WalkRecord:
    """Say what a walk's entries come to.

    Parameters
    ----------
    walk_id : str
        The walk. [id]
    entries : iterable of Entry
        Those that are held, in any order; of one key there is one entry. Entries of
        other walks are passed over.
    names : mapping of str to str
        People's names by their ids; whoever is not in it is called by the id.

    Returns
    -------
    WalkRecord
        The same for the same set of entries, whatever order they came in.
    """
    held = _in_order(walk_id, entries)
    void = _void(held)
    live = [entry for entry in held if entry.key not in void]
    opening = next((entry for entry in held if isinstance(entry.body, WalkOpened)), None)
    head = opening.body if opening and isinstance(opening.body, WalkOpened) else None
    plants = plants_of(live, head.method if head else None, names)
    closings = [(e, e.body) for e in live if isinstance(e.body, WalkClosed)]
    last = closings[-1][1] if closings else None
    days = [check.on for check in plants.checks]
    return WalkRecord(
        id=walk_id,
        state=_state(opening, void, live),
        opening=head,
        opened_at=opening.at if opening else None,
        on=max(days) if days else opening.at.date() if opening else None,
        checks=plants.checks,
        doubled=plants.doubled,
        unusable=plants.unusable,
        quadrant_notes=tuple(
            QuadrantNote(e.key, e.body) for e in live if isinstance(e.body, QuadrantNoted)
        ),
        sightings=tuple(Sighting(e.key, e.body) for e in live if isinstance(e.body, Sighted)),
        notes=tuple(Remark(e.key, e.body) for e in live if isinstance(e.body, Note)),
        closed_at=closings[-1][0].at if closings else None,
        standing=last.standing if last else None,
        plan=(last.plan if last else None) or (head.plan if head else None),
        waiting=_waiting(held),
        devices=tuple(dict.fromkeys(entry.device for entry in held)),
    )


def _in_order(walk_id: str, entries: Iterable[Entry]) -> list[Entry]:
    """Put the opening device first, then the others by id; each device's entries by number."""
    first = opening_key(walk_id)
    own = {entry.key: entry for entry in entries if entry.walk == walk_id}
    return [
        own[key] for key in sorted(own, key=lambda k: (not first or k.device != first.device, k))
    ]


def _void(held: Sequence[Entry]) -> set[Key]:
    """Find what was struck: the last word first, so that a strike can be struck."""
    keys = {entry.key for entry in held}
    void: set[Key] = set()
    for entry in sorted(held, key=lambda entry: entry.seq, reverse=True):
        if isinstance(entry.body, Struck) and entry.key not in void:
            void.add(Key(entry.device, entry.body.seq))
    return void & keys


def _state(opening: Entry | None, void: set[Key], live: Sequence[Entry]) -> WalkState:
    if opening is None:
        return WalkState.UNOPENED
    if opening.key in void:
        return WalkState.VOID
    if any(isinstance(entry.body, WalkClosed) for entry in live):
        return WalkState.CLOSED
    return WalkState.HANDED_OVER if _is_handed_over(live) else WalkState.OPEN


def _is_handed_over(live: Sequence[Entry]) -> bool:
    """Say whether every device's last word is that another person goes on.

    Strikes are no such word: who mends a count after handing over has not gone on.
    """
    last = {entry.device: entry for entry in live if not isinstance(entry.body, Struck)}
    return all(isinstance(entry.body, HandedOver) for entry in last.values())


def _waiting(held: Sequence[Entry]) -> int:
    """Count what was told of and is not here; what was told and then struck was still true."""
    told: Counter[str] = Counter()
    for entry in held:
        if isinstance(entry.body, HandedOver):
            told |= Counter({entry.device: entry.body.entries})
        elif isinstance(entry.body, WalkClosed):
            told |= Counter({count.device: count.entries for count in entry.body.entries})
    return (told - Counter(entry.device for entry in held)).total()
