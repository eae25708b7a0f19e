"""When this insect stops mattering in one field, by a guideline or by common practice."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from quarterwalk.call.cautions import NEARLY_SURE
from quarterwalk.call.clock_told import in_doubt
from quarterwalk.call.season import Outside, in_season
from quarterwalk.crop import CropClock, Event, outlook_of
from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, Guideline, SeasonEnd, load_routine
from quarterwalk.report.season_dates import days_told
from quarterwalk.words import noted, phrase

# Of each end: ahead; over as far as is known; over by the weather, with no flower seen.
_ENDS = {
    SeasonEnd.WEEK_3: (
        noted(
            "By your guideline this insect stops mattering after week 3 of squaring, about {days},"
            " or at first bloom."
        ),
        noted(
            "By your guideline this insect matters no more: week 3 of squaring ended about {days}."
        ),
        noted(
            "By your guideline this insect matters no more after week 3 of squaring, which most"
            " likely ended about {days}."
        ),
    ),
    SeasonEnd.FIRST_BLOOM: (
        noted("By your guideline this insect stops mattering at first bloom, {days}."),
        noted("By your guideline this insect matters no more: first bloom was {days}."),
        noted(
            "The field most likely blooms by now, and then this insect matters no more by your"
            " guideline."
        ),
    ),
    SeasonEnd.WEEK_AFTER_BLOOM: (
        noted("By your guideline this insect stops mattering 7 days after first bloom, {days}."),
        noted(
            "By your guideline this insect matters no more: 7 days after first bloom were over"
            " {days}."
        ),
        noted(
            "First bloom most likely was 7 days ago or more, and then this insect matters no more"
            " by your guideline."
        ),
    ),
}
_BY_PRACTICE = (
    noted("After first bloom this insect seldom matters."),
    noted("This insect seldom matters now, after first bloom."),
    noted("The field most likely blooms by now, and then this insect seldom matters."),
)
_AHEAD, _OVER, _LIKELY_OVER = range(3)


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
    how = _how_over(clock, guideline, end, days)
    texts = _BY_PRACTICE if end is None else _ENDS[end]
    told = days_told(*days, clock.on)
    if how == _AHEAD and end not in (None, SeasonEnd.WEEK_3) and not _bloom_known(clock):
        told = phrase("most likely {days}", days=told)
    yield days[0], phrase(texts[how], days=told)


def season_over(clock: CropClock, guideline: Guideline) -> bool:
    """Tell whether this insect matters no more for certain, so that no look is due.

    Parameters
    ----------
    clock : CropClock
        The season.
    guideline : Guideline
        The rule.

    Returns
    -------
    bool
        As a walk of this day would have it. False where the season is over by the weather
        alone, or by flowers that the weather hardly allows.
    """
    stage = clock.stage()
    return in_season(stage, guideline).outside is Outside.OVER and not in_doubt(stage)


def _how_over(
    clock: CropClock, guideline: Guideline | None, end: SeasonEnd | None, days: tuple[date, date]
) -> int:
    """Tell whether the end lies ahead, is over, or is so by the weather alone."""
    if end is SeasonEnd.WEEK_3:
        return _how_over_by_week(clock, days[1])
    # bloom is told by the first day outside
    if _bloom_known(clock):
        practice = guideline is None and days[1] <= clock.on
        over = practice or (guideline is not None and season_over(clock, guideline))
        return _OVER if over else _AHEAD
    week = load_routine().week_days if end is SeasonEnd.WEEK_AFTER_BLOOM else 0
    come = clock.odds[Event.FIRST_BLOOM].by(clock.on - timedelta(days=week))
    return _LIKELY_OVER if come >= NEARLY_SURE else _AHEAD


def _how_over_by_week(clock: CropClock, last: date) -> int:
    """Tell the same of the week that the likely first square makes the last one."""
    if last >= clock.on:
        return _AHEAD
    squaring = timedelta(days=CLOSEST_WATCH_WEEKS * load_routine().week_days)
    ended = clock.odds[Event.FIRST_SQUARE].by(clock.on - squaring)
    return _OVER if ended >= NEARLY_SURE else _LIKELY_OVER


def _bloom_known(clock: CropClock) -> bool:
    return clock.bloom is not None or clock.given.bloom_to_come is not None


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
    bloom, given = outlook.bloom, clock.given.bloom or clock.given.bloom_to_come
    if given is not None:
        bloom = (given, given)
    if bloom is None or end is not SeasonEnd.WEEK_AFTER_BLOOM:
        return bloom
    week = timedelta(days=load_routine().week_days)
    return bloom[0] + week, bloom[1] + week
