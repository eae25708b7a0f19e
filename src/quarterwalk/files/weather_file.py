"""Weather files in: told apart by what stands in them, whatever they are called."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import IO

from quarterwalk.errors import RefusedInput
from quarterwalk.files.ghcn_csv import by_station_days, is_by_station, is_yearly, yearly_days
from quarterwalk.files.ghcn_dly import dly_days, is_dly, refuse_old_dly
from quarterwalk.files.ghcn_stations import named_by_list, read_station_list, refuse_station_list
from quarterwalk.files.hourly_days import checked_hours
from quarterwalk.files.hourly_table import hourly_table, is_hourly
from quarterwalk.files.sheet import STANDARD_INPUT, Block, Sheet, open_sheet
from quarterwalk.files.weather_bytes import (
    bytes_of_file,
    bytes_of_source,
    first_line,
    is_packed_file,
)
from quarterwalk.files.weather_days import Degrees, StatedDays
from quarterwalk.files.weather_findings import WeatherFinding, checked_days
from quarterwalk.files.weather_table import daily_table
from quarterwalk.weather.daily import DailyWeather
from quarterwalk.weather.hourly import HourlyWeather
from quarterwalk.weather.station import Station

__all__ = ["WeatherFile", "WeatherFinding", "read_weather"]


@dataclass(frozen=True, slots=True)
class WeatherFile:
    """The weather of a file, and what is worth saying about it.

    Parameters
    ----------
    file : str
        The file's name.
    stations : tuple of DailyWeather
        The days of each station, in the order of the file.
    hourly : tuple of HourlyWeather
        The hours of each station, in the same order; empty where the file has days.
    findings : tuple of WeatherFinding
        What is odd in the days, and what was done about it.
    notices : tuple of str
        What was left alone, in plain words.
    """

    file: str
    stations: tuple[DailyWeather, ...]
    hourly: tuple[HourlyWeather, ...]
    findings: tuple[WeatherFinding, ...]
    notices: tuple[str, ...]


def read_weather(
    path: str | Path, *, stations: str | Path | None = None, stdin: IO[bytes] | None = None
) -> WeatherFile:
    """Read a file of weather: a table of days or hours, or a file of the daily archive.

    Parameters
    ----------
    path : str or Path
        The file; ``-`` reads from `stdin`.
    stations : str, Path or None
        The archive's list of stations, for names and places that the file does not give.
        [file name]
    stdin : binary file or None
        Where ``-`` reads from.

    Returns
    -------
    WeatherFile

    Raises
    ------
    RefusedInput
        If the file can't be read, or anything in it is wrong that can't be taken as missing.
    """
    if str(path) == "-" and stdin is not None:
        file, data = STANDARD_INPUT, bytes_of_source(stdin, STANDARD_INPUT)
    else:
        file, data = str(path), bytes_of_file(path, str(path))
    stated, notices = _stated(file, data, path)
    ids = {each.station.id for each in stated.all()}
    listed = {} if stations is None else read_station_list(stations, ids)
    return _checked(file, stated.named_by(listed), notices)


@dataclass(frozen=True, slots=True)
class _Stated:
    """What a file says, unchecked: days, or hours and their unit."""

    days: tuple[StatedDays, ...] = ()
    hours: tuple[HourlyWeather, ...] = ()
    unit: Degrees = Degrees.FAHRENHEIT

    def all(self) -> tuple[StatedDays | HourlyWeather, ...]:
        return (*self.days, *self.hours)

    def named_by(self, listed: Mapping[str, Station]) -> _Stated:
        days = (replace(each, station=named_by_list(each.station, listed)) for each in self.days)
        hours = (replace(each, station=named_by_list(each.station, listed)) for each in self.hours)
        return _Stated(tuple(days), tuple(hours), self.unit)


def _stated(file: str, data: bytes, path: str | Path) -> tuple[_Stated, tuple[str, ...]]:
    first = first_line(data)
    refuse_old_dly(file, first)
    refuse_station_list(file, first)
    if is_dly(first):
        return _Stated(tuple(dly_days(file, data))), ()
    if is_yearly(first):
        return _Stated(tuple(yearly_days(file, data))), ()
    sheet = _sheet(file, data, path)
    if is_by_station(sheet):
        return _Stated(tuple(by_station_days(sheet))), ()
    if is_hourly(sheet):
        hours, unit, notices = hourly_table(sheet)
        return _Stated(hours=tuple(hours), unit=unit), notices
    days, notices = daily_table(sheet)
    return _Stated(tuple(days)), notices


def _sheet(file: str, data: bytes, path: str | Path) -> Sheet:
    """Open the table; what can be read but once, such as a pipe, is not read again."""
    if file == str(path) and Path(path).is_file() and not is_packed_file(path):
        return open_sheet(path)
    with _called(file):
        sheet = open_sheet("-", stdin=io.BytesIO(data))
    return replace(sheet, file=file, blocks=_blocks(file, sheet.blocks))


def _blocks(file: str, blocks: Iterator[Block]) -> Iterator[Block]:
    with _called(file):
        yield from blocks


@contextmanager
def _called(file: str) -> Iterator[None]:
    """Tell what is wrong with bytes that were read already with the name of their file."""
    try:
        yield
    except RefusedInput as error:
        told = [replace(problem, file=file) for problem in error.problems]
        raise RefusedInput(told, error.more) from None


def _checked(file: str, stated: _Stated, notices: tuple[str, ...]) -> WeatherFile:
    stations: list[DailyWeather] = []
    hourly: list[HourlyWeather] = []
    findings: list[WeatherFinding] = []
    for days in stated.days:
        weather, found = checked_days(file, days)
        stations.append(weather)
        findings += found
    for hours in stated.hours:
        kept, weather, found = checked_hours(file, hours, stated.unit)
        hourly.append(kept)
        stations.append(weather)
        findings += found
    return WeatherFile(file, tuple(stations), tuple(hourly), tuple(findings), notices)
