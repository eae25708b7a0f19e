"""What a service of weather answers: days in JSON, read strictly.

The form is that of the forecast and archive interfaces of Open-Meteo, as its documentation
describes them: ``daily.time`` with one day each, two rows of temperatures of the same
length, ``daily_units``; ``error`` and ``reason`` where it refuses.
"""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, NoReturn

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import shown
from quarterwalk.files import cells
from quarterwalk.files.coded import Misread
from quarterwalk.files.weather_days import Degrees, StatedDays, measured
from quarterwalk.files.weather_levels import level_doubt, possible
from quarterwalk.files.weather_service_errors import AnswerNotRead, RequestRefused
from quarterwalk.weather.station import Station

FloatArray = npt.NDArray[np.float64]

HIGHEST, LOWEST = "temperature_2m_max", "temperature_2m_min"
"""What the days' highest and lowest temperature, 2 m above the ground, are called."""

_UNITS = {"time": "iso8601", HIGHEST: "°F", LOWEST: "°F"}
# What is shown of an answer that is something else altogether. [characters]
_SHOWN = 60


@dataclass(frozen=True, slots=True, eq=False)
class Answer:
    """Days in a row, as a service told them.

    Parameters
    ----------
    first : date
        The first day.
    tmin_f, tmax_f : float array, shape (days,)
        Lowest and highest air temperature; both NaN where either was not told. [°F]
    elevation_m : float or None
        Of the ground that the temperatures are for. [m]
    """

    first: date
    tmin_f: FloatArray
    tmax_f: FloatArray
    elevation_m: float | None

    @property
    def last(self) -> date:
        """The last day."""
        return self.first + timedelta(days=self.tmin_f.size - 1)


def read_answer(data: bytes, address: str) -> Answer:
    """Read a whole answer.

    Parameters
    ----------
    data : bytes
        As it came.
    address : str
        Who sent it; errors name it.

    Returns
    -------
    Answer

    Raises
    ------
    RequestRefused
        If it says that the request was refused.
    AnswerNotRead
        If anything in it is not as described; the error says what.
    """
    try:
        told = _parsed(data)
        if told.get("error") is True:
            raise RequestRefused(address, f'it refused: "{_reason(told)}"')
        return _days(told)
    except ValueError as error:
        raise AnswerNotRead(address, str(error)) from error


def reason_told(data: bytes) -> str:
    """Find the reason in an answer that refuses.

    Parameters
    ----------
    data : bytes
        Any.

    Returns
    -------
    str
        Empty where none is told.
    """
    try:
        return _reason(_parsed(data))
    except ValueError:
        return ""


def _reason(told: dict[str, Any]) -> str:
    reason = told.get("reason")
    return shown(reason, most=200) if isinstance(reason, str) else ""


def _parsed(data: bytes) -> dict[str, Any]:
    try:
        told = json.loads(data.decode("utf-8"), parse_constant=_no_number)
    except (ValueError, RecursionError):
        start = shown(data[: 4 * _SHOWN].decode("utf-8", "replace"), most=_SHOWN)
        raise ValueError(f'the answer must be whole JSON, and begins with "{start}"') from None
    return _object(told, "the answer")


def _no_number(word: str) -> NoReturn:
    raise ValueError(word)


def _object(told: object, what: str) -> dict[str, Any]:
    if not isinstance(told, dict):
        raise ValueError(f"{what} must be a JSON object")
    return told


def _days(told: dict[str, Any]) -> Answer:
    units = _object(told.get("daily_units"), "daily_units")
    for name, unit in _UNITS.items():
        if units.get(name) != unit:
            got = shown(str(units.get(name)))
            raise ValueError(f'daily_units.{name} must be "{unit}", got "{got}"')
    daily = _object(told.get("daily"), "daily")
    days = [_day(text) for text in _row(daily, "time")]
    for before, day in zip(days, days[1:], strict=False):
        if day - before != timedelta(days=1):
            raise ValueError(f"days must follow one another, got {day} after {before}")
    tmin, tmax = (_temperatures(daily, name, days) for name in (LOWEST, HIGHEST))
    missing = np.isnan(tmin) | np.isnan(tmax)
    tmin[missing] = tmax[missing] = np.nan
    for at in np.flatnonzero(tmin > tmax):
        raise ValueError(f"the lowest temperature of {days[at]} must not be above its highest")
    elevation = _elevation(told)
    _refuse_impossible(_stated(told, days[0], tmin, tmax, elevation))
    return Answer(days[0], tmin, tmax, elevation)


def _stated(
    told: dict[str, Any], first: date, tmin: FloatArray, tmax: FloatArray, elevation: float | None
) -> StatedDays:
    """Give the days as a file would state them, at the place that the answer names."""
    east, north = (_finite(told.get(name)) for name in ("longitude", "latitude"))
    place = None if east is None or north is None else (east, north)
    station = Station("the service", place=place, elevation_m=elevation)
    return StatedDays(station, first, tmin, tmax, measured(tmin.size), Degrees.FAHRENHEIT)


def _refuse_impossible(days: StatedDays) -> None:
    """Refuse days that no place has, or that are at the level of another unit."""
    coldest, hottest = possible(days.station, days.unit)
    for name, values in ((LOWEST, days.tmin), (HIGHEST, days.tmax)):
        for at in np.flatnonzero((values < coldest) | (values > hottest)):
            raise ValueError(
                f"{name} of {days.day_at(int(at))} must be possible in °F, got {values[at]:.6g}"
            )
    doubt = level_doubt(days)
    if doubt is not None:
        raise ValueError(f"temperatures must be in °F, as it says, got {doubt.got}")


def _row(daily: dict[str, Any], name: str) -> list[Any]:
    row = daily.get(name)
    if not isinstance(row, list) or not row:
        raise ValueError(f"daily.{name} must be a list with one entry a day")
    return row


def _day(text: object) -> date:
    try:
        found = cells.day(text) if isinstance(text, str) else None
    except Misread:
        found = None
    if found is None:
        raise ValueError(f'a day must be written like 2026-06-30, got "{shown(str(text))}"')
    return found


def _temperatures(daily: dict[str, Any], name: str, days: list[date]) -> FloatArray:
    row = _row(daily, name)
    if len(row) != len(days):
        raise ValueError(f"daily.{name} must have one entry a day, {len(days)}, got {len(row)}")
    return np.array([_number(told, name, day) for told, day in zip(row, days, strict=True)])


def _number(told: object, name: str, day: date) -> float:
    if told is None:
        return math.nan
    number = _finite(told)
    if number is None:
        got = shown(str(told))
        raise ValueError(f'{name} of {day} must be a number or null, got "{got}"')
    return number


def _finite(told: object) -> float | None:
    """Give a JSON number; None for anything else, and for one beyond all floats."""
    if isinstance(told, bool) or not isinstance(told, int | float):
        return None
    try:
        number = float(told)
    except OverflowError:
        return None
    return number if math.isfinite(number) else None


def _elevation(told: dict[str, Any]) -> float | None:
    return _finite(told.get("elevation"))
