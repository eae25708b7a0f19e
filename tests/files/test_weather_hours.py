"""A table of hours gives hours and days, or names the cell to mend."""

from __future__ import annotations

from datetime import datetime

import numpy as np
import pytest

from quarterwalk.files.weather_file import WeatherFile
from tests.files.tables import workbook
from tests.files.weather_days import problems, read, told

BASIC = "time,temp_f"


def table(rows: list[str], header: str = BASIC) -> str:
    return "\n".join([header, *rows]) + "\n"


def day(*, minute: str = "00", temps: list[object] | None = None) -> list[str]:
    values = temps or [60 + hour for hour in range(24)]
    return [f"2026-06-01T{hour:02d}:{minute},{temp}" for hour, temp in enumerate(values)]


def first_temps(file: WeatherFile) -> list[float]:
    return file.hourly[0].temp_f.tolist()


def test_a_day_of_hours_gives_hours_and_the_day() -> None:
    file = read(table(day()))
    assert file.hourly[0].first == datetime(2026, 6, 1)  # noqa: DTZ001
    assert first_temps(file) == [60.0 + hour for hour in range(24)]
    assert file.stations[0].tmin_f.tolist() == [60.0]
    assert file.stations[0].tmax_f.tolist() == [83.0]
    assert file.findings == ()


def test_a_blank_may_stand_for_the_t_and_celsius_in_the_name() -> None:
    file = read("time,temp_c,humidity\n2026-06-01 05:00,25,40\n2026-06-01 06:00,30,\n")
    assert first_temps(file) == [77.0, 86.0]
    np.testing.assert_array_equal(file.hourly[0].humidity, [40.0, np.nan])


def test_a_reading_between_hours_counts_for_the_nearest() -> None:
    file = read(table(["2026-06-01T04:53,70", "2026-06-01T06:10,72"]))
    np.testing.assert_array_equal(first_temps(file), [70.0, 72.0])
    assert file.hourly[0].first.hour == 5


def test_of_several_readings_the_nearest_to_the_hour_counts() -> None:
    times = ["04:45,68", "05:00,70", "05:15,71", "05:30,72"]
    file = read(table([f"2026-06-01T{each}" for each in times]))
    assert first_temps(file) == [70.0, 72.0]
    assert file.notices == ("standard input: 2 readings between full hours are not used.",)


def test_a_day_with_too_few_hours_is_missing_and_told() -> None:
    file = read(table(day()[:19]))
    assert told(file) == [("few-hours", "2026-06-01", "2026-06-01")]
    assert "19 of 24" in file.findings[0].text
    assert file.stations[0].missing.all()


def test_the_same_time_twice_with_other_values_names_both_rows() -> None:
    (problem,) = problems(table(["2026-06-01T05:00,70", "2026-06-01 05:00,71"]))
    assert (problem.row, problem.column) == (3, "time")
    assert "row 2" in problem.expected


def test_the_hour_that_comes_twice_when_clocks_are_set_back_has_the_mean() -> None:
    rows = ["2026-11-01T00:00,60", "2026-11-01T01:00,58", "2026-11-01T01:00,56"]
    assert first_temps(read(table(rows))) == [60.0, 57.0]


def test_humidity_comes_out_of_the_dew_point() -> None:
    file = read("time,temp_c,dew_point_c\n2026-06-01T05:00,25,21.309\n2026-06-01T06:00,25,25\n")
    assert file.hourly[0].humidity == pytest.approx([80.0, 100.0], abs=0.1)


def test_a_dew_point_above_the_temperature_gives_no_humidity() -> None:
    file = read("time,temp_f,dew_point_f\n2026-06-01T05:00,70,80\n2026-06-01T06:00,70,70.5\n")
    np.testing.assert_array_equal(file.hourly[0].humidity, [np.nan, 100.0])


@pytest.mark.parametrize(
    "cell", ["", "05:00", "2026-06-01T24:00", "2026-06-01T05", "2026-06-01T05:00Z"]
)
def test_a_cell_that_is_no_time_is_refused(cell: str) -> None:
    (problem,) = problems(table([f"{cell},70"]))
    assert (problem.row, problem.column, problem.value) == (2, "time", cell)


def test_the_number_of_a_day_in_a_spreadsheet_is_named() -> None:
    (problem,) = problems(table(["46174.2083,70"]))
    assert "Format the column as a date" in problem.hint


@pytest.mark.parametrize("cell", ["101", "-1", "40%"])
def test_humidity_outside_of_0_to_100_is_refused(cell: str) -> None:
    (problem,) = problems(f"time,temp_f,humidity\n2026-06-01T05:00,70,{cell}\n")
    assert (problem.column, problem.value) == ("humidity", cell)


def test_a_bare_temperature_is_refused_with_both_spellings() -> None:
    (problem,) = problems("time,temp\n2026-06-01T05:00,70\n")
    assert "temp_f or temp_c" in problem.expected


def test_midnight_in_a_workbook_is_a_day_alone() -> None:
    file = read(workbook([["time", "temp_f"], ["2026-06-01", 70], ["2026-06-01 01:00:00", 69]]))
    assert first_temps(file) == [70.0, 69.0]


@pytest.mark.parametrize("value", ["0.6", "1", "0"])
def test_humidity_in_fractions_is_refused(value: str) -> None:
    rows = [f"2026-06-01T05:00,70,{value}", "2026-06-01T06:00,71,0.35", "2026-06-01T07:00,71,"]
    (problem,) = problems(table(rows, "time,temp_f,humidity"))
    assert (problem.column, problem.row) == ("humidity", None)
    assert problem.hint == "Are they fractions? Write 60 for 0.6."


def test_fractions_of_one_station_are_refused_beside_percent_of_another() -> None:
    rows = ["a,2026-06-01T05:00,70,60", "b,2026-06-01T05:00,70,0.6"]
    (problem,) = problems(table(rows, "station,time,temp_f,humidity"))
    assert "station b" in problem.value


def test_a_dry_hour_among_others_is_no_fraction() -> None:
    rows = ["2026-06-01T05:00,70,12", "2026-06-01T06:00,71,1"]
    assert len(read(table(rows, "time,temp_f,humidity")).hourly) == 1


def test_the_last_reading_before_midnight_makes_no_day_of_its_own() -> None:
    file = read(table(day(minute="53")))
    assert file.stations[0].last.isoformat() == "2026-06-01"
    assert file.findings == ()
    more = read(table([*day(minute="53"), "2026-06-02T00:53,61"]))
    assert more.hourly[0].last.hour == 1


def test_a_blank_on_the_hour_gives_way_to_a_reading_beside_it() -> None:
    rows = ["2026-06-01T05:00,", "2026-06-01T05:05,70.5", "2026-06-01T06:00,71"]
    assert first_temps(read(table(rows))) == [70.5, 71.0]


def test_a_gap_that_is_too_long_is_told_from_too_few_hours() -> None:
    file = read(table([row for at, row in enumerate(day()) if not 8 <= at < 12]))
    assert told(file) == [("long-gap", "2026-06-01", "2026-06-01")]
    assert "20 of 24 hours are known, but too many in a row are not" in file.findings[0].text


def test_stations_of_a_table_of_hours_are_kept_apart() -> None:
    file = read(table(["a,2026-06-01T05:00,70", "b,2026-06-01T05:00,71"], "station,time,temp_f"))
    assert [hours.station.id for hours in file.hourly] == ["a", "b"]
    assert [hours.temp_f.tolist() for hours in file.hourly] == [[70.0], [71.0]]


def by_day(humidities: list[list[object]]) -> str:
    rows = [
        f"2026-06-{1 + day:02d}T{hour:02d}:00,90,{told}"
        for day, of_day in enumerate(humidities)
        for hour, told in enumerate(of_day)
    ]
    return table(rows, "time,temp_f,humidity")


@pytest.mark.parametrize("dead", [0, 1, 0.6])
def test_a_day_whose_humidities_are_all_one_or_less_has_none(dead: float) -> None:
    file = read(by_day([[60] * 24, [dead] * 24, [1, 1.5, 20]]))
    assert np.isnan(file.hourly[0].humidity[24:48]).all()
    np.testing.assert_array_equal(file.hourly[0].humidity[48:], [1, 1.5, 20])
    (notice,) = file.notices
    assert "24 humidities are not used, first that of standard input in row 26" in notice


def test_a_humidity_of_nothing_is_none() -> None:
    file = read(by_day([[60, 0, 40]]))
    np.testing.assert_array_equal(file.hourly[0].humidity, [60, np.nan, 40])
    assert "1 humidity is not used, that of standard input in row 3" in file.notices[0]


def test_the_dew_point_stands_in_for_a_humidity_that_is_not_used() -> None:
    rows = ["2026-06-01T10:00,77,60,", "2026-06-02T10:00,77,0.5,59"]
    file = read(table(rows, "time,temp_f,humidity,dew_point_f"))
    assert file.hourly[0].humidity[24] == pytest.approx(54, abs=0.5)


def set_back(day: str, hour: int, place: str) -> str:
    row = f"{day}T{hour:02d}:00"
    return table([f"{row},60,{place}", f"{row},58,{place}"], "time,temp_f,latitude,longitude")


@pytest.mark.parametrize(
    ("day", "hour", "place"),
    [
        ("2026-04-05", 2, "-33.5,150"),
        ("2026-04-05", 2, ","),
        ("2026-03-22", 1, "-25.3,-57.6"),
        ("2026-10-25", 3, "39.6,22.4"),
        ("2026-11-01", 1, "33.6,-101.9"),
    ],
)
def test_a_clock_set_back_is_taken_as_such_on_either_half_of_the_earth(
    day: str, hour: int, place: str
) -> None:
    assert read(set_back(day, hour, place)).hourly[0].temp_f.tolist() == [59.0]


@pytest.mark.parametrize(
    ("day", "hour", "place"),
    [
        ("2026-04-05", 2, "33.6,-101.9"),
        ("2026-11-01", 1, "-33.5,150"),
        ("2026-04-05", 4, "-33.5,150"),
        ("2026-04-06", 2, "-33.5,150"),
    ],
)
def test_at_other_times_two_readings_that_differ_are_refused(
    day: str, hour: int, place: str
) -> None:
    (problem,) = problems(set_back(day, hour, place))
    assert problem.column == "time"
