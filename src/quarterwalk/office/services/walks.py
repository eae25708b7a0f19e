"""Walks that reach the office without a phone: typed in, or brought as a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from django.db import transaction

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files import WalkFile
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.journal import (
    DeviceCount,
    Entry,
    EntryFault,
    PlantChecked,
    PlantSkipped,
    Source,
    Struck,
    WalkClosed,
    WalkOpened,
    WalkState,
    opening_key,
)
from quarterwalk.office import clock
from quarterwalk.office.models import DeviceKind, District, FieldRow, Person, WalkRow
from quarterwalk.office.services import calls
from quarterwalk.office.services.journal import Pen, Saying
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.translate import to_walk
from quarterwalk.walk import PlantCheck, RecordError, Walk


@dataclass(frozen=True, slots=True)
class Imported:
    """What became of the walks of a table: ids of those taken over, and how many were here."""

    walk_ids: tuple[str, ...]
    here_already: int


@transaction.atomic
def import_walks(*, district: District, walks: WalkFile, by: Person) -> Imported:
    """Take over the walks of a table: all of them, or none.

    Parameters
    ----------
    district : District
        Where they were walked.
    walks : WalkFile
        From `read_walks`.
    by : Person
        Who brings them.

    Returns
    -------
    Imported
        A walk of the same field, day, id and plants that is here already is left as it is.

    Raises
    ------
    RefusedInput
        If a walk is of a field that is not here, or has a text or a day that no entry
        can hold.
    """
    fields = {field.name: field for field in district.fields.all()}
    _refuse_unknown(walks, fields)
    pen = Pen(district, by)
    here = _here(district, walks)
    ids, known = [], 0
    for index, walk in enumerate(walks.table):
        if _as_kept(walk) in here.get((walk.field, walk.date), ()):
            known += 1
            continue
        try:
            ids.append(_write(pen, fields[walk.field], walk, Source.TABLE))
        except EntryFault as fault:
            raise RefusedInput([_misfit(walks, index, walk, fault)]) from fault
    pen.close()
    return Imported(tuple(ids), known)


def _refuse_unknown(walks: WalkFile, fields: dict[str, FieldRow]) -> None:
    unknown: dict[str, int] = {}
    for index, head in enumerate(walks.table.heads):
        if head.field not in fields:
            unknown.setdefault(head.field, walks.first_row(index))
    expected = "the name of a field of this office"
    refuse_if_any(
        [Problem(walks.file, row, "field", name, expected) for name, row in unknown.items()]
    )


def _misfit(walks: WalkFile, index: int, walk: Walk, fault: EntryFault) -> Problem:
    told, expected = f"{walk.field}, {walk.date.isoformat()}", "one that a journal can hold"
    return Problem(walks.file, walks.first_row(index), "walk", told, expected, fault.why)


def _here(district: District, walks: WalkFile) -> dict[tuple[str, date], list[Walk]]:
    """Give the walks of a table's days that came by a table before, with the ids they had."""
    found: dict[tuple[str, date], list[Walk]] = {}
    rows = WalkRow.objects.filter(
        district=district,
        source=Source.TABLE.value,
        on__in={head.date for head in walks.table.heads},
    )
    for row in calls.with_checks(rows.values_list("walk_id", flat=True)):
        walk = to_walk(row)
        if walk is not None:
            found.setdefault((walk.field, walk.date), []).append(replace(walk, id=row.label))
    return found


def _as_kept(walk: Walk) -> Walk:
    """Give a walk as the journal keeps it: of a plant that was passed over, no counts."""
    checks = (
        replace(check, insects=None, squares=None, sweeps=None) if check.skipped else check
        for check in walk.checks
    )
    return replace(walk, checks=tuple(checks))


@transaction.atomic
def enter_walk(
    *, field: FieldRow, on: date, scout: str, checks: Sequence[PlantCheck], by: Person
) -> str:
    """Take over a walk that somebody typed in from a sheet.

    Parameters
    ----------
    field : FieldRow
        Which was walked.
    on : date
        The day.
    scout : str
        Who walked.
    checks : sequence of PlantCheck
        The plants, in the order of walking; at least one.
    by : Person
        Who types.

    Returns
    -------
    str
        The walk's id.

    Raises
    ------
    ServiceRefused
        If there is no plant, one stands twice, or a text is too long.
    """
    pen = Pen(field.district, by)
    try:
        walk = Walk(field.name, on, tuple(replace(check, scout=scout) for check in checks))
        walk_id = _write(pen, field, walk, Source.DESK)
    except (RecordError, EntryFault) as error:
        raise ServiceRefused(f"This walk can't be taken: {error}") from error
    pen.close()
    return walk_id


def _write(pen: Pen, field: FieldRow, walk: Walk, source: Source) -> str:
    """Write a whole walk into the journal: opened, every plant, closed."""
    zone = ZoneInfo(field.district.time_zone)
    at = datetime.combine(walk.date, time(12), zone)
    opened = pen.write(
        Saying(
            WalkOpened(
                field=field.public_id,
                method=walk.method,
                sites=walk.sites,
                source=source,
                label=walk.id or None,
                plan=walk.plan or None,
            ),
            at,
        )
    )
    for check in walk.checks:
        pen.write(Saying(_said(check, walk.date), at, opened.walk))
    count = DeviceCount(pen.device_id, len(walk.checks) + 2)
    pen.write(Saying(WalkClosed(entries=(count,)), at, opened.walk))
    return _id(opened)


def _id(entry: Entry) -> str:
    if entry.walk is None:
        raise ValueError("an entry of a walk must name it, got none.")
    return entry.walk


def _said(check: PlantCheck, on: date) -> PlantChecked | PlantSkipped:
    scout, note = check.scout or None, check.note or None
    if check.skipped:
        return PlantSkipped(
            quadrant=check.quadrant,
            stop=check.stop,
            plant=check.plant,
            scout=scout,
            on=check.on or on,
            note=note,
        )
    return PlantChecked(
        quadrant=check.quadrant,
        stop=check.stop,
        plant=check.plant,
        insects=check.insects,
        squares=check.squares,
        sweeps=check.sweeps,
        scout=scout,
        on=check.on or on,
        note=note,
    )


@transaction.atomic
def strike_walk(*, walk: WalkRow, by: Person) -> None:
    """Strike a walk that came by table or desk: it counts nowhere, and stays to read.

    Parameters
    ----------
    walk : WalkRow
        Which.
    by : Person
        The lead who strikes it.

    Raises
    ------
    ServiceRefused
        If a phone opened it: only that phone strikes its own entries. Or if it was struck
        before.
    """
    opened = opening_key(walk.walk_id)
    own = walk.district.devices.filter(
        kind=DeviceKind.OFFICE, device_id=opened.device if opened else ""
    )
    if opened is None or not own.exists():
        raise ServiceRefused("A walk from a phone is struck on that phone, by its scout.")
    pen = Pen(walk.district, by)
    if WalkRow.objects.filter(walk_id=walk.walk_id, state=WalkState.VOID.value).exists():
        raise ServiceRefused("This walk is left out already.")
    pen.write(Saying(Struck(seq=opened.seq), clock.now(), walk.walk_id))
    pen.close()
