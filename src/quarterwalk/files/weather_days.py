"""Days of one station as its file states them: in the file's unit, on an axis without gaps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from quarterwalk.files.refusal import refuse
from quarterwalk.weather.daily import DayMark
from quarterwalk.weather.station import Station

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
MarkArray = npt.NDArray[np.uint8]

# Bounds against files made to fill the memory; a rule of this project.
MOST_DAYS = 5_000_000
"""Days, or hours, of all stations of a file, missing ones among them: 228 stations of 60 years.
[count]"""

# The freezing point on the Fahrenheit scale and its degrees to one degree Celsius, exact
# (NIST Special Publication 811, 2008, appendix B). [°F], [°F / °C]
FREEZING_F = 32.0
F_PER_C = 1.8


class Degrees(StrEnum):
    """The unit in which a file states temperatures."""

    FAHRENHEIT = "F"
    CELSIUS = "C"

    @property
    def other(self) -> Degrees:
        """The unit that it is mixed up with."""
        return Degrees.CELSIUS if self is Degrees.FAHRENHEIT else Degrees.FAHRENHEIT


def to_fahrenheit(temperatures: FloatArray, unit: Degrees) -> FloatArray:
    """Turn temperatures into degrees Fahrenheit.

    Parameters
    ----------
    temperatures : float array
        In `unit`; NaN where missing.
    unit : Degrees
        Their unit.

    Returns
    -------
    float array
        Of the same shape. [°F]
    """
    if unit is Degrees.FAHRENHEIT:
        return temperatures
    return temperatures * F_PER_C + FREEZING_F


@dataclass(frozen=True, slots=True, eq=False)
class StatedDays:
    """What a file says of one station, before anything is checked.

    Parameters
    ----------
    station : Station
        Where.
    first : date
        The first day of the axis.
    tmin, tmax : float array, shape (days,)
        As stated, in `unit`; NaN where blank.
    marks : uint8 array, shape (days,)
        The `DayMark` that each day has if it has both temperatures.
    unit : Degrees
        Of the temperatures.
    failed : mapping of int to str
        Values that the archive itself marks as wrong, by place on the axis, in words;
        they are NaN in the arrays. [from 0]
    few_hours : mapping of int to int
        Known hours of days with too few of them, or too many in a row unknown, by place on
        the axis; such a day is NaN in the arrays. [from 0], [hours]
    wrong_hours : mapping of int to str
        The first of the hours that were taken out, of days that have any, by place on the
        axis, in words. [from 0]
    stuck_hours : mapping of int to str
        The hours in a row that are all the same, of the days that they reach, by place on
        the axis, in words. [from 0]
    tenths : bool
        Whether the file gave tenths of a degree, as the daily archive does.
    """

    station: Station
    first: date
    tmin: FloatArray
    tmax: FloatArray
    marks: MarkArray
    unit: Degrees
    failed: Mapping[int, str] = field(default_factory=dict)
    few_hours: Mapping[int, int] = field(default_factory=dict)
    wrong_hours: Mapping[int, str] = field(default_factory=dict)
    stuck_hours: Mapping[int, str] = field(default_factory=dict)
    tenths: bool = False

    def day_at(self, index: int) -> date:
        """Give the day at a place of the axis. [from 0]"""
        return self.first + timedelta(days=index)


def from_fahrenheit(temperatures: FloatArray, unit: Degrees) -> FloatArray:
    """Turn degrees Fahrenheit into a unit.

    Parameters
    ----------
    temperatures : float array
        NaN where missing. [°F]
    unit : Degrees
        The unit wanted.

    Returns
    -------
    float array
        Of the same shape, in `unit`.
    """
    if unit is Degrees.FAHRENHEIT:
        return temperatures
    return (temperatures - FREEZING_F) / F_PER_C


def refuse_too_many_days(file: str, ordinals: Sequence[IntArray]) -> None:
    """Refuse a file whose axes would fill the memory.

    Parameters
    ----------
    file : str
        What errors call it.
    ordinals : sequence of int arrays
        Days, or hours, of each station, in any order. [count from any start]

    Raises
    ------
    RefusedInput
        If all axes together have more than `MOST_DAYS`.
    """
    days = sum(int(each.max() - each.min()) + 1 for each in ordinals if each.size)
    if days > MOST_DAYS:
        expected = f"at most {MOST_DAYS:,} rows of all stations, gaps among them"
        refuse(file, f"{days:,}", expected, "Cut the file to the stations that are near.")


def on_axis(ordinals: IntArray, values: FloatArray, first: int, days: int) -> FloatArray:
    """Lay values out on an axis of days; NaN where none is given.

    Parameters
    ----------
    ordinals : int array, shape (values,)
        The day of each value. [days from 0001-01-01]
    values : float array, shape (values,)
        Temperatures.
    first, days : int
        The axis. [days from 0001-01-01], [count]

    Returns
    -------
    float array, shape (days,)
    """
    axis = np.full(days, np.nan)
    axis[ordinals - first] = values
    return axis


def measured(days: int) -> MarkArray:
    """Mark all days as measured, shape (days,)."""
    return np.full(days, DayMark.MEASURED, np.uint8)
