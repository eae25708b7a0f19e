"""What is odd in a station's days, and what is done about it.

Nothing is filled in here and nothing is mended: a day that can't be right is missing
from here on, and the finding says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date

import numpy as np
import numpy.typing as npt

from quarterwalk.files.refusal import refuse
from quarterwalk.files.weather_days import F_PER_C, FREEZING_F, StatedDays, to_fahrenheit
from quarterwalk.files.weather_said import Odd, said_of_more, said_of_run
from quarterwalk.files.weather_units import refuse_mixed_up, switched_days
from quarterwalk.weather.daily import DailyWeather, DayMark

BoolArray = npt.NDArray[np.bool_]

# Beyond the world's records of -89.2 and 56.7 °C (WMO World Weather and Climate Extremes
# Archive, from memory), rounded outward. [°C]
COLDEST_C, HOTTEST_C = -90.0, 60.0
# Days in a row with the same two temperatures that look like a stuck thermometer: a rule
# of this project. [days]
STUCK_DAYS = 5
# More than this share of swapped days is a swapped pair of columns: a rule of this
# project. [fraction]
MOST_SWAPPED = 0.5
# Runs of days that are told one by one for each kind and station; the rest are told
# together. A rule of this project. [count]
MOST_RUNS = 10


@dataclass(frozen=True, slots=True)
class WeatherFinding:
    """Something odd in some days of a station.

    Parameters
    ----------
    station : str
        Its id.
    first, last : date
        The days; both are inside.
    code : str
        One of `Odd`.
    text : str
        What it is and what was done, in plain words.
    """

    station: str
    first: date
    last: date
    code: str
    text: str


def checked_days(file: str, days: StatedDays) -> tuple[DailyWeather, tuple[WeatherFinding, ...]]:
    """Check a station's days, and take out those that can't be right.

    Parameters
    ----------
    file : str
        What errors call it.
    days : StatedDays
        As the file states them.

    Returns
    -------
    weather : DailyWeather
        In degrees Fahrenheit.
    findings : tuple of WeatherFinding
        Kind by kind, each in the order of the days.

    Raises
    ------
    RefusedInput
        If the two temperatures are swapped on most days, or plausible only in the unit
        that is not stated.
    """
    refuse_mixed_up(file, days)
    out = np.zeros(days.marks.size, np.bool_)
    findings: list[WeatherFinding] = []
    for odd, find in _CHECKS.items():
        found = find(days) & ~out
        if odd is Odd.SWAPPED:
            _refuse_swapped_columns(file, days, found, ~out)
        out |= found
        findings += _told(odd, days, found)
    findings += _told(Odd.STUCK, days, _stuck(days) & ~out)
    return _weather(days, out), tuple(findings)


def _weather(days: StatedDays, out: BoolArray) -> DailyWeather:
    low, high = (
        np.where(out, np.nan, to_fahrenheit(values, days.unit)) for values in (days.tmin, days.tmax)
    )
    marks = np.where(out, DayMark.MISSING, days.marks).astype(np.uint8)
    return DailyWeather(days.station, days.first, low, high, marks)


def _failed(days: StatedDays) -> BoolArray:
    return _at(days, days.failed)


def _with_few_hours(days: StatedDays) -> BoolArray:
    return _at(days, days.few_hours)


def _at(days: StatedDays, places: Iterable[int]) -> BoolArray:
    found = np.zeros(days.marks.size, np.bool_)
    found[list(places)] = True
    return found


def _without_both(days: StatedDays) -> BoolArray:
    return np.isnan(days.tmin) & np.isnan(days.tmax)


def _with_one(days: StatedDays) -> BoolArray:
    one: BoolArray = np.isnan(days.tmin) != np.isnan(days.tmax)
    return one


def _impossible(days: StatedDays) -> BoolArray:
    coldest, hottest = (c * F_PER_C + FREEZING_F for c in (COLDEST_C, HOTTEST_C))
    both = np.stack([to_fahrenheit(values, days.unit) for values in (days.tmin, days.tmax)])
    outside: BoolArray = np.any((both < coldest) | (both > hottest), axis=0)
    return outside


def _swapped(days: StatedDays) -> BoolArray:
    above: BoolArray = days.tmin > days.tmax
    return above


_CHECKS: dict[Odd, Callable[[StatedDays], BoolArray]] = {
    Odd.FAILED: _failed,
    Odd.FEW_HOURS: _with_few_hours,
    Odd.MISSING: _without_both,
    Odd.ONE_EXTREME: _with_one,
    Odd.UNIT: switched_days,
    Odd.IMPOSSIBLE: _impossible,
    Odd.SWAPPED: _swapped,
}
"""Checks that take days out, in the order in which a day is taken out but once."""


def _refuse_swapped_columns(
    file: str, days: StatedDays, swapped: BoolArray, possible: BoolArray
) -> None:
    count, of = int(np.count_nonzero(swapped)), int(np.count_nonzero(possible))
    if count > MOST_SWAPPED * of:
        got = f"station {days.station.label}: above it on {count} of {of} days"
        expected = "lowest temperatures that are not above the highest"
        refuse(file, got, expected, "Are the two columns swapped?")


def _stuck(days: StatedDays) -> BoolArray:
    """Find measured days in a row whose two temperatures are the same."""
    is_measured = days.marks == DayMark.MEASURED
    same = (np.diff(days.tmin) == 0.0) & (np.diff(days.tmax) == 0.0)
    same &= is_measured[1:] & is_measured[:-1]
    found = np.zeros(days.marks.size, np.bool_)
    for begin, end in _runs(same):
        if end - begin + 1 >= STUCK_DAYS:
            found[begin : end + 1] = True
    return found


def _runs(mask: BoolArray) -> Iterator[tuple[int, int]]:
    """Give the first place and the one after the last of each run. [from 0]"""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], mask, [False]]).astype(np.int8)))
    yield from zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)


def _told(odd: Odd, days: StatedDays, found: BoolArray) -> Iterator[WeatherFinding]:
    runs = list(_runs(found))
    if odd is Odd.STUCK:
        runs = [part for run in runs for part in _parts(days, *run)]
    for begin, end in runs[:MOST_RUNS]:
        yield _finding(odd, days, begin, end, said_of_run(odd, days, begin, end))
    if rest := runs[MOST_RUNS:]:
        begin, end = rest[0][0], rest[-1][1]
        count = sum(last - first for first, last in rest)
        yield _finding(odd, days, begin, end, said_of_more(days, begin, end, count))


def _parts(days: StatedDays, begin: int, end: int) -> Iterator[tuple[int, int]]:
    """Part a run where the values change from one stuck pair to another."""
    change = np.diff(days.tmin[begin:end]) != 0.0
    change |= np.diff(days.tmax[begin:end]) != 0.0
    edges = [begin, *(np.flatnonzero(change) + begin + 1).tolist(), end]
    yield from zip(edges[:-1], edges[1:], strict=True)


def _finding(odd: Odd, days: StatedDays, begin: int, end: int, text: str) -> WeatherFinding:
    first, last = days.day_at(begin), days.day_at(end - 1)
    return WeatherFinding(days.station.id, first, last, odd.value, text)
