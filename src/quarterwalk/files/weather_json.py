"""Weather out, as the JSON that scripts rely on: stations, their gaps and their heat units."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np

from quarterwalk.files.weather_cells import MARKS
from quarterwalk.files.weather_findings import WeatherFinding
from quarterwalk.weather.daily import DailyWeather, DayMark, FloatArray
from quarterwalk.weather.station import Station

Json = dict[str, Any]

FILLS = (DayMark.NEIGHBOUR, DayMark.BETWEEN, DayMark.OTHER_YEARS)
"""Ways in which a gap is filled."""

# Degrees and heat units are told as near as thermometers are read. [decimals]
_DECIMALS = 2

_SAID = {mark: word for word, mark in MARKS.items()} | {DayMark.MISSING: "missing"}


@dataclass(frozen=True, slots=True, eq=False)
class HeatTold:
    """Heat units of a station's days, and of the same days in its other years.

    Parameters
    ----------
    method, cutoff : str
        How they are counted.
    base_f, cap_f : float or None
        Heat counts from the base; above the cap it counts no more. [°F]
    weather : DailyWeather
        The days, gaps filled.
    heat : float array, shape (days,)
        NaN where not known. [heat units]
    others : float array, shape (years, days)
        Of each other year that has all of these days. [heat units]
    """

    method: str
    cutoff: str
    base_f: float
    cap_f: float | None
    weather: DailyWeather
    heat: FloatArray
    others: FloatArray

    @property
    def total(self) -> float | None:
        """The sum of all days; None where one is not known. [heat units]"""
        return _number(float(self.heat.sum()))

    @property
    def lacks_next_morning(self) -> bool:
        """Whether only the last of several days has no heat, though it is known itself."""
        unknown = np.isnan(self.heat)
        last = bool(unknown[-1] and not self.weather.missing[-1])
        return last and self.heat.size > 1 and int(np.count_nonzero(unknown)) == 1


@dataclass(frozen=True, slots=True, eq=False)
class StationTold:
    """What is told of one station.

    Parameters
    ----------
    measured, filled : DailyWeather
        Its days as the files have them, and with the gaps filled.
    distance_km : float or None
        From the place asked for; None where either place is not known. [km]
    heat : HeatTold
        Its heat units.
    beside : tuple of (Station, float)
        The other stations that measured days which were filled from one of them, the
        nearest first, and how far each is. [km]
    """

    measured: DailyWeather
    filled: DailyWeather
    distance_km: float | None
    heat: HeatTold
    beside: tuple[tuple[Station, float], ...] = ()

    def filled_by(self) -> dict[DayMark, int]:
        """Count the days that were filled, by how; those ways that occur. [days]"""
        gaps = self.measured.missing
        counts = {kind: int(np.count_nonzero(gaps & (self.filled.marks == kind))) for kind in FILLS}
        return {kind: count for kind, count in counts.items() if count}


def weather_json(stations: Iterable[StationTold], findings: Iterable[WeatherFinding]) -> Json:
    """Give stations as JSON-able values.

    Parameters
    ----------
    stations : iterable of StationTold
        In the order in which they are told.
    findings : iterable of WeatherFinding
        What was found wrong in the files.

    Returns
    -------
    dict
        What is not known is None, never 0; dates as ISO 8601, degrees Fahrenheit.
    """
    return {
        "stations": [_station_json(each) for each in stations],
        "findings": [
            {
                "station": found.station,
                "first": found.first.isoformat(),
                "last": found.last.isoformat(),
                "code": found.code,
                "text": found.text,
            }
            for found in findings
        ],
    }


def _station_json(told: StationTold) -> Json:
    station, days = told.measured.station, told.measured
    return {
        "id": station.id,
        "name": station.name or None,
        "place": None if station.place is None else list(station.place),
        "first": days.first.isoformat(),
        "last": days.last.isoformat(),
        "days": int(days.marks.size),
        "missing": int(np.count_nonzero(days.missing)),
        "filled": {_SAID[kind]: count for kind, count in told.filled_by().items()},
        "distance_km": told.distance_km,
        "heat_units": _heat_json(told.heat),
    }


def _heat_json(told: HeatTold) -> Json:
    # the double methods need the next morning: without it the sum ends a day earlier
    days = told.heat.size - told.lacks_next_morning
    others = told.others[:, :days]
    return {
        "method": told.method,
        "cutoff": None if told.cap_f is None else told.cutoff,
        "base_f": told.base_f,
        "cap_f": told.cap_f,
        "from": told.weather.first.isoformat(),
        "to": told.weather.day_at(days - 1).isoformat(),
        "total": _number(float(told.heat[:days].sum())),
        "other_years": {
            "years": len(others),
            "mean": float(others.sum(axis=1).mean()) if others.size else None,
        },
        "daily": [_day_json(told, index) for index in range(told.heat.size)],
    }


def _day_json(told: HeatTold, index: int) -> Json:
    return {
        "date": told.weather.day_at(index).isoformat(),
        "tmin_f": _number(float(told.weather.tmin_f[index])),
        "tmax_f": _number(float(told.weather.tmax_f[index])),
        "heat_units": _number(float(told.heat[index])),
        "mark": _SAID[DayMark(int(told.weather.marks[index]))],
    }


def _number(value: float) -> float | None:
    return None if np.isnan(value) else round(value, _DECIMALS)
