"""Our own table of hourly weather: CSV or XLSX, one row a reading and station."""

from __future__ import annotations

from datetime import datetime, timedelta

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import Problem
from quarterwalk.files.header import find_columns
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.files.sheet import Sheet
from quarterwalk.files.weather_cells import hour, humidity, temperature
from quarterwalk.files.weather_days import Degrees, refuse_too_many_days, to_fahrenheit
from quarterwalk.files.weather_rows import (
    Readers,
    WeatherRows,
    gather,
    pairs_that_differ,
    split_by,
)
from quarterwalk.files.weather_stations import STATION_READERS, stations_of
from quarterwalk.files.weather_table import unit_of
from quarterwalk.weather.hourly import HOURS_A_DAY, HourlyWeather
from quarterwalk.weather.humidity import humidity_from_dew_point
from quarterwalk.weather.station import Station
from quarterwalk.words import phrase_for

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

TEMPERATURES = {Degrees.FAHRENHEIT: ("temp_f",), Degrees.CELSIUS: ("temp_c",)}
"""The column of temperatures; its name says the unit."""

_DEW_POINTS = {Degrees.FAHRENHEIT: "dew_point_f", Degrees.CELSIUS: "dew_point_c"}
_READERS: Readers = {
    "time": hour,
    "temp_f": temperature,
    "temp_c": temperature,
    "humidity": humidity,
    "dew_point_f": temperature,
    "dew_point_c": temperature,
    **STATION_READERS,
}
COLUMNS = tuple(_READERS)
"""Every column that is read."""

_HOUR = 60
# No place has an air as dry as 1 % all the time; a rule of this project. [%]
_MOST_FRACTION = 1.0
# Minutes are counted from here so that they are whole and few. [datetime]
_EPOCH = datetime(1600, 1, 1)  # noqa: DTZ001
# When clocks are set back, one hour of a Sunday night in October or November comes twice:
# from 02:00 to 01:00 in the United States (15 U.S.C. 260a), from 03:00 to 02:00 or 04:00 to
# 03:00 in Europe (directive 2000/84/EC). South of the equator it is one in March or April,
# as from 03:00 to 02:00 in Australia (Standard Time Act 1987 of New South Wales). All from
# memory.
_SET_BACK_NORTH, _SET_BACK_SOUTH = (10, 11), (3, 4)
_SET_BACK_HOURS, _SUNDAY = (1, 2, 3), 6


def is_hourly(sheet: Sheet) -> bool:
    """Tell a table of hours: it has a column ``time`` and none ``date``."""
    names = {name.lower() for name in sheet.header}
    return "time" in names and "date" not in names


def hourly_table(sheet: Sheet) -> tuple[list[HourlyWeather], Degrees, tuple[str, ...]]:
    """Read a table of hourly weather.

    A reading that is not at the full hour counts for the hour nearest to it; of several
    that have a temperature the one nearest to the hour counts.

    Parameters
    ----------
    sheet : Sheet
        With a column ``time``.

    Returns
    -------
    hours : list of HourlyWeather
        One of each station, in the order of their first rows.
    unit : Degrees
        In which the file states temperatures.
    notices : tuple of str
        Columns and readings that are not used.

    Raises
    ------
    RefusedInput
        If anything in it is wrong.
    """
    unit = unit_of(sheet, TEMPERATURES)
    required = ("time", *TEMPERATURES[unit])
    places, notices = find_columns(sheet, COLUMNS, required)
    rows = gather(sheet, places, _READERS, required)
    stations, of_row = stations_of(rows)
    minutes = rows.columns["time"].take(_minutes)
    temp = to_fahrenheit(rows.numbers(required[1]), unit)
    _refuse_fractions(rows, stations, of_row)
    dry = _too_dry(rows, of_row, minutes)
    notices = (*notices, *_said_of_dry(rows, stations, of_row, dry))
    moist = _humidity(rows, temp, dry)
    _refuse_times_twice(rows, stations, of_row, minutes, (temp, moist))
    kept = _nearest(of_row, minutes, temp)
    if unused := len(minutes) - len(kept):
        notices = (*notices, _said_of_unused(sheet.file, unused))
    hours = _hours(minutes)
    kept = kept[~_alone_on_a_day(of_row[kept], minutes[kept])]
    parts = split_by(of_row[kept])
    refuse_too_many_days(sheet.file, [hours[kept[mine]] for mine in parts])
    found = [
        _of_station(station, hours[kept[mine]], temp[kept[mine]], moist[kept[mine]])
        for station, mine in zip(stations, parts, strict=True)
    ]
    return found, unit, notices


def _minutes(when: datetime) -> int:
    return (when - _EPOCH) // timedelta(minutes=1)


def _hours(minutes: IntArray) -> IntArray:
    """Give the full hour nearest to each time, the later one from half past on."""
    return (minutes + _HOUR // 2) // _HOUR


def _humidity(rows: WeatherRows, temp_f: FloatArray, dry: BoolArray) -> FloatArray:
    """Give the humidity of each row: as stated and not too dry, else out of the dew point."""
    found = np.where(dry, np.nan, rows.numbers("humidity"))
    for unit, name in _DEW_POINTS.items():
        dew_point_f = to_fahrenheit(rows.numbers(name), unit)
        found = np.where(np.isnan(found), humidity_from_dew_point(temp_f, dew_point_f), found)
    return found


def _refuse_fractions(rows: WeatherRows, stations: list[Station], of_row: IntArray) -> None:
    """Refuse a station whose humidities are all so low that they are fractions of 1.

    Taken for percent, they would make a hot day look harmless.
    """
    stated = rows.numbers("humidity")
    known = np.isfinite(stated)
    highest = np.full(len(stations), -1.0)
    np.maximum.at(highest, of_row[known], stated[known])
    refuse_if_any([
        Problem(rows.file, None, "humidity",
                f"none above {highest[at]:.6g} (station {station.label})",
                "relative humidity in percent, from 0 to 100",
                "Are they fractions? Write 60 for 0.6.")
        for at, station in enumerate(stations)
        if 0.0 <= highest[at] <= _MOST_FRACTION
    ])  # fmt: skip


def _too_dry(rows: WeatherRows, of_row: IntArray, minutes: IntArray) -> BoolArray:
    """Tell the rows whose humidity is that of a sensor that failed, or a fraction of 1.

    It is 0, or none of the station's day is above 1. Taken for percent, either would make a
    hot day look harmless.
    """
    stated = rows.numbers("humidity")
    known = np.isfinite(stated)
    days = minutes // (_HOUR * HOURS_A_DAY)
    days -= days.min()
    _, of_day = np.unique(of_row * (int(days.max()) + 1) + days, return_inverse=True)
    highest = np.full(int(of_day.max()) + 1, -1.0)
    np.maximum.at(highest, of_day[known], stated[known])
    dry: BoolArray = known & ((stated == 0.0) | (highest[of_day] <= _MOST_FRACTION))
    return dry


def _said_of_dry(
    rows: WeatherRows, stations: list[Station], of_row: IntArray, dry: BoolArray
) -> tuple[str, ...]:
    count = int(np.count_nonzero(dry))
    if not count:
        return ()
    first = int(np.argmax(dry))
    said = phrase_for(
        count,
        "{file}: {count} humidity is not used, that of {station} in row {row}:"
        " it is 0 %, or none of its day is above 1 %.",
        "{file}: {count} humidities are not used, first that of {station} in row {row}:"
        " they are 0 %, or none of their day is above 1 %.",
        file=rows.file,
        station=stations[int(of_row[first])].label,
        row=int(rows.file_rows[first]),
    )
    return (said,)


def _refuse_times_twice(
    rows: WeatherRows,
    stations: list[Station],
    of_row: IntArray,
    minutes: IntArray,
    values: tuple[FloatArray, ...],
) -> None:
    """Refuse two rows of one station and time that differ, but for a clock set back."""
    refuse_if_any([
        rows.problem(two, "time", f"a time that stands once (row {row} is the same time)",
                     "The two rows say different things. Take out one of them.")
        for one, two in pairs_that_differ(of_row, minutes, values)
        if not _may_be_set_back(int(minutes[two]), stations[int(of_row[two])])
        for row in [int(rows.file_rows[one])]
    ])  # fmt: skip


def _may_be_set_back(minutes: int, station: Station) -> bool:
    when = _EPOCH + timedelta(minutes=minutes)
    months: tuple[int, ...] = _SET_BACK_NORTH + _SET_BACK_SOUTH
    if station.place is not None:
        months = _SET_BACK_NORTH if station.place[1] >= 0.0 else _SET_BACK_SOUTH
    return when.month in months and when.weekday() == _SUNDAY and when.hour in _SET_BACK_HOURS


def _nearest(of_row: IntArray, minutes: IntArray, temp: FloatArray) -> IntArray:
    """Give the rows that count: of those with a temperature, if there are any, the nearest.

    Nearest to their hour, that is; the earlier of two alike.
    """
    hours, blank = _hours(minutes), np.isnan(temp)
    order = np.lexsort((minutes, np.abs(minutes - hours * _HOUR), blank, hours, of_row))
    new = (np.diff(of_row[order], prepend=-1) != 0) | (np.diff(hours[order], prepend=-1) != 0)
    first = order[np.flatnonzero(new)[np.cumsum(new) - 1]]
    best = (minutes[order] == minutes[first]) & (blank[order] == blank[first])
    return np.sort(order[best])


def _alone_on_a_day(of_row: IntArray, minutes: IntArray) -> BoolArray:
    """Tell readings of the last minutes before a midnight after which a station has no more.

    They count for that midnight, and would make a day of one hour.
    """
    hours = _hours(minutes)
    last, first = (np.full(int(of_row.max()) + 1, fill) for fill in (hours.min(), hours.max()))
    np.maximum.at(last, of_row, hours)
    np.minimum.at(first, of_row, hours)
    at_midnight = (hours % HOURS_A_DAY == 0) & (minutes < hours * _HOUR)
    only: BoolArray = at_midnight & (hours == last[of_row]) & (first < last)[of_row]
    return only


def _said_of_unused(file: str, count: int) -> str:
    return phrase_for(
        count,
        "{file}: {count} reading between full hours is not used.",
        "{file}: {count} readings between full hours are not used.",
        file=file,
    )


def _of_station(
    station: Station, at: IntArray, temp_f: FloatArray, humidity: FloatArray
) -> HourlyWeather:
    first = int(at.min())
    temps, moist = (_mean_on_axis(at - first, values) for values in (temp_f, humidity))
    return HourlyWeather(station, _EPOCH + timedelta(hours=first), temps, moist)


def _mean_on_axis(at: IntArray, values: FloatArray) -> FloatArray:
    """Lay values on an axis of hours; the hour of a clock set back has the mean of two."""
    known = np.isfinite(values)
    count = np.bincount(at[known], minlength=int(at.max()) + 1)
    total = np.bincount(at[known], weights=values[known], minlength=count.size)
    return np.where(count > 0, total / np.maximum(count, 1), np.nan)
