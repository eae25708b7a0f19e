"""A season's heat, day by day: what is known, and what may come by the station's own years."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from quarterwalk.weather.daily import (
    DailyWeather,
    DayMark,
    FloatArray,
    WeatherError,
    forecast_holds,
)
from quarterwalk.weather.heat_units import HeatMethod

# A rule of this project: thirty years tell what weather may come, as many as a climate normal
# is made of (from memory); older ones tell of another climate. [years]
MOST_YEARS = 30

# A rule of this project: with fewer years the worst and the best of them are still guesses,
# and this is said. [years]
FEW_YEARS = 10

# A rule of this project: without other years, what comes is the mean of the last two weeks
# that are known, a third more or less. [days], [ratio]
RECENT_DAYS = 14
GUESSES = (0.67, 0.78, 0.89, 1.0, 1.11, 1.22, 1.33)


@dataclass(frozen=True, slots=True, eq=False)
class SeasonHeat:
    """Heat of each day of one season, as an ensemble.

    Parameters
    ----------
    first : date
        The first day.
    heat : float array, shape (members, days)
        Heat units of each day; all members agree on the days that are known. [heat units]
    known : int
        Days from the first on that are known: measured, filled or forecast. [days]
    others : float array, shape (years, days)
        Heat of the same days in the station's other years; no rows where there are none.
        [heat units]
    years : tuple of int
        Those years.
    station : str
        Where it was measured; empty where that is not told.
    """

    first: date
    heat: FloatArray
    known: int
    others: FloatArray
    years: tuple[int, ...]
    station: str = ""

    @property
    def known_until(self) -> date:
        """The last day that is known; the day before the first where none is."""
        return self.first + timedelta(days=self.known - 1)

    @property
    def guessed(self) -> bool:
        """Whether what comes is guessed from the last days, for want of other years."""
        return not self.years

    @property
    def summed(self) -> FloatArray:
        """Heat from the first day through each day, shape (members, days). [heat units]"""
        total: FloatArray = np.cumsum(self.heat, axis=1)
        return total


def season_heat(
    weather: DailyWeather, first: date, days: int, *, until: date, method: HeatMethod, base: float
) -> SeasonHeat:
    """Give the heat of a season: known days, then every other year's days in their place.

    Parameters
    ----------
    weather : DailyWeather
        Filled; this season and as many others as there are.
    first : date
        The first day of the season, such as the day of planting.
    days : int
        How long it is. [days]
    until : date
        Measured days after this one are not looked at: the season as it was known then.
    method : callable
        Heat units of a day from its lowest and highest temperature.
    base : float
        Heat units count from here. [°F]

    Returns
    -------
    SeasonHeat
        One member for each other year.

    Raises
    ------
    WeatherError
        If a day of the season before the last known one is missing, or nothing tells
        what may come.
    """
    season = weather.between(first, first + timedelta(days=days - 1))
    known = _known_days(season, until)
    heat = method(season.tmin_f, season.tmax_f, base=base)
    rows, years = _other_years(weather, first, days, method, base)
    if not known and not years:
        if weather.missing.all():
            raise WeatherError(
                f"weather must have days with both a lowest and a highest temperature, and"
                f" {weather.station.label} has none."
            )
        raise WeatherError(
            f"weather must have temperatures of {first} or of whole other years, and"
            f" {_why_not(weather, first, until)}."
        )
    to_come = rows
    if not years:
        end = first + timedelta(days=known - 1)
        recent = weather.between(end - timedelta(days=RECENT_DAYS - 1), end)
        to_come = _guessed(method(recent.tmin_f, recent.tmax_f, base=base), days)
    members = to_come.copy()
    members[:, :known] = heat[:known]
    return SeasonHeat(first, members, known, rows, years, weather.station.label)


def _why_not(weather: DailyWeather, first: date, until: date) -> str:
    """Say of a season of which no day is known whether its days are missing, or not there."""
    label, last = weather.station.label, min(until, weather.last)
    if not weather.first <= first <= last:
        return f"{label} runs from {weather.first} to {weather.last}"
    days = f"on {first}" if first == last else f"from {first} to {last}"
    return f"{label} has no temperatures {days}"


def _known_days(season: DailyWeather, until: date) -> int:
    """Count the days that are known; refuse a gap inside them."""
    usable = ~season.missing
    late = np.arange(usable.size) > season.index_of(until)
    if not forecast_holds(season.marks[late]):
        usable &= ~late
    # the mean of other years at the end is no day that was known: the other years stand there
    ends = np.flatnonzero(usable & (season.marks != DayMark.OTHER_YEARS))
    known = int(ends[-1]) + 1 if ends.size else 0
    gaps = np.flatnonzero(~usable[:known])
    if gaps.size:
        day = season.day_at(int(gaps[0]))
        raise WeatherError(
            f"weather of {season.station.label} must have every day from {season.first} to"
            f" {season.day_at(known - 1)}; {gaps.size} can't be filled, the first is {day}.",
            "Give a file of another station near by, or of more years.",
        )
    return known


def _other_years(
    weather: DailyWeather, first: date, days: int, method: HeatMethod, base: float
) -> tuple[FloatArray, tuple[int, ...]]:
    rows: list[FloatArray] = []
    years: list[int] = []
    for year in range(weather.last.year, weather.first.year - 1, -1):
        start = _same_day(first, year)
        if abs((start - first).days) < days or len(years) == MOST_YEARS:
            continue
        there = weather.between(start, start + timedelta(days=days - 1))
        if not there.missing.any():
            rows.append(method(there.tmin_f, there.tmax_f, base=base))
            years.append(year)
    return np.array(rows, np.float64).reshape(len(years), days), tuple(years)


def _same_day(day: date, year: int) -> date:
    leap = (day.month, day.day) == (2, 29)
    return date(year, 2, 28) if leap else day.replace(year=year)


def _guessed(recent: FloatArray, days: int) -> FloatArray:
    """Carry the heat of the last days on, more or less of it."""
    told = recent[np.isfinite(recent)]
    if told.size < RECENT_DAYS:
        are = "is" if told.size == 1 else "are"
        raise WeatherError(
            f"with no other years, the last {RECENT_DAYS} days must be known to tell what may"
            f" come, and {told.size} of them {are}.",
            "Give a file of more years.",
        )
    guesses: FloatArray = np.array(GUESSES)[:, None] * np.full((1, days), told.mean())
    return guesses
