"""Hours of a station, checked by the days that they make."""

from __future__ import annotations

import numpy as np

from quarterwalk.files.weather_days import Degrees, StatedDays, from_fahrenheit, measured
from quarterwalk.files.weather_findings import WeatherFinding, checked_days
from quarterwalk.weather.daily import DailyWeather
from quarterwalk.weather.hourly import HOURS_A_DAY, HourlyWeather, daily_from_hours


def checked_hours(
    file: str, hours: HourlyWeather, unit: Degrees
) -> tuple[HourlyWeather, DailyWeather, tuple[WeatherFinding, ...]]:
    """Check a station's hours, and make days of them.

    Parameters
    ----------
    file : str
        What errors call it.
    hours : HourlyWeather
        As the file states them.
    unit : Degrees
        In which it states them.

    Returns
    -------
    hours : HourlyWeather
        Without those of days whose temperatures can't be right.
    days : DailyWeather
        Lowest and highest hour of each day.
    findings : tuple of WeatherFinding
        What is odd in the days.

    Raises
    ------
    RefusedInput
        If the temperatures are plausible only in the unit that is not stated.
    """
    made = daily_from_hours(hours)
    before = hours.first.hour
    known = np.zeros((made.marks.size, HOURS_A_DAY), np.bool_)
    known.reshape(-1)[before : before + hours.temp_f.size] = ~hours.missing
    count = np.count_nonzero(known, axis=1)
    few = {int(at): int(count[at]) for at in np.flatnonzero(made.missing & (count > 0))}
    low, high = (from_fahrenheit(values, unit) for values in (made.tmin_f, made.tmax_f))
    stated = StatedDays(
        hours.station, made.first, low, high, measured(made.marks.size), unit, few_hours=few
    )
    days, findings = checked_days(file, stated)
    wrong = np.repeat(days.missing & ~made.missing, HOURS_A_DAY)[before:][: hours.temp_f.size]
    kept = HourlyWeather(
        hours.station, hours.first, np.where(wrong, np.nan, hours.temp_f), hours.humidity
    )
    return kept, days, findings
