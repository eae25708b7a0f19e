"""Days of weather at one station: lowest and highest temperature, and where each came from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import IntEnum

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import QuarterwalkError
from quarterwalk.weather.station import Station

FloatArray = npt.NDArray[np.float64]
MarkArray = npt.NDArray[np.uint8]


class DayMark(IntEnum):
    """Where one day's temperatures came from."""

    MISSING = 0
    MEASURED = 1
    FORECAST = 2
    NEIGHBOUR = 3
    """Filled from another station."""
    BETWEEN = 4
    """Filled on a straight line between the days around it."""
    OTHER_YEARS = 5
    """Filled with the mean of the same day in the station's other years."""


class WeatherError(QuarterwalkError, ValueError):
    """Weather that does not reach where it is needed, or contradicts itself.

    Parameters
    ----------
    why : str
        What must hold, and does not.
    advice : str
        What to give instead; empty where that says itself.
    """

    def __init__(self, why: str, advice: str = "") -> None:
        super().__init__(why, advice)
        self.why = why
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.why} {self.advice}" if self.advice else self.why


def forecast_holds(later: MarkArray) -> bool:
    """Tell whether days after one day are a forecast of that day, and no later knowledge.

    Parameters
    ----------
    later : uint8 array, shape (days,)
        A `DayMark` for each.

    Returns
    -------
    bool
        True where days are forecast and none was measured. Days filled among forecast ones
        were filled from forecasts; without a forecast they were filled from measured ones.
    """
    return bool(np.any(later == DayMark.FORECAST) and not np.any(later == DayMark.MEASURED))


@dataclass(frozen=True, slots=True, eq=False)
class DailyWeather:
    """Days in a row at one station.

    Parameters
    ----------
    station : Station
        Where.
    first : date
        The first day.
    tmin_f, tmax_f : float array, shape (days,)
        Lowest and highest air temperature of each day; NaN where missing. [°F]
    marks : uint8 array, shape (days,)
        A `DayMark` for each day.

    Raises
    ------
    WeatherError
        If the shapes differ, a day is given that is marked missing or the other way
        round, or a day's lowest temperature is above its highest.
    """

    station: Station
    first: date
    tmin_f: FloatArray
    tmax_f: FloatArray
    marks: MarkArray

    def __post_init__(self) -> None:
        shapes = {self.tmin_f.shape, self.tmax_f.shape, self.marks.shape}
        if len(shapes) != 1 or self.marks.ndim != 1 or not self.marks.size:
            raise WeatherError(f"days must come in arrays of one length, got shapes {shapes}.")
        known = np.isfinite(self.tmin_f) & np.isfinite(self.tmax_f)
        if np.any(known != (self.marks != DayMark.MISSING)):
            raise WeatherError("a day must have both temperatures, or be marked missing.")
        if np.any(self.tmin_f[known] > self.tmax_f[known]):
            raise WeatherError("a day's lowest temperature must not be above its highest.")

    @property
    def last(self) -> date:
        """The last day."""
        return self.first + timedelta(days=self.marks.size - 1)

    @property
    def missing(self) -> npt.NDArray[np.bool_]:
        """Which days have no temperatures, shape (days,)."""
        gaps: npt.NDArray[np.bool_] = self.marks == DayMark.MISSING
        return gaps

    def index_of(self, day: date) -> int:
        """Give the place of a day, which may lie outside. [from 0]"""
        return (day - self.first).days

    def day_at(self, index: int) -> date:
        """Give the day at a place. [from 0]"""
        return self.first + timedelta(days=index)

    def between(self, first: date, last: date) -> DailyWeather:
        """Give the days from one to another; those that are not there are missing.

        Parameters
        ----------
        first, last : date
            Both are inside.

        Returns
        -------
        DailyWeather
        """
        days = (last - first).days + 1
        if days < 1:
            raise WeatherError(f"days must not end before they begin, got {first} to {last}.")
        tmin, tmax = np.full(days, np.nan), np.full(days, np.nan)
        marks = np.zeros(days, np.uint8)
        start = self.index_of(first)
        here = slice(max(start, 0), max(min(start + days, self.marks.size), 0))
        there = slice(here.start - start, here.stop - start)
        if here.start < here.stop:
            tmin[there], tmax[there] = self.tmin_f[here], self.tmax_f[here]
            marks[there] = self.marks[here]
        return DailyWeather(self.station, first, tmin, tmax, marks)
