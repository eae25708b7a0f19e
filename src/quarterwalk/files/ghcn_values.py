"""Values of the daily archive (GHCN-Daily), gathered one by one into days of stations.

What its files share: elements TMIN and TMAX in tenths of a degree Celsius, -9999 for no
value, and a letter beside each value that failed a check (NOAA, GHCN-Daily readme.txt,
section III).
"""

from __future__ import annotations

import re
from array import array
from collections import defaultdict
from datetime import date

import numpy as np

from quarterwalk.errors import Problem
from quarterwalk.files.coded import Misread
from quarterwalk.files.refusal import refuse, refuse_if_any
from quarterwalk.files.weather_days import (
    Degrees,
    IntArray,
    StatedDays,
    measured,
    on_axis,
    refuse_too_many_days,
)
from quarterwalk.files.weather_rows import pairs_that_differ, refuse_too_many_stations
from quarterwalk.weather.station import Station

ELEMENTS = ("TMIN", "TMAX")
"""Elements that are read; all others are passed over."""

# NOAA, GHCN-Daily readme.txt, section III. [tenths of °C], [1 / °C]
NO_VALUE, TENTHS = -9999, 10.0

NOT_MEASURED = "The station may not measure them."
"""What is said where a file has no temperatures."""

STATION_ID = r"[A-Za-z0-9_-]{11}"
"""A station's id, as a pattern."""

_WHOLE = re.compile(r" *-?[0-9]{1,5} *")
_DECIMAL = re.compile(r" *-?[0-9]{1,3}\.[0-9]+ *")
_DEGREES = (
    "These are degrees, not tenths: name the columns tmin_c, tmax_c for °C, "
    "or tmin_f, tmax_f for °F."
)


def tenths(text: str) -> int:
    """Read a value.

    Parameters
    ----------
    text : str
        As it stands in the file.

    Returns
    -------
    int
        `NO_VALUE` where there is none. [tenths of °C]

    Raises
    ------
    Misread
        If it is no whole number.
    """
    if not _WHOLE.fullmatch(text):
        expected = f"a whole number of tenths of a degree Celsius, or {NO_VALUE}"
        raise Misread(expected, _DEGREES if _DECIMAL.fullmatch(text) else "")
    return int(text)


class GhcnValues:
    """Values of any stations in any order, and the row of each in the file.

    Parameters
    ----------
    file : str
        What errors call it.
    """

    def __init__(self, file: str) -> None:
        self._file = file
        self._stations: dict[str, int] = {}
        self._codes, self._days, self._values, self._rows = (array("q") for _ in range(4))
        self._failed: dict[tuple[int, int], list[str]] = defaultdict(list)

    def add(self, station: str, day: int, element: str, value: int, flag: str, row: int) -> None:
        """Take one value.

        Parameters
        ----------
        station : str
            Its id.
        day : int
            [days from 0001-01-01]
        element : str
            One of `ELEMENTS`.
        value : int
            [tenths of °C]
        flag : str
            The check that it failed; blank for none.
        row : int
            Where it stands in the file. [from 1]

        Raises
        ------
        RefusedInput
            If there are too many stations.
        """
        if value == NO_VALUE:
            return
        code = self._stations.setdefault(station, len(self._stations))
        refuse_too_many_stations(self._file, len(self._stations))
        order = code * len(ELEMENTS) + ELEMENTS.index(element)
        if flag.strip():
            self._failed[code, day].append(said_of_failed(element, value / TENTHS, flag))
            value = NO_VALUE
        self._codes.append(order)
        self._days.append(day)
        self._values.append(value)
        self._rows.append(row)

    def days(self) -> list[StatedDays]:
        """Give the days of each station, in the order of their first values.

        Returns
        -------
        list of StatedDays

        Raises
        ------
        RefusedInput
            If there is no lowest or no highest temperature, one day has two values, or there
            are too many days.
        """
        expected = "a file with daily TMIN and TMAX"
        if not self._stations:
            refuse(self._file, "none of them", expected, NOT_MEASURED)
        codes, days, values, rows = map(
            _as_array, (self._codes, self._days, self._values, self._rows)
        )
        self._refuse_twice(codes, days, values, rows)
        there = np.unique(codes % len(ELEMENTS)).tolist()
        if len(there) < len(ELEMENTS):
            refuse(self._file, f"only {ELEMENTS[there[0]]}", expected, NOT_MEASURED)
        order = np.argsort(codes // len(ELEMENTS), kind="stable")
        parts = np.split(order, np.flatnonzero(np.diff(codes[order] // len(ELEMENTS))) + 1)
        refuse_too_many_days(self._file, [days[mine] for mine in parts])
        return [
            self._of_station(code, station, codes[mine], days[mine], values[mine])
            for (station, code), mine in zip(self._stations.items(), parts, strict=True)
        ]

    def _of_station(
        self, code: int, station: str, codes: IntArray, days: IntArray, values: IntArray
    ) -> StatedDays:
        first, count = int(days.min()), int(days.max() - days.min()) + 1
        celsius = np.where(values == NO_VALUE, np.nan, values / TENTHS)
        low, high = (
            on_axis(days[mine], celsius[mine], first, count)
            for place in range(len(ELEMENTS))
            for mine in [codes % len(ELEMENTS) == place]
        )
        failed = {
            day - first: ", ".join(self._failed[code, day])
            for day in np.unique(days[values == NO_VALUE]).tolist()
        }
        start, unit = date.fromordinal(first), Degrees.CELSIUS
        return StatedDays(
            Station(station), start, low, high, measured(count), unit, failed, tenths=True
        )

    def _refuse_twice(
        self, codes: IntArray, days: IntArray, values: IntArray, rows: IntArray
    ) -> None:
        refuse_if_any([
            Problem(
                self._file, int(rows[two]), ELEMENTS[int(codes[two]) % len(ELEMENTS)],
                str(values[two]),
                f"one value a day: {values[one]}, as in row {rows[one]}"
                f" for {date.fromordinal(int(days[two]))}",
            )
            for one, two in pairs_that_differ(codes, days, [values.astype(np.float64)])
        ])  # fmt: skip


def said_of_failed(element: str, celsius: float, flag: str) -> str:
    """Name a value that failed a check."""
    return f"{element} {celsius:.1f} °C ({flag.strip()})"


def _as_array(numbers: array[int]) -> IntArray:
    return np.frombuffer(numbers, np.int64)
