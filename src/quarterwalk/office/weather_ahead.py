"""Days of a weather file that are still to come: nobody can have measured them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import numpy.typing as npt

from quarterwalk.weather import DailyWeather, DayMark
from quarterwalk.weather.merge import SAME_F


def days_ahead(weather: DailyWeather, today: date) -> int:
    """Count the days after today that stand as measured.

    Parameters
    ----------
    weather : DailyWeather
        Days of a file, or of a row.
    today : date
        The day in the district.

    Returns
    -------
    int
        [days]
    """
    return int(np.count_nonzero(_measured_ahead(weather, today)))


def ahead_as_forecast(weather: DailyWeather, today: date) -> DailyWeather:
    """Take the days after today that stand as measured for a forecast.

    Parameters
    ----------
    weather : DailyWeather
        Days of a file, or of a row.
    today : date
        The day in the district.

    Returns
    -------
    DailyWeather
    """
    ahead = _measured_ahead(weather, today)
    if not ahead.any():
        return weather
    marks = np.where(ahead, np.uint8(DayMark.FORECAST), weather.marks).astype(np.uint8)
    return replace(weather, marks=marks)


def forecast_anew(before: DailyWeather, told: DailyWeather, today: date) -> int:
    """Count the days whose forecast a file's forecast replaces by another one.

    Parameters
    ----------
    before, told : DailyWeather
        What was here, and what the file tells.
    today : date
        The day in the district.

    Returns
    -------
    int
        [days]
    """
    old = ahead_as_forecast(before, today).between(told.first, told.last)
    both = (old.marks == DayMark.FORECAST) & (told.marks == DayMark.FORECAST)
    off = np.maximum(np.abs(old.tmin_f - told.tmin_f), np.abs(old.tmax_f - told.tmax_f))
    return int(np.count_nonzero(both & (off > SAME_F)))


def _measured_ahead(weather: DailyWeather, today: date) -> npt.NDArray[np.bool_]:
    days = np.arange(weather.marks.size)
    ahead: npt.NDArray[np.bool_] = (weather.marks == DayMark.MEASURED) & (
        days > weather.index_of(today)
    )
    return ahead
