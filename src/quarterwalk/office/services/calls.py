"""Calls: made by the core from the rows as they stand, and kept whenever one differs."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db.models import Max, Prefetch

from quarterwalk.call import Call, CallOptions, make_call
from quarterwalk.crop import stage_on
from quarterwalk.files.call_json import walk_json
from quarterwalk.office import clock
from quarterwalk.office.models import CallRow, CheckRow, FieldRow, WalkRow
from quarterwalk.office.translate import to_dates, to_guideline, to_line, to_walk
from quarterwalk.reading import Reading, take_readings
from quarterwalk.walk import Walk, WalkHead, WalkTable

LEVEL = 0.90
"""Chance that a range shown by the office holds the true value. [fraction]"""


@dataclass(frozen=True, slots=True)
class Judged:
    """One walk with what the core makes of it.

    Parameters
    ----------
    row : WalkRow
        The walk.
    walk : Walk
        As the core knows it.
    reading : Reading
        What it says of its field.
    call : Call or None
        None where the field has no guideline, or nobody gave the day of first square.
    lacking : tuple of str
        What the office knows that makes the call one for now, as sentences.
    """

    row: WalkRow
    walk: Walk
    reading: Reading
    call: Call | None
    lacking: tuple[str, ...]

    @property
    def head(self) -> WalkHead:
        """Field, day and scouts."""
        walk = self.walk
        return WalkHead(
            walk.field, walk.date, walk.id, walk.method, walk.sites, walk.plan, walk.scouts
        )


def with_checks(walk_ids: Iterable[str]) -> list[WalkRow]:
    """Fetch walks with all that a call needs, in as many queries for one as for a hundred.

    Parameters
    ----------
    walk_ids : iterable of str
        Which.

    Returns
    -------
    list of WalkRow
    """
    rows = WalkRow.objects.filter(walk_id__in=list(walk_ids)).select_related(
        "field__grower", "district"
    )
    return list(
        rows.prefetch_related(
            Prefetch("checks", CheckRow.objects.order_by("position")),
            "field__seasons",
            "field__treatments",
        )
    )


def calls_for(walks: Iterable[WalkRow], *, language: str = "en") -> dict[str, Judged]:
    """Make the calls of many walks at once; nothing is kept.

    Parameters
    ----------
    walks : iterable of WalkRow
        Which; only their ids are used.
    language : str
        The one that they are worded in.

    Returns
    -------
    dict of str to Judged
        By walk id; a walk without plants, or of which nobody knows the field, is left out.
    """
    rows = with_checks(row.walk_id for row in walks)
    found = [(row, walk) for row in rows if (walk := to_walk(row)) is not None]
    if not found:
        return {}
    readings = take_readings(WalkTable.from_walks(walk for _, walk in found))
    return {
        row.walk_id: Judged(row, walk, reading, _call(row, walk, reading, language), lacking(row))
        for (row, walk), reading in zip(found, readings, strict=True)
    }


def call_for(walk: WalkRow, *, language: str = "en") -> Judged | None:
    """Make the call of one walk; nothing is kept.

    Parameters
    ----------
    walk : WalkRow
        Which.
    language : str
        The one that it is worded in.

    Returns
    -------
    Judged or None
    """
    return calls_for([walk], language=language).get(walk.walk_id)


def _call(row: WalkRow, walk: Walk, reading: Reading, language: str) -> Call | None:
    field = row.field
    if field is None:
        return None
    guideline, dates = to_guideline(field), to_dates(field, walk.date)
    if guideline is None or dates is None:
        return None
    return make_call(
        reading,
        stage_on(walk.date, dates),
        guideline,
        on=walk.date,
        treated=dates.last_treated_before(walk.date),
        options=CallOptions(to_line(field), LEVEL, language),
    )


def lacking(row: WalkRow) -> tuple[str, ...]:
    """Say what is lacking of a walk, besides its plants.

    Parameters
    ----------
    row : WalkRow
        The walk.

    Returns
    -------
    tuple of str
        Sentences; none where the walk is whole.
    """
    told = []
    if row.waiting:
        noun = "entry" if row.waiting == 1 else "entries"
        told.append(f"Waiting for {row.waiting} more {noun} from the phone.")
    if row.state == "open":
        told.append("The walk is still going on.")
    if row.state == "handed-over":
        told.append("The walk was handed over; nobody has gone on yet.")
    if row.doubled:
        plants = "plant was" if row.doubled == 1 else "plants were"
        told.append(f"{row.doubled} {plants} entered twice; the first entry counts.")
    if row.unusable:
        samples = "sample has" if row.unusable == 1 else "samples have"
        told.append(f"{row.unusable} {samples} no number of sweeps and can't count.")
    return tuple(told)


def keep(walk_ids: Sequence[str]) -> None:
    """Keep the calls of some walks, where one differs from the last that was kept.

    Parameters
    ----------
    walk_ids : sequence of str
        Which.
    """
    judged = calls_for(WalkRow.objects.filter(walk_id__in=list(walk_ids)))
    last = _last_hashes(judged)
    now = clock.now()
    kept = []
    for walk_id, each in sorted(judged.items()):
        text = call_text(each)
        sha256 = hashlib.sha256(text.encode()).hexdigest()
        if each.call is not None and last.get(walk_id) != sha256:
            kept.append(CallRow(walk_id=walk_id, made_at=now, content=text, sha256=sha256))
    CallRow.objects.bulk_create(kept)


def keep_for_field(field: FieldRow) -> None:
    """Keep the calls of all walks of a field, after its rule or dates have changed.

    Parameters
    ----------
    field : FieldRow
        Which.
    """
    keep(list(WalkRow.objects.filter(field=field).values_list("walk_id", flat=True)))


def call_text(judged: Judged) -> str:
    """Write a call as the JSON that `quarterwalk call` prints for one walk.

    Parameters
    ----------
    judged : Judged
        The walk and its call.

    Returns
    -------
    str
    """
    told = walk_json(judged.head, judged.reading, level=LEVEL, call=judged.call)
    told["office"] = {"provisional": bool(judged.lacking), "why": list(judged.lacking)}
    return json.dumps(told, ensure_ascii=False, sort_keys=True)


def _last_hashes(walk_ids: Iterable[str]) -> dict[str, str]:
    newest = (
        CallRow.objects.filter(walk_id__in=list(walk_ids))
        .values("walk_id")
        .annotate(last=Max("pk"))
        .values_list("last", flat=True)
    )
    return dict(CallRow.objects.filter(pk__in=list(newest)).values_list("walk_id", "sha256"))
