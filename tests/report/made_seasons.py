"""Seasons made to order, under invented weather, and the reports of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import numpy as np

from quarterwalk.call import Verdict
from quarterwalk.crop import CropClock, Given, Seen, clock_for
from quarterwalk.guideline import load_guideline
from quarterwalk.picture.season_drawn import SeasonWalk
from quarterwalk.report.season import make_season
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.weather.daily import DailyWeather, DayMark
from quarterwalk.weather.station import Station

PLANTED = date(2026, 5, 8)
_FIRST = date(1995, 1, 1)


@cache
def weather(last: date = date(2026, 8, 31), first: date = _FIRST) -> DailyWeather:
    """Make days like those of a cotton plain: warm from May on, a week alike, a year unlike."""
    dice = np.random.default_rng(1)
    days = (date(2026, 12, 31) - _FIRST).days + 1
    of_year = np.array([(_FIRST + timedelta(days=i)).timetuple().tm_yday for i in range(days)])
    usual = 60 + 22 * np.sin(2 * np.pi * (of_year - 105) / 365)
    off = np.zeros(days)
    for day in range(1, days):
        off[day] = 0.7 * off[day - 1] + dice.normal(0, 4.5)
    station = Station("GIN", "Caliche Gin")
    low, high = usual - 13 + off * 0.7, usual + 14 + off
    whole = DailyWeather(station, _FIRST, low, high, np.full(days, DayMark.MEASURED, np.uint8))
    return whole.between(first, last)


def day(month: int, number: int) -> date:
    return date(2026, month, number)


@cache
def clock(
    on: date,
    *,
    planted: date = PLANTED,
    given: Given | None = None,
    seen: tuple[Seen, ...] = (),
    first: date = _FIRST,
) -> CropClock:
    return clock_for(weather(first=first), planted, on=on, given=given, seen=seen)


def season(
    read: CropClock,
    *,
    field: str = "Windmill 80",
    gone_by: DailyWeather | None = None,
    km: float | None = 9.6,
    about: SeasonField | None = None,
    language: str = "en",
    **named,
) -> SeasonReport:
    """Tell of a season; the weather is known until its day."""
    about = about or SeasonField(field, grower="Marlow Teague", acres=74.2)
    by = FieldWeather(gone_by or weather(last=read.on), km)
    return make_season(read, field=about, weather=by, language=language, **named)


def walks(*told: tuple[int, int, Verdict]) -> tuple[SeasonWalk, ...]:
    return tuple(SeasonWalk(day(month, number), verdict) for month, number, verdict in told)


def marked(days: DailyWeather, first: date, last: date, mark: DayMark) -> DailyWeather:
    """Mark some days as filled, or as forecast."""
    marks = days.marks.copy()
    marks[days.index_of(first) : days.index_of(last) + 1] = mark
    return replace(days, marks=marks)


def unlike(language: str = "en") -> Iterator[tuple[str, SeasonReport]]:
    """Give seasons as unlike as they come."""
    squaring = (Seen(day(6, 10), plants=20, pinhead=4), Seen(day(6, 17), plants=20, pinhead=15))
    yield (
        "squaring",
        season(
            clock(day(6, 24), seen=squaring),
            language=language,
            guideline=load_guideline("southern-high-plains"),
            done=SeasonDone(
                walks((6, 10, Verdict.HOLD), (6, 17, Verdict.LOOK_SOONER), (6, 21, Verdict.TREAT)),
                next_look=(day(6, 25), day(6, 26)),
                treated=(day(6, 22),),
            ),
        ),
    )
    yield "not up", season(clock(day(5, 11)), language=language)
    again = clock(day(6, 24), planted=day(6, 2), seen=(Seen(day(6, 23), true_leaves=3),))
    yield "replanted", season(again, language=language)
    at_odds = (
        Seen(day(6, 1), plants=20, pinhead=14),
        Seen(day(6, 3), plants=20, pinhead=2),
        Seen(day(6, 12), squaring_branches=4.0),
    )
    told = clock(day(6, 20), seen=at_odds)
    yield "at odds", season(told, language=language, done=SeasonDone(walks((6, 12, Verdict.HOLD))))
    flowers = (
        Seen(day(6, 17), plants=20, pinhead=12),
        Seen(day(7, 2), bloom=False),
        Seen(day(7, 10), bloom=True),
        Seen(day(7, 18), nawf=7.5),
    )
    yield (
        "blooming",
        season(
            clock(day(7, 20), seen=flowers),
            language=language,
            done=SeasonDone(
                walks((6, 12, Verdict.HOLD), (6, 19, Verdict.HOLD), (6, 26, Verdict.LOOK_SOONER)),
            ),
        ),
    )
    given = clock(day(6, 24), given=Given((day(6, 12), day(6, 12))))
    yield "given", season(given, language=language)
    few = clock(day(6, 24), first=date(2026, 4, 1))
    yield "no other years", season(few, language=language, km=None)
