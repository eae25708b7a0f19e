"""Where a crop stands, in a few words."""

from __future__ import annotations

from quarterwalk.call.figures import odds_words
from quarterwalk.crop import Stage, StageName, WeekOdds
from quarterwalk.office.crop_clocks import WorkedFrom
from quarterwalk.units import FOOT_M, MILE_FEET

_MILES_PER_KM = float(1000 / (MILE_FEET * FOOT_M))

# Below this a distance is told with a decimal. [miles]
_NEAR = 10

# Past this a doubt is too small to be told in words. [fraction]
_CERTAIN = 0.995


def stage_words(stage: Stage | None, *, odds: bool = True) -> str:
    """Say where a crop stands on a day.

    Parameters
    ----------
    stage : Stage or None
        Where it stands.
    odds : bool
        Whether chances are told as odds, where first square was worked out.

    Returns
    -------
    str
        Such as ``week 2, day 11``, or ``week 2, about 8 in 10``; empty where nothing is known.
    """
    if stage is None:
        return ""
    if stage.worked_out is not None:
        return _likeliest(stage.worked_out.weeks, odds=odds)
    if stage.name is StageName.BEFORE_SQUARING:
        return "before squaring"
    if stage.name is StageName.BLOOMING:
        return "blooming"
    return _week(stage)


def _week(stage: Stage) -> str:
    weeks = stage.squaring_weeks
    if len(weeks) == 1:
        first, last = max(stage.days[0], 0), stage.days[1]
        days = f"day {last}" if first == last else f"day {first} to {last}"
        return f"week {weeks[0]}, {days}"
    return f"week {weeks[0]} to {weeks[-1]}" if len(weeks) > 2 else f"week {weeks[0]} or {weeks[1]}"


def _likeliest(told: WeekOdds, *, odds: bool) -> str:
    """Name where the crop most likely stands, with the doubt that is left."""
    chances = [(told.before, "before squaring"), (told.blooming, "blooming")]
    chances += [(chance, f"week {week}") for week, chance in enumerate(told.weeks, start=1)]
    chance, words = max(chances)
    if chance >= _CERTAIN:
        return words
    return f"{words}, {odds_words(chance)}" if odds else f"{words}, most likely"


def rests_on(worked: WorkedFrom) -> str:
    """Say what a stage was worked out from.

    Parameters
    ----------
    worked : WorkedFrom
        Where the weather was measured.

    Returns
    -------
    str
        Such as ``Worked out from the weather of Lone Tree, 12 miles off``.
    """
    told = f"Worked out from the weather of {worked.station}"
    if worked.distance_km is None:
        return told
    miles = worked.distance_km * _MILES_PER_KM
    return f"{told}, {miles:.0f} miles off" if miles >= _NEAR else f"{told}, {miles:.1f} miles off"
