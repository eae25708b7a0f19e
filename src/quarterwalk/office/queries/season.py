"""One field's season, told from its clock, its weather and its walks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from quarterwalk.call import Verdict
from quarterwalk.call.after_spray import look_after_spray
from quarterwalk.office.access import walks_seen
from quarterwalk.office.crop_clocks import FieldSeason, season_of
from quarterwalk.office.models import FieldRow, Membership, WalkRow
from quarterwalk.office.queries.standing import newest_calls
from quarterwalk.office.rule_season import past_all_days, season_is_over
from quarterwalk.office.services.calls import call_for
from quarterwalk.office.translate import season_on, to_guideline
from quarterwalk.picture.season_drawn import SeasonWalk
from quarterwalk.report.season import make_season
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport

Told = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class SeasonSeen:
    """A field's season, or why it can't be worked out: it may be over."""

    report: SeasonReport | None
    why_not: str = ""
    over: bool = False


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
        return SeasonSeen(None, season, past_all_days(row, on))
    grower = row.grower.name if row.grower else ""
    dates = season_on(row, on)
    again = dates is not None and dates.replanted == season.clock.planted
    report = make_season(
        season.clock,
        field=SeasonField(row.name, grower, row.acres, replanted=again),
        weather=season.weather,
        guideline=to_guideline(row),
        done=_done(row, part, on, over=season_is_over(row, season.clock.stage(), on)),
    )
    return SeasonSeen(report)


def _done(row: FieldRow, part: Membership, on: date, *, over: bool) -> SeasonDone:
    """Gather walks with their calls, sprays, and the next look that the newest call asks for."""
    walks = walks_seen(part).filter(field=row, on__year=on.year, on__lte=on, plants__gt=0)
    rows = list(walks.exclude(state__in=("void", "unopened")))
    calls = newest_calls(walk.walk_id for walk in rows) if row.guideline else {}
    sprayed = row.treatments.filter(on__year=on.year, on__lte=on)
    treated = tuple(sprayed.order_by("on").values_list("on", flat=True))
    return SeasonDone(
        walks=tuple(_walk(walk, calls.get(walk.walk_id)) for walk in reversed(rows) if walk.on),
        next_look=_look(rows[0], treated) if rows and not over else None,
        treated=treated,
    )


def _walk(walk: WalkRow, told: Told | None) -> SeasonWalk:
    verdict = None if told is None else Verdict(told["call"]["verdict"])
    on = walk.on or date.min
    return SeasonWalk(on, verdict)


def _look(walk: WalkRow, treated: tuple[date, ...]) -> tuple[date, date] | None:
    """Give the first and last day of the look that the newest walk's call, or a spray, asks for.

    Also where it is late: nobody has come back since.
    """
    look = None if walk.on is None else look_after_spray(walk.on, treated)
    if look is None:
        judged = call_for(walk)  # what is kept of a call tells the last day only
        call = None if judged is None else judged.call
        look = None if call is None else call.next_look
    return None if look is None else (look.soonest, look.latest)
