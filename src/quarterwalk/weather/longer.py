"""A short series of weather made longer by the other years of a station near by."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np

from quarterwalk.weather.ahead import FEW_YEARS
from quarterwalk.weather.daily import DailyWeather, DayMark

# A rule of this project: what stands between two stations is told by so many days that both
# measured; with fewer the other's days are taken as they are. [days]
COMMON_LEAST = 10

_YEAR = 365  # [days]
_MEASURED = (DayMark.MEASURED, DayMark.FORECAST)


def with_other_years(
    weather: DailyWeather, others: Sequence[DailyWeather], first: date
) -> tuple[DailyWeather, DailyWeather | None]:
    """Put the earlier days of another station before those of one that has few years.

    Parameters
    ----------
    weather : DailyWeather
        Of the station that a field goes by.
    others : sequence of DailyWeather
        Other stations, the nearest first.
    first : date
        The first day of the season.

    Returns
    -------
    weather : DailyWeather
        With the days before its first, moved by the mean difference of the two stations and
        marked as a neighbour's; as it was where it has years enough, or no other has more.
    lender : DailyWeather or None
        The station that they are from.
    """
    if _whole_seasons(weather, first) >= FEW_YEARS:
        return weather, None
    lender = next((each for each in others if _has_more_years(each, weather)), None)
    if lender is None:
        return weather, None
    before = lender.between(lender.first, weather.first - timedelta(days=1))
    cooler, warmer = _apart(weather, lender)
    low = np.concatenate([before.tmin_f + cooler, weather.tmin_f])
    high = np.concatenate([before.tmax_f + warmer, weather.tmax_f])
    lent = np.where(before.missing, DayMark.MISSING, DayMark.NEIGHBOUR).astype(np.uint8)
    longer = DailyWeather(
        weather.station,
        lender.first,
        np.minimum(low, high),
        np.maximum(low, high),
        np.concatenate([lent, weather.marks]),
    )
    return longer, lender


def _whole_seasons(weather: DailyWeather, first: date) -> int:
    """Count the years before a season whose days from its first on the series may hold. [years]"""
    years = first.year - weather.first.year
    begun = (weather.first.month, weather.first.day) <= (first.month, first.day)
    return years if begun else years - 1


def _has_more_years(other: DailyWeather, weather: DailyWeather) -> bool:
    """Tell whether a station begins a year or more before another."""
    return other.first.year < weather.first.year and (weather.first - other.first).days >= _YEAR


def _apart(weather: DailyWeather, lender: DailyWeather) -> tuple[float, float]:
    """Give how much warmer one station is than the other: lowest, highest. [°F]"""
    beside = lender.between(weather.first, weather.last)
    both = np.isin(beside.marks, _MEASURED) & np.isin(weather.marks, _MEASURED)
    if np.count_nonzero(both) < COMMON_LEAST:
        return 0.0, 0.0
    return (
        float(np.mean(weather.tmin_f[both] - beside.tmin_f[both])),
        float(np.mean(weather.tmax_f[both] - beside.tmax_f[both])),
    )
