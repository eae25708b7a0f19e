"""How each field stands: its season, its newest walk, and the call of that walk."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import OuterRef, QuerySet, Subquery

from quarterwalk.crop import CropDates
from quarterwalk.office.crop_clocks import Clocks, CropStanding
from quarterwalk.office.models import CallRow, District, FieldRow, StationRow, WalkRow
from quarterwalk.office.queries.walk_order import newest_first
from quarterwalk.office.translate_season import to_station

TELLS = ("open", "handed-over", "closed")
"""States of walks that say something of a field."""


@dataclass(frozen=True, slots=True)
class Standing:
    """One field with what is known of it today.

    Parameters
    ----------
    field : FieldRow
        With its grower.
    crop : CropStanding
        Where its crop stands on the day that was asked for.
    walk : WalkRow or None
        The newest one of the season with a plant.
    call : mapping or None
        The newest call on that walk, as its JSON tells it.
    """

    field: FieldRow
    crop: CropStanding
    walk: WalkRow | None
    call: Mapping[str, Any] | None

    @property
    def dates(self) -> CropDates | None:
        """The dates of its season, given or worked out."""
        return self.crop.dates


def standings(fields: QuerySet[FieldRow], on: date) -> list[Standing]:
    """Tell how fields stand on a day.

    Parameters
    ----------
    fields : QuerySet of FieldRow
        Those that somebody may see.
    on : date
        The day.

    Returns
    -------
    list of Standing
        In the order of the fields.
    """
    walked = WalkRow.objects.filter(
        field=OuterRef("pk"), state__in=TELLS, plants__gt=0, on__year=on.year
    )
    newest = newest_first(walked).values("walk_id")[:1]
    rows = list(fields.prefetch_related("seasons", "treatments").annotate(newest=Subquery(newest)))
    walks = WalkRow.objects.in_bulk([row.newest for row in rows if row.newest])
    calls, clocks = newest_calls(walks), Clocks(rows, {on.year})
    return [
        standing(
            row,
            clocks.standing(row, on),
            walks.get(row.newest or ""),
            calls.get(row.newest or ""),
        )
        for row in rows
    ]


def standing(
    row: FieldRow, crop: CropStanding, walk: WalkRow | None, call: Mapping[str, Any] | None
) -> Standing:
    """Put together what is known of a field.

    Parameters
    ----------
    row : FieldRow
        The field.
    crop : CropStanding
        Where its crop stands.
    walk : WalkRow or None
        The newest one with a plant.
    call : mapping or None
        The newest call on it.

    Returns
    -------
    Standing
        Without a call where the field has lost its rule or its dates since.
    """
    return Standing(row, crop, walk, call if row.guideline and crop.dates is not None else None)


def why_no_stage(district: District, on: date) -> str:
    """Say why weather tells the stage of no field, where some wait for it.

    Parameters
    ----------
    district : District
        The district.
    on : date
        The day.

    Returns
    -------
    str
        The reason of the first field, as a sentence; empty where a stage is worked out, or none
        has to be.
    """
    rows = list(district.fields.prefetch_related("seasons", "treatments"))
    clocks = Clocks(rows, {on.year})
    told = ""
    for row in rows:
        crop = clocks.standing(row, on)
        if crop.worked is not None:
            return ""
        told = told or crop.why_not
    return told


def fields_by_station(station: StationRow, on: date) -> int:
    """Count the fields whose stage is worked out from the weather of a station.

    Parameters
    ----------
    station : StationRow
        The station.
    on : date
        The day in the district.

    Returns
    -------
    int
        [fields]
    """
    rows = list(station.district.fields.prefetch_related("seasons", "treatments"))
    clocks, label = Clocks(rows, {on.year}), to_station(station).label
    worked = (clocks.standing(row, on).worked for row in rows)
    return sum(each is not None and each.station == label for each in worked)


def newest_calls(walk_ids: Iterable[str]) -> dict[str, Mapping[str, Any]]:
    """Give the newest call on each of some walks.

    Parameters
    ----------
    walk_ids : iterable of str
        Ids of walks.

    Returns
    -------
    dict of str to mapping
        As the JSON of calls tells them, by walk; without a call it is left out.
    """
    rows = CallRow.objects.filter(walk_id__in=list(walk_ids)).order_by("pk")
    contents = dict(rows.values_list("walk_id", "content"))
    return {walk_id: json.loads(content) for walk_id, content in contents.items()}
