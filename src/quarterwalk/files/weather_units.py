"""Stretches of days inside a station's file that are in the other unit.

A stretch begins and ends with a step of both extremes that is gone when it is converted.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.weather_days import (
    Degrees,
    FloatArray,
    StatedDays,
    to_fahrenheit,
)
from quarterwalk.files.weather_levels import possible
from quarterwalk.files.weather_runs import AROUND, WARM_F, levels, runs

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.intp]

# How far the numbers of the lowest and of the highest step where the unit changes. At
# 65 °F, 18 °C, the highest step by 47; lows of 32 °F and 0 °C by 32. Rules of this project.
# [degrees as written]
STEP = np.array([25.0, 40.0])
# The same where less speaks for it: a stretch that is short, or has a long gap beside it.
FAR_STEP = np.array([35.0, 40.0])
# How near converted days are to those beside: two days in a row differ by 12 °F and more all
# spring, so both extremes have to. A rule of this project. [°F]
FIT_F = 12.0
# Days that a stretch has for the nearer step, between others and at an end; the missing days
# that may lie beside it, for the nearer step and at all. Rules of this project. [days]
LONG, LONG_AT_END, NEAR_GAP, FAR_GAP = 3, 10, 10, 30
# With more stretches than this a file has two sources; a rule of this project. [count]
MOST_STRETCHES = 20
# Steps that are looked at, against files made to fill the memory: far more than 60 years
# have. A rule of this project. [count]
_MOST_STEPS = 100_000


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
    both = np.stack([days.tmin, days.tmax])
    at = np.flatnonzero(_may_be(days, both))
    if at.size < 2:
        return found
    numbers = both[:, at]
    begins = np.concatenate([[0], _steps(numbers, at)[:_MOST_STEPS]])
    ends = np.append(begins[1:], at.size)
    if begins.size > 1:
        for begin, end in _fitting(days, numbers, at, np.stack([begins, ends])):
            found[at[begin:end]] = True
    return found


def without_switched(days: StatedDays) -> StatedDays:
    """Give days as they are stated, without stretches in the other unit if those are the few.

    Parameters
    ----------
    days : StatedDays
        As the file states them.

    Returns
    -------
    StatedDays
        All of them where most are in the other unit: then the file is.
    """
    switched = switched_days(days)
    known = np.count_nonzero(np.isfinite(days.tmin) & np.isfinite(days.tmax))
    if not switched.any() or 2 * np.count_nonzero(switched) > known:
        return days
    low, high = (np.where(switched, np.nan, values) for values in (days.tmin, days.tmax))
    return replace(days, tmin=low, tmax=high)


def refuse_two_sources(file: str, days: StatedDays, switched: BoolArray) -> None:
    """Refuse days whose unit changes over and over.

    Parameters
    ----------
    file : str
        What errors call it.
    days : StatedDays
        As the file states them.
    switched : bool array, shape (days,)
        Those in the other unit.

    Raises
    ------
    RefusedInput
        If they have more than `MOST_STRETCHES`.
    """
    count = sum(1 for _ in runs(switched))
    if count > MOST_STRETCHES:
        first = days.day_at(int(np.argmax(switched)))
        got = f"{count} changes to °{days.unit.other.value}, from {first} on"
        expected = f"in °{days.unit.value} on all days of station {days.station.label}"
        hint = "Were two sources mixed? Write all days in one unit."
        raise RefusedInput([Problem(file, None, None, got, expected, hint)])


def _may_be(days: StatedDays, both: FloatArray) -> BoolArray:
    """Tell days that are possible in one of the two units, and are measured."""
    inside = np.zeros(both.shape[1], np.bool_)
    for unit in Degrees:
        low, high = possible(days.station, unit)
        inside |= np.all((both >= low) & (both <= high), axis=0)
    return inside


def _steps(numbers: FloatArray, at: IntArray) -> IntArray:
    """Find the known days before which both extremes step the same way."""
    change = np.diff(numbers, axis=1)
    far = np.all(np.abs(change) >= STEP.min(), axis=0) & (change[0] * change[1] > 0.0)
    return np.flatnonzero(far & (np.diff(at) <= FAR_GAP + 1)) + 1


def _fitting(
    days: StatedDays, numbers: FloatArray, at: IntArray, stretches: IntArray
) -> list[tuple[int, int]]:
    """Give the stretches that join the days beside them only in the other unit."""
    begins, ends = stretches
    inside = (begins > 0) & (ends < at.size)
    gap = np.maximum(
        np.where(begins > 0, at[begins] - at[begins - 1], 1),
        np.where(ends < at.size, at[np.minimum(ends, at.size - 1)] - at[ends - 1], 1),
    )
    long = ends - begins >= np.where(inside, LONG, LONG_AT_END)
    step = np.where(long & (gap <= NEAR_GAP + 1), STEP[:, None], FAR_STEP[:, None])
    fits = _possible_as_other(days, numbers, begins)
    for sides in (_before(numbers, begins, ends), _after(numbers, begins, ends)):
        fits &= _joins(days.unit, *sides, step)
    return [(int(b), int(e)) for b, e in zip(begins[fits], ends[fits], strict=True)]


def _possible_as_other(days: StatedDays, numbers: FloatArray, begins: IntArray) -> BoolArray:
    low, high = possible(days.station, days.unit.other)
    bad = np.any((numbers < low) | (numbers > high), axis=0)
    fine: BoolArray = np.add.reduceat(bad.astype(np.int64), begins) == 0
    return fine


def _before(numbers: FloatArray, begins: IntArray, ends: IntArray) -> tuple[FloatArray, FloatArray]:
    """Give the level at the beginning of each stretch, and that of the days before it."""
    near = levels(numbers, begins, np.minimum(begins + AROUND, ends))
    return near, levels(numbers, begins - 1, np.maximum(begins - AROUND, 0) - 1, STEP.min())


def _after(numbers: FloatArray, begins: IntArray, ends: IntArray) -> tuple[FloatArray, FloatArray]:
    """Give the level at the end of each stretch, and that of the days after it."""
    near = levels(numbers, ends - 1, np.maximum(ends - AROUND, begins) - 1)
    beyond = np.minimum(ends + AROUND, numbers.shape[1])
    return near, levels(numbers, ends, beyond, STEP.min())


def _joins(unit: Degrees, near: FloatArray, beside: FloatArray, step: FloatArray) -> BoolArray:
    """Tell whether a level fits that beside it only when converted; where none is, it may."""
    converted, level = (to_fahrenheit(near, unit.other), to_fahrenheit(beside, unit))
    joins = (np.abs(near - beside) >= step) & (np.abs(converted - level) <= FIT_F)
    joins &= level[1] >= WARM_F
    alone: BoolArray = np.all(joins | np.isnan(beside), axis=0)
    return alone
