"""The daily archive's station files: one line a month and element, in fixed columns.

The columns, counted from 1: station 1-11, year 12-15, month 16-17, element 18-21, then for
each of 31 days a value of 5 characters and three flags of one (measurement, quality,
source); 269 in all (NOAA, GHCN-Daily readme.txt, section III).
"""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Iterator
from datetime import date

from quarterwalk.errors import Problem
from quarterwalk.files.cells import FIRST_YEAR, LAST_YEAR
from quarterwalk.files.coded import Misread
from quarterwalk.files.ghcn_values import ELEMENTS, NO_VALUE, STATION_ID, GhcnValues, tenths
from quarterwalk.files.refusal import refuse, refuse_if_any
from quarterwalk.files.weather_bytes import lines_of
from quarterwalk.files.weather_days import StatedDays

# Widths of the columns (NOAA, GHCN-Daily readme.txt, section III). [characters], [count]
_HEAD, _VALUE, _QUALITY, _EACH, _DAYS, _LINE = 21, 5, 6, 8, 31, 269
# The flags of the last day may be blank, and blanks at the end of a line get lost.
_SHORTEST = _LINE - 3
_ENOUGH_FAULTS = 10_000
_MONTHS = 12

_START = re.compile(rf"({STATION_ID})([0-9]{{4}})([0-9]{{2}})([A-Z][A-Z0-9]{{3}})")
# Ids of 6 characters, then year, month and element (NOAA, United States Historical
# Climatology Network daily format note).
_IS_OLD = re.compile(r"[0-9]{6}(?:1[789]|20)[0-9]{2}(?:0[1-9]|1[0-2])(?:TMAX|TMIN|PRCP|SNOW|SNWD)")


def is_dly(first_line: str) -> bool:
    """Tell a station file by its first line that is not blank."""
    return _START.match(first_line) is not None


def refuse_old_dly(file: str, first_line: str) -> None:
    """Refuse the older files of the United States, whose units are others.

    Parameters
    ----------
    file : str
        What errors call it.
    first_line : str
        The first that is not blank.

    Raises
    ------
    RefusedInput
        If it is one.
    """
    if found := _IS_OLD.match(first_line):
        expected = "a station file with ids of 11 characters, in tenths of a degree Celsius"
        hint = (
            "This is an older kind, with ids of 6 characters and degrees Fahrenheit. "
            "Use the station's newer file, or write its days as a table."
        )
        refuse(file, found[0], expected, hint)


def dly_days(file: str, data: bytes) -> list[StatedDays]:
    """Read a station file.

    Parameters
    ----------
    file : str
        What errors call it.
    data : bytes
        All of it.

    Returns
    -------
    list of StatedDays
        One of each station in it.

    Raises
    ------
    RefusedInput
        If anything in it is wrong.
    """
    values = GhcnValues(file)
    problems: list[Problem] = []
    # every byte is one character here, so that columns are counted right
    for row, line in enumerate(lines_of(data), start=1):
        if line.strip():
            problems += _take(values, file, row, line)
        if len(problems) > _ENOUGH_FAULTS:
            break
    refuse_if_any(problems)
    return values.days()


def _take(values: GhcnValues, file: str, row: int, line: str) -> Iterator[Problem]:
    """Take the values of one line, or say what is wrong with it."""
    start = _START.match(line)
    if not start or not FIRST_YEAR <= int(start[2]) <= LAST_YEAR:
        expected = "an id of 11 characters, a year, a month and an element"
        yield Problem(file, row, "1-21", line[:_HEAD], expected)
        return
    if not 1 <= int(start[3]) <= _MONTHS:
        yield Problem(file, row, "16-17", start[3], f"a month from 01 to {_MONTHS}")
        return
    if len(line) < _SHORTEST or line[_LINE:].strip():
        expected = f"{_LINE} characters in a line"
        yield Problem(file, row, None, str(len(line)), expected, "The file may be cut off.")
        return
    station, element = start[1], start[4]
    if element not in ELEMENTS:
        return
    year, month = int(start[2]), int(start[3])
    first, days = date(year, month, 1).toordinal(), monthrange(year, month)[1]
    for place in range(_DAYS):
        at = _HEAD + place * _EACH
        text = line[at : at + _VALUE]
        try:
            value = tenths(text) if place < days else _of_no_day(text)
        except Misread as fault:
            yield Problem(file, row, f"VALUE{place + 1}", text, fault.expected, fault.hint)
            continue
        flag = line[at + _QUALITY : at + _QUALITY + 1]
        values.add(station, first + place, element, value, flag, row)


def _of_no_day(text: str) -> int:
    """Read the value of a day that the month does not have."""
    value = tenths(text)
    if value != NO_VALUE:
        raise Misread(f"{NO_VALUE}: the month has no such day")
    return value
