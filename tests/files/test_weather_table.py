"""A table of days gives each station its days, or names the cell to mend."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.files.weather_file import read_weather
from quarterwalk.weather.daily import DayMark
from quarterwalk.weather.station import Station
from tests.files.tables import workbook
from tests.files.weather_days import days_table, problems, read, told


def test_days_come_in_order_whatever_the_order_of_the_rows() -> None:
    file = read("date,tmin_f,tmax_f\n2026-06-02,71,95\n2026-06-01,68.5,90\n")
    (days,) = file.stations
    assert (days.first, days.last) == (date(2026, 6, 1), date(2026, 6, 2))
    assert days.tmin_f.tolist() == [68.5, 71.0]
    assert days.tmax_f.tolist() == [90.0, 95.0]
    assert days.marks.tolist() == [DayMark.MEASURED] * 2
    assert (file.findings, file.hourly, file.notices) == ((), (), ())


def test_celsius_is_told_by_the_names_of_the_columns() -> None:
    (days,) = read("date,tmin_c,tmax_c\n2026-06-01,20,35\n").stations
    assert days.tmin_f.tolist() == [68.0]
    assert days.tmax_f.tolist() == [95.0]


def test_a_table_without_ids_is_one_station_called_as_its_file(tmp_path: Path) -> None:
    path = tmp_path / "gin road.csv"
    path.write_text("date,tmin_f,tmax_f\n2026-06-01,70,95\n", "utf-8")
    assert read_weather(path).stations[0].station == Station("gin road")


def test_stations_of_a_table_keep_their_names_and_places() -> None:
    header = "station,name,latitude,longitude,elevation_m,date,tmin_f,tmax_f\n"
    rows = "p1,Pump House,33.5,-101.9,990,2026-06-01,70,95\np2,,,,,2026-06-01,71,96\n"
    rows += "p1,,,,,2026-06-02,72,97\n"
    first, second = read(header + rows).stations
    assert first.station == Station("p1", "Pump House", (-101.9, 33.5), 990.0)
    assert second.station == Station("p2")
    assert first.tmin_f.tolist() == [70.0, 72.0]


def test_marks_say_where_a_day_came_from() -> None:
    words = ["", "measured", "Forecast", "neighbour", "between", "other-years"]
    rows = "".join(f"2026-06-0{i},70,9{i},{word}\n" for i, word in enumerate(words, start=1))
    (days,) = read("date,tmin_f,tmax_f,mark\n" + rows).stations
    assert days.marks.tolist() == [1, 1, 2, 3, 4, 5]


def test_an_unknown_mark_is_refused_with_the_known_ones() -> None:
    (problem,) = problems("date,tmin_f,tmax_f,mark\n2026-06-01,70,95,guess\n")
    assert (problem.row, problem.column, problem.value) == (2, "mark", "guess")
    assert "forecast" in problem.expected


@pytest.mark.parametrize("names", ["tmin,tmax", "min,max", "low,high", "TMIN,TMAX"])
def test_a_bare_name_is_refused_with_both_spellings(names: str) -> None:
    (problem,) = problems(f"date,{names}\n2026-06-01,70,95\n")
    assert problem.row == 1
    assert "tmin_f,tmax_f or tmin_c,tmax_c" in problem.expected
    assert "_f for Fahrenheit" in problem.hint


@pytest.mark.parametrize("header", ["day;low temp;high temp", "%PDF-1.7;x"])
def test_a_header_that_names_no_temperature_is_shown(header: str) -> None:
    (problem,) = problems(f"{header}\n2026-06-01;70;95\n")
    assert (problem.row, problem.column) == (1, None)
    assert problem.value == header.replace(";", ",")


@pytest.mark.parametrize("start", ["<!DOCTYPE html>\n", "\n<html lang=en>", "\ufeff <HTML>"])
def test_a_web_page_is_told_to_be_one(start: str) -> None:
    (problem,) = problems(start + "<body>date,tmin_f,tmax_f</body></html>\n")
    assert (problem.value, problem.expected) == ("a web page", "a CSV or XLSX file")


def test_columns_in_both_units_are_refused() -> None:
    (problem,) = problems("date,tmin_f,tmax_f,tmin_c,tmax_c\n2026-06-01,70,95,21,35\n")
    assert problem.value == "both"


def test_one_extreme_column_alone_is_refused() -> None:
    (problem,) = problems("date,tmin_f\n2026-06-01,70\n")
    assert (problem.row, problem.column) == (1, "tmax_f")


def test_a_day_twice_with_other_values_names_both_rows() -> None:
    rows = "2026-06-01,70,95\n2026-06-02,70,96\n2026-06-01,70,94\n"
    (problem,) = problems("date,tmin_f,tmax_f\n" + rows)
    assert (problem.row, problem.column, problem.value) == (4, "date", "2026-06-01")
    assert "row 2" in problem.expected


def test_a_day_twice_with_the_same_values_is_one_day() -> None:
    (days,) = read("date,tmin_f,tmax_f\n2026-06-01,70,95\n2026-06-01,70.0,95\n").stations
    assert days.marks.size == 1


def test_two_stations_may_have_the_same_day() -> None:
    rows = "a,2026-06-01,70,95\nb,2026-06-01,60,85\n"
    assert len(read("station,date,tmin_f,tmax_f\n" + rows).stations) == 2


@pytest.mark.parametrize(
    ("cell", "hint"),
    [
        ("7O", "A letter for a digit?"),
        ("70F", "Write the number alone"),
        ("70 °F", "Write the number alone"),
        ("NA", "Leave the cell blank"),
        ("-", "Leave the cell blank"),
        ('"70,5"', "A decimal comma?"),
        ("\N{MINUS SIGN}5", "A dash for a minus sign?"),
        ("warm", ""),
        ("1e2", ""),
        ("٧٠", ""),
    ],
)
def test_a_cell_that_is_no_number_is_refused_with_a_hint(cell: str, hint: str) -> None:
    (problem,) = problems(f"date,tmin_f,tmax_f\n2026-06-01,{cell},95\n")
    assert (problem.row, problem.column, problem.value) == (2, "tmin_f", cell.strip('"'))
    assert problem.expected.startswith("a temperature")
    assert problem.hint.startswith(hint)


@pytest.mark.parametrize("cell", ["", "06/01/2026", "2026-06-31", "1026-06-01", "2926-06-01"])
def test_a_cell_that_is_no_day_is_refused(cell: str) -> None:
    (problem,) = problems(f"date,tmin_f,tmax_f\n{cell},70,95\n")
    assert (problem.row, problem.column, problem.value) == (2, "date", cell)


def test_one_station_with_two_places_is_refused_with_both_rows() -> None:
    rows = "a,33.5,2026-06-01,70,95\na,34.5,2026-06-02,70,95\n"
    (problem,) = problems("station,latitude,date,tmin_f,tmax_f\n" + rows)
    assert (problem.row, problem.column, problem.value) == (3, "latitude", "34.5")
    assert "row 2" in problem.expected


def test_a_latitude_without_longitude_is_refused() -> None:
    (problem,) = problems("latitude,date,tmin_f,tmax_f\n33.5,2026-06-01,70,95\n")
    assert (problem.row, problem.column) == (2, "longitude")


def test_half_a_place_is_refused_where_it_stands_by_the_id_of_its_station(tmp_path: Path) -> None:
    rows = "a,,,2026-06-01,70,95\nb,,,2026-06-01,70,95\nb,,-101.9,2026-06-02,70,95\n"
    (problem,) = problems("station,latitude,longitude,date,tmin_f,tmax_f\n" + rows)
    assert (problem.row, problem.column) == (4, "latitude")
    assert problem.expected == "given for station b, as its longitude is"
    path = tmp_path / "f.csv"
    path.write_text("latitude,date,tmin_f,tmax_f\n33.5,2026-06-01,70,95\n", "utf-8")
    with pytest.raises(RefusedInput, match="given for station f, as"):
        read_weather(path)


def test_a_row_without_the_id_that_others_have_is_refused() -> None:
    rows = "a,2026-06-01,70,95\n,2026-06-02,70,95\n"
    (problem,) = problems("station,date,tmin_f,tmax_f\n" + rows)
    assert (problem.row, problem.column) == (3, "station")


def test_a_column_that_is_not_known_is_left_alone_with_a_notice() -> None:
    file = read("date,tmin_f,tmax_f,rain\n2026-06-01,70,95,0.2\n")
    assert file.notices == ("standard input: column rain is not read.",)


def test_blank_rows_are_passed_over_and_row_numbers_stay() -> None:
    (problem,) = problems("date;tmin_f;tmax_f\n\n2026-06-01;70;95\n;;\n2026-06-02;x;95\n")
    assert problem.row == 5


def test_a_workbook_reads_as_its_csv() -> None:
    rows = [["date", "tmin_f", "tmax_f"], ["2026-06-01", 70.25, 95], ["2026-06-02", "", 96]]
    file = read(workbook(rows))
    (days,) = file.stations
    np.testing.assert_array_equal(days.tmin_f, [70.25, np.nan])
    assert told(file) == [("one-extreme", "2026-06-02", "2026-06-02")]


def test_the_content_decides_and_not_the_name(tmp_path: Path) -> None:
    path = tmp_path / "weather.dly"
    path.write_text(days_table([70], [95]), "utf-8")
    assert read_weather(path).stations[0].tmin_f.tolist() == [70.0]


@pytest.mark.parametrize(
    "data", [b"", b"\n\n", b"date,tmin_f,tmax_f\n", b"\x1f\x8b\x08", b"\x00\x01"]
)
def test_a_file_without_weather_is_refused(data: bytes) -> None:
    assert problems(data)


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(RefusedInput, match="a file of weather that can be read"):
        read_weather(tmp_path / "none.csv")
    with pytest.raises(RefusedInput, match="a file of weather that can be read"):
        read_weather(tmp_path)


@pytest.mark.parametrize(
    ("data", "limit"), [(b"\n" * 5_000_001, "5,000,000 lines"), (b"x" * (64 << 20) + b"x", "64 MB")]
)
def test_a_file_beyond_a_limit_is_refused_at_once(data: bytes, limit: str) -> None:
    (problem,) = problems(data)
    assert limit in problem.expected


def test_days_centuries_apart_at_many_stations_do_not_fill_the_memory() -> None:
    rows = "".join(f"s{i},{day},50,60\n" for i in range(30) for day in ("1700-01-01", "2199-01-01"))
    (problem,) = problems("station,date,tmin_f,tmax_f\n" + rows)
    assert "5,000,000" in problem.expected
