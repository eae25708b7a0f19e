"""Rows of walks as their entries tell them: written beside the entries, made again at will."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from django.db import models, transaction

from quarterwalk.journal import Entry, Key, Note, Sighted, WalkRecord, read_entry, replay, to_walk
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
    wanted = sorted(set(walk_ids))
    WalkRow.objects.filter(walk_id__in=wanted).delete()
    rows = list(_rows(_held(wanted)))
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
        ids = sorted(
            set(_all_held().exclude(walk_id="").values_list("walk_id", flat=True))
            | set(WalkRow.objects.values_list("walk_id", flat=True))
        )
        differing = []
        for start in range(0, len(ids), _AT_ONCE):
            some = ids[start : start + _AT_ONCE]
            before, after = _dumped_walks(some), _made_walks(some)
            differing += [walk for walk in some if before[walk] != after[walk]]
        outside = [
            read_entry(bytes(raw)) for raw in _all_held(walk_id="").values_list("raw", flat=True)
        ]
        differing += _differing_remarks(outside)
        if differing and not check:
            RemarkRow.objects.all().delete()
            project(ids)
            project_outside(outside)
        return Rebuilt(_all_held().count(), len(ids), tuple(differing))


def dump() -> list[str]:
    """Write every projected row as a line of text, in one order.

    Returns
    -------
    list of str
        The same for the same rows, to the last bit.
    """
    lines = [line for walk in _dumped_walks(None).values() for line in walk]
    outside = RemarkRow.objects.filter(walk=None)
    return sorted([*lines, *(_line(row) for row in outside)])


def _all_held(**which: Any) -> models.QuerySet[JournalEntry]:
    return JournalEntry.objects.filter(state=EntryState.HELD, **which)


def _held(walk_ids: Sequence[str]) -> dict[str, list[Entry]]:
    """Read the held entries of some walks."""
    raws = _all_held(walk_id__in=walk_ids).values_list("walk_id", "raw")
    found: dict[str, list[Entry]] = defaultdict(list)
    for walk, raw in raws:
        found[walk].append(read_entry(bytes(raw)))
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
    walk = to_walk(record, field.name if field is not None else "?")
    checks = [] if walk is None else list(walk.checks)
    scouts = dict.fromkeys(check.scout for check in checks if check.scout)
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
        scouts=", ".join(scouts),
        plants=sum(1 for check in record.checks if not check.skipped),
        waiting=record.waiting,
        doubled=len(record.doubled),
        unusable=len(record.unusable),
        standing="" if record.standing is None else _standing(record),
    )
    for position, (told, check) in enumerate(zip(record.checks, checks, strict=False), 1):
        yield CheckRow(
            walk_id=record.id,
            position=position,
            device_id=told.key.device,
            seq=told.key.seq,
            on=told.on,
            why=told.why or "",
            **from_check(check),
        )
    yield from _note_rows(record)
    by_key = {entry.key: entry for entry in entries}
    for remark in (*record.sightings, *record.notes):
        yield _remark(by_key[remark.key], names, district, field, record.id)


def _standing(record: WalkRecord) -> str:
    told = record.standing
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
    district: District,
    field: FieldRow | None,
    walk_id: str | None,
) -> RemarkRow:
    body = entry.body
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
        rows.append(_remark(entry, names, district, fields.get((district.pk, told or "")), None))
    return rows


def _differing_remarks(entries: Sequence[Entry]) -> list[str]:
    before = {Key(r.device_id, r.seq): _line(r) for r in RemarkRow.objects.filter(walk=None)}
    after = {Key(r.device_id, r.seq): _line(r) for r in _outside(entries)}
    return [
        f"{key.device}-{key.seq}"
        for key in sorted({*before, *after})
        if before.get(key) != after.get(key)
    ]


def _dumped_walks(walk_ids: Sequence[str] | None) -> dict[str, list[str]]:
    """Give the rows that are there, as text, by walk."""
    found: dict[str, list[str]] = defaultdict(list)
    for model in _PROJECTED:
        rows = model._default_manager.exclude(walk_id=None)
        if walk_ids is not None:
            rows = rows.filter(walk_id__in=walk_ids)
        for row in rows:
            found[row.walk_id].append(_line(row))  # type: ignore[attr-defined]  # each has one
    for lines in found.values():
        lines.sort()
    return found


def _made_walks(walk_ids: Sequence[str]) -> dict[str, list[str]]:
    """Give the rows that the entries tell of, as text, by walk."""
    found: dict[str, list[str]] = defaultdict(list)
    for row in _rows(_held(walk_ids)):
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
