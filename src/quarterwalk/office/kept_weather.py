"""The weather of a district, read from its rows once: the same content is the same days."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.office.models import StationRow
from quarterwalk.office.remembered import Remembered
from quarterwalk.office.translate_season import to_station, to_weather
from quarterwalk.weather import DailyWeather, Station

# Stations that a process remembers; forty years of one take some 250 kB. [count]
_REMEMBERED = 100

_Known = tuple[str, Station]
"""The SHA-256 of a station's days, and what else is known of it."""

KEPT: Remembered[_Known, DailyWeather] = Remembered(_REMEMBERED)
"""Stations that were read."""


@dataclass(frozen=True, slots=True, eq=False)
class DistrictWeather:
    """The days of all stations of a district.

    Parameters
    ----------
    stations : tuple of DailyWeather
        By id; none where nobody handed weather in.
    content : tuple
        What they are made from: the same content is the same weather.
    """

    stations: tuple[DailyWeather, ...]
    content: tuple[_Known, ...]


def weather_of(district_id: int) -> DistrictWeather:
    """Give the days of all stations of a district.

    Parameters
    ----------
    district_id : int
        The district's key.

    Returns
    -------
    DistrictWeather
        The very same days for the same content.
    """
    rows = StationRow.objects.filter(district=district_id).order_by("station")
    content = tuple(_known(row) for row in rows.defer("days"))
    found = tuple(weather for each in content if (weather := KEPT.get(each)) is not None)
    if len(found) == len(content):
        return DistrictWeather(found, content)
    # whole rows: their days and what stands beside them are of one moment
    whole = list(rows)
    return DistrictWeather(tuple(map(_kept, whole)), tuple(map(_known, whole)))


def _known(row: StationRow) -> _Known:
    return row.sha256, to_station(row)


def _kept(row: StationRow) -> DailyWeather:
    return KEPT.made(_known(row), lambda: to_weather(row))
