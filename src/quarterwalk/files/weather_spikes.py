"""Short runs of days, or of hours, that step far away from those on both sides, and back.

A code for missing such as 0, and a day in the other unit, stand out like this; a spell of
cold or heat has days between that lead to it, or stays.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from quarterwalk.files.weather_days import FloatArray, StatedDays, to_fahrenheit
from quarterwalk.files.weather_runs import AROUND, WARM_F, levels, runs

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.intp]

# Days in a row that may stand out, and how far both extremes do: from the day before and
# the day after, and from the middle of the ten on either side. Fronts of the Great Plains
# bring such steps, but not there and back. At the beginning or the end of a file, where one
# side is missing, the step is one that no front has brought to both extremes. Rules of this
# project. [days], [°F], [°F]
LONGEST, STEP_F, STEP_AT_END_F = 3, 45.0, 60.0
# Missing days that may lie between, and days that the other side has at least at an end.
# Rules of this project. [days], [days]
NEAR_GAP, LEAST_BESIDE = 10, 4
# The same of hours: from the reading before to the one after, neither further away than
# this. A storm lets the air fall by 30 °F within the hour and not rise again (from memory).
# Rules of this project. [hours], [°F], [hours]
LONGEST_HOURS, HOUR_STEP_F, NEAR_HOURS = 3, 40.0, 3
# Hours in a row with the same temperature that look like a stuck thermometer; fog over
# melting snow may have as many, so they are kept. A rule of this project. [hours]
STUCK_HOURS = 24


def far_off_days(days: StatedDays, out: BoolArray) -> BoolArray:
    """Find runs of days whose two temperatures both stand out from those on both sides.

    Parameters
    ----------
    days : StatedDays
        As the file states them.
    out : bool array, shape (days,)
        Days that are taken out already.

    Returns
    -------
    bool array, shape (days,)
    """
    found = np.zeros(days.marks.size, np.bool_)
    both = np.stack([to_fahrenheit(values, days.unit) for values in (days.tmin, days.tmax)])
    at = np.flatnonzero(~out & np.all(np.isfinite(both), axis=0))
    values = both[:, at]
    for count in range(1, min(LONGEST, at.size - LEAST_BESIDE) + 1):
        begins = _lone(values, at, count, STEP_F, NEAR_GAP + 1)
        begins = begins[_far_from_level(values, begins, count)]
        begins = np.concatenate([begins, _lone_at_ends(values, at, count)])
        for reach in range(count):
            found[at[begins + reach]] = True
    return found


def lone_hours(temp_f: FloatArray, out: BoolArray) -> BoolArray:
    """Find short runs of hours that stand out from both sides.

    Parameters
    ----------
    temp_f : float array, shape (hours,)
        NaN where missing. [°F]
    out : bool array, shape (hours,)
        Hours that are taken out already.

    Returns
    -------
    bool array, shape (hours,)
    """
    found = np.zeros(temp_f.size, np.bool_)
    at = np.flatnonzero(np.isfinite(temp_f) & ~out)
    values = temp_f[None, at]
    for count in range(1, min(LONGEST_HOURS, at.size - 2) + 1):
        begins = _lone(values, at, count, HOUR_STEP_F, NEAR_HOURS)
        for reach in range(count):
            found[at[begins + reach]] = True
    return found


def stuck_hours(temp_f: FloatArray) -> list[tuple[int, int]]:
    """Give the runs of hours in a row that have the same temperature for a whole day.

    Parameters
    ----------
    temp_f : float array, shape (hours,)
        NaN where missing. [°F]

    Returns
    -------
    list of (int, int)
        Place of the first hour and of the one after the last. [from 0]
    """
    same = np.diff(temp_f) == 0.0
    return [(b, e + 1) for b, e in runs(same) if e + 1 - b >= STUCK_HOURS]


def _lone(values: FloatArray, at: IntArray, count: int, step: float, near: int) -> IntArray:
    """Find runs of so many that all step the same way, away from both sides.

    Runs are given by the place of their first; nothing is found at either end.
    """
    before, after = values[:, : -count - 1], values[:, count + 1 :]
    run = np.stack([values[:, 1 + i : values.shape[1] - count + i] for i in range(count)])
    above = np.all(run.min(axis=0) - np.maximum(before, after) >= step, axis=0)
    below = np.all(np.minimum(before, after) - run.max(axis=0) >= step, axis=0)
    close = np.diff(at) <= near
    inside = np.lib.stride_tricks.sliding_window_view(close, count + 1).all(axis=1)
    return np.flatnonzero((above | below) & inside) + 1


def _far_from_level(values: FloatArray, begins: IntArray, count: int) -> BoolArray:
    """Tell the runs that are as far from the middle of the days around."""
    first = values[:, begins]
    before = levels(values, begins - 1, begins - 1 - AROUND)
    after = levels(values, begins + count, begins + count + AROUND)
    apart = first - np.stack([before, after])
    far = np.all(apart >= STEP_F, axis=(0, 1)) | np.all(apart <= -STEP_F, axis=(0, 1))
    warm: BoolArray = far & (np.minimum(before[1], after[1]) >= WARM_F)
    return warm


def _lone_at_ends(values: FloatArray, at: IntArray, count: int) -> IntArray:
    """Find runs of so many at the beginning and at the end that step away from the rest."""
    found = []
    size = values.shape[1]
    for begin, beside, way in ((0, count, 1), (size - count, size - count - 1, -1)):
        if abs(int(at[beside] - at[beside - way])) > NEAR_GAP + 1:
            continue
        level = levels(values, np.array([beside]), np.array([beside + way * AROUND]))
        run, nearest = values[:, begin : begin + count], values[:, beside : beside + 1]
        apart = np.concatenate([run - level, run - nearest])
        far = np.all(apart >= STEP_AT_END_F) or np.all(apart <= -STEP_AT_END_F)
        if far and level[1, 0] >= WARM_F:
            found.append(begin)
    return np.array(found, np.intp)
