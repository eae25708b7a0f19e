"""From a walk's record to the core's walk, of which a call can be made."""

from __future__ import annotations

from collections.abc import Iterable

from quarterwalk.journal.record import CheckRecord, WalkRecord, WalkState
from quarterwalk.walk import PlantCheck, Walk


def to_walk(record: WalkRecord, field_name: str) -> Walk | None:
    """Give the walk of which a call can be made.

    Parameters
    ----------
    record : WalkRecord
        What `replay` gave. [record]
    field_name : str
        The field's name; not blank. [text]

    Returns
    -------
    Walk or None
        Its id is the one that a table gave it, where one did. None where there is no
        plant yet, or the opening is not here or was struck: nobody then knows how the
        insects were counted.
    """
    if record.state in (WalkState.UNOPENED, WalkState.VOID) or not record.checks:
        return None
    if record.on is None or record.method is None or record.sites is None:
        return None
    called = called_apart(record.checks)
    return Walk(
        field=field_name,
        date=record.on,
        checks=tuple(_check(check, called[check.who], record) for check in record.checks),
        id=record.label or record.id,
        method=record.method,
        sites=record.sites,
        plan=record.plan or "",
    )


def called_apart(checks: Iterable[CheckRecord]) -> dict[str, str]:
    """Give each scout a name of their own: two of one name number their own stops.

    Parameters
    ----------
    checks : iterable of CheckRecord
        The plants of one walk, in order. [record]

    Returns
    -------
    dict of str to str
        By what tells scouts apart (`CheckRecord.who`); the second of a name gets a 2,
        and so on.
    """
    called: dict[str, str] = {}
    taken: set[str] = set()
    for check in checks:
        if check.who in called:
            continue
        name, count = check.scout, 1
        while name in taken:
            count += 1
            name = f"{check.scout} {count}"
        called[check.who] = name
        taken.add(name)
    return called


def _check(check: CheckRecord, scout: str, record: WalkRecord) -> PlantCheck:
    return PlantCheck(
        quadrant=check.quadrant,
        plant=check.plant,
        stop=check.stop,
        insects=check.insects,
        squares=check.squares,
        sweeps=check.sweeps,
        scout=scout,
        on=None if check.on == record.on else check.on,
        skipped=check.skipped,
        note=check.note or "",
    )
