"""The daily archive's list of stations: one line each, in fixed columns.

The columns, counted from 1: id 1-11, latitude 13-20, longitude 22-30, height 32-37, state
39-40, name 42-71 (NOAA, GHCN-Daily readme.txt, section IV).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from math import isnan
from pathlib import Path
from typing import Any

from quarterwalk.errors import Problem, shown
from quarterwalk.files.coded import Misread
from quarterwalk.files.ghcn_csv import height
from quarterwalk.files.ghcn_values import STATION_ID
from quarterwalk.files.refusal import refuse, refuse_if_any
from quarterwalk.files.weather_bytes import bytes_of_file, lines_of
from quarterwalk.files.weather_cells import latitude, longitude, short_text
from quarterwalk.weather.station import Station

_IS_LIST = re.compile(rf"{STATION_ID} +-?[0-9]+\.[0-9]+ +-?[0-9]+\.[0-9]+ ")
_COLUMNS: dict[str, tuple[slice, Callable[[str], Any]]] = {
    "LATITUDE": (slice(12, 20), latitude),
    "LONGITUDE": (slice(21, 30), longitude),
    "ELEVATION": (slice(31, 37), height),
    "NAME": (slice(41, 71), short_text),
}
_ID = slice(0, 11)


def refuse_station_list(file: str, first_line: str) -> None:
    """Refuse a list of stations where weather is wanted.

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
    if _IS_LIST.match(first_line):
        hint = "This is a list of stations: it goes beside a file of weather."
        refuse(file, "a list of stations", "a file of weather", hint)


def read_station_list(path: str | Path, ids: Collection[str] | None = None) -> dict[str, Station]:
    """Read names and places of stations.

    Parameters
    ----------
    path : str or Path
        The archive's list. [file name]
    ids : collection of str or None
        The stations wanted; None for all.

    Returns
    -------
    dict of str to Station
        Those of `ids` that are in it.

    Raises
    ------
    RefusedInput
        If it is no such list, a line that is wanted can't be read, or a station wanted stands
        in it at two places.
    """
    file = str(path)
    lines = lines_of(bytes_of_file(path, file))
    first = next((line for line in lines if line.strip()), "")
    if not _IS_LIST.match(first):
        refuse(file, first, "a list of stations: id, latitude, longitude, height, state, name")
    found: dict[str, Station] = {}
    problems: list[Problem] = []
    for row, line in enumerate(lines, start=1):
        if line.strip() and (ids is None or line[_ID] in ids):
            station, faults = _station(file, row, line)
            problems += faults or _twice(file, row, found.get(station.id), station)
            found[station.id] = station
    refuse_if_any(problems)
    return found


def _twice(file: str, row: int, before: Station | None, after: Station) -> list[Problem]:
    """Say that a station stands a second time and elsewhere."""
    if before is None or before.place is None or after.place is None:
        return []
    if before.place == after.place:
        return []
    was, got = (f"{north:g},{east:g}" for east, north in (before.place, after.place))
    expected = f"at one place: station {shown(after.id)} stands further up at {was}"
    return [Problem(file, row, "LATITUDE", got, expected, "Take out one of the two lines.")]


def _station(file: str, row: int, line: str) -> tuple[Station, list[Problem]]:
    problems: list[Problem] = []
    told: dict[str, Any] = {}
    for name, (place, read) in _COLUMNS.items():
        text = line[place].strip()
        try:
            told[name] = read(text)
        except Misread as fault:
            told[name] = None
            problems.append(Problem(file, row, name, text, fault.expected, fault.hint))
    east, north, up = (_known(told[n]) for n in ("LONGITUDE", "LATITUDE", "ELEVATION"))
    at = None if east is None or north is None else (east, north)
    return Station(line[_ID], told["NAME"] or "", at, up), problems


def _known(value: float | None) -> float | None:
    return None if value is None or isnan(value) else value


def named_by_list(station: Station, listed: Mapping[str, Station]) -> Station:
    """Give a station what its file does not say of it and the list does.

    Parameters
    ----------
    station : Station
        As its file has it.
    listed : mapping of str to Station
        The list, by id.

    Returns
    -------
    Station
    """
    other = listed.get(station.id)
    if other is None:
        return station
    return Station(
        station.id,
        station.name or other.name,
        station.place or other.place,
        other.elevation_m if station.elevation_m is None else station.elevation_m,
    )
