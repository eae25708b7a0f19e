"""Hours of weather at one station, and the days that they make."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
import numpy.typing as npt

from quarterwalk.weather.daily import DailyWeather, DayMark, WeatherError
from quarterwalk.weather.station import Station

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

HOURS_A_DAY = 24
# Fewer hours, or a longer gap, may have missed the day's lowest or highest: rules of this
# project. [hours]
FEWEST_HOURS, LONGEST_GAP = 20, 3


@dataclass(frozen=True, slots=True, eq=False)
class HourlyWeather:
    """Hours in a row at one station, by its local clock.

    Parameters
    ----------
    station : Station
        Where.
    first : datetime
        The first hour, full and without a zone.
    temp_f : float array, shape (hours,)
        Air temperature; NaN where missing. [°F]
    humidity : float array, shape (hours,)
        Relative humidity; NaN where missing. [%]

    Raises
    ------
    WeatherError
        If the shapes differ, or the first hour is not a full one of a local clock.
    """

    station: Station
    first: datetime
    temp_f: FloatArray
    humidity: FloatArray

    def __post_init__(self) -> None:
        shapes = {self.temp_f.shape, self.humidity.shape}
        if len(shapes) != 1 or self.temp_f.ndim != 1 or not self.temp_f.size:
            raise WeatherError(f"hours must come in arrays of one length, got shapes {shapes}.")
        past = self.first.minute, self.first.second, self.first.microsecond
        if any(past) or self.first.tzinfo is not None:
            raise WeatherError(f"the first hour must be a full one without zone, got {self.first}.")

    @property
    def last(self) -> datetime:
        """The last hour."""
        return self.first + timedelta(hours=self.temp_f.size - 1)

    @property
    def missing(self) -> BoolArray:
        """Which hours have no temperature, shape (hours,)."""
        gaps: BoolArray = np.isnan(self.temp_f)
        return gaps

    def index_of(self, hour: datetime) -> int:
        """Give the place of an hour, which may lie outside. [from 0]"""
        return (hour - self.first) // timedelta(hours=1)

    def hour_at(self, index: int) -> datetime:
        """Give the hour at a place. [from 0]"""
        return self.first + timedelta(hours=index)


def daily_from_hours(hours: HourlyWeather) -> DailyWeather:
    """Give each day's lowest and highest hour, from midnight to midnight.

    A day of which fewer than 20 hours are known, or more than 3 in a row are not, is
    missing: the lowest or the highest may have been among those.

    Parameters
    ----------
    hours : HourlyWeather
        By the local clock.

    Returns
    -------
    DailyWeather
        From the day of the first hour to that of the last, all measured or missing.
    """
    before = hours.first.hour
    days = -(-(before + hours.temp_f.size) // HOURS_A_DAY)
    by_day = np.full((days, HOURS_A_DAY), np.nan)
    by_day.reshape(-1)[before : before + hours.temp_f.size] = hours.temp_f
    enough = _enough(np.isfinite(by_day))
    low, high = np.full(days, np.nan), np.full(days, np.nan)
    low[enough] = np.nanmin(by_day[enough], axis=1)
    high[enough] = np.nanmax(by_day[enough], axis=1)
    marks = np.where(enough, DayMark.MEASURED, DayMark.MISSING).astype(np.uint8)
    return DailyWeather(hours.station, hours.first.date(), low, high, marks)


def _enough(known: BoolArray) -> BoolArray:
    """Tell the days whose known hours suffice, shape (days,)."""
    gaps = np.lib.stride_tricks.sliding_window_view(~known, LONGEST_GAP + 1, axis=1)
    too_long = np.any(np.all(gaps, axis=2), axis=1)
    enough: BoolArray = (np.count_nonzero(known, axis=1) >= FEWEST_HOURS) & ~too_long
    return enough
