"""Our own table of daily weather: CSV or XLSX, one row a day and station."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.header import find_columns
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.files.sheet import Sheet
from quarterwalk.files.weather_cells import mark, temperature, weather_day
from quarterwalk.files.weather_days import (
    Degrees,
    StatedDays,
    on_axis,
    refuse_too_many_days,
)
from quarterwalk.files.weather_rows import (
    Readers,
    WeatherRows,
    gather,
    pairs_that_differ,
    split_by,
)
from quarterwalk.files.weather_stations import STATION_READERS, stations_of
from quarterwalk.weather.daily import DayMark
from quarterwalk.weather.station import Station

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]

EXTREMES = {
    Degrees.FAHRENHEIT: ("tmin_f", "tmax_f"),
    Degrees.CELSIUS: ("tmin_c", "tmax_c"),
}
"""The columns of temperatures; their names say the unit."""

_BARE = frozenset({"tmin", "tmax", "min", "max", "low", "high", "mintemp", "maxtemp"})
_READERS: Readers = {
    "date": weather_day,
    "tmin_f": temperature,
    "tmax_f": temperature,
    "tmin_c": temperature,
    "tmax_c": temperature,
    **STATION_READERS,
    "mark": mark,
}
COLUMNS = tuple(_READERS)
"""Every column that is read."""


def daily_table(sheet: Sheet) -> tuple[list[StatedDays], tuple[str, ...]]:
    """Read a table of daily weather.

    Parameters
    ----------
    sheet : Sheet
        With a column ``date``.

    Returns
    -------
    days : list of StatedDays
        One of each station, in the order of their first rows.
    notices : tuple of str
        Columns that are not read.

    Raises
    ------
    RefusedInput
        If anything in it is wrong.
    """
    unit = unit_of(sheet, EXTREMES)
    required = ("date", *EXTREMES[unit])
    places, notices = find_columns(sheet, COLUMNS, required)
    rows = gather(sheet, places, _READERS, required)
    stations, of_row = stations_of(rows)
    ordinals = _ordinals(rows)
    _refuse_days_twice(rows, of_row, ordinals, required)
    return _by_station(rows, stations, of_row, ordinals, unit), notices


def unit_of(sheet: Sheet, named: Mapping[Degrees, tuple[str, ...]]) -> Degrees:
    """Tell the unit of a table from the names of its columns.

    Parameters
    ----------
    sheet : Sheet
        The table.
    named : mapping of Degrees to tuple of str
        The columns of temperatures in each unit.

    Returns
    -------
    Degrees

    Raises
    ------
    RefusedInput
        If they name none, or both.
    """
    names = {name.lower(): name for name in sheet.header}
    found = [unit for unit, columns in named.items() if set(columns) & set(names)]
    if len(found) == 1:
        return found[0]
    both = " or ".join(",".join(columns) for columns in named.values())
    bare = next((names[name] for name in names if name in _BARE | {"temp", "temperature"}), "")
    hint = "The unit stands in the column's name: _f for Fahrenheit, _c for Celsius."
    expected = f"columns named {both}"
    column = named[Degrees.FAHRENHEIT][0] if found else bare or None
    # without a column that looks like one, the header as a whole is what was found
    got = "both" if found else bare or ",".join(sheet.header)
    raise RefusedInput([Problem(sheet.file, sheet.header_row, column, got, expected, hint)])


def _ordinals(rows: WeatherRows) -> IntArray:
    return rows.columns["date"].take(date.toordinal)


def _refuse_days_twice(
    rows: WeatherRows, of_row: IntArray, ordinals: IntArray, required: tuple[str, ...]
) -> None:
    """Refuse rows of one station and day that say different things."""
    values = (rows.numbers(required[1]), rows.numbers(required[2]), _marks(rows))
    refuse_if_any([
        _twice(rows, one, two) for one, two in pairs_that_differ(of_row, ordinals, values)
    ])  # fmt: skip


def _twice(rows: WeatherRows, one: int, two: int) -> Problem:
    expected = f"a day that stands once (row {int(rows.file_rows[one])} is the same day)"
    hint = "The two rows say different things. Take out one of them."
    return rows.problem(two, "date", expected, hint)


def _marks(rows: WeatherRows) -> FloatArray:
    if "mark" not in rows.columns:
        return np.full(len(rows.file_rows), float(DayMark.MEASURED))
    return rows.columns["mark"].take(int).astype(np.float64)


def _by_station(
    rows: WeatherRows,
    stations: list[Station],
    of_row: IntArray,
    ordinals: IntArray,
    unit: Degrees,
) -> list[StatedDays]:
    each = split_by(of_row)
    refuse_too_many_days(rows.file, [ordinals[mine] for mine in each])
    tmin, tmax = (rows.numbers(name) for name in EXTREMES[unit])
    marks = _marks(rows)
    found = []
    for station, mine in zip(stations, each, strict=True):
        days = ordinals[mine]
        axis = int(days.min()), int(days.max() - days.min()) + 1
        low, high, mark_of = (on_axis(days, of[mine], *axis) for of in (tmin, tmax, marks))
        code = np.nan_to_num(mark_of, nan=float(DayMark.MEASURED)).astype(np.uint8)
        found.append(StatedDays(station, date.fromordinal(axis[0]), low, high, code, unit))
    return found
