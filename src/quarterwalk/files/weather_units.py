"""Whether temperatures can be in the unit that their file states.

Nothing in a column of numbers says its unit, but the level of a warm season does: no
place has 95 °C, and no cotton grows where July stays below 50 °F.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from quarterwalk.files.refusal import refuse
from quarterwalk.files.weather_days import (
    F_PER_C,
    FREEZING_F,
    Degrees,
    FloatArray,
    StatedDays,
    to_fahrenheit,
)

BoolArray = npt.NDArray[np.bool_]

# The middle of ten or more daily highs is above this nowhere: the hottest month, July in
# Death Valley, has about 47 °C (US climate normals 1991-2020, from memory); the margin and
# the days are a rule of this project. [°C], [days]
HOTTEST_LEVEL_C, LEVEL_DAYS = 52.0, 10
# Highest that was ever measured: 56.7 °C (WMO World Weather and Climate Extremes Archive,
# from memory), rounded up. In °F it is 140; numbers above that are in neither unit. [°C]
ABOVE_ALL_C = 60.0
ABOVE_ALL_F = ABOVE_ALL_C * F_PER_C + FREEZING_F
# Nine in ten warm-season highs below this are a warm season in Celsius; in Fahrenheit
# only ice caps and high mountains have it. A rule of this project. [°F], [fraction]
COLDEST_SUMMER_F, NEARLY_ALL = 50.0, 0.9
# Days that tell a warm season, and where there may be none; rules of this project.
# [count], [degrees], [m]
ENOUGH_DAYS, FAR_NORTH, HIGH_M = 20, 60.0, 2500.0
_WARM_NORTH, _WARM_SOUTH = (5, 6, 7, 8, 9), (11, 12, 1, 2, 3)

# A stretch in the other unit begins and ends with a step of both extremes that is gone
# when it is converted. From 0 °C to 0 °F are 32 °F, at -9 °C still 25; two days in a row
# differ by 12 °F and more all spring, so both extremes have to fit. Rules of this project.
# [°F], [°F], [days], [days], [days], [count]
STEP_F, FIT_F, SHORTEST, SHORTEST_AT_END, AROUND, MOST_STEPS = 25.0, 12.0, 3, 10, 10, 200


def refuse_mixed_up(file: str, days: StatedDays) -> None:
    """Refuse a station's days if their level is plausible in the other unit only.

    Parameters
    ----------
    file : str
        What errors call it.
    days : StatedDays
        As the file states them.

    Raises
    ------
    RefusedInput
        With the likely unit.
    """
    highs = np.fmax(days.tmin, days.tmax)  # columns may be swapped
    known = highs[np.isfinite(highs)]
    if not known.size:
        return
    _refuse_no_unit(file, days, known)
    if days.unit is Degrees.CELSIUS:
        middle = float(np.median(known))
        too_hot = middle > HOTTEST_LEVEL_C and known.size >= LEVEL_DAYS
        if too_hot or ABOVE_ALL_C < middle <= ABOVE_ALL_F:
            _refuse(file, days, f"daily highs around {middle:.0f} °C")
        return
    warm = highs[np.isfinite(highs) & _warm_season(days)]
    if warm.size >= ENOUGH_DAYS:
        level = float(np.quantile(warm, NEARLY_ALL))
        if level < COLDEST_SUMMER_F:
            _refuse(file, days, f"nine in ten highs of the warm season below {level:.0f} °F")


def _refuse_no_unit(file: str, days: StatedDays, known: FloatArray) -> None:
    """Refuse highs of which most are possible in neither unit."""
    outside = int(np.count_nonzero(known > ABOVE_ALL_F))
    if outside > known.size / 2 and known.size >= LEVEL_DAYS:
        refuse(
            file,
            f"station {days.station.label}: a high of {np.median(known):.6g} on most days",
            f"in °{days.unit.value}, as its columns are named",
            "Are they in tenths of a degree? Write 28.9 for 289.",
        )


def _refuse(file: str, days: StatedDays, got: str) -> None:
    likely = days.unit.other.value
    refuse(
        file,
        f"station {days.station.label}: {got}",
        f"in °{days.unit.value}, as its columns are named",
        f"The temperatures are likely in °{likely}: then name the columns with _{likely.lower()}.",
    )


def _warm_season(days: StatedDays) -> BoolArray:
    """Tell the days of a season that is warm where cotton grows, shape (days,)."""
    station = days.station
    north = station.place[1] if station.place else 0.0
    if abs(north) > FAR_NORTH or (station.elevation_m or 0.0) > HIGH_M:
        return np.zeros(days.marks.size, np.bool_)
    first = np.datetime64(days.first, "D")
    months = (first + np.arange(days.marks.size)).astype("datetime64[M]").astype(np.int64) % 12 + 1
    return np.isin(months, _WARM_SOUTH if north < 0.0 else _WARM_NORTH)


def switched_days(days: StatedDays) -> BoolArray:
    """Find stretches inside a station's days that are in the other unit.

    Parameters
    ----------
    days : StatedDays
        As the file states them.

    Returns
    -------
    bool array, shape (days,)
    """
    found = np.zeros(days.marks.size, np.bool_)
    at = np.flatnonzero(np.isfinite(days.tmin) & np.isfinite(days.tmax))
    if at.size < SHORTEST:
        return found
    stated = np.stack([to_fahrenheit(v[at], days.unit) for v in (days.tmin, days.tmax)])
    steps = _steps(stated, at)
    if not 0 < steps.size <= MOST_STEPS:
        return found
    other = np.stack([_as_other(v[at], days.unit) for v in (days.tmin, days.tmax)])
    edges = [0, *steps.tolist(), at.size]
    for begin, end in zip(edges[:-1], edges[1:], strict=True):
        if _fits_only_converted(stated, other, begin, end):
            found[at[begin:end]] = True
    return found


def _as_other(values: FloatArray, unit: Degrees) -> FloatArray:
    """Give stated numbers as °F, had they been in the other unit all along."""
    return to_fahrenheit(values, unit.other)


def _steps(stated: FloatArray, at: npt.NDArray[np.intp]) -> npt.NDArray[np.intp]:
    """Find the known days before which both extremes step the same way."""
    change = np.diff(stated, axis=1)
    far = np.all(np.abs(change) >= STEP_F, axis=0) & (change[0] * change[1] > 0.0)
    return np.flatnonzero(far & (np.diff(at) <= AROUND)) + 1


def _fits_only_converted(stated: FloatArray, other: FloatArray, begin: int, end: int) -> bool:
    """Tell whether a stretch joins the days around it only in the other unit."""
    count = stated.shape[1]
    inside = begin > 0 and end < count
    if end - begin < (SHORTEST if inside else SHORTEST_AT_END) or (begin, end) == (0, count):
        return False
    joins = []
    if begin > 0:
        near, around = slice(begin, min(begin + AROUND, end)), slice(max(begin - AROUND, 0), begin)
        joins.append((near, around))
    if end < count:
        joins.append((slice(max(end - AROUND, begin), end), slice(end, min(end + AROUND, count))))
    return all(_joins(stated, other, near, around) for near, around in joins)


def _joins(stated: FloatArray, other: FloatArray, near: slice, around: slice) -> bool:
    level = np.median(stated[:, around], axis=1)
    apart = np.abs(np.median(stated[:, near], axis=1) - level)
    converted = np.abs(np.median(other[:, near], axis=1) - level)
    return bool(np.all(apart >= STEP_F) and np.all(converted <= FIT_F))
