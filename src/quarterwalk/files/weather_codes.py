"""Days and hours that hold a code for missing, or one temperature that is another's.

What stands out by less than a front brings is known here by more than its size: both
temperatures are exactly 0, hours are all exactly the same, or one of the two temperatures
stays where it was.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from quarterwalk.files.weather_days import Degrees, FloatArray, StatedDays, to_fahrenheit
from quarterwalk.files.weather_runs import AROUND, WARM_F, levels
from quarterwalk.files.weather_spikes import LEAST_BESIDE, NEAR_GAP, NEAR_HOURS, STEP_F

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.intp]

# How far hours that are all exactly the same are from the hour before and the one after. A
# storm lets the air fall as far within the hour, and heat bursts rise and fall at night by
# as much (from memory), but to no standstill in between. Where a file begins or ends, or
# where one hour stands alone, only a 0 as it is written is judged. Rules of this project.
# [°F/h], [hours]
SAME_STEP_F, SAME_LEAST = 25.0, 2
# Hours beside a 0 at the beginning or the end of which one is this warm: air of a winter's
# day may well come to 0 °C and stay. A rule of this project. [hours]
BESIDE_END = 24
# How far the days of a stretch are, to the last, from the middle of the ten on either side
# where one temperature alone stands out; its first and its last step by 45 °F. A rule of
# this project. [°F]
STAY_F = 35.0


def zero_days(days: StatedDays, out: BoolArray) -> BoolArray:
    """Find days whose temperatures are both exactly 0 as written, among warm days.

    Parameters
    ----------
    days : StatedDays
        As the file states them.
    out : bool array, shape (days,)
        Days that are taken out already.

    Returns
    -------
    bool array, shape (days,)
        Runs of any length with days of 65 °F and more beside them: the nearest and the middle
        of the ten on either side; on one side at the beginning and the end.
    """
    found = np.zeros(days.marks.size, np.bool_)
    zero = ~out & (days.tmin == 0.0) & (days.tmax == 0.0)
    if not zero.any():
        return found
    at = np.flatnonzero(~out & ~zero & np.isfinite(days.tmin) & np.isfinite(days.tmax))
    if at.size < LEAST_BESIDE:
        return found
    high = np.stack([to_fahrenheit(days.tmax[at], days.unit)] * 2)
    places = np.flatnonzero(zero)
    # a run of zeros is one that no other known day parts
    new = np.diff(np.searchsorted(at, places), prepend=-1) != 0
    begins, ends = places[new], places[np.append(new[1:], True)]
    after = np.searchsorted(at, begins)
    cold, beside = np.zeros((2, begins.size), np.bool_)
    for nearest, way, edge in ((after - 1, -1, begins), (after, 1, ends)):
        place = np.clip(nearest, 0, at.size - 1)
        there = (place == nearest) & (np.abs(at[place] - edge) <= NEAR_GAP + 1)
        level = levels(high, nearest, nearest + way * AROUND)[1]
        cold |= there & ~((level >= WARM_F) & (high[1, place] >= WARM_F))
        beside |= there
    found[places] = (beside & ~cold)[np.cumsum(new) - 1]
    return found


def alone_days(days: StatedDays, out: BoolArray) -> BoolArray:
    """Find days of which one temperature stands out from both sides, and the other does not.

    Parameters
    ----------
    days : StatedDays
        As the file states them.
    out : bool array, shape (days,)
        Days that are taken out already.

    Returns
    -------
    bool array, shape (days,)
        Lowest temperatures far below the others while the highest are 65 °F and more, and
        highest ones far above.
    """
    found = np.zeros(days.marks.size, np.bool_)
    both = np.stack([to_fahrenheit(values, days.unit) for values in (days.tmin, days.tmax)])
    at = np.flatnonzero(~out & np.all(np.isfinite(both), axis=0))
    values = both[:, at]
    for row, way in ((0, -1.0), (1, 1.0)):
        begins, ends = _stretches(way * values[row], at)
        if begins.size:
            alone = _stay_alone(values, row, way, begins, ends)
            for begin, end in zip(begins[alone].tolist(), ends[alone].tolist(), strict=True):
                found[at[begin:end]] = True
    return found


def _stretches(values: FloatArray, at: IntArray) -> tuple[IntArray, IntArray]:
    """Give the stretches that begin with a step upward and end with the next one downward."""
    change = np.where(np.diff(at) <= NEAR_GAP + 1, np.diff(values), 0.0)
    steps = np.flatnonzero(np.abs(change) >= STEP_F)
    pairs = (change[steps[:-1]] > 0.0) & (change[steps[1:]] < 0.0)
    return steps[:-1][pairs] + 1, steps[1:][pairs] + 1


def _stay_alone(
    values: FloatArray, row: int, way: float, begins: IntArray, ends: IntArray
) -> BoolArray:
    """Tell the stretches that are off in one temperature, in warm weather, to their end."""
    edges = np.stack([begins, ends], axis=1).reshape(-1)
    nearest = np.minimum.reduceat(way * values[row], edges)[::2]
    highs = np.minimum.reduceat(values[1], edges)[::2]
    before = levels(values, begins - 1, begins - 1 - AROUND)
    after = levels(values, ends, ends + AROUND)
    alone = highs >= WARM_F
    for level in (before, after):
        alone &= (nearest - way * level[row] >= STAY_F) & (level[1] >= WARM_F)
    return alone


def same_hours(temp_f: FloatArray, unit: Degrees, out: BoolArray) -> BoolArray:
    """Find hours in a row that are exactly the same, and far from those on both sides.

    Parameters
    ----------
    temp_f : float array, shape (hours,)
        NaN where missing. [°F]
    unit : Degrees
        In which the file states them.
    out : bool array, shape (hours,)
        Hours that are taken out already.

    Returns
    -------
    bool array, shape (hours,)
    """
    found = np.zeros(temp_f.size, np.bool_)
    at = np.flatnonzero(np.isfinite(temp_f) & ~out)
    if at.size < 2:
        return found
    values, zero = temp_f[at], float(to_fahrenheit(np.zeros(1), unit)[0])
    begins = np.flatnonzero(np.diff(values, prepend=np.inf))
    ends = np.append(begins[1:], values.size)
    gap = np.diff(at)
    # by the hour: readings three hours apart differ as much on any clear morning
    step = np.where(gap <= NEAR_HOURS, np.diff(values) / gap, 0.0)
    # how far each run is above the hour before and the one after; NaN where none is
    before = np.append(np.nan, step)[begins]
    after = np.append(-step, np.nan)[ends - 1]
    least, most = np.fmin(before, after), np.fmax(before, after)
    inside = (begins > 0) & (ends < values.size)
    is_zero = values[begins] == zero
    far = (least >= SAME_STEP_F) | (most <= -SAME_STEP_F)
    far &= np.where(inside, (ends - begins >= SAME_LEAST) | is_zero, is_zero)
    for run in np.flatnonzero(far & ~inside).tolist():
        far[run] = _warm_beside(values, begins[run], ends[run])
    found[at[np.repeat(far, ends - begins)]] = True
    return found


def _warm_beside(values: FloatArray, begin: int, end: int) -> bool:
    beside = values[max(0, begin - BESIDE_END) : begin], values[end : end + BESIDE_END]
    return bool(np.concatenate(beside).max(initial=-np.inf) >= WARM_F)
