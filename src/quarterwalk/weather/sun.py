"""Where the sun stands in the sky, and when it rises and sets.

References
----------
Meeus, J., 1998, Astronomical Algorithms, 2nd ed.: chapters 13 (azimuth and height), 15
(rising and setting) and 16 (refraction).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

import numpy as np

from quarterwalk.weather.daily import FloatArray, WeatherError
from quarterwalk.weather.station import Place
from quarterwalk.weather.sun_course import (
    Moments,
    as_days,
    hour_angle_of,
    julian_day,
    moment_at,
    sun_coordinates,
    sun_hour_angle,
)

__all__ = [
    "HORIZON",
    "SunEvents",
    "SunPosition",
    "julian_day",
    "nearest_minute",
    "refraction",
    "sun_coordinates",
    "sun_events",
    "sun_hour_angle",
    "sun_position",
]

# Refraction at 1010 hPa and 10 °C, in minutes of arc (Meeus 1998, 16.4).
# [minutes of arc], [degrees]
REFRACTION = 1.02
REFRACTION_BEND = (10.3, 5.11)
# Under this the formula no longer holds; it covers refraction at the horizon and the sun's
# half width (a rule of this project). [degrees]
REFRACTION_FROM = -1.0

HORIZON = -0.8333
"""Height of the sun's middle when its upper edge shows or goes: 34 minutes of arc for the
air and 16 for half its width (Meeus 1998, ch. 15). [degrees]"""

# Halvings of half a day until less than a millisecond is left. [count]
HALVINGS = 26
# Steps until the noon stands still to a thousandth of a second. [count]
NOON_STEPS = 3


@dataclass(frozen=True, slots=True, eq=False)
class SunPosition:
    """Where the sun stands in the sky.

    Parameters
    ----------
    azimuth : float array
        From north over east, 0 to 360. [degrees]
    elevation : float array
        Of the sun's middle over the horizon. [degrees]
    """

    azimuth: FloatArray
    elevation: FloatArray


@dataclass(frozen=True, slots=True)
class SunEvents:
    """When the sun rises, stands highest and sets; no rise or set where it does not."""

    sunrise: datetime | None
    noon: datetime
    sunset: datetime | None


def sun_position(moments: Moments, place: Place, *, refracted: bool = False) -> SunPosition:
    """Give where the sun stands in the sky.

    Parameters
    ----------
    moments : datetime, sequence of datetime, or float array
        Times with their zone, or Julian days. [days]
    place : (float, float)
        Longitude and latitude. [degrees]
    refracted : bool
        Whether the sun is told where it is seen, a little higher than it is, as the air
        bends its light.

    Returns
    -------
    SunPosition
        Arrays of the shape of the moments.

    Raises
    ------
    WeatherError
        If a time has no zone, or the place is not on the globe.
    """
    longitude, latitude = _on_globe(place)
    days = as_days(moments)
    sun = sun_coordinates(days)
    turned = np.radians(hour_angle_of(days, sun, longitude))
    north, up = np.radians(latitude), np.radians(sun.declination)
    height = np.sin(north) * np.sin(up) + np.cos(north) * np.cos(up) * np.cos(turned)
    elevation = np.degrees(np.arcsin(np.clip(height, -1, 1)))
    from_south = np.arctan2(
        np.cos(up) * np.sin(turned),
        np.cos(up) * np.cos(turned) * np.sin(north) - np.sin(up) * np.cos(north),
    )
    if refracted:
        elevation = elevation + refraction(elevation)
    return SunPosition(azimuth=(np.degrees(from_south) + 180) % 360, elevation=elevation)


def refraction(elevation: FloatArray | float) -> FloatArray:
    """Give how much higher the sun is seen than it stands.

    Parameters
    ----------
    elevation : float array
        Where it stands. [degrees]

    Returns
    -------
    float array
        At 1010 hPa and 10 °C; 0 from one degree under the horizon down. [degrees]
    """
    shown = np.asarray(elevation, dtype=np.float64)
    safe = np.maximum(shown, REFRACTION_FROM)
    over, under = REFRACTION_BEND
    bent = REFRACTION / np.tan(np.radians(safe + over / (safe + under))) / 60
    return np.where(shown < REFRACTION_FROM, 0.0, np.maximum(bent, 0.0))


def sun_events(day: date, place: Place, zone: tzinfo, *, elevation: float = HORIZON) -> SunEvents:
    """Give when the sun rises, stands highest and sets.

    Parameters
    ----------
    day : date
        The noon is the one nearest to 12:00 of this day. Where the zone lies far from the
        place, sunrise or sunset falls on the day beside it.
    place : (float, float)
        Longitude and latitude. [degrees]
    zone : tzinfo
        Of the times that are given.
    elevation : float
        What the sun must pass to have risen; without it, the edge of the horizon. [degrees]

    Returns
    -------
    SunEvents
        To the whole second. Sunrise and sunset are None where the sun does not pass.

    Raises
    ------
    WeatherError
        If the place is not on the globe.
    """
    noon = _noon(julian_day(datetime.combine(day, time(12), zone)), _on_globe(place)[0])
    low, high = noon + np.array([-0.5, 0.5]), np.full(2, noon)
    if np.any(sun_position(low, place).elevation > elevation) or np.all(
        sun_position(high, place).elevation < elevation
    ):
        return SunEvents(None, moment_at(noon, zone), None)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        above = sun_position(middle, place).elevation >= elevation
        low, high = np.where(above, low, middle), np.where(above, middle, high)
    return SunEvents(moment_at(high[0], zone), moment_at(noon, zone), moment_at(high[1], zone))


def _on_globe(place: Place) -> Place:
    longitude, latitude = place
    if not (abs(latitude) <= 90 and abs(longitude) <= 180):
        raise WeatherError(
            "a place must have a longitude from -180 to 180 and a latitude from -90 to 90, "
            f"got {longitude:g} and {latitude:g}; are they the other way round?"
        )
    return place


def _noon(near: float, longitude: float) -> float:
    for _ in range(NOON_STEPS):
        near -= float(sun_hour_angle(near, longitude)) / 360
    return near


def nearest_minute(at: datetime) -> datetime:
    """Give the whole minute nearest to a time, as times of the sun are told everywhere.

    Parameters
    ----------
    at : datetime
        The time.

    Returns
    -------
    datetime
        Half a minute goes up.
    """
    return (at + timedelta(seconds=30)).replace(second=0, microsecond=0)
