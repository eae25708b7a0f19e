"""From a season's clock to what its picture shows."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np

from quarterwalk.crop import RANGE, SEASON_DAYS, CropClock, Event
from quarterwalk.guideline import load_routine
from quarterwalk.picture.season_drawn import FloatArray, SeasonDrawn, SeasonMark
from quarterwalk.report.season_days import EVENTS
from quarterwalk.report.season_report import SeasonDone
from quarterwalk.weather.ahead import FEW_YEARS
from quarterwalk.words import phrase

# Room right of the last event, so that its mark does not stand on the edge. [days]
_ROOM = 3

_QUANTILES = ((1 - RANGE) / 2, 0.5, (1 + RANGE) / 2)


def season_drawn(clock: CropClock, done: SeasonDone, *, replanted: bool = False) -> SeasonDrawn:
    """Give what the picture of a season shows.

    Parameters
    ----------
    clock : CropClock
        The season.
    done : SeasonDone
        Walks, sprays and the next look.
    replanted : bool
        Whether the stand was planted over an earlier one.

    Returns
    -------
    SeasonDrawn
        Its words in the language spoken.
    """
    marks = tuple(_marks(clock))
    last = _last(clock, marks, done)
    today, days = (clock.on - clock.planted).days, (last - clock.planted).days + 1
    summed = clock.heat.summed - clock.heat.heat[:, :1]
    heat = np.where(np.arange(today + 1) < clock.heat.known, summed[0, : today + 1], np.nan)
    return SeasonDrawn(
        planted=clock.planted,
        today=clock.on,
        last=last,
        heat=heat,
        ahead=_spread(summed[:, today + 1 : days]),
        normal=_normal(clock, days),
        marks=tuple(mark for mark in marks if mark.span[0] <= last),
        walks=tuple(walk for walk in done.walks if clock.planted <= walk.on <= clock.on),
        next_look=_look(done, last),
        weeks=tuple(_weeks(clock)),
        treated=tuple(day for day in done.treated if clock.planted <= day <= clock.on),
        replanted=replanted,
    )


def _spread(sums: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    low, middle, high = np.quantile(sums, _QUANTILES, axis=0)
    return low, middle, high


def _normal(clock: CropClock, days: int) -> tuple[FloatArray, FloatArray, FloatArray] | None:
    """Give the usual run of the heat; few years do not tell what is usual."""
    others = clock.heat.others
    if len(clock.heat.years) < FEW_YEARS:
        return None
    return _spread(np.cumsum(others, axis=1)[:, :days] - others[:, :1])


def _marks(clock: CropClock) -> Iterator[SeasonMark]:
    for event in Event:
        odds, given = clock.odds[event], _given(clock, event)
        likely, span = odds.likely, odds.within(RANGE)
        if likely is None or span is None:
            continue
        name = phrase(EVENTS[event])
        if given is None:
            yield SeasonMark(name, likely, span, seen=False)
        elif given[0] == given[1]:
            yield SeasonMark(name, given[0], given, seen=True)
        else:
            within = min(max(likely, given[0]), given[1])
            yield SeasonMark(name, within, given, seen=False, given=True)


def _given(clock: CropClock, event: Event) -> tuple[date, date] | None:
    """Give the days that somebody gave for an event; they are drawn as they were given."""
    given = clock.given
    if event is Event.FIRST_SQUARE:
        return given.first_square
    bloom = given.bloom or given.bloom_to_come
    return (bloom, bloom) if event is Event.FIRST_BLOOM and bloom else None


def _last(clock: CropClock, marks: tuple[SeasonMark, ...], done: SeasonDone) -> date:
    """Give the last day drawn: past the last event that can be told, and the next look."""
    end = clock.planted + timedelta(days=SEASON_DAYS - 1)
    told = [mark.span[1] for mark in marks] + ([done.next_look[1]] if done.next_look else [])
    last = max(told, default=end) + timedelta(days=_ROOM)
    return max(clock.on, min(last, end))


def _look(done: SeasonDone, last: date) -> tuple[date, date] | None:
    if done.next_look is None or done.next_look[0] > last:
        return None
    return done.next_look


def _weeks(clock: CropClock) -> Iterator[tuple[date, date]]:
    """Give the weeks from the likely first square to the day before the likely bloom."""
    square, bloom = (clock.odds[e].likely for e in (Event.FIRST_SQUARE, Event.FIRST_BLOOM))
    bloom = clock.given.bloom_to_come or bloom
    if square is None or bloom is None:
        return
    week = timedelta(days=load_routine().week_days)
    while square < bloom:
        yield square, min(square + week, bloom) - timedelta(days=1)
        square += week
