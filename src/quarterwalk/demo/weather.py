"""The invented weather of the demo district, as two stations wrote it down."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
import numpy.typing as npt
from shapely import Point

from quarterwalk.field import Frame
from quarterwalk.weather import DailyWeather, DayMark, Place, Station

WEATHER_COLUMNS = ("station", "name", "latitude", "longitude", "date", "tmin_f", "tmax_f")
"""Columns of the table that the stations hand in."""

_MOST_DAYS_A_YEAR = 366

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class TrueStation:
    """One invented station: its true weather, and what its file lacks or has wrong.

    Parameters
    ----------
    weather : DailyWeather
        What was true, day by day.
    missing, swapped : frozenset of date
        Days that its file lacks, and days whose two temperatures stand in each other's place.
    """

    weather: DailyWeather
    missing: frozenset[date]
    swapped: frozenset[date]


@cache
def demo_weather(middle: Place) -> tuple[TrueStation, ...]:
    """Make the weather of the demo district; the same every time.

    Parameters
    ----------
    middle : (float, float)
        The middle of the district. [degrees]

    Returns
    -------
    tuple of TrueStation
        The first is the truth that the demo's fields lived through.
    """
    text = (files("quarterwalk.demo") / "weather.toml").read_text(encoding="utf-8")
    told = tomllib.loads(text)
    rng = np.random.default_rng(told["seed"])
    first = date(told["first_year"], 1, 1)
    days = (told["last_day"] - first).days + 1
    mean = _mean(first, days, told, rng)
    half = np.clip(rng.normal(told["half"], told["half_differs"], days), 4, None)
    return tuple(_station(each, mean, half, first, middle, rng) for each in told["stations"])


def _mean(first: date, days: int, told: Mapping[str, Any], rng: np.random.Generator) -> Floats:
    """Make the mean of each day: the year's swing, warm and cool years, fronts, spells."""
    dates = [first + timedelta(days=day) for day in range(days)]
    turn = np.array([day.timetuple().tm_yday for day in dates]) - told["rises_on"]
    mean: Floats = told["mean"] + told["swing"] * np.sin(2 * np.pi * turn / _MOST_DAYS_A_YEAR)
    years = rng.normal(0, told["years"], dates[-1].year - first.year + 1)
    mean += years[[day.year - first.year for day in dates]]
    departure = 0.0
    for day, shock in enumerate(rng.normal(0, told["anew"], days)):
        departure = told["stays"] * departure + shock
        mean[day] += departure
    for spell in told["spells"]:
        place = (spell["first"] - first).days, (spell["last"] - first).days + 1
        mean[slice(*place)] += spell["warmer"]
    return mean


def _station(
    told: Mapping[str, Any],
    mean: Floats,
    half: Floats,
    first: date,
    middle: Place,
    rng: np.random.Generator,
) -> TrueStation:
    here = mean + told["warmer"] + rng.normal(0, told["differs"], mean.size)
    spot = Frame(*middle).to_globe(Point(told["east_km"] * 1000, told["north_km"] * 1000))
    station = Station(told["id"], told["name"], (spot.x, spot.y))
    low, high = np.round(here - half), np.round(here + half)
    marks = np.full(mean.size, DayMark.MEASURED, np.uint8)
    weather = DailyWeather(station, first, low, high, marks)
    return TrueStation(weather, frozenset(told["missing"]), frozenset(told["swapped"]))


def weather_rows(stations: tuple[TrueStation, ...]) -> Iterator[list[str]]:
    """Give the stations' days as rows of a table, with their gaps and slips.

    Parameters
    ----------
    stations : tuple of TrueStation
        From `demo_weather`.

    Yields
    ------
    list of str
        In the order of `WEATHER_COLUMNS`.
    """
    for each in stations:
        weather = each.weather
        station = weather.station
        east, north = station.place or (float("nan"), float("nan"))
        head = [station.id, station.name, f"{north:.4f}", f"{east:.4f}"]
        for place, (low, high) in enumerate(zip(weather.tmin_f, weather.tmax_f, strict=True)):
            day = weather.day_at(place)
            cells = [f"{low:.0f}", f"{high:.0f}"]
            if day in each.swapped:
                cells.reverse()
            if day not in each.missing:
                yield [*head, day.isoformat(), *cells]
