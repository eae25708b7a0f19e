"""Files of the daily archive (GHCN-Daily) are read as its own description says."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import pairwise
from math import isnan
from pathlib import Path
from typing import Any

import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.files.ghcn_stations import read_station_list
from quarterwalk.files.weather_file import WeatherFile, read_weather
from quarterwalk.weather import Station
from tests.published.tables import read

DAYS, COLUMNS = read("ghcn_days"), read("ghcn_columns")
FLAGS, STATIONS = read("ghcn_flags"), read("ghcn_stations")
RECORD, LISTED = DAYS.rows[0]["text"], STATIONS.rows[0]["line"]

# Typed apart from the table: any letter at all would do for the reader.
QUALITY, MEASUREMENT = "DGIKLMNORSTWXZ", "TPL"


def month(values: list[str], element: str, flags: str = "  X") -> str:
    """Write a line of the station and month of the record."""
    return RECORD[:17] + element + "".join(value.rjust(5) + flags for value in values) + "\n"


def days_of(text: str) -> WeatherFile:
    return read_weather("-", stdin=io.BytesIO(text.encode()))


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


# The other extreme, without which no day is taken.
BESIDE = {"dly": month(["217"] * 31, "TMIN"), "year": "AE000041196,20190101,TMAX,240,,,S,\n"}


@DAYS.each()
def test_what_a_file_of_days_states(row: dict[str, str]) -> None:
    (days,) = days_of(row["text"] + "\n" + BESIDE[row["kind"]]).stations
    assert (days.station.id, f"{days.first:%Y%m%d}") == (row["station"], row["month"] + "01")
    told = {"TMIN": days.tmin_f, "TMAX": days.tmax_f}[row["element"]]
    stated = [celsius(fahrenheit) for fahrenheit in told]
    assert stated[0] == DAYS.near(row["first_c"])
    assert 10 * sum(stated) == DAYS.near(row["sum_tenths"])
    assert sum(stated) / len(stated) == DAYS.near(row["mean_c"])


def test_the_first_record_of_a_station_file() -> None:
    (days,) = days_of(RECORD + "\n" + BESIDE["dly"]).stations
    assert days.marks.size == 31
    assert (days.tmax_f[0], days.tmin_f[0]) == pytest.approx((84.02, 71.06))


def put(line: str, row: dict[str, str], text: str) -> str:
    """Put a text that is just as wide into a column of a line."""
    start, stop = int(row["first"]) - 1, int(row["last"])
    assert len(text) == stop - start
    return line[:start] + text + line[stop:]


# What is put into a column, and what that changes of the days read: the rest stays.
OF_DAYS: dict[str, tuple[str, dict[Any, Any]]] = {
    "ID": ("ZZZ00000001", {"id": "ZZZ00000001"}),
    "YEAR": ("1950", {"year": 1950}),
    "MONTH": ("03", {"month": 3}),
    "ELEMENT": ("TMAX", {}),  # another stands there before
    "VALUE1": ("  250", {1: 250}),
    "MFLAG1": ("L", {}),
    "QFLAG1": ("D", {1: None}),
    "SFLAG1": ("Z", {}),
    "VALUE31": ("  251", {31: 251}),
    "SFLAG31": ("Z", {}),
}


@pytest.mark.parametrize("row", [row for row in COLUMNS.rows if row["file"] == "dly"])
def test_a_column_of_a_station_file(row: dict[str, str]) -> None:
    text, changed = OF_DAYS[row["column"]]
    high = month(["289"] * 31, "SNOW" if row["column"] == "ELEMENT" else "TMAX")
    low = month(["217"] * 31, "TMIN")
    if row["column"] in ("ID", "YEAR", "MONTH"):
        low = put(low, row, text)
    (days,) = days_of(put(high, row, text) + low).stations
    read = {"id": days.station.id, "year": days.first.year, "month": days.first.month} | {
        day: None if isnan(value) else round(10 * celsius(value))
        for day, value in enumerate(days.tmax_f.tolist(), start=1)
    }
    same = {"id": RECORD[:11], "year": 1949, "month": 1} | dict.fromkeys(range(1, 32), 289)
    assert read == same | changed


def test_a_record_is_as_long_as_its_last_column_says() -> None:
    (last,) = (int(row["last"]) for row in COLUMNS.rows if row["column"] == "SFLAG31")
    assert len(RECORD) == last


# The same of a list of stations, where longitude goes before latitude.
EAST, NORTH = float(STATIONS.rows[0]["longitude"]), float(STATIONS.rows[0]["latitude"])
OF_LIST: dict[str, tuple[str, dict[str, Any]]] = {
    "ID": ("ZZZ00000001", {"id": "ZZZ00000001"}),
    "LATITUDE": ("-12.3456", {"place": (EAST, -12.3456)}),
    "LONGITUDE": ("-123.4567", {"place": (-123.4567, NORTH)}),
    "ELEVATION": ("1234.5", {"elevation_m": 1234.5}),
    "STATE": ("TX", {}),
    "NAME": ("A NAME OF JUST THIRTY LETTERS.", {"name": "A NAME OF JUST THIRTY LETTERS."}),
    "GSN FLAG": ("ABC", {}),
    "HCN/CRN FLAG": ("CRN", {}),
    "WMO ID": ("98765", {}),
}


def listed(line: str, folder: Path) -> Station:
    """Read a list of one station."""
    path = folder / "list.txt"
    path.write_text(line + "\n", "utf-8")
    (station,) = read_station_list(path).values()
    return station


@pytest.mark.parametrize("row", [row for row in COLUMNS.rows if row["file"] == "list"])
def test_a_column_of_the_list_of_stations(row: dict[str, str], tmp_path: Path) -> None:
    text, changed = OF_LIST[row["column"]]
    same = listed(LISTED, tmp_path)
    assert listed(put(LISTED, row, text), tmp_path) == replace(same, **changed)


def test_something_is_put_into_every_column_of_the_table() -> None:
    columns = [(row["file"], row["column"]) for row in COLUMNS.rows]
    assert columns == [*(("dly", name) for name in OF_DAYS), *(("list", name) for name in OF_LIST)]


def test_all_columns_stand_in_order_those_of_the_list_with_a_blank_between() -> None:
    for row, after in pairwise(COLUMNS.rows):
        if row["file"] == after["file"] and after["column"] not in ("VALUE31", "SFLAG31"):
            assert int(after["first"]) - int(row["last"]) == {"dly": 1, "list": 2}[row["file"]]
    assert int(COLUMNS.rows[-1]["last"]) == len(LISTED)


@FLAGS.each()
def test_only_a_letter_of_quality_is_a_failed_check(row: dict[str, str]) -> None:
    letter, failed = row["letter"], row["kind"] == "quality"
    flags = f" {letter}X" if failed else f"{letter} X"
    file = days_of(month(["217"] * 31, "TMIN") + month(["289"] * 31, "TMAX", flags))
    assert file.stations[0].missing.all() == failed
    said = [finding.text for finding in file.findings if finding.code == "failed-check"]
    assert [f"({letter})" in text for text in said] == [True] * failed


def test_the_letters_are_those_of_the_archive() -> None:
    told = {
        kind: "".join(row["letter"] for row in FLAGS.rows if row["kind"] == kind)
        for kind in ("quality", "measurement")
    }
    assert told == {"quality": QUALITY, "measurement": MEASUREMENT}
    assert len(FLAGS.rows) == len(QUALITY + MEASUREMENT)


def test_minus_9999_is_missing() -> None:
    values = ["289"] * 15 + ["-9999"] + ["289"] * 15
    (days,) = days_of(month(values, "TMAX") + month(["217"] * 31, "TMIN")).stations
    assert days.missing.tolist() == [day == 15 for day in range(31)]


@STATIONS.each()
def test_a_row_of_the_list_of_stations(row: dict[str, str], tmp_path: Path) -> None:
    station = listed(row["line"], tmp_path)
    assert (station.id, station.name) == (row["id"], row["name"])
    assert station.place is not None
    assert station.place[0] == STATIONS.near(row["longitude"])
    assert station.place[1] == STATIONS.near(row["latitude"])
    assert station.elevation_m == STATIONS.near(row["elevation_m"])
    cut = {
        at["column"]: row["line"][int(at["first"]) - 1 : int(at["last"])].strip()
        for at in COLUMNS.rows
        if at["file"] == "list"
    }
    names = {"STATE": "state", "GSN FLAG": "gsn", "HCN/CRN FLAG": "hcn_crn", "WMO ID": "wmo"}
    assert {column: cut[column] for column in names} == {c: row[n] for c, n in names.items()}


def test_ids_of_six_characters_are_the_older_files_in_fahrenheit() -> None:
    with pytest.raises(RefusedInput, match="degrees Fahrenheit"):
        days_of("411234" + "1934" + "06" + "TMAX" + "   95  " * 31 + "\n")
