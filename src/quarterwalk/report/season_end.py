"""When this insect stops mattering in one field, by a guideline or by common practice."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from quarterwalk.crop import CropClock, outlook_of
from quarterwalk.guideline import Guideline, SeasonEnd, load_routine
from quarterwalk.picture.season_words import dates_long
from quarterwalk.report.names import plain
from quarterwalk.words import noted, phrase

# Of each end: where it lies ahead, and where it is over.
_ENDS = {
    SeasonEnd.WEEK_3: (
        noted(
            "By {guideline} this insect stops mattering after week 3 of squaring, about {days},"
            " or at first bloom."
        ),
        noted("By {guideline} this insect matters no more: week 3 of squaring ended about {days}."),
    ),
    SeasonEnd.FIRST_BLOOM: (
        noted("By {guideline} this insect stops mattering at first bloom, {days}."),
        noted("By {guideline} this insect matters no more: first bloom was {days}."),
    ),
    SeasonEnd.WEEK_AFTER_BLOOM: (
        noted("By {guideline} this insect stops mattering 7 days after first bloom, {days}."),
        noted(
            "By {guideline} this insect matters no more: 7 days after first bloom were over {days}."
        ),
    ),
}


def season_end(clock: CropClock, guideline: Guideline | None) -> Iterator[tuple[date, str]]:
    """Say when this insect stops mattering.

    Parameters
    ----------
    clock : CropClock
        The season.
    guideline : Guideline or None
        The rule; None where it is not known.

    Yields
    ------
    (date, str)
        The day that it may begin, and the sentence; nothing where bloom is out of sight.
    """
    end = None if guideline is None else _end(clock, guideline)
    days = _days(clock, end)
    if days is None:
        return
    # week 3 is told by its last day, bloom by the first day outside
    over = days[1] < clock.on if end is SeasonEnd.WEEK_3 else days[1] <= clock.on
    if guideline is not None and end is not None:
        text = _ENDS[end][1 if over else 0]
        yield days[0], phrase(text, guideline=plain(guideline.name), days=dates_long(*days))
    elif over:
        yield days[0], phrase("This insect seldom matters now, after first bloom.")
    else:
        yield days[0], phrase("After first bloom this insect seldom matters.")


def _end(clock: CropClock, guideline: Guideline) -> SeasonEnd:
    """Give what ends the season: a bloom that comes inside week 3 ends that too."""
    closest = outlook_of(clock).closest
    early = clock.bloom is not None and closest is not None and clock.bloom <= closest[1]
    if guideline.season_end is SeasonEnd.WEEK_3 and early:
        return SeasonEnd.FIRST_BLOOM
    return guideline.season_end


def _days(clock: CropClock, end: SeasonEnd | None) -> tuple[date, date] | None:
    """Give the days on which the season of this insect may end."""
    outlook = outlook_of(clock)
    if end is SeasonEnd.WEEK_3:
        return None if outlook.closest is None else (outlook.closest[1], outlook.closest[1])
    bloom = outlook.bloom
    if clock.given.bloom is not None:
        bloom = (clock.given.bloom, clock.given.bloom)
    if bloom is None or end is not SeasonEnd.WEEK_AFTER_BLOOM:
        return bloom
    week = timedelta(days=load_routine().week_days)
    return bloom[0] + week, bloom[1] + week
