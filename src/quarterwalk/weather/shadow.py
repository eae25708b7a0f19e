"""Where a scout's shadow falls, and which way to walk so that it falls behind.

The shadow is kept off the plants that are looked at (common practice).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

import numpy as np

from quarterwalk.weather.daily import FloatArray, WeatherError
from quarterwalk.weather.station import Place
from quarterwalk.weather.sun import sun_events, sun_position

PERSON_HEIGHT_M = 1.7
"""Height of a person whose shadow is reckoned. [m] A rule of this project: about that of an
adult; a taller one has a little more time."""

ARM_REACH_M = 0.7
"""How far ahead of the feet a scout bends over a plant. [m] A rule of this project: an arm's
reach. Facing the sun, the shadow of a head that hangs so far ahead falls behind the feet as
long as the shadow is longer than that. Where it is shorter, it lies among the plants that
are looked at, whichever way the scout stands. A bent scout throws a shorter shadow than a
standing one, so that the hours told are the fewest."""

OVERHEAD_ELEVATION = math.degrees(math.atan2(PERSON_HEIGHT_M, ARM_REACH_M))
"""Above this the shadow is shorter than an arm's reach. [degrees]"""

STEP_MINUTES = 30
"""How far apart the hours of a day are told. [minutes] A rule of this project: in this time
the sun goes 7.5 degrees along its path, and a heading still holds."""


@dataclass(frozen=True, slots=True)
class ShadowHour:
    """The sun at one time, as it matters to a scout.

    Parameters
    ----------
    at : datetime
        When, in the zone of the field.
    heading : float
        Which way to face so that the shadow falls behind: to the sun. From north over
        east. [degrees, 0 to 360]
    elevation : float
        Of the sun over the horizon. [degrees]
    shadow_m : float
        Length of a standing person's shadow on flat ground. [m]
    overhead : bool
        Whether the shadow cannot be kept off the plants.
    """

    at: datetime
    heading: float
    elevation: float
    shadow_m: float
    overhead: bool


def shadow_length(
    elevation: FloatArray | float, height: FloatArray | float = PERSON_HEIGHT_M
) -> FloatArray:
    """Give the length of the shadow of what stands upright on flat ground.

    Parameters
    ----------
    elevation : float array
        Of the sun over the horizon. [degrees]
    height : float array
        Of what stands there. [m]

    Returns
    -------
    float array
        NaN where the sun is not above the horizon. [m]
    """
    up = np.asarray(elevation, dtype=np.float64)
    risen = np.where(up > 0, up, np.nan)
    return np.asarray(height * np.cos(np.radians(risen)) / np.sin(np.radians(risen)))


def shadow_day(
    day: date, place: Place, zone: tzinfo, step_minutes: int = STEP_MINUTES
) -> tuple[ShadowHour, ...]:
    """Tell the shadow through the daylight of a day.

    Parameters
    ----------
    day : date
        As the zone counts it.
    place : (float, float)
        Longitude and latitude of the field. [degrees]
    zone : tzinfo
        Of the times that are given.
    step_minutes : int
        How far apart, counted from midnight. [minutes]

    Returns
    -------
    tuple of ShadowHour
        While the sun's middle is above the horizon; none where it stays below.

    Raises
    ------
    WeatherError
        If the step is not at least a minute, or the place is not on the globe.
    """
    times = _times_around(sun_events(day, place, zone).noon, day, zone, step_minutes)
    sun = sun_position(times, place)
    lengths = shadow_length(sun.elevation)
    return tuple(
        ShadowHour(at, float(azimuth), float(up), float(length), bool(up > OVERHEAD_ELEVATION))
        for at, azimuth, up, length in zip(times, sun.azimuth, sun.elevation, lengths, strict=True)
        if up > 0
    )


def overhead_span(day: date, place: Place, zone: tzinfo) -> tuple[datetime, datetime] | None:
    """Give from when to when the shadow cannot be kept off the plants.

    Parameters
    ----------
    day : date
        As the zone counts it.
    place : (float, float)
        Longitude and latitude of the field. [degrees]
    zone : tzinfo
        Of the times that are given.

    Returns
    -------
    (datetime, datetime) or None
        None where the sun does not stand so high on that day.

    Raises
    ------
    WeatherError
        If the place is not on the globe.
    """
    high = sun_events(day, place, zone, elevation=OVERHEAD_ELEVATION)
    if high.sunrise is None or high.sunset is None:
        return None
    return high.sunrise, high.sunset


def _times_around(noon: datetime, day: date, zone: tzinfo, step_minutes: int) -> list[datetime]:
    """Give the times on the clock's steps in the 24 hours around a noon."""
    if step_minutes < 1:
        raise WeatherError(f"the step must be at least 1 minute, got {step_minutes}.")
    midnight = datetime.combine(day, time(), zone).astimezone(UTC)
    step, half_day = timedelta(minutes=step_minutes), timedelta(hours=12)
    since = noon.astimezone(UTC) - midnight
    first, last = -((half_day - since) // step), (since + half_day) // step
    return [(midnight + n * step).astimezone(zone) for n in range(first, last + 1)]
