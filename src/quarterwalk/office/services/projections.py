"""Rows of walks as their entries tell them: written beside the entries, made again at will."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from django.db import models, transaction

from quarterwalk.journal import (
    CheckRecord,
    Entry,
    Note,
    Sighted,
    Source,
    Standing,
    WalkRecord,
    called_apart,
    opening_key,
    replay,
)
from quarterwalk.office.models import (
    CheckRow,
    Device,
    District,
    EntryState,
    FieldRow,
    JournalEntry,
    Person,
    QuadrantNoteRow,
    RemarkRow,
    WalkRow,
)
from quarterwalk.office.services.entries import entry_of
from quarterwalk.office.services.turn import take_turn
from quarterwalk.office.translate import from_check

_PROJECTED: tuple[type[models.Model], ...] = (WalkRow, CheckRow, QuadrantNoteRow, RemarkRow)

# How many walks are made again at once, so that a season fits in memory.
_AT_ONCE = 200


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What came of making every row again.

    Parameters
    ----------
    entries, walks : int
        How many were read. [count]
    differing : tuple of str
        Walks, and remarks outside walks, whose rows were not what their entries tell.
    """

    entries: int
    walks: int
    differing: tuple[str, ...]


@transaction.atomic
def project(walk_ids: Iterable[str]) -> None:
    """Write the rows of some walks anew, from all entries that are held of them.

    Parameters
    ----------
    walk_ids : iterable of str
        Which.
    """
    for some in _portions(walk_ids):
        WalkRow.objects.filter(walk_id__in=some).delete()
        rows = list(_rows(_held(some)))
        for model in _PROJECTED:
            model._default_manager.bulk_create(row for row in rows if isinstance(row, model))


def project_outside(entries: Sequence[Entry]) -> None:
    """Write the rows of remarks that belong to no walk.

    Parameters
    ----------
    entries : sequence of Entry
        Sightings and notes without a walk.
    """
    RemarkRow.objects.bulk_create(_outside(entries))


def rebuild(*, check: bool) -> Rebuilt:
    """Make every row of every walk again from the journal's bytes.

    Parameters
    ----------
    check : bool
        Change nothing; only compare.

    Returns
    -------
    Rebuilt
    """
    with transaction.atomic():
        for district in District.objects.order_by("pk"):
            take_turn(district)
        ids = sorted({*_all_held().values_list("walk_id", flat=True), *_walks_shown()} - {""})
        differing = []
        for some in _portions(ids):
            before, after = _rows_there(some), _rows_told(some)
            differing += [walk for walk in some if before[walk] != after[walk]]
        outside = [
            entry_of(bytes(raw)) for raw in _all_held(walk_id="").values_list("raw", flat=True)
        ]
        differing += _differing_remarks(outside)
        if differing and not check:
            RemarkRow.objects.filter(walk=None).delete()
            project(ids)
            project_outside(outside)
        return Rebuilt(_all_held().count(), len(ids), tuple(differing))


def _portions(walk_ids: Iterable[str]) -> Iterator[list[str]]:
    wanted = sorted(set(walk_ids))
    for start in range(0, len(wanted), _AT_ONCE):
        yield wanted[start : start + _AT_ONCE]


def _walks_shown() -> Iterable[str]:
    return WalkRow.objects.values_list("walk_id", flat=True)


def _all_held(**which: Any) -> models.QuerySet[JournalEntry]:
    return JournalEntry.objects.filter(state=EntryState.HELD, **which)


def _held(walk_ids: Sequence[str]) -> dict[str, list[Entry]]:
    """Read the held entries of some walks."""
    raws = _all_held(walk_id__in=walk_ids).values_list("walk_id", "raw")
    found: dict[str, list[Entry]] = defaultdict(list)
    for walk, raw in raws:
        found[walk].append(entry_of(bytes(raw)))
    return found


def _rows(held: dict[str, list[Entry]]) -> Iterator[models.Model]:
    """Give every row that some walks' entries tell of."""
    names = dict(Person.objects.values_list("public_id", "name"))
    places = _places({walk.partition("-")[0] for walk in held})
    fields = {
        field.public_id: field
        for field in FieldRow.objects.filter(district__in=list(places.values()))
    }
    for walk_id, entries in sorted(held.items()):
        record = replay(walk_id, entries, names)
        district = places[walk_id.partition("-")[0]]
        field = fields.get(record.field or "")
        if field is not None and field.district_id != district.pk:
            field = None
        yield from _walk_rows(record, entries, (district, field), names)


def _places(device_ids: Iterable[str]) -> dict[str, District]:
    """Say in which district each device's walks lie."""
    devices = Device.objects.filter(device_id__in=list(device_ids)).select_related("district")
    return {device.device_id: device.district for device in devices}


def _walk_rows(
    record: WalkRecord,
    entries: Sequence[Entry],
    place: tuple[District, FieldRow | None],
    names: dict[str, str],
) -> Iterator[models.Model]:
    district, field = place
    by_key = {entry.key: entry for entry in entries}
    checks = [_as_named(check, by_key[check.key], record) for check in record.checks]
    called = called_apart(checks)
    yield WalkRow(
        walk_id=record.id,
        district=district,
        field=field,
        state=record.state.value,
        on=record.on,
        opened_at=record.opened_at,
        closed_at=record.closed_at,
        source=record.source or "",
        method=record.method or "",
        sites=record.sites or "",
        label=record.label or "",
        plan=record.plan or "",
        card=record.card or "",
        scouts=", ".join(filter(None, called.values())),
        plants=sum(1 for check in checks if not check.skipped),
        waiting=record.waiting,
        doubled=len(record.doubled),
        unusable=len(record.unusable),
        standing=_standing(record.standing),
    )
    for position, check in enumerate(checks, 1):
        yield CheckRow(
            walk_id=record.id,
            position=position,
            device_id=check.key.device,
            seq=check.key.seq,
            **from_check(check, called[check.who]),
        )
    yield from _note_rows(record)
    remarks = [told.key for told in record.sightings] + [told.key for told in record.notes]
    for key in remarks:
        yield _remark(by_key[key], names, place, record.id)


def _as_named(check: CheckRecord, entry: Entry, record: WalkRecord) -> CheckRecord:
    """Leave the scout blank where a desk or a table named none: who typed did not walk."""
    typed = record.source in (Source.DESK, Source.TABLE)
    opened = opening_key(record.id)
    named = getattr(entry.body, "scout", None) is not None
    if typed and not named and opened is not None and entry.device == opened.device:
        return replace(check, scout="")
    return check


def _standing(told: Standing | None) -> str:
    if told is None:
        return ""
    return f"{told.plants},{told.insects},{told.squares},{told.healthy},{told.lean or ''}"


def _note_rows(record: WalkRecord) -> Iterator[QuadrantNoteRow]:
    for position, note in enumerate(record.quadrant_notes, 1):
        said = note.said
        yield QuadrantNoteRow(
            walk_id=record.id,
            position=position,
            quadrant=said.quadrant.value,
            lost=said.lost or "",
            water=said.water,
            other_pests=said.other_pests or "",
            branches=" ".join(map(str, said.branches or ())),
            note=said.note or "",
        )


def _remark(
    entry: Entry,
    names: dict[str, str],
    place: tuple[District, FieldRow | None],
    walk_id: str | None,
) -> RemarkRow:
    body, (district, field) = entry.body, place
    row = RemarkRow(
        district=district,
        walk_id=walk_id,
        field=field,
        device_id=entry.device,
        seq=entry.seq,
        at=entry.at,
        by=names.get(entry.by, entry.by),
        what="note",
    )
    if isinstance(body, Sighted):
        row.what = body.what.value
        row.quadrant = body.quadrant.value if body.quadrant is not None else ""
        row.stop = body.stop
        row.text = body.note or ""
    elif isinstance(body, Note):
        row.text = body.text
    return row


def _outside(entries: Sequence[Entry]) -> list[RemarkRow]:
    """Give the rows of remarks that belong to no walk."""
    if not entries:
        return []
    names = dict(Person.objects.values_list("public_id", "name"))
    places = _places({entry.device for entry in entries})
    fields = {
        (field.district_id, field.public_id): field
        for field in FieldRow.objects.filter(district__in=list(places.values()))
    }
    rows = []
    for entry in entries:
        district = places[entry.device]
        told = entry.body.field if isinstance(entry.body, Sighted | Note) else None
        place = district, fields.get((district.pk, told or ""))
        rows.append(_remark(entry, names, place, None))
    return rows


def _differing_remarks(entries: Sequence[Entry]) -> list[str]:
    """Name the remarks outside walks that are not what their entries tell."""
    before = {(r.device_id, r.seq): _line(r) for r in RemarkRow.objects.filter(walk=None)}
    after = {(r.device_id, r.seq): _line(r) for r in _outside(entries)}
    return [
        f"{device}-{seq}"
        for device, seq in sorted({*before, *after})
        if before.get((device, seq)) != after.get((device, seq))
    ]


Lines = dict[str, list[str]]
"""Rows as text, by walk; in one order."""


def _rows_there(walk_ids: Sequence[str]) -> Lines:
    """Give the rows that are there."""
    return _by_walk(
        row for model in _PROJECTED for row in model._default_manager.filter(walk_id__in=walk_ids)
    )


def _rows_told(walk_ids: Sequence[str]) -> Lines:
    """Give the rows that the entries tell of."""
    return _by_walk(_rows(_held(walk_ids)))


def _by_walk(rows: Iterable[models.Model]) -> Lines:
    found: Lines = defaultdict(list)
    for row in rows:
        found[row.walk_id].append(_line(row))  # type: ignore[attr-defined]  # each has one
    for lines in found.values():
        lines.sort()
    return found


def _line(row: models.Model) -> str:
    """Write a row without the number that the database gave it."""
    values = {
        field.attname: field.value_from_object(row)
        for field in row._meta.concrete_fields
        if field.name != "id"
    }
    told = " ".join(f"{name}={_text(value)}" for name, value in sorted(values.items()))
    return f"{row._meta.model_name} {told}"


def _text(value: Any) -> str:
    """Write a value the same whether it comes from an entry or from the database."""
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    return repr(str(value)) if isinstance(value, str) else repr(value)
