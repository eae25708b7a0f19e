"""One field with all that its page shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from quarterwalk.crop import CropDates
from quarterwalk.field import Layout
from quarterwalk.guideline import Guideline
from quarterwalk.office.access import walks_seen
from quarterwalk.office.crop_clocks import Clocks
from quarterwalk.office.models import (
    FieldRow,
    Membership,
    RemarkRow,
    SeasonRow,
    SeenRow,
    WalkRow,
)
from quarterwalk.office.queries.ground import laid_out
from quarterwalk.office.queries.standing import Standing, newest_calls, standing
from quarterwalk.office.translate import season_on, to_guideline

# Walks and remarks of a page; a season of a field has some ten.
_MOST = 60


@dataclass(frozen=True, slots=True)
class FieldTold:
    """What is known of one field.

    Parameters
    ----------
    standing : Standing
        The field with its newest walk and that walk's call.
    now : datetime
        The time in the district.
    season : SeasonRow or None
        What is known of this year's season.
    guideline : Guideline or None
        The rule.
    layout : Layout
        The field laid out for today.
    walks : tuple of WalkRow
        The newest first.
    calls : mapping
        The newest call of each of those walks, as its JSON tells it.
    remarks : tuple of RemarkRow
        What was seen, and notes; the newest first.
    seen : tuple of SeenRow
        What people noted of this year's crop, the newest first; none that was struck.
    """

    standing: Standing
    now: datetime
    season: SeasonRow | None
    guideline: Guideline | None
    layout: Layout
    walks: tuple[WalkRow, ...]
    calls: Mapping[str, Mapping[str, Any]]
    remarks: tuple[RemarkRow, ...]
    seen: tuple[SeenRow, ...]

    @property
    def dates(self) -> CropDates | None:
        """The dates of this year's crop."""
        return self.standing.dates


def field_told(row: FieldRow, part: Membership, now: datetime) -> FieldTold:
    """Gather what is known of one field.

    Parameters
    ----------
    row : FieldRow
        The field.
    part : Membership
        Whoever looks.
    now : datetime
        The time.

    Returns
    -------
    FieldTold
    """
    here = now.astimezone(ZoneInfo(row.district.time_zone))
    walks = tuple(walks_seen(part).filter(field=row)[:_MOST])
    calls = newest_calls(walk.walk_id for walk in walks) if row.guideline else {}
    newest = next((walk for walk in walks if _counts(walk, here.year)), None)
    call = calls.get(newest.walk_id) if newest is not None else None
    crop = Clocks([row], {here.year}).standing(row, here.date())
    remarks = row.remarks.order_by("-at", "device_id", "seq")[:_MOST]
    return FieldTold(
        standing=standing(row, crop, newest, call),
        now=here,
        season=season_on(row, here.date()),
        guideline=to_guideline(row),
        layout=laid_out(row, here.date()),
        walks=walks,
        calls=calls,
        remarks=tuple(remarks),
        seen=seen_in(row, here.year),
    )


def seen_in(row: FieldRow, year: int) -> tuple[SeenRow, ...]:
    """Give what people noted of a field's crop in one season.

    Parameters
    ----------
    row : FieldRow
        The field.
    year : int
        The season's year.

    Returns
    -------
    tuple of SeenRow
        All of them, the newest first; none that was struck.
    """
    rows = SeenRow.objects.filter(field=row, on__year=year, struck_at=None)
    return tuple(rows.select_related("by").order_by("-on", "-pk"))


def _counts(walk: WalkRow, year: int) -> bool:
    """Tell whether a walk says something of a field in a season."""
    whole = walk.plants > 0 and walk.state not in ("void", "unopened")
    return whole and walk.on is not None and walk.on.year == year


def others_without_rule(row: FieldRow) -> int:
    """Count the other fields of a field's district for which nobody chose a rule.

    Parameters
    ----------
    row : FieldRow
        The field.

    Returns
    -------
    int
        [fields]
    """
    return FieldRow.objects.filter(district=row.district, guideline="").exclude(pk=row.pk).count()


@dataclass(frozen=True, slots=True)
class SeasonTold:
    """What is known of one year's season of a field, to begin a form with."""

    season: SeasonRow | None
    treated: tuple[date, ...]


def season_told(row: FieldRow, year: int) -> SeasonTold:
    """Gather what is known of a field's season.

    Parameters
    ----------
    row : FieldRow
        The field.
    year : int
        The season's year.

    Returns
    -------
    SeasonTold
    """
    days = row.treatments.filter(on__year=year).order_by("on").values_list("on", flat=True)
    return SeasonTold(row.seasons.filter(year=year).first(), tuple(days))
