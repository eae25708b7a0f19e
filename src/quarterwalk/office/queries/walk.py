"""One walk with all that its page shows."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from quarterwalk.field import Layout
from quarterwalk.office.models import CallRow, Device, QuadrantNoteRow, RemarkRow, WalkRow
from quarterwalk.office.queries.ground import laid_out
from quarterwalk.office.services.calls import Judged, call_for


@dataclass(frozen=True, slots=True)
class KeptCall:
    """A call as it was kept: when it was made, and what its JSON tells."""

    made_at: datetime
    told: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class WalkTold:
    """What is known of one walk.

    Parameters
    ----------
    row : WalkRow
        With its field and its district.
    judged : Judged or None
        What the core makes of it; None where there is no plant, or no field.
    layout : Layout or None
        The field laid out for the walk's day.
    notes : tuple of QuadrantNoteRow
        What was noted once a quarter.
    remarks : tuple of RemarkRow
        What was seen on the way, and notes.
    kept : tuple of KeptCall
        Every call that was made on it, the oldest first.
    phones : tuple of str
        Names of the phones that it came from.
    """

    row: WalkRow
    judged: Judged | None
    layout: Layout | None
    notes: tuple[QuadrantNoteRow, ...]
    remarks: tuple[RemarkRow, ...]
    kept: tuple[KeptCall, ...]
    phones: tuple[str, ...]


def walk_told(row: WalkRow) -> WalkTold:
    """Gather what is known of one walk.

    Parameters
    ----------
    row : WalkRow
        The walk.

    Returns
    -------
    WalkTold
    """
    judged = call_for(row)
    kept = CallRow.objects.filter(walk_id=row.walk_id).order_by("pk")
    return WalkTold(
        row=row,
        judged=judged,
        layout=None if row.field is None or row.on is None else laid_out(row.field, row.on),
        notes=tuple(row.quadrant_notes.order_by("position")),
        remarks=tuple(row.remarks.order_by("at", "device_id", "seq")),
        kept=tuple(KeptCall(call.made_at, json.loads(call.content)) for call in kept),
        phones=_phones(row),
    )


def _phones(row: WalkRow) -> tuple[str, ...]:
    """Name the phones that a walk came from."""
    ids = row.checks.values_list("device_id", flat=True).order_by("device_id").distinct()
    phones = Device.objects.filter(device_id__in=ids, kind="phone").order_by("label")
    return tuple(map(str, phones))
