"""Where a crop stands, in a few words."""

from __future__ import annotations

from quarterwalk.call.clock_told import distance_told, in_doubt, miles_from_km
from quarterwalk.call.figures import chance_words
from quarterwalk.crop import Stage, StageName, WeekOdds, load_needs
from quarterwalk.office.crop_clocks import WorkedFrom
from quarterwalk.office.pages.due import CHECK_PLANTING
from quarterwalk.office.rule_season import lacks_bloom

# Past this a doubt is too small to be told in words. [fraction]
_CERTAIN = 0.995

LOOK_FOR_FLOWER = "look for the first flower"
"""The sign on a field that may bloom any day."""


def sign_of(stage: Stage | None) -> str:
    """Give the sign on a field: what whoever walks it has to look into.

    Parameters
    ----------
    stage : Stage or None
        Where its crop stands; its season is not over.

    Returns
    -------
    str
        Empty where there is nothing to look into.
    """
    if in_doubt(stage):
        return CHECK_PLANTING
    may_bloom = (
        stage is not None
        and stage.worked_out is None
        and stage.name is StageName.SQUARING
        and not stage.bloom_known
        and stage.days[1] >= load_needs().value("look_for_bloom_after")
    )
    return LOOK_FOR_FLOWER if may_bloom else ""


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
    return "past squaring, no bloom given" if lacks_bloom(stage) else _week(stage)


def _week(stage: Stage) -> str:
    weeks = stage.squaring_weeks
    if len(weeks) == 1:
        first, last = max(stage.days[0], 0), stage.days[1]
        days = f"day {last}" if first == last else f"day {first} to {last}"
        return f"week {weeks[0]}, {days}"
    return f"week {weeks[0]} to {weeks[-1]}" if len(weeks) > 2 else f"week {weeks[0]} or {weeks[1]}"


_STRETCHES = {"before": "before squaring", "squaring": "squaring", "blooming": "blooming"}


def _likeliest(told: WeekOdds, *, odds: bool) -> str:
    """Name where the crop most likely stands, with the doubt that is left."""
    week, (stretch, chance) = told.likely_week, told.stretches[0]
    words = _STRETCHES[stretch]
    if week is not None:
        best = told.weeks[week - 1]
        if best < 1 / 2:
            # other weeks together are likelier than the likeliest one
            return _split(week, best, chance, odds=odds)
        words, chance = f"week {week}", best
    if chance >= _CERTAIN:
        return words
    return f"{words}, {chance_words(chance)}" if odds else f"{words}, most likely"


def _split(week: int, best: float, squaring: float, *, odds: bool) -> str:
    if not odds:
        return f"squaring, most likely week {week}"
    if squaring >= _CERTAIN:
        return f"squaring; week {week}, {chance_words(best)}"
    return f"squaring, {chance_words(squaring)}; week {week}, {chance_words(best)}"


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
    return f"{told}, {distance_told(miles_from_km(worked.distance_km))} miles off"
