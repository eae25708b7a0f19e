"""The stations that the rows of a weather table speak of."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import numpy as np

from quarterwalk.errors import Problem, RefusedInput, shown
from quarterwalk.files.weather_cells import elevation, latitude, longitude, short_text
from quarterwalk.files.weather_rows import IntArray, Readers, WeatherRows
from quarterwalk.weather.station import Station

STATION_READERS: Readers = {
    "station": short_text,
    "name": short_text,
    "latitude": latitude,
    "longitude": longitude,
    "elevation_m": elevation,
}
"""Columns that say where the weather was measured; all may be absent."""


def stations_of(rows: WeatherRows) -> tuple[list[Station], IntArray]:
    """Find the stations of a table, in the order of their first rows.

    Parameters
    ----------
    rows : WeatherRows
        With any of the columns of `STATION_READERS`.

    Returns
    -------
    stations : list of Station
        A table without ids has one, called as its file.
    of_row : int array, shape (rows,)
        Which station each row speaks of. [index]

    Raises
    ------
    RefusedInput
        If some rows lack the id that others have, or one station has two places or half of one.
    """
    ids = _first_come(rows, "station")
    given = {name: _one_each(rows, name, ids) for name in STATION_READERS if name != "station"}
    _, first = np.unique(ids, return_index=True)
    found = [_station(rows, int(at), given, i) for i, at in enumerate(first)]
    _refuse_half_places(rows, found, given, ids)
    return found, ids


def _first_come(rows: WeatherRows, name: str) -> IntArray:
    """Number the values of a column in the order in which they come; absent: all alike."""
    if name not in rows.columns:
        return np.zeros(len(rows.file_rows), np.int64)
    column = rows.columns[name]
    numbers = {value: i for i, value in enumerate(dict.fromkeys(column.values))}
    found = np.array([numbers[value] for value in column.values], np.int64)[column.codes]
    if len(numbers) > 1 and "" in numbers:
        at = int(np.flatnonzero(found == numbers[""])[0])
        raise RefusedInput([rows.problem(at, name, "the station, as in the other rows")])
    return found


def _one_each(rows: WeatherRows, name: str, ids: IntArray) -> list[Any]:
    """Give each station's one value of a column; None where no row gives it."""
    found: list[Any] = [None] * (int(ids.max()) + 1)
    if name not in rows.columns:
        return found
    column = rows.columns[name]
    first: dict[int, int] = {}
    pairs, at = np.unique(ids * len(column.values) + column.codes, return_index=True)
    for pair, index in sorted(zip(pairs.tolist(), at.tolist(), strict=True), key=lambda p: p[1]):
        station, code = divmod(pair, len(column.values))
        value = column.values[code]
        if value in ("", None) or value != value:
            continue
        if found[station] is not None and found[station] != value:
            row = int(rows.file_rows[first[station]])
            expected = f'one {name} a station: "{shown(str(found[station]))}", as in row {row}'
            raise RefusedInput([rows.problem(index, name, expected)])
        if found[station] is None:
            found[station], first[station] = value, index
    return found


def _called_as(file: str) -> str:
    """Give a file's name without its ending; packed or not, it is the same station."""
    path = Path(file)
    return Path(path.stem).stem if path.suffix.lower() == ".gz" else path.stem


def _station(rows: WeatherRows, at: int, given: Mapping[str, list[Any]], index: int) -> Station:
    """Make the station whose first row is `at`."""
    column = rows.columns.get("station")
    known = str(column.values[int(column.codes[at])]) if column is not None else ""
    east, north = given["longitude"][index], given["latitude"][index]
    place = None if east is None or north is None else (east, north)
    return Station(
        known or _called_as(rows.file),
        given["name"][index] or "",
        place,
        given["elevation_m"][index],
    )


def _refuse_half_places(
    rows: WeatherRows, stations: list[Station], given: Mapping[str, list[Any]], ids: IntArray
) -> None:
    """Refuse the first station that has a latitude and no longitude, or the other way round."""
    for index, (east, north) in enumerate(zip(given["longitude"], given["latitude"], strict=True)):
        if (east is None) == (north is None):
            continue
        absent, there = ("longitude", "latitude") if east is None else ("latitude", "longitude")
        stated = np.isfinite(rows.numbers(there)) & (ids == index)
        row = int(rows.file_rows[np.argmax(stated)])
        expected = f"given for station {shown(stations[index].id)}, as its {there} is"
        raise RefusedInput([Problem(rows.file, row, absent, "", expected)])
