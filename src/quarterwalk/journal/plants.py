"""The plants of a walk: which checks count, which double another, which can't be used."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from quarterwalk.journal.body import PlantChecked, PlantSkipped
from quarterwalk.journal.entry import Entry
from quarterwalk.journal.ids import Key
from quarterwalk.journal.record import CheckRecord
from quarterwalk.walk import Method


@dataclass(frozen=True, slots=True)
class Plants:
    """The checks that count, and the keys of those that don't."""

    checks: tuple[CheckRecord, ...]
    doubled: tuple[Key, ...]
    unusable: tuple[Key, ...]


def plants_of(live: Iterable[Entry], method: Method | None, names: Mapping[str, str]) -> Plants:
    """Sort out the plants of a walk.

    A check that can't be used takes no place: the same plant, counted again with its
    sweeps, counts.
    """
    stands: dict[tuple[object, ...], CheckRecord] = {}
    doubled: list[Key] = []
    unusable: list[Key] = []
    for entry in live:
        if not isinstance(entry.body, PlantChecked | PlantSkipped):
            continue
        check = _check(entry, entry.body, names)
        if method is Method.SWEEP and check.insects is not None and check.sweeps is None:
            unusable.append(check.key)
        elif check.place in stands:
            doubled.append(check.key)
        else:
            stands[check.place] = check
    return Plants(tuple(stands.values()), tuple(doubled), tuple(unusable))


def _check(
    entry: Entry, body: PlantChecked | PlantSkipped, names: Mapping[str, str]
) -> CheckRecord:
    looked = body if isinstance(body, PlantChecked) else None
    return CheckRecord(
        key=entry.key,
        quadrant=body.quadrant,
        stop=body.stop,
        plant=body.plant,
        insects=looked.insects if looked else None,
        squares=looked.squares if looked else None,
        sweeps=looked.sweeps if looked else None,
        skipped=looked is None,
        why=body.why if isinstance(body, PlantSkipped) else None,
        who=body.scout or entry.by,
        scout=body.scout or names.get(entry.by) or entry.by,
        on=body.on or entry.at.date(),
        note=body.note,
    )
