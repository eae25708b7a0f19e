"""The sun's way among the stars, by the series of lower accuracy: .01 degree for centuries.

References
----------
Meeus, J., 1998, Astronomical Algorithms, 2nd ed.: chapters 7 (Julian day), 12 (sidereal
time), 22 (nutation, in the simple form), 25 (sun, the method of lower accuracy) and 28
(equation of time). Numbers of chapters, formulas and pages, here and below, are from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

import numpy as np
from numpy.polynomial.polynomial import polyval

from quarterwalk.weather.daily import FloatArray, WeatherError

Moments = datetime | Sequence[datetime] | FloatArray | float
"""Times that know their zone, or Julian days of universal time. [days]"""

# Noon of 2000-01-01, from which the series count (Meeus 1998, ch. 7 and 22). [Julian day], [days]
EPOCH_DAY = 2_451_545.0
EPOCH = datetime(2000, 1, 1, 12, tzinfo=UTC)
CENTURY_DAYS = 36_525.0
DAY_SECONDS = 86_400.0

# The sun's mean longitude and mean anomaly by powers of centuries
# (Meeus 1998, 25.2, 25.3). [degrees]
MEAN_LONGITUDE = (280.46646, 36_000.76983, 0.0003032)
MEAN_ANOMALY = (357.52911, 35_999.05029, -0.0001537)
# Equation of the centre: factors of the sine of 1, 2 and 3 anomalies
# (Meeus 1998, p. 164). [degrees]
CENTRE = ((1.914602, -0.004817, -0.000014), (0.019993, -0.000101), (0.000289,))
# Longitude of the moon's rising node, and what it moves (Meeus 1998, p. 164). [degrees]
NODE = (125.04, -1934.136)
NUTATION_LONGITUDE = -0.00478
NUTATION_OBLIQUITY = 0.00256
# Aberration as it is for the place of the sun, and in the equation of time (Meeus 1998, pp. 164
# and 183). [degrees]
ABERRATION = -0.00569
ABERRATION_IN_TIME = -0.0057183
# Tilt of the earth's axis (Meeus 1998, 22.2). [degrees]
OBLIQUITY = (23 + 26 / 60 + 21.448 / 3600, -46.8150 / 3600, -0.00059 / 3600, 0.001813 / 3600)
# Mean sidereal time at Greenwich, and how much it gains in a day (Meeus 1998, 12.4). [degrees]
SIDEREAL = (280.46061837, 0.0, 0.000387933, -1 / 38_710_000)
SIDEREAL_A_DAY = 360.98564736629
# A turn of the earth takes 24 hours. [minutes a degree]
MINUTES_A_DEGREE = 4.0


@dataclass(frozen=True, slots=True, eq=False)
class SunCoordinates:
    """Where the sun stands among the stars, and how far sundials are ahead of clocks.

    Parameters
    ----------
    longitude, right_ascension, declination : float array
        Apparent, at the equinox of the date. [degrees]
    equation_of_time : float array
        Sun time less mean time. [minutes]
    """

    longitude: FloatArray
    right_ascension: FloatArray
    declination: FloatArray
    equation_of_time: FloatArray


def julian_day(moment: datetime) -> float:
    """Count the days from the start of the Julian period.

    Parameters
    ----------
    moment : datetime
        It must know its zone.

    Returns
    -------
    float
        In universal time, in the Gregorian calendar however early. [days]

    Raises
    ------
    WeatherError
        If the time has no zone.
    """
    if moment.tzinfo is None:
        raise WeatherError(f"a time must know its zone, got {moment.isoformat()}; add its zone.")
    return EPOCH_DAY + (moment - EPOCH).total_seconds() / DAY_SECONDS


def moment_at(day: float, zone: tzinfo) -> datetime:
    """Give the time of a Julian day, to the whole second.

    Parameters
    ----------
    day : float
        In universal time. [days]
    zone : tzinfo
        Of the time that is given.

    Returns
    -------
    datetime
    """
    seconds = round((day - EPOCH_DAY) * DAY_SECONDS)
    return (EPOCH + timedelta(seconds=seconds)).astimezone(zone)


def as_days(moments: Moments) -> FloatArray:
    """Turn times into Julian days.

    Parameters
    ----------
    moments : datetime, sequence of datetime, or float array
        Times with their zone, or Julian days already. [days]

    Returns
    -------
    float array
        [days]

    Raises
    ------
    WeatherError
        If a time has no zone.
    """
    if isinstance(moments, datetime):
        return np.asarray(julian_day(moments))
    if isinstance(moments, Sequence):
        return np.array([julian_day(moment) for moment in moments], dtype=np.float64)
    return np.asarray(moments, dtype=np.float64)


def sun_coordinates(moments: Moments) -> SunCoordinates:
    """Give the sun's place among the stars.

    Parameters
    ----------
    moments : datetime, sequence of datetime, or float array
        Times with their zone, or Julian days. The minute by which dynamical time runs ahead
        is left out; it moves the sun by less than .001 degree. [days]

    Returns
    -------
    SunCoordinates
        Arrays of the shape of the moments.
    """
    centuries = (as_days(moments) - EPOCH_DAY) / CENTURY_DAYS
    mean = polyval(centuries, MEAN_LONGITUDE)
    anomaly = np.radians(polyval(centuries, MEAN_ANOMALY))
    centre = sum(polyval(centuries, c) * np.sin(n * anomaly) for n, c in enumerate(CENTRE, 1))
    nutation, obliquity = _nutation(centuries)
    longitude = np.mod(mean + centre + ABERRATION + nutation, 360)
    lam, eps = np.radians(longitude), np.radians(obliquity)
    ascension = np.degrees(np.arctan2(np.cos(eps) * np.sin(lam), np.cos(lam))) % 360
    ahead = mean + ABERRATION_IN_TIME - ascension + nutation * np.cos(eps)
    return SunCoordinates(
        longitude=longitude,
        right_ascension=ascension,
        declination=np.degrees(np.arcsin(np.sin(eps) * np.sin(lam))),
        equation_of_time=MINUTES_A_DEGREE * _half_turn(ahead),
    )


def sun_hour_angle(moments: Moments, longitude: float) -> FloatArray:
    """Give how far the earth has turned since the sun stood highest.

    Parameters
    ----------
    moments : datetime, sequence of datetime, or float array
        Times with their zone, or Julian days. [days]
    longitude : float
        East of Greenwich. [degrees]

    Returns
    -------
    float array
        From -180 to 180; below 0 before noon. [degrees]
    """
    days = as_days(moments)
    return hour_angle_of(days, sun_coordinates(days), longitude)


def hour_angle_of(days: FloatArray, sun: SunCoordinates, longitude: float) -> FloatArray:
    """Give the hour angle where the sun's coordinates are at hand.

    Parameters
    ----------
    days : float array
        In universal time. [days]
    sun : SunCoordinates
        At those days.
    longitude : float
        East of Greenwich. [degrees]

    Returns
    -------
    float array
        From -180 to 180. [degrees]
    """
    since = days - EPOCH_DAY
    nutation, obliquity = _nutation(since / CENTURY_DAYS)
    sidereal = polyval(since / CENTURY_DAYS, SIDEREAL) + SIDEREAL_A_DAY * since
    apparent = sidereal + nutation * np.cos(np.radians(obliquity))
    return _half_turn(apparent + longitude - sun.right_ascension)


def _nutation(centuries: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Give the nodding of the axis in longitude, and its tilt at the time."""
    node = np.radians(polyval(centuries, NODE))
    tilt = polyval(centuries, OBLIQUITY) + NUTATION_OBLIQUITY * np.cos(node)
    return NUTATION_LONGITUDE * np.sin(node), tilt


def _half_turn(angle: FloatArray) -> FloatArray:
    return (np.asarray(angle) + 180) % 360 - 180
