"""Which days of a stage a guideline speaks of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quarterwalk.crop import Stage, StageName, weeks_between
from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, Guideline, SeasonEnd, load_routine


class Outside(StrEnum):
    """Why a guideline has nothing to say on a day."""

    BEFORE = "before-squaring"
    OVER = "season-over"
    BLOOM_UNKNOWN = "bloom-date"


@dataclass(frozen=True, slots=True)
class InSeason:
    """What a guideline has to go by on the days that the dates allow.

    Parameters
    ----------
    weeks : tuple of int or None
        Squaring weeks inside the season; a single None while blooming. [from 1]
    outside : Outside or None
        Why no day is inside; None where one is.
    reaches_outside : bool
        Whether the dates also allow days outside.
    ask_bloom : bool
        Whether first bloom should have come, and is not known.
    surely_late : bool
        Whether that holds of every day that the dates allow.
    too_late : bool
        Whether the dates also allow days for which there is no call until it is known.
    """

    weeks: tuple[int | None, ...] = ()
    outside: Outside | None = None
    reaches_outside: bool = False
    ask_bloom: bool = False
    surely_late: bool = False
    too_late: bool = False

    @property
    def at_edge(self) -> bool:
        """Whether the dates also allow days that get no call: then none is to treat."""
        return self.reaches_outside or self.too_late


def in_season(stage: Stage, guideline: Guideline) -> InSeason:
    """Tell which squaring weeks a guideline is to be applied for.

    Parameters
    ----------
    stage : Stage
        Where the crop stands on the day of the walk.
    guideline : Guideline
        The rule; it says when its season ends.

    Returns
    -------
    InSeason
    """
    if stage.name is StageName.BEFORE_SQUARING:
        return InSeason(outside=Outside.BEFORE)
    if stage.name is StageName.BLOOMING:
        return _blooming(stage, guideline)
    first, last = stage.days
    final = _last_day(stage, guideline)
    inside = (max(first, 0), last if final is None else min(last, final))
    if inside[0] > inside[1]:
        over = guideline.season_end is SeasonEnd.WEEK_3
        return InSeason(outside=Outside.OVER if over else Outside.BLOOM_UNKNOWN)
    late, surely = (day > load_routine().ask_bloom_after for day in (inside[1], first))
    over = guideline.season_end is SeasonEnd.WEEK_3 and last > inside[1]
    return InSeason(
        weeks=weeks_between(*inside),
        reaches_outside=over or first < 0 or _likely_over(stage, guideline),
        ask_bloom=late and not stage.bloom_known,
        surely_late=surely,
        too_late=last > inside[1] and not over,
    )


def _likely_over(stage: Stage, guideline: Guideline) -> bool:
    """Tell whether by weather a bloom that ends the season is likelier over than not."""
    told = stage.worked_out
    if told is None or stage.bloom_known:
        return False
    if guideline.season_end is SeasonEnd.WEEK_AFTER_BLOOM:
        return told.bloomed_a_week > 1 / 2
    return told.weeks.blooming > 1 / 2


def _blooming(stage: Stage, guideline: Guideline) -> InSeason:
    least, most = stage.days_blooming
    week = load_routine().week_days
    if guideline.season_end is SeasonEnd.WEEK_AFTER_BLOOM and least < week:
        return InSeason(weeks=(None,), reaches_outside=most >= week)
    return InSeason(outside=Outside.OVER)


def _last_day(stage: Stage, guideline: Guideline) -> int | None:
    """Last day since first square on which the guideline holds while squaring."""
    routine = load_routine()
    if guideline.season_end is SeasonEnd.WEEK_3:
        return CLOSEST_WATCH_WEEKS * routine.week_days - 1
    return None if stage.bloom_known else routine.no_call_after
