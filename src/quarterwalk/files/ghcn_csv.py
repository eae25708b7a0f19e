"""The daily archive as CSV: all stations of a year, or one station with columns by element.

By year: station, YYYYMMDD, element, value, three flags, hour of observation; a header, where
there is one, names these. By station:
one row a day, with a column of values and one of flags for each element, the flags
parted by commas (NOAA, GHCN-Daily, the readme files beside both, from memory).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

import numpy as np

from quarterwalk.errors import Problem
from quarterwalk.files.coded import Misread
from quarterwalk.files.csv_cells import csv_rows
from quarterwalk.files.ghcn_values import (
    ELEMENTS,
    NO_VALUE,
    NOT_MEASURED,
    STATION_ID,
    GhcnValues,
    tenths,
)
from quarterwalk.files.header import find_columns
from quarterwalk.files.refusal import refuse, refuse_if_any
from quarterwalk.files.sheet import Sheet
from quarterwalk.files.weather_cells import elevation, weather_day
from quarterwalk.files.weather_days import StatedDays
from quarterwalk.files.weather_rows import Readers, gather
from quarterwalk.files.weather_stations import STATION_READERS, stations_of

_YEARLY_WIDTHS = (7, 8)
_IS_YEARLY = re.compile(rf'"?{STATION_ID}"?,"?[0-9]{{8}}"?,"?[A-Z][A-Z0-9]{{3}}"?,')
_IS_YEARLY_HEADER = re.compile(
    r'"?(?:ID|STATION)"?,"?(?:DATE|YYYYMMDD)"?,"?ELEMENT"?,', re.IGNORECASE
)
_ENOUGH_FAULTS = 10_000
_WITH_UNIT = {"tmin_f", "tmax_f", "tmin_c", "tmax_c"}
_ID, _COMPACT = re.compile(STATION_ID), re.compile(r"[0-9]{8}")
# Measurement, quality, source and perhaps the hour of observation. [count], [characters]
_MOST_FLAGS, _LONGEST_FLAG = 4, 4
# What the archive says of a station whose height is not known (NOAA, GHCN-Daily
# readme.txt, section IV, from memory).
NO_HEIGHT = "-999.9"


def is_yearly(first_line: str) -> bool:
    """Tell a file of a year by its first line that is not blank."""
    return bool(_IS_YEARLY.match(first_line)) or _is_header(first_line)


def _is_header(line: str) -> bool:
    return _IS_YEARLY_HEADER.match(line) is not None


def yearly_days(file: str, data: bytes) -> list[StatedDays]:
    """Read a file of a year, or of some stations of it.

    Parameters
    ----------
    file : str
        What errors call it.
    data : bytes
        All of it.

    Returns
    -------
    list of StatedDays
        One of each station.

    Raises
    ------
    RefusedInput
        If anything in it is wrong.
    """
    values = GhcnValues(file)
    problems: list[Problem] = []
    for row, cells in enumerate(csv_rows(file, data), start=1):
        if _is_header(",".join(cells)):
            continue
        if len(cells) not in _YEARLY_WIDTHS:
            if any(map(str.strip, cells)):
                expected = "8 cells in the row: station, day, element, value, 3 flags, hour"
                problems.append(Problem(file, row, None, str(len(cells)), expected))
        elif cells[2] in ELEMENTS:
            problems += _take(values, file, row, cells)
        if len(problems) > _ENOUGH_FAULTS:
            break
    refuse_if_any(problems)
    return values.days()


def _take(values: GhcnValues, file: str, row: int, cells: Sequence[str]) -> list[Problem]:
    """Take the value of one row, or say what is wrong with it."""
    found: list[Any] = []
    for name, place, read in _YEARLY:
        try:
            found.append(read(cells[place]))
        except Misread as fault:
            return [Problem(file, row, name, cells[place], fault.expected, fault.hint)]
    station, day, value, flag = found
    values.add(station, day, cells[2], value, flag, row)
    return []


def _station_id(text: str) -> str:
    if not _ID.fullmatch(text):
        raise Misread("an id of 11 letters and digits")
    return text


@cache
def _compact_day(text: str) -> int:
    """Read YYYYMMDD. [days from 0001-01-01]"""
    expected = "a date as YYYYMMDD"
    if not _COMPACT.fullmatch(text):
        raise Misread(expected)
    try:
        return weather_day(f"{text[:4]}-{text[4:6]}-{text[6:]}").toordinal()
    except Misread as fault:
        raise Misread(expected, fault.hint or f"It must be {fault.expected}.") from None


def _flag(text: str) -> str:
    if len(text) > 1:
        raise Misread("one letter, or blank where no check failed")
    return text


_YEARLY: tuple[tuple[str, int, Callable[[str], Any]], ...] = (
    ("ID", 0, _station_id),
    ("YYYYMMDD", 1, _compact_day),
    ("VALUE", 3, tenths),
    ("Q", 5, _flag),
)
"""What is read of a row of a year: name, place and reader of each cell."""


def is_by_station(sheet: Sheet) -> bool:
    """Tell a file of one station by its columns of flags; with a unit it is our own table."""
    names = {name.lower() for name in sheet.header}
    flags = any(name.endswith("_attributes") for name in names)
    return "date" in names and flags and not names & _WITH_UNIT


def by_station_days(sheet: Sheet) -> list[StatedDays]:
    """Read a file of one station, with a column for each element.

    Parameters
    ----------
    sheet : Sheet
        Its rows.

    Returns
    -------
    list of StatedDays
        One of each station in it.

    Raises
    ------
    RefusedInput
        If anything in it is wrong.
    """
    names = ["elevation_m" if n.lower() == "elevation" else n for n in sheet.header]
    sheet = replace(sheet, header=tuple(names))
    _refuse_unmeasured(sheet)
    places, _ = find_columns(sheet, tuple(_BY_STATION), _REQUIRED)
    rows = gather(sheet, places, _BY_STATION, _REQUIRED)
    stations, of_row = stations_of(rows)
    days = rows.columns["date"].take(date.toordinal)
    values = GhcnValues(sheet.file)
    for element in ELEMENTS:
        value = rows.columns[element.lower()].take(int, NO_VALUE)
        flags = rows.columns.get(f"{element.lower()}_attributes")
        for i in np.flatnonzero(value != NO_VALUE).tolist():
            flag = "" if flags is None else flags.values[int(flags.codes[i])] or ""
            row = int(rows.file_rows[i])
            at = stations[int(of_row[i])].id
            values.add(at, int(days[i]), element, int(value[i]), flag, row)
    by_id = {station.id: station for station in stations}
    return [replace(found, station=by_id[found.station.id]) for found in values.days()]


def _refuse_unmeasured(sheet: Sheet) -> None:
    """Refuse a station without the lowest or the highest temperature."""
    names = {name.upper() for name in sheet.header}
    there = [element for element in ELEMENTS if element in names]
    if len(there) < len(ELEMENTS):
        got = f"only {there[0]}" if there else "none of them"
        refuse(sheet.file, got, "a file with daily TMIN and TMAX", NOT_MEASURED)


def _tenths_or_blank(text: str) -> int:
    return tenths(text) if text else NO_VALUE


def _quality(text: str) -> str:
    """Read the second of some flags parted by commas."""
    flags = text.split(",")
    if len(flags) > _MOST_FLAGS or any(len(flag) > _LONGEST_FLAG for flag in flags):
        raise Misread("flags parted by commas, as in ,,X")
    return flags[1].strip() if len(flags) > 1 else ""


def height(text: str) -> float:
    """Read how high a station stands; NaN where that is not known. [m]"""
    return float("nan") if text == NO_HEIGHT else elevation(text)


_REQUIRED = ("date", "tmin", "tmax")
_BY_STATION: Readers = {
    "date": weather_day,
    **STATION_READERS,
    "elevation_m": height,
    "tmin": _tenths_or_blank,
    "tmin_attributes": _quality,
    "tmax": _tenths_or_blank,
    "tmax_attributes": _quality,
}
