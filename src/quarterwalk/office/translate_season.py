"""Where rows of weather, of dates and of what was seen meet the core objects of a season."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import date
from typing import Any

import numpy as np

from quarterwalk.crop import Given, Seen, given_by
from quarterwalk.files.seen_joined import SeenRow as SeenCells
from quarterwalk.files.seen_joined import joined
from quarterwalk.office.models import SeasonRow, SeenRow, StationRow
from quarterwalk.weather import DailyWeather, Station

SIGNS = (
    "true_leaves", "nodes", "plants", "pinhead", "squaring_branches", "bloom", "nawf",
)  # fmt: skip
"""Columns of what was seen, alike in the table, in its rows and in the core."""


def to_station(row: StationRow) -> Station:
    """Give a station as the core knows it.

    Parameters
    ----------
    row : StationRow
        The station; its days are not looked at.

    Returns
    -------
    Station
    """
    place = None
    if row.longitude is not None and row.latitude is not None:
        place = (row.longitude, row.latitude)
    return Station(row.station, row.name, place, row.elevation_m)


def to_weather(row: StationRow) -> DailyWeather:
    """Give the days of a station: to the last digit as they were taken.

    Parameters
    ----------
    row : StationRow
        The station.

    Returns
    -------
    DailyWeather
    """
    low, high, marks = row.days.split("\n")
    return DailyWeather(
        to_station(row),
        row.first,
        np.array(low.split(), np.float64),
        np.array(high.split(), np.float64),
        np.array([int(mark) for mark in marks], np.uint8),
    )


def from_weather(weather: DailyWeather) -> dict[str, Any]:
    """Give the columns of a row for a station and its days.

    Parameters
    ----------
    weather : DailyWeather
        The days.

    Returns
    -------
    dict
        By the names of `StationRow`.
    """
    station = weather.station
    east, north = station.place or (None, None)
    days = _days_text(weather)
    return {
        "station": station.id,
        "name": station.name,
        "longitude": east,
        "latitude": north,
        "elevation_m": station.elevation_m,
        "first": weather.first,
        "last": weather.last,
        "days": days,
        "sha256": _sha256(weather.first, days),
    }


def sha256_of(weather: DailyWeather) -> str:
    """Give the SHA-256 that the row of some days has.

    Parameters
    ----------
    weather : DailyWeather
        The days.

    Returns
    -------
    str
        Of the first day and all that was measured; not of where.
    """
    return _sha256(weather.first, _days_text(weather))


def _days_text(weather: DailyWeather) -> str:
    numbers = (weather.tmin_f.tolist(), weather.tmax_f.tolist())
    lines = [" ".join(map(repr, each)) for each in numbers]
    return "\n".join([*lines, "".join(map(str, weather.marks.tolist()))])


def _sha256(first: date, days: str) -> str:
    return hashlib.sha256(f"{first.isoformat()}\n{days}".encode()).hexdigest()


def to_seen(on: date, rows: Sequence[SeenRow]) -> Seen:
    """Join what people saw of one field on one day.

    Parameters
    ----------
    on : date
        The day.
    rows : sequence of SeenRow
        At least one, none of them struck.

    Returns
    -------
    Seen
        Plants are added up, other counts are means, as in a table of what was seen.
    """
    told = [SeenCells(**{sign: getattr(row, sign) for sign in SIGNS}) for row in rows]
    return joined(on, told)


def from_seen(seen: Seen) -> dict[str, Any]:
    """Give the columns of a row for what was seen.

    Parameters
    ----------
    seen : Seen
        What was seen.

    Returns
    -------
    dict
        By the names of `SeenRow`.
    """
    return {"on": seen.on, **{sign: getattr(seen, sign) for sign in SIGNS}}


def stand_planted(season: SeasonRow | None) -> date | None:
    """Give the day on which the stand that grows now was planted.

    Parameters
    ----------
    season : SeasonRow or None
        What is known of the season.

    Returns
    -------
    date or None
        None where nobody said.
    """
    return None if season is None else season.replanted or season.planted


def to_given(season: SeasonRow, on: date) -> Given:
    """Give what was given outright of a season by a day.

    Parameters
    ----------
    season : SeasonRow
        What is known of the season.
    on : date
        The day; a first bloom after it tells nothing yet of the days before.

    Returns
    -------
    Given
    """
    first = season.first_square
    square = None if first is None else (first, season.first_square_latest or first)
    return given_by(on, square, season.bloom)
