"""Whether the level of a station's temperatures can be in the unit that its file states.

Nothing in a column of numbers says its unit, but the level of a warm season does: no
place has 95 °C, and no cotton grows where July stays below 50 °F.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.weather_days import (
    F_PER_C,
    FREEZING_F,
    Degrees,
    FloatArray,
    StatedDays,
    from_fahrenheit,
)
from quarterwalk.weather.station import Station

BoolArray = npt.NDArray[np.bool_]

# Beyond the world's records of -69.6 °C north of the Antarctic (Greenland, 1991), -89.2 °C
# in it and 56.7 °C (WMO World Weather and Climate Extremes Archive, from memory), rounded
# outward. Codes for missing such as -99.9 °F lie below the first. [°C], [degrees]
COLDEST_C, COLDEST_ANTARCTIC_C, HOTTEST_C, ANTARCTIC = -70.0, -90.0, 60.0, -60.0
# In °F the highest is 140; numbers above that are in neither unit. [°F]
HOTTEST_F = HOTTEST_C * F_PER_C + FREEZING_F

# The middle of ten or more daily highs is above this nowhere: the hottest month, July in
# Death Valley, has about 47 °C (US climate normals 1991-2020, from memory); the margin and
# the days are a rule of this project. [°C], [days]
HOTTEST_LEVEL_C, LEVEL_DAYS = 52.0, 10
# Nine in ten warm-season highs below this are a warm season in Celsius; in Fahrenheit
# only ice caps and high mountains have it. A rule of this project. [°F], [fraction]
COLDEST_SUMMER_F, NEARLY_ALL = 50.0, 0.9
# Higher up than this nothing is concluded from a cold summer; a rule of this project. [m]
HIGH_M = 1500.0
# Whole degrees Fahrenheit read as tenths of Celsius: a summer below 12.5 °C of which half
# the days have less than 4 °C between their extremes, where 40 °F would be a desert's.
# Rules of this project. [°C], [°C], [days], [degrees]
COLDEST_TENTHS_C, LEAST_RANGE_C, TENTHS_DAYS, TENTHS_NORTH = 12.5, 4.0, 5, 45.0
# Kelvin: highs as of an inhabited place, and no more than 40 between lowest and highest,
# where tenths of a degree have 50 and more. Rules of this project. [K], [K]
KELVIN, KELVIN_RANGE = (220.0, 340.0), 40.0

_WARM_NORTH, _WARM_SOUTH = (5, 6, 7, 8, 9), (11, 12, 1, 2, 3)
_HOT_NORTH, _HOT_SOUTH = (6, 7, 8), (12, 1, 2)


@dataclass(frozen=True, slots=True)
class Season:
    """Days of which months tell a warm season, how many, and up to which latitude."""

    days: int
    farthest: float
    north: tuple[int, ...]
    south: tuple[int, ...]


SEASONS = (
    Season(20, 50.0, _WARM_NORTH, _WARM_SOUTH),
    Season(5, 45.0, _HOT_NORTH, _HOT_SOUTH),
    Season(3, 40.0, _HOT_NORTH, _HOT_SOUTH),
)
"""What tells a warm season; rules of this project."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why temperatures can't be what they are stated to be.

    Parameters
    ----------
    got : str
        What they are like, in few words.
    likely : str
        What they likely are, and what to do, as sentences.
    """

    got: str
    likely: str


def possible(station: Station, unit: Degrees) -> tuple[float, float]:
    """Give the lowest and the highest temperature that a place can have, in a unit."""
    antarctic = station.place is not None and station.place[1] < ANTARCTIC
    coldest = COLDEST_ANTARCTIC_C if antarctic else COLDEST_C
    bounds = np.array([coldest, HOTTEST_C]) * F_PER_C + FREEZING_F
    low, high = from_fahrenheit(bounds, unit).tolist()
    return low, high


def refuse_mixed_up(file: str, days: StatedDays) -> None:
    """Refuse a station's days if their level is not possible in the unit that is stated.

    Parameters
    ----------
    file : str
        What errors call it.
    days : StatedDays
        As the file states them.

    Raises
    ------
    RefusedInput
        With the likely unit.
    """
    doubt = level_doubt(days)
    if doubt is not None:
        expected = f"in °{days.unit.value}, as its columns are named"
        if days.tenths:
            expected = "in tenths of a degree Celsius, as the files of the archive are"
        got = f"{doubt.got} (station {days.station.label})"
        raise RefusedInput([Problem(file, None, None, got, expected, doubt.likely)])


def level_doubt(days: StatedDays) -> Doubt | None:
    """Tell why the level of some days is not possible as stated; None where it is.

    Parameters
    ----------
    days : StatedDays
        As stated.

    Returns
    -------
    Doubt or None
    """
    highs = np.fmax(days.tmin, days.tmax)  # columns may be swapped
    known = highs[np.isfinite(highs)]
    if not known.size:
        return None
    if days.tenths:
        return _not_tenths(days, highs)
    if np.count_nonzero(known > HOTTEST_F) > known.size / 2 and known.size >= LEVEL_DAYS:
        return _in_no_unit(days, float(np.median(known)))
    likely = days.unit.other
    hint = (
        f"The temperatures are likely in °{likely.value}: "
        f"then name the columns with _{likely.value.lower()}."
    )
    if days.unit is Degrees.CELSIUS:
        middle = float(np.median(known))
        too_hot = middle > HOTTEST_LEVEL_C and known.size >= LEVEL_DAYS
        if too_hot or HOTTEST_C < middle <= HOTTEST_F:
            return Doubt(f"daily highs around {middle:.0f} °C", hint)
        return None
    for season in SEASONS:
        warm = highs[np.isfinite(highs) & _in_season(days, season)]
        if warm.size >= season.days:
            level = float(np.quantile(warm, NEARLY_ALL))
            if level < COLDEST_SUMMER_F:
                return Doubt(f"summer highs below {level:.0f} °F", hint)
    return None


def _in_no_unit(days: StatedDays, middle: float) -> Doubt:
    """Say what temperatures are of which most are possible in neither unit."""
    apart = np.abs(days.tmax - days.tmin)
    apart = apart[np.isfinite(apart)]
    near = apart.size > 0 and float(np.median(apart)) < KELVIN_RANGE
    got = f"a high of {middle:.6g} on most days"
    if near and KELVIN[0] < middle < KELVIN[1]:
        return Doubt(got, "Are they in Kelvin? Write them in °C: 273.15 less.")
    return Doubt(got, "Are they in tenths of a degree? Write 28.9 for 289.")


def _not_tenths(days: StatedDays, highs: FloatArray) -> Doubt | None:
    """Tell whole degrees that were taken for tenths of a degree."""
    season = Season(TENTHS_DAYS, TENTHS_NORTH, _HOT_NORTH, _HOT_SOUTH)
    both = np.isfinite(days.tmin) & np.isfinite(days.tmax) & _in_season(days, season)
    if np.count_nonzero(both) < season.days:
        return None
    level = float(np.quantile(highs[both], NEARLY_ALL))
    apart = float(np.median(np.abs(days.tmax - days.tmin)[both]))
    if level >= COLDEST_TENTHS_C or apart >= LEAST_RANGE_C:
        return None
    hint = (
        "The values look like whole degrees, not tenths: write a table of days with columns "
        "tmin_f, tmax_f for °F, or tmin_c, tmax_c for °C."
    )
    return Doubt(f"summer highs below {level:.1f} °C", hint)


def _in_season(days: StatedDays, season: Season) -> BoolArray:
    """Tell the days of a season that is warm where cotton grows, shape (days,)."""
    station = days.station
    north = station.place[1] if station.place else 0.0
    if abs(north) > season.farthest or (station.elevation_m or 0.0) > HIGH_M:
        return np.zeros(days.marks.size, np.bool_)
    first = np.datetime64(days.first, "D")
    months = (first + np.arange(days.marks.size)).astype("datetime64[M]").astype(np.int64) % 12 + 1
    return np.isin(months, season.south if north < 0.0 else season.north)
