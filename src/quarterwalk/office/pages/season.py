"""Where a crop stands, in a few words."""

from __future__ import annotations

from datetime import date

from quarterwalk.crop import CropDates, StageName, stage_on


def stage_words(dates: CropDates | None, on: date) -> str:
    """Say where a crop stands on a day.

    Parameters
    ----------
    dates : CropDates or None
        What is known of its season.
    on : date
        The day.

    Returns
    -------
    str
        Such as ``week 2, day 11``; empty where no dates are known.
    """
    if dates is None:
        return ""
    stage = stage_on(on, dates)
    if stage.name is StageName.BEFORE_SQUARING:
        return "before squaring"
    if stage.name is StageName.BLOOMING:
        return "blooming"
    weeks = stage.squaring_weeks
    if len(weeks) == 1:
        first, last = max(stage.days[0], 0), stage.days[1]
        days = f"day {last}" if first == last else f"day {first} to {last}"
        return f"week {weeks[0]}, {days}"
    return f"week {weeks[0]} to {weeks[-1]}" if len(weeks) > 2 else f"week {weeks[0]} or {weeks[1]}"
