"""Invented days that the tests of stations and their gaps share."""

from __future__ import annotations

from datetime import date

import numpy as np

from quarterwalk.weather import DailyWeather, DayMark, Station

FIRST = date(2026, 6, 1)
GAP = float("nan")


def days(lows, highs=None, *, first=FIRST, station="here", place=None, forecast=0):
    """Days by their lowest temperatures, 20 °F under the highest; the last may be forecast."""
    low = np.asarray(lows, np.float64)
    high = low + 20 if highs is None else np.asarray(highs, np.float64)
    marks = np.where(np.isfinite(low), DayMark.MEASURED, DayMark.MISSING).astype(np.uint8)
    if forecast:
        marks[-forecast:][marks[-forecast:] != DayMark.MISSING] = DayMark.FORECAST
    return DailyWeather(Station(station, place=place), first, low, high, marks)


def lacking(weather, *gaps):
    """The same days without those at some places or slices, counted from 0."""
    low, high, marks = weather.tmin_f.copy(), weather.tmax_f.copy(), weather.marks.copy()
    for gap in gaps:
        low[gap], high[gap], marks[gap] = np.nan, np.nan, DayMark.MISSING
    return DailyWeather(weather.station, weather.first, low, high, marks)


def years_of(low_by_year, *, first_year=2020):
    """Whole years, each with the same lowest temperature every day."""
    first = date(first_year, 1, 1)
    lows = [
        np.full((date(first_year + i + 1, 1, 1) - date(first_year + i, 1, 1)).days, low)
        for i, low in enumerate(low_by_year)
    ]
    return days(np.concatenate(lows), first=first)
