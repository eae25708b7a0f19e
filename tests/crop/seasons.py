"""Invented weather and seasons that the tests of the clock share."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from quarterwalk.crop import SEASON_DAYS
from quarterwalk.weather import DailyWeather, SeasonHeat, Station

PLANTED = date(2026, 5, 8)


def after(days: int) -> date:
    return PLANTED + timedelta(days=days)


def steady(a_day: float, *, known: int = SEASON_DAYS, spread: float = 0.0) -> SeasonHeat:
    """Heat of the same amount every day; members differ by `spread` in what is to come."""
    shares = np.array([1 - spread, 1.0, 1 + spread])
    heat = np.full((3, SEASON_DAYS), a_day) * shares[:, None]
    heat[:, :known] = a_day
    return SeasonHeat(PLANTED, heat, known, heat, (2023, 2024, 2025))


def station(seed: int, *, years: int = 12, last: date = date(2026, 7, 31)) -> DailyWeather:
    """Days of an invented station: a yearly swing, fronts of some days, warm and cool years."""
    rng = np.random.default_rng(seed)
    first = date(last.year - years, 1, 1)
    days = (last - first).days + 1
    day_of_year = np.array([(first + timedelta(days=i)).timetuple().tm_yday for i in range(days)])
    swing = 60 + 22 * np.sin(2 * np.pi * (day_of_year - 105) / 365.25)
    fronts = np.zeros(days)
    for day in range(1, days):
        fronts[day] = 0.7 * fronts[day - 1] + rng.normal(0, 4.5)
    mean = swing + fronts + np.repeat(rng.normal(0, 1.0, years + 1), 366)[:days]
    half = np.clip(rng.normal(13, 2, days), 5, 20)
    return DailyWeather(
        Station("invented", place=(-101.9, 33.6)),
        first,
        mean - half,
        mean + half,
        np.ones(days, np.uint8),
    )
