"""The weather of a district, read from its rows once: the same content is the same days."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quarterwalk.office.models import StationRow
from quarterwalk.office.remembered import Remembered
from quarterwalk.office.translate_season import sha256_of, to_station, to_weather
from quarterwalk.weather import DailyWeather, Station

# Stations that a process remembers, as many as five districts may have; forty years of one
# take some 250 kB. [count]
_REMEMBERED = 200

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
    known : tuple of (str, Station)
        What they are made from, each with the SHA-256 of its days.
    content : str
        SHA-256 of that: the same content is the same weather.
    """

    stations: tuple[DailyWeather, ...]
    known: tuple[_Known, ...]
    content: str

    def after(
        self, *, taken: Mapping[str, DailyWeather] | None = None, away: str | None = None
    ) -> DistrictWeather:
        """Give the weather as it is once a change of stations is kept.

        Parameters
        ----------
        taken : mapping of str to DailyWeather
            Stations in place of those of the same id, or beside the others.
        away : str or None
            The station that is taken away.

        Returns
        -------
        DistrictWeather
            Of the very content that its rows will have.
        """
        pairs = zip(self.known, self.stations, strict=True)
        told = {each.station.id: (key, each) for key, each in pairs}
        for id, days in (taken or {}).items():
            told[id] = ((sha256_of(days), days.station), days)
        told.pop(away or "", None)
        return _made_of([told[id] for id in sorted(told)])


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
    known = [_known(row) for row in rows.defer("days")]
    found = [(key, weather) for key in known if (weather := KEPT.get(key)) is not None]
    if len(found) == len(known):
        return _made_of(found)
    # whole rows: their days and what stands beside them are of one moment
    return _made_of([(_known(row), _kept(row)) for row in rows.all()])


def _made_of(pairs: Sequence[tuple[_Known, DailyWeather]]) -> DistrictWeather:
    known = tuple(key for key, _ in pairs)
    content = hashlib.sha256(repr(known).encode()).hexdigest()
    return DistrictWeather(tuple(weather for _, weather in pairs), known, content)


def _known(row: StationRow) -> _Known:
    return row.sha256, to_station(row)


def _kept(row: StationRow) -> DailyWeather:
    return KEPT.made(_known(row), lambda: to_weather(row))
