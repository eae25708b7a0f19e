"""Hours of a station, checked by the days that they make."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from quarterwalk.files.weather_codes import same_hours
from quarterwalk.files.weather_days import Degrees, StatedDays, from_fahrenheit, measured
from quarterwalk.files.weather_findings import WeatherFinding, checked_days
from quarterwalk.files.weather_levels import possible, refuse_mixed_up
from quarterwalk.files.weather_spikes import lone_hours, stuck_hours
from quarterwalk.files.weather_units import without_switched
from quarterwalk.weather.daily import DailyWeather
from quarterwalk.weather.hourly import FEWEST_HOURS, HOURS_A_DAY, HourlyWeather, daily_from_hours

# A day can do without so many hours. [hours]
MOST_WRONG_HOURS = HOURS_A_DAY - FEWEST_HOURS


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
        Without those that can't be right, and those of days that can't.
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
    refuse_mixed_up(file, without_switched(_stated(made, unit)))
    hours, wrong = _without_wrong_hours(hours, unit)
    made = daily_from_hours(hours)
    stated = replace(
        _stated(made, unit),
        few_hours=_few_hours(hours, made),
        wrong_hours=wrong,
        stuck_hours=_stuck_hours(hours, unit),
    )
    days, findings = checked_days(file, stated)
    taken = np.repeat(days.missing & ~made.missing, HOURS_A_DAY)
    taken = taken[hours.first.hour :][: hours.temp_f.size]
    kept = replace(hours, temp_f=np.where(taken, np.nan, hours.temp_f))
    return kept, days, findings


def _stated(made: DailyWeather, unit: Degrees) -> StatedDays:
    low, high = (from_fahrenheit(values, unit) for values in (made.tmin_f, made.tmax_f))
    return StatedDays(made.station, made.first, low, high, measured(made.marks.size), unit)


def _few_hours(hours: HourlyWeather, made: DailyWeather) -> dict[int, int]:
    """Give the days that are missing though some hours are known, and how many."""
    day = _day_of_each(hours)
    count = np.bincount(day[~hours.missing], minlength=made.marks.size)
    return {int(at): int(count[at]) for at in np.flatnonzero(made.missing & (count > 0))}


def _without_wrong_hours(
    hours: HourlyWeather, unit: Degrees
) -> tuple[HourlyWeather, dict[int, str]]:
    """Take out hours that can't be right; the day is left to the others.

    Where a day has more impossible ones than it can do without, these stay: the day itself
    can't be right then, and is told as such.
    """
    low, high = possible(hours.station, Degrees.FAHRENHEIT)
    day = _day_of_each(hours)
    impossible = (hours.temp_f < low) | (hours.temp_f > high)
    count = np.bincount(day[impossible], minlength=int(day[-1]) + 1)
    wrong = impossible & (count[day] <= MOST_WRONG_HOURS)
    off = same_hours(hours.temp_f, unit, impossible)
    wrong |= off | lone_hours(hours.temp_f, impossible | off)
    said: dict[int, str] = {}
    for at in np.flatnonzero(wrong).tolist():
        value = _said_of_value(hours, unit, at)
        said.setdefault(int(day[at]), f"{value} ({hours.hour_at(at):%H:%M})")
    return replace(hours, temp_f=np.where(wrong, np.nan, hours.temp_f)), said


def _stuck_hours(hours: HourlyWeather, unit: Degrees) -> dict[int, str]:
    day = _day_of_each(hours)
    said: dict[int, str] = {}
    for begin, end in stuck_hours(hours.temp_f):
        first, last = (f"{hours.hour_at(at):%Y-%m-%d %H:%M}" for at in (begin, end - 1))
        words = f"{_said_of_value(hours, unit, begin)} ({first} – {last})"
        for at in range(int(day[begin]), int(day[end - 1]) + 1):
            said.setdefault(at, words)
    return said


def _day_of_each(hours: HourlyWeather) -> npt.NDArray[np.int64]:
    """Give the day of each hour, counted from that of the first. [from 0]"""
    return (hours.first.hour + np.arange(hours.temp_f.size)) // HOURS_A_DAY


def _said_of_value(hours: HourlyWeather, unit: Degrees, at: int) -> str:
    value = float(from_fahrenheit(hours.temp_f[at : at + 1], unit)[0])
    return f"{value:.6g} °{unit.value}"
