"""One field's season, told from its clock, its weather and its walks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from quarterwalk.call import Verdict
from quarterwalk.office.access import walks_seen
from quarterwalk.office.crop_clocks import FieldSeason, season_of
from quarterwalk.office.models import FieldRow, Membership, WalkRow
from quarterwalk.office.queries.standing import newest_calls
from quarterwalk.office.translate import season_on, to_guideline
from quarterwalk.picture.season_drawn import SeasonWalk
from quarterwalk.report.season import make_season
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport

Told = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class SeasonSeen:
    """A field's season, or why it can't be worked out."""

    report: SeasonReport | None
    why_not: str = ""


def season_seen(row: FieldRow, part: Membership, on: date) -> SeasonSeen:
    """Tell one field's season.

    Parameters
    ----------
    row : FieldRow
        The field.
    part : Membership
        Whoever looks.
    on : date
        The day in the district.

    Returns
    -------
    SeasonSeen
    """
    season = season_of(row, on)
    if not isinstance(season, FieldSeason):
        return SeasonSeen(None, season)
    grower = row.grower.name if row.grower else ""
    dates = season_on(row, on)
    again = dates is not None and dates.replanted == season.clock.planted
    report = make_season(
        season.clock,
        field=SeasonField(row.name, grower, row.acres, replanted=again),
        weather=season.weather,
        guideline=to_guideline(row),
        done=_done(row, part, on),
    )
    return SeasonSeen(report)


def _done(row: FieldRow, part: Membership, on: date) -> SeasonDone:
    """Gather walks with their calls, sprays, and the next look that the newest call asks for."""
    walks = walks_seen(part).filter(field=row, on__year=on.year, on__lte=on, plants__gt=0)
    rows = list(walks.exclude(state__in=("void", "unopened")))
    calls = newest_calls(walk.walk_id for walk in rows) if row.guideline else {}
    newest = calls.get(rows[0].walk_id) if rows else None
    treated = row.treatments.filter(on__year=on.year, on__lte=on)
    return SeasonDone(
        walks=tuple(_walk(walk, calls.get(walk.walk_id)) for walk in reversed(rows) if walk.on),
        next_look=_look(newest, on),
        treated=tuple(treated.order_by("on").values_list("on", flat=True)),
    )


def _walk(walk: WalkRow, told: Told | None) -> SeasonWalk:
    verdict = None if told is None else Verdict(told["call"]["verdict"])
    on = walk.on or date.min
    return SeasonWalk(on, None if verdict is Verdict.NONE else verdict)


def _look(told: Told | None, on: date) -> tuple[date, date] | None:
    """Give the last good day of the look that the newest call asks for, while it is to come."""
    day = None if told is None else told["call"]["next_look"]
    if day is None or date.fromisoformat(day) < on:
        return None
    return date.fromisoformat(day), date.fromisoformat(day)
