"""Gaps in a season's weather, filled by a stated rule and marked."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import replace
from datetime import MAXYEAR, MINYEAR

import numpy as np
import numpy.typing as npt

from quarterwalk.weather.daily import DailyWeather, DayMark, FloatArray, MarkArray

# A rule of this project: what stands between two stations is told by the days on which both
# measured, in the month before and after; with fewer such days it is not told. [days]
NEIGHBOUR_REACH, NEIGHBOUR_LEAST = 30, 10

# A rule of this project: over so many days weather is taken to run on a straight line; a
# front passes within the week. [days]
LONGEST_LINE = 3

# A rule of this project: a day's mean in other years is taken over the days around it, and
# over so many years at least. [days], [years]
SEASON_REACH, YEARS_LEAST = 3, 3

# A rule of this project: with the mean of other years in its place, a gap longer than this
# would no longer be a season that was measured. [days]
LONGEST_MEAN = 14

_MEASURED = (DayMark.MEASURED, DayMark.FORECAST)


def fill_gaps(weather: DailyWeather, neighbours: Sequence[DailyWeather] = ()) -> DailyWeather:
    """Fill the days that are missing, as far as the rule allows, and mark them.

    Parameters
    ----------
    weather : DailyWeather
        Days at the station that a field goes by.
    neighbours : sequence of DailyWeather
        Other stations, the nearest first.

    Returns
    -------
    DailyWeather
        What could not be filled is still missing.

    Notes
    -----
    In this order. (1) The nearest other station that measured the day, plus the mean
    difference between the two stations on the days around it; (2) up to three days in a
    row: a straight line; (3) up to fourteen days in a row: the mean of the days around it
    in three other years or more.
    What is filled serves no other fill of the first and third kind.
    """
    tmin, tmax, marks = weather.tmin_f.copy(), weather.tmax_f.copy(), weather.marks.copy()
    for other in neighbours:
        _from_neighbour(weather, other, tmin, tmax, marks)
    _on_a_line(tmin, tmax, marks)
    _from_other_years(weather, tmin, tmax, marks)
    low, high = np.minimum(tmin, tmax), np.maximum(tmin, tmax)
    return replace(weather, tmin_f=low, tmax_f=high, marks=marks)


def _from_neighbour(
    weather: DailyWeather,
    other: DailyWeather,
    tmin: FloatArray,
    tmax: FloatArray,
    marks: MarkArray,
) -> None:
    beside = other.between(weather.first, weather.last)
    measured = np.isin(beside.marks, _MEASURED)
    common = np.flatnonzero(measured & np.isin(weather.marks, _MEASURED))
    for index in np.flatnonzero((marks == DayMark.MISSING) & measured):
        ends = np.searchsorted(common, (index - NEIGHBOUR_REACH, index + NEIGHBOUR_REACH + 1))
        near = common[slice(*ends)]
        if near.size < NEIGHBOUR_LEAST:
            continue
        for mine, own, theirs in (
            (tmin, weather.tmin_f, beside.tmin_f),
            (tmax, weather.tmax_f, beside.tmax_f),
        ):
            mine[index] = theirs[index] + np.mean(own[near] - theirs[near])
        marks[index] = DayMark.NEIGHBOUR


def _on_a_line(tmin: FloatArray, tmax: FloatArray, marks: MarkArray) -> None:
    missing = marks == DayMark.MISSING
    for first, after in _runs(missing):
        if first == 0 or after == marks.size or after - first > LONGEST_LINE:
            continue
        inside, ends = np.arange(first, after), (first - 1, after)
        for values in (tmin, tmax):
            values[inside] = np.interp(inside, ends, values[list(ends)])
        marks[inside] = DayMark.BETWEEN


def _from_other_years(
    weather: DailyWeather, tmin: FloatArray, tmax: FloatArray, marks: MarkArray
) -> None:
    measured = np.isin(weather.marks, _MEASURED)
    reach = np.arange(-SEASON_REACH, SEASON_REACH + 1)
    short = [run for run in _runs(marks == DayMark.MISSING) if run[1] - run[0] <= LONGEST_MEAN]
    for index in (index for run in short for index in range(*run)):
        days = _same_days(weather, index)[:, None] + reach
        serve = (days >= 0) & (days < marks.size)
        serve[serve] = measured[days[serve]]
        if np.count_nonzero(serve.any(axis=1)) < YEARS_LEAST:
            continue
        tmin[index] = weather.tmin_f[days[serve]].mean()
        tmax[index] = weather.tmax_f[days[serve]].mean()
        marks[index] = DayMark.OTHER_YEARS


def _same_days(weather: DailyWeather, index: int) -> npt.NDArray[np.intp]:
    """Give the places of one calendar day in the other years.

    For 29 February it is the 29th in leap years and the 28th in others.
    """
    day = weather.day_at(index)
    years = range(weather.first.year - 1, weather.last.year + 2)
    return np.array([
        weather.index_of(day.replace(year=year, day=min(day.day, monthrange(year, day.month)[1])))
        for year in years
        if year != day.year and MINYEAR <= year <= MAXYEAR
    ], np.intp)  # fmt: skip


def _runs(flags: npt.NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Give the stretches that are true, each as its first place and the one after its last."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(np.int8)))
    return list(zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True))
