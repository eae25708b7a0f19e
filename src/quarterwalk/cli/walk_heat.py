"""The station whose hours tell how hot a day feels: one for the whole day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import numpy as np

from quarterwalk.cli.lengths import length_words
from quarterwalk.files.weather_levels import COLDEST_SUMMER_F, HIGH_M
from quarterwalk.units import FOOT_M, MILE_FEET, MILES_PER_KM
from quarterwalk.weather.daily import DailyWeather
from quarterwalk.weather.heat_index import heat_index
from quarterwalk.weather.hourly import HourlyWeather
from quarterwalk.weather.station import Place, Station

FARTHEST_MILES = 60
"""No station further away tells how hot it is at the walk; a rule of this project. [miles]"""

# A summer's day below what tells a whole file in the wrong unit is in °C, likely, up to this
# latitude. A rule of this project. [degrees]
FARTHEST_LATITUDE = 40.0
_SUMMER_NORTH, _SUMMER_SOUTH = (6, 7, 8), (12, 1, 2)
# By the clock; one of them is known where the day's heat is. A rule of this project. [h]
_AFTERNOON = range(12, 19)

_NAN = float("nan")


@dataclass(frozen=True, slots=True)
class DayHeat:
    """What one station tells of the heat of a day.

    Parameters
    ----------
    feels : tuple of float
        Heat index of each hour, to the whole degree, so that its band is that of the number
        told; NaN where temperature and humidity are not both known. [°F]
    air_f : float
        The highest air temperature that is known; NaN where none is. [°F]
    top_f : float
        That of the whole day; NaN where only some hours are known. [°F]
    told : str
        Whose heat that is, where it is not that of the nearest station, or why none is taken
        that is given; a sentence, or empty.
    """

    feels: tuple[float, ...]
    air_f: float = _NAN
    top_f: float = _NAN
    told: str = ""

    @property
    def known(self) -> bool:
        """Whether the heat index of any hour is known."""
        return any(felt == felt for felt in self.feels)


def day_heat(
    hours: Sequence[datetime],
    place: Place,
    hourly: Iterable[HourlyWeather],
    daily: Iterable[DailyWeather],
) -> DayHeat:
    """Choose the nearest station that tells the heat of a day, and give what it tells.

    Parameters
    ----------
    hours : sequence of datetime
        The hours of the day, by the clock of the field.
    place : (float, float)
        Longitude and latitude of the walk. [degrees]
    hourly : iterable of HourlyWeather
        Hours by the same clock; of two of one station the later goes before the earlier.
    daily : iterable of DailyWeather
        Days of each station.

    Returns
    -------
    DayHeat
        All of one station: an hour that it does not know is not known. Where no station has
        a heat index, the air is that of the nearest that has a temperature.
    """
    unknown = DayHeat((_NAN,) * len(hours))
    if not hours:
        return unknown
    found = _by_station(hours, hourly, daily)
    miles = {each.id: _miles(each, place) for each in found}
    # stations that do not say where they are come last
    order = sorted(found, key=lambda each: (miles[each.id] is None, miles[each.id] or 0.0))
    near = [each for each in order if (miles[each.id] or 0.0) <= FARTHEST_MILES]
    taken = [each for each in near if not _is_cold_summer(hours, place, each, found[each])]
    by_air = [each for each in taken if found[each].air_f == found[each].air_f]
    by_index = [each for each in by_air if found[each].known]
    if by_air:
        best = (by_index or by_air)[0]
        told = "" if best is order[0] else _named(best, miles[best.id])
        return replace(found[best], told=told)
    if len(taken) < len(near):
        cold = next(each for each in near if each not in taken)
        return replace(unknown, told=_said_of_cold(cold))
    if any(found[each].known for each in order if each not in near):
        return replace(unknown, told=_said_of_far())
    return unknown


def _by_station(
    hours: Sequence[datetime], hourly: Iterable[HourlyWeather], daily: Iterable[DailyWeather]
) -> dict[Station, DayHeat]:
    """Give what each station tells, in the order in which they are given."""
    stations = {weather.station.id: weather.station for weather in daily}
    temps = {name: np.full(len(hours), _NAN) for name in stations}
    damps = {name: np.full(len(hours), _NAN) for name in stations}
    tops = {weather.station.id: _top(weather, hours[0].date()) for weather in daily}
    for weather in hourly:
        name = weather.station.id
        for at, hour in enumerate(hours):
            place = weather.index_of(hour.replace(tzinfo=None))
            if 0 <= place < weather.temp_f.size and not np.isnan(weather.temp_f[place]):
                temps[name][at], damps[name][at] = weather.temp_f[place], weather.humidity[place]
    return {
        station: DayHeat(
            tuple(np.round(heat_index(temps[name], damps[name])).tolist()),
            float(np.fmax.reduce(temps[name], initial=tops[name])),
            tops[name],
        )
        for name, station in stations.items()
    }


def _top(weather: DailyWeather, on: date) -> float:
    return float(weather.between(on, on).tmax_f[0])


def _miles(station: Station, place: Place) -> float | None:
    km = station.distance_km(place)
    return None if km is None else km * MILES_PER_KM


def _is_cold_summer(
    hours: Sequence[datetime], place: Place, station: Station, heat: DayHeat
) -> bool:
    """Tell a summer's day that is too cold for one all day."""
    latitude = place[1]
    if abs(latitude) > FARTHEST_LATITUDE or (station.elevation_m or 0.0) > HIGH_M:
        return False
    afternoon = any(
        felt == felt and hour.hour in _AFTERNOON
        for hour, felt in zip(hours, heat.feels, strict=True)
    )
    whole = afternoon or heat.top_f == heat.top_f
    summer = _SUMMER_SOUTH if latitude < 0.0 else _SUMMER_NORTH
    return whole and heat.air_f < COLDEST_SUMMER_F and hours[0].month in summer


def _named(station: Station, miles: float | None) -> str:
    where = "whose place is not told"
    if miles is not None:
        away = length_words(miles * float(MILE_FEET * FOOT_M), metric=False)
        where = f"{away} away"
    return f"What is known of the heat is that of {station.label}, {where}."


def _said_of_cold(station: Station) -> str:
    return (
        f"{station.label} stays below {COLDEST_SUMMER_F:.0f} °F on this summer's day, so its"
        " temperatures are not taken. Are they in °C?"
    )


def _said_of_far() -> str:
    return f"The stations that tell it are more than {FARTHEST_MILES} miles away, too far."
