"""Files of the daily archive (GHCN-Daily) are read as its own description says."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.files.ghcn_stations import read_station_list
from quarterwalk.files.weather_file import WeatherFile, read_weather
from tests.published.tables import numbers, read

DAYS, COLUMNS = read("ghcn_days"), read("ghcn_columns")
FLAGS, STATIONS = read("ghcn_flags"), read("ghcn_stations")
WIDTHS = {
    (row["file"], row["column"]): slice(int(row["first"]) - 1, int(row["last"]))
    for row in COLUMNS.rows
}


def laid_out(kind: str, width: int, told: dict[str, str]) -> str:
    """Write texts into the columns of a line, numbers to the right."""
    line = [" "] * width
    for column, text in told.items():
        place = WIDTHS[kind, column]
        room = place.stop - place.start
        to_left = column in ("ID", "NAME")
        line[place] = text.ljust(room) if to_left else text.rjust(room)
    return "".join(line)


def month(values: list[str], element: str, flags: str = "  X") -> str:
    row = DAYS.rows[0]
    head = {"ID": row["station"], "YEAR": row["month"][:4], "MONTH": row["month"][4:]}
    line = laid_out("dly", 269, {**head, "ELEMENT": element})
    each = "".join(value.rjust(5) + flags for value in values)
    return line[: WIDTHS["dly", "VALUE1"].start] + each + "\n"


def days_of(text: str) -> WeatherFile:
    return read_weather("-", stdin=io.BytesIO(text.encode()))


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def test_the_first_record_of_a_station_file() -> None:
    row = DAYS.rows[0]
    text = month(row["text"].split(), "TMAX") + month(["217"] * 31, "TMIN")
    (days,) = days_of(text).stations
    assert days.station.id == row["station"]
    assert days.first.isoformat() == "1949-01-01"
    assert days.marks.size == numbers(row["text"]).size == 31
    assert celsius(days.tmax_f[0]) == DAYS.near(row["first_c"])
    assert 10 * sum(map(celsius, days.tmax_f)) == DAYS.near(row["sum_tenths"])
    assert celsius(days.tmax_f.mean()) == DAYS.near(row["mean_c"])
    assert (days.tmax_f[0], days.tmin_f[0]) == pytest.approx((84.02, 71.06))


def test_the_widths_of_a_station_file_add_up_to_its_record() -> None:
    assert len(month(["217"] * 31, "TMIN").rstrip("\n")) == WIDTHS["dly", "SFLAG31"].stop == 269


def test_a_row_of_a_year() -> None:
    row = DAYS.rows[1]
    high = row["text"].replace(row["element"], "TMAX").replace("140", "240")
    (days,) = days_of(row["text"] + "\n" + high + "\n").stations
    assert (days.station.id, days.first.isoformat()) == (row["station"], "2019-01-01")
    assert celsius(days.tmin_f[0]) == DAYS.near(row["first_c"])


@pytest.mark.parametrize("letter", FLAGS.rows[0]["letters"].split())
def test_every_letter_of_quality_is_a_failed_check(letter: str) -> None:
    text = month(["217"] * 31, "TMIN") + month(["289"] * 31, "TMAX", f" {letter}X")
    file = days_of(text)
    assert file.stations[0].missing.all()
    assert {finding.code for finding in file.findings} == {"failed-check"}
    assert f"({letter})" in file.findings[0].text


@pytest.mark.parametrize("letter", FLAGS.rows[1]["letters"].split())
def test_no_letter_of_measurement_is_a_failed_check(letter: str) -> None:
    text = month(["217"] * 31, "TMIN") + month(["289"] * 31, "TMAX", f"{letter} X")
    assert not days_of(text).stations[0].missing.any()


def test_minus_9999_is_missing() -> None:
    values = ["289"] * 15 + ["-9999"] + ["289"] * 15
    (days,) = days_of(month(values, "TMAX") + month(["217"] * 31, "TMIN")).stations
    assert days.missing.tolist() == [day == 15 for day in range(31)]


@STATIONS.each()
def test_a_row_of_the_list_of_stations(row: dict[str, str], tmp_path: Path) -> None:
    told = {"ID": row["id"], "LATITUDE": row["latitude"], "LONGITUDE": row["longitude"],
            "ELEVATION": row["elevation_m"], "STATE": row["state"], "NAME": row["name"],
            "GSN FLAG": row["gsn"], "HCN/CRN FLAG": row["hcn_crn"],
            "WMO ID": row["wmo"]}  # fmt: skip
    path = tmp_path / "list.txt"
    path.write_text(laid_out("list", 85, told) + "\n", "utf-8")
    station = read_station_list(path)[row["id"]]
    assert station.name == row["name"]
    assert station.place is not None
    assert station.place[0] == STATIONS.near(row["longitude"])
    assert station.place[1] == STATIONS.near(row["latitude"])
    assert station.elevation_m == STATIONS.near(row["elevation_m"])


def test_ids_of_six_characters_are_the_older_files_in_fahrenheit() -> None:
    with pytest.raises(RefusedInput, match="degrees Fahrenheit"):
        days_of("411234" + "1934" + "06" + "TMAX" + "   95  " * 31 + "\n")
