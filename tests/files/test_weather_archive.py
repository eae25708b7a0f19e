"""Files of the daily archive give the same days in each of their forms, or are refused."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.files.ghcn_stations import read_station_list
from quarterwalk.files.weather_bytes import MOST_BYTES
from quarterwalk.files.weather_file import read_weather
from quarterwalk.weather.station import Station
from tests.files.weather_days import month_line, problems, read, told

BY_STATION = '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","PRCP_ATTRIBUTES",'
BY_STATION += '"TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"\n'
LISTED = "US000000001  33.5000 -101.9000  990.0 TX PUMP HOUSE                             \n"


def station_file(lows: list[int], highs: list[int]) -> str:
    return month_line("TMAX", highs) + month_line("PRCP", [0]) + month_line("TMIN", lows)


def station_row(day: str, high: str, low: str) -> str:
    place = '"33.5","-101.9","990.0","PUMP HOUSE, TX US"'
    return f'"US000000001","{day}",{place},"    5",",,X",{high},{low}\n'


def test_a_station_file_gives_its_days_without_the_blank_end() -> None:
    file = read(station_file([150, 160], [300, 310]))
    (days,) = file.stations
    assert (days.first.isoformat(), days.last.isoformat()) == ("2026-06-01", "2026-06-02")
    assert days.tmin_f.tolist() == [59.0, 60.8]
    assert days.tmax_f == pytest.approx([86.0, 87.8])
    assert (file.findings, file.notices) == ((), ())


def test_a_value_that_failed_a_check_is_missing_and_told_with_its_flag() -> None:
    line = month_line("TMIN", [150, 160])
    failed = line[:27] + "I" + line[28:]
    file = read(month_line("TMAX", [300, 310]) + failed)
    assert told(file) == [("failed-check", "2026-06-01", "2026-06-01")]
    assert "TMIN 15.0 °C (I)" in file.findings[0].text
    assert file.stations[0].missing.tolist() == [True, False]


def test_days_of_minus_9999_between_others_are_missing() -> None:
    file = read(station_file([150, -9999, 160], [300, -9999, 310]))
    assert told(file) == [("missing-days", "2026-06-02", "2026-06-02")]


def test_a_value_on_a_day_that_the_month_lacks_is_refused() -> None:
    line = month_line("TMAX", [300] * 28, month="202602")
    at = 21 + 28 * 8
    (problem,) = problems(line[:at] + "  300" + line[at + 5 :])
    assert (problem.row, problem.column, problem.value) == (1, "VALUE29", "  300")


def test_a_leap_day_is_a_day() -> None:
    lines = [month_line(element, [100] * 29, month="202402") for element in ("TMAX", "TMIN")]
    (days,) = read("".join(lines)).stations
    assert days.last.isoformat() == "2024-02-29"


def test_a_letter_for_a_digit_is_refused_with_its_line() -> None:
    (problem,) = problems(
        month_line("PRCP", [0]) + month_line("TMAX", [300]).replace("  300", "  3O0")
    )
    assert (problem.row, problem.column, problem.value) == (2, "VALUE1", "  3O0")


def test_a_line_that_is_cut_off_is_refused() -> None:
    (problem,) = problems(month_line("TMAX", [300]) + month_line("TMIN", [150])[:100])
    assert problem.row == 2
    assert problem.hint == "The file may be cut off."


def test_blanks_lost_at_the_end_of_a_line_do_no_harm() -> None:
    lines = [month_line(element, [300] * 31, month="202607") for element in ("TMAX", "TMIN")]
    bare = [line.rstrip("X\n").rstrip() for line in lines]
    assert read("\r\n".join([*bare, ""])).stations[0].marks.size == 31


@pytest.mark.parametrize("element", ["TMAX", "TMIN"])
def test_a_file_with_one_of_the_two_temperatures_is_refused(element: str) -> None:
    (problem,) = problems(month_line(element, [300] * 30))
    assert problem.value == f"only {element}"
    assert "The station may not measure them." in problem.hint


@pytest.mark.parametrize("month", ["00", "13"])
def test_a_month_that_is_none_is_named(month: str) -> None:
    line = month_line("TMAX", [300] * 30).replace("202606", f"2026{month}")
    (problem,) = problems(line)
    assert (problem.row, problem.column, problem.value) == (1, "16-17", month)


def test_one_month_twice_with_other_values_names_both_lines() -> None:
    (problem,) = problems(month_line("TMAX", [300]) * 2 + month_line("TMAX", [310]))
    assert (problem.row, problem.column) == (3, "TMAX")
    assert "300, as in row" in problem.expected


def test_a_file_without_temperatures_is_refused() -> None:
    (problem,) = problems(month_line("PRCP", [0]))
    assert "TMIN and TMAX" in problem.expected


def test_the_older_kind_of_station_file_is_refused_with_the_reason() -> None:
    (problem,) = problems("411234193406TMAX" + "   95  " * 31 + "\n")
    assert "degrees Fahrenheit" in problem.hint


def test_a_file_of_a_year_gives_every_station_its_days() -> None:
    file = read(
        "US000000001,20260601,TMAX,300,,,S,\nUS000000002,20260601,TMAX,310,,,S,0700\n"
        "US000000001,20260601,TMIN,150,,,S,\nUS000000002,20260601,TMIN,160,,,S,0700\n"
        "US000000001,20260601,PRCP,0,T,,S,\n"
    )
    assert [days.station.id for days in file.stations] == ["US000000001", "US000000002"]
    assert [days.tmin_f.tolist() for days in file.stations] == [[59.0], [60.8]]


@pytest.mark.parametrize(
    ("row", "column", "value"),
    [
        ("US000000001,20260631,TMAX,300,,,S,", "YYYYMMDD", "20260631"),
        ("US000000001,20260601,TMAX,30.5,,,S,", "VALUE", "30.5"),
        ("US0000001,20260601,TMAX,300,,,S,", "ID", "US0000001"),
        ("US000000001,20260601,TMAX,300,,bad,S,", "Q", "bad"),
        ("US000000001,20260601,TMAX", None, "3"),
    ],
)
def test_a_bad_row_of_a_year_is_refused(row: str, column: str, value: str) -> None:
    (problem,) = problems("US000000001,20260601,TMIN,150,,,S,\n" + row + "\n")
    assert (problem.row, problem.column, problem.value) == (2, column, value)


def test_a_day_that_is_none_is_told_as_the_column_writes_days() -> None:
    (problem,) = problems("US000000001,20260631,TMAX,300,,,S,\n")
    assert problem.expected == "a date as YYYYMMDD"
    assert problem.hint == "There is no such day."


def test_a_file_of_a_year_may_have_a_header() -> None:
    rows = "US000000001,20260601,TMAX,300,,,S,\nUS000000001,20260601,TMIN,150,,,S,\n"
    header = "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n"
    assert read(header + rows).stations[0].tmin_f.tolist() == [59.0]


def plain(text: str) -> bytes:
    return text.encode()


def with_mark(text: str) -> bytes:
    return b"\xef\xbb\xbf" + text.encode()


def with_cr(text: str) -> bytes:
    return text.replace("\n", "\r").encode()


def with_crlf(text: str) -> bytes:
    return text.replace("\n", "\r\n").encode()


def with_dos_end(text: str) -> bytes:
    return text.encode() + b"\x1a"


def packed(text: str) -> bytes:
    return gzip.compress(text.encode())


@pytest.mark.parametrize("write", [plain, with_mark, with_cr, with_crlf, with_dos_end, packed])
def test_a_station_file_is_read_however_it_was_sent(write: Callable[[str], bytes]) -> None:
    (days,) = read(write(station_file([150, 160], [300, 310]))).stations
    assert days.tmin_f.tolist() == [59.0, 60.8]


def test_a_packed_table_is_read_and_named_in_its_errors(tmp_path: Path) -> None:
    path = tmp_path / "gin.csv.gz"
    path.write_bytes(packed("date,tmin_f,tmax_f\n2026-06-01,66,93\n"))
    assert read_weather(path).stations[0].tmax_f.tolist() == [93.0]
    path.write_bytes(packed('date,tmin_f,tmax_f\n2026-06-01,66,"93\n'))
    with pytest.raises(RefusedInput) as refused:
        read_weather(path)
    assert refused.value.problems[0].file == str(path)


@pytest.mark.parametrize("spoil", [lambda data: data[:-12], lambda data: data[:30] + b"x" * 40])
def test_a_packed_file_that_is_damaged_is_refused(spoil: Callable[[bytes], bytes]) -> None:
    (problem,) = problems(spoil(packed(station_file([150] * 20, [300] * 20))))
    assert problem.expected == "a packed file that is whole"


def test_a_packed_file_that_fills_the_memory_or_is_packed_twice_is_refused() -> None:
    (problem,) = problems(gzip.compress(bytes(MOST_BYTES + 1), 1))
    assert "at most 64 MB" in problem.expected
    (problem,) = problems(gzip.compress(packed("date")))
    assert problem.value == "one packed twice"


@pytest.mark.parametrize(("gone", "got"), [("TMIN", "only TMAX"), ("TM", "none of them")])
def test_a_file_of_one_station_without_temperatures_is_refused_in_words(
    gone: str, got: str
) -> None:
    header = BY_STATION.replace(gone, "SN" + gone[2:] * 2)
    (problem,) = problems(header + station_row("2026-06-01", '"300",",,X"', '"150",",,X"'))
    assert (problem.value, problem.hint) == (got, "The station may not measure them.")


def test_decimals_in_a_file_of_tenths_are_named_as_degrees_and_taken_once_renamed() -> None:
    rows = station_row("2026-06-01", '"30.5",""', '"15.0",""')
    (problem, _) = problems(BY_STATION + rows)
    assert "name the columns tmin_c, tmax_c" in problem.hint
    renamed = BY_STATION.replace('"TMAX"', '"tmax_c"').replace('"TMIN"', '"tmin_c"')
    assert read(renamed + rows).stations[0].tmin_f.tolist() == [59.0]


def test_a_file_of_one_station_gives_its_days_name_and_place() -> None:
    rows = station_row("2026-06-01", '"  300",",,X"', '"  150",",,X"')
    rows += station_row("2026-06-02", '"  310",",I,X,0700"', '"  160",",,X,0700"')
    file = read(BY_STATION + rows)
    (days,) = file.stations
    assert days.station == Station("US000000001", "PUMP HOUSE, TX US", (-101.9, 33.5), 990.0)
    np.testing.assert_array_equal(days.tmin_f, [59.0, np.nan])
    assert told(file) == [("failed-check", "2026-06-02", "2026-06-02")]


def test_a_blank_value_of_one_station_is_not_given() -> None:
    rows = station_row("2026-06-01", ",", '"150",",,X"') + station_row("2026-06-02", "1,", "0,")
    assert told(read(BY_STATION + rows)) == [("one-extreme", "2026-06-01", "2026-06-01")]


def test_a_bad_value_of_one_station_is_refused() -> None:
    (problem,) = problems(BY_STATION + station_row("2026-06-01", '"30.0",""', '"150",""'))
    assert (problem.row, problem.column, problem.value) == (2, "tmax", "30.0")


def test_the_list_of_stations_gives_name_and_place(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text("US000000009 -33.5000  101.9000 -999.9    FAR\n" + LISTED, "utf-8")
    file = read(station_file([150], [300]), stations=str(path))
    assert file.stations[0].station == Station("US000000001", "PUMP HOUSE", (-101.9, 33.5), 990.0)
    assert read_station_list(path)["US000000009"].elevation_m is None


def test_what_a_table_says_of_a_station_goes_before_the_list(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text(LISTED, "utf-8")
    table = "station,name,date,tmin_f,tmax_f\nUS000000001,Ours,2026-06-01,70,95\n"
    station = read(table, stations=str(path)).stations[0].station
    assert (station.name, station.place) == ("Ours", (-101.9, 33.5))


def test_a_bad_line_of_the_list_is_refused_where_it_is_wanted(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text(LISTED + LISTED.replace("33.5000", "93.5000").replace("001 ", "002 "), "utf-8")
    assert read(station_file([150], [300]), stations=str(path)).stations
    table = "station,date,tmin_f,tmax_f\nUS000000002,2026-06-01,70,95\n"
    (problem,) = problems(table, stations=str(path))
    assert (problem.row, problem.column, problem.value) == (2, "LATITUDE", "93.5000")


def test_a_station_that_is_listed_at_two_places_is_refused_where_it_is_wanted(
    tmp_path: Path,
) -> None:
    path = tmp_path / "list.txt"
    other = LISTED.replace("33.5000", "34.5000")
    path.write_text(LISTED + LISTED, "utf-8")
    assert read(station_file([150], [300]), stations=str(path)).stations[0].station.place
    path.write_text(LISTED + other.replace("001 ", "002 ") + other, "utf-8")
    (problem,) = problems(station_file([150], [300]), stations=str(path))
    assert (problem.row, problem.column, problem.value) == (3, "LATITUDE", "34.5,-101.9")
    assert "station US000000001 stands further up at 33.5,-101.9" in problem.expected
    table = "station,date,tmin_f,tmax_f\nUS000000002,2026-06-01,70,95\n"
    assert read(table, stations=str(path)).stations[0].station.place == (-101.9, 34.5)


def test_a_list_of_stations_is_no_weather_and_weather_no_list(tmp_path: Path) -> None:
    (problem,) = problems(LISTED)
    assert problem.value == "a list of stations"
    path = tmp_path / "list.txt"
    path.write_text("date,tmin_f,tmax_f\n", "utf-8")
    (problem,) = problems(station_file([150], [300]), stations=str(path))
    assert problem.expected.startswith("a list of stations")
