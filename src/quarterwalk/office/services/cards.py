"""Walk cards: made when somebody asks for the day, kept so that each walk can name its own."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from quarterwalk import __version__
from quarterwalk.call.cautions import host_weeds
from quarterwalk.call.season import in_season
from quarterwalk.card import CardFor, LastCall, make_card
from quarterwalk.crop import CropDates, Stage
from quarterwalk.field import lay_out
from quarterwalk.guideline import Guideline
from quarterwalk.office import clock
from quarterwalk.office.crop_clocks import Clocks
from quarterwalk.office.early_end import stopping_in
from quarterwalk.office.models import CardRow, FieldRow
from quarterwalk.office.translate import dates_given, to_field, to_guideline, to_line


@dataclass(frozen=True, slots=True)
class Given:
    """A card that a phone may fetch.

    Parameters
    ----------
    sha256 : str
        Its name.
    walkable : bool
        Whether a phone can hold the walk.
    why_not : str
        Why it can't; empty where it can.
    """

    sha256: str
    walkable: bool
    why_not: str


def cards_for(
    fields: Sequence[FieldRow], on: date, last: Mapping[int, LastCall]
) -> dict[int, Given]:
    """Give the cards of many fields for one day.

    Parameters
    ----------
    fields : sequence of FieldRow
        With grower, district, seasons and treatments.
    on : date
        The day.
    last : mapping of int to LastCall
        The last call, by the field's key.

    Returns
    -------
    dict of int to Given
        By the field's key.
    """
    clocks = Clocks(fields, {on.year})
    told = {}
    for field in fields:
        crop = clocks.standing(field, on)
        told[field.pk] = _Told(on, crop.dates, crop.stage, last.get(field.pk))
    asked = {field.pk: _inputs(field, told[field.pk]) for field in fields}
    rows = CardRow.objects.filter(on=on, inputs__in=list(asked.values()))
    here = {row.field_id: row for row in rows if row.inputs == asked.get(row.field_id)}
    new = {
        field.pk: _made(field, asked[field.pk], told[field.pk])
        for field in fields
        if field.pk not in here
    }
    # what it is made from may change and the card not: then the newest inputs find it
    CardRow.objects.bulk_create(
        new.values(), update_conflicts=True, unique_fields=["sha256"], update_fields=["inputs"]
    )
    return {pk: _given(row) for pk, row in (here | new).items()}


def _given(row: CardRow) -> Given:
    content = json.loads(bytes(row.raw))
    return Given(row.sha256, content["walkable"], content["why_not"])


@dataclass(frozen=True, slots=True)
class _Told:
    """What a card tells besides the field itself: its day, where the crop stands, the last call."""

    on: date
    dates: CropDates | None
    stage: Stage | None
    last: LastCall | None


def _made(field: FieldRow, inputs: str, told: _Told) -> CardRow:
    card = make_card(_about(field, told))
    return CardRow(
        sha256=card.hash,
        field=field,
        on=told.on,
        inputs=inputs,
        raw=card.bytes,
        made_at=clock.now(),
    )


def _about(field: FieldRow, told: _Told) -> CardFor:
    until = field.closed_until
    zone = ZoneInfo(field.district.time_zone)
    closed = until.astimezone(zone) if until is not None and until > clock.now() else None
    return CardFor(
        id=field.public_id,
        layout=lay_out(to_field(field), told.on),
        guideline=to_guideline(field),
        dates=told.dates,
        worked_out=None if told.stage is None else told.stage.worked_out,
        line=to_line(field),
        closed_until=closed,
        last=told.last,
        zone=zone,
        stopping=stopping_in(field, told.on, told.dates),
    )


def _inputs(field: FieldRow, told: _Told) -> str:
    """Hash all that a card is made from, besides the program's own data."""
    guideline = to_guideline(field)
    until = field.closed_until
    parts = (
        __version__,
        field.public_id,
        field.name,
        field.farm,
        field.grower.name if field.grower else "",
        field.boundary,
        repr((field.gate_longitude, field.gate_latitude, field.rows)),
        told.on.isoformat(),
        guideline.hash if guideline else "",
        field.line,
        *dates_given(told.dates),
        _read_of(told.stage, guideline),
        field.district.time_zone,
        field.district.stopping,
        until.isoformat() if until is not None and until > clock.now() else "",
        repr(told.last),
    )
    return hashlib.sha256("\x00".join(parts).encode()).hexdigest()


def _read_of(stage: Stage | None, guideline: Guideline | None) -> str:
    """Give what a card reads of a stage that was worked out, besides the crop's dates.

    The rest changes with each day of weather, and no card by it.
    """
    worked = None if stage is None else stage.worked_out
    if stage is None or worked is None:
        return ""
    season = None if guideline is None else in_season(stage, guideline)
    return repr((host_weeds(stage).text, season, worked.bloom, worked.no_flower))
