"""What is odd in days is told with station, days and values, and taken as missing or refused."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.files.weather_findings import findings_between
from quarterwalk.weather.daily import DayMark
from tests.files.weather_days import JUNE, days_table, problems, read, told

DAYS = 30
LOWS = [68.0 + day % 5 for day in range(DAYS)]
HIGHS = [93.0 + day % 7 for day in range(DAYS)]


def with_days(changed: dict[int, tuple[object, object]], *, unit: str = "f") -> WeatherFile:
    """Read a plain month with some days changed. [from 0]"""
    lows: list[object] = list(LOWS)
    highs: list[object] = list(HIGHS)
    if unit == "c":
        lows, highs = celsius(LOWS), celsius(HIGHS)
    for at, (low, high) in changed.items():
        lows[at], highs[at] = low, high
    return read(days_table(lows, highs, unit=unit))


def celsius(values: list[float]) -> list[object]:
    return [round((value - 32) / 1.8, 1) for value in values]


def missing_days(file: WeatherFile) -> list[int]:
    return np.flatnonzero(file.stations[0].missing).tolist()


def test_a_plain_month_has_no_findings() -> None:
    assert with_days({}).findings == ()
    assert with_days({}, unit="c").findings == ()


def test_missing_days_are_told_as_a_run_with_their_dates() -> None:
    file = with_days({3: (None, None), 4: (None, None), 9: (None, None)})
    assert told(file) == [
        ("missing-days", "2026-06-04", "2026-06-05"),
        ("missing-days", "2026-06-10", "2026-06-10"),
    ]
    assert file.findings[0].text == (
        "standard input, 2026-06-04 to 2026-06-05: no temperatures; 2 days are missing."
    )


def test_days_that_have_no_row_are_missing_too() -> None:
    file = read("date,tmin_f,tmax_f\n2026-06-01,70,95\n2026-06-04,70,95\n")
    assert told(file) == [("missing-days", "2026-06-02", "2026-06-03")]


@pytest.mark.parametrize("pair", [(70, None), (None, 95)])
def test_a_day_with_one_temperature_is_missing_and_the_other_is_told(
    pair: tuple[object, object],
) -> None:
    file = with_days({5: pair})
    (value,) = (str(each) for each in pair if each is not None)
    assert told(file) == [("one-extreme", "2026-06-06", "2026-06-06")]
    assert f"({value} °F)" in file.findings[0].text
    assert missing_days(file) == [5]


def test_a_swapped_day_is_missing_and_told_with_its_values() -> None:
    file = with_days({7: (95, 70)})
    assert told(file) == [("swapped-extremes", "2026-06-08", "2026-06-08")]
    assert "(95 °F) is above the highest (70 °F)" in file.findings[0].text
    assert missing_days(file) == [7]


def test_swapped_columns_are_refused() -> None:
    (problem,) = problems(days_table(HIGHS, LOWS))
    assert "30 of 30 days" in problem.value
    assert problem.hint == "Are the two columns swapped?"


@pytest.mark.parametrize("pair", [(70, 999), (-9999, 95), (-9999, -9999), (70, 141)])
def test_a_value_beyond_the_records_of_the_world_is_missing_and_told(
    pair: tuple[object, object],
) -> None:
    file = with_days({2: pair})
    assert told(file) == [("impossible-value", "2026-06-03", "2026-06-03")]
    assert f"{pair[0]} °F" in file.findings[0].text
    assert missing_days(file) == [2]


def test_the_records_of_the_world_are_kept() -> None:
    file = read(
        "latitude,longitude,date,tmin_c,tmax_c\n-78.5,106.8,1983-07-21,-89.2,-60\n"
        "-78.5,106.8,1983-07-22,30,56.7\n"
    )
    assert file.findings == ()
    assert read("date,tmin_c,tmax_c\n1991-12-22,-69.6,-60\n").findings == ()


@pytest.mark.parametrize("code", [-99, -99.9, -999, 999, 9999])
def test_a_code_for_missing_is_no_weather(code: float) -> None:
    file = with_days({2: (code, code)})
    assert told(file) == [("impossible-value", "2026-06-03", "2026-06-03")]


def test_a_stuck_thermometer_is_told_and_kept() -> None:
    file = with_days(dict.fromkeys(range(10, 15), (71.5, 94.5)))
    assert told(file) == [("stuck-values", "2026-06-11", "2026-06-15")]
    assert "71.5 °F and 94.5 °F" in file.findings[0].text
    assert missing_days(file) == []


def test_four_days_alike_are_not_told() -> None:
    assert with_days(dict.fromkeys(range(10, 14), (71.5, 94.5))).findings == ()


@pytest.mark.parametrize(("long", "codes"), [(19, []), (20, ["stuck-low"])])
def test_a_lowest_temperature_that_stays_for_twenty_days_is_told_and_kept(
    long: int, codes: list[str]
) -> None:
    file = with_days({at: (69.5, HIGHS[at]) for at in range(5, 5 + long)})
    assert [code for code, *_ in told(file)] == codes
    assert missing_days(file) == []


def test_a_highest_temperature_that_stays_is_told_with_its_value() -> None:
    (finding,) = with_days({at: (LOWS[at], 91.5) for at in range(25)}).findings
    assert finding.code == "stuck-high"
    assert "25 days in a row have the same highest temperature, 91.5 °F" in finding.text


def test_two_stuck_pairs_one_after_the_other_are_told_apart() -> None:
    first, second = (dict.fromkeys(range(a, a + 5), (70.5, 90.5 + a)) for a in (5, 10))
    file = with_days({**first, **second})
    assert [days for _, *days in told(file)] == [
        ["2026-06-06", "2026-06-10"],
        ["2026-06-11", "2026-06-15"],
    ]


def test_a_whole_file_in_fahrenheit_that_says_celsius_is_refused() -> None:
    (problem,) = problems(days_table(LOWS, HIGHS, unit="c"))
    assert problem.expected == "in °C, as its columns are named"
    assert "likely in °F" in problem.hint


def test_a_whole_file_in_celsius_that_says_fahrenheit_is_refused() -> None:
    (problem,) = problems(days_table(celsius(LOWS), celsius(HIGHS), unit="f"))
    assert problem.expected == "in °F, as its columns are named"
    assert "likely in °C" in problem.hint


def test_a_few_days_in_fahrenheit_that_say_celsius_are_refused() -> None:
    (problem,) = problems(days_table([70, 71], [95, 94], unit="c"))
    assert "likely in °F" in problem.hint


def test_a_day_near_the_record_is_taken() -> None:
    assert read(days_table([33], [53.5], unit="c")).findings == ()


def test_a_cold_winter_in_fahrenheit_is_taken() -> None:
    lows, highs = [day % 6 for day in range(60)], [25 + day % 7 for day in range(60)]
    assert read(days_table(lows, highs, first=date(2025, 12, 1))).findings == ()


def test_a_cool_summer_of_the_far_north_is_taken() -> None:
    rows = [f"70.5,20,2026-06-{day:02d},{30 + day % 3},{40 + day % 4}" for day in range(1, 31)]
    assert read("\n".join(["latitude,longitude,date,tmin_f,tmax_f", *rows])).findings == ()


def test_the_southern_warm_season_is_told_by_the_latitude() -> None:
    rows = [f"-30,20,2026-06-{day:02d},{28 + day % 3},{45 + day % 4}" for day in range(1, 31)]
    assert read("\n".join(["latitude,longitude,date,tmin_f,tmax_f", *rows])).findings == ()


def test_tenths_of_a_degree_are_refused() -> None:
    (problem,) = problems(days_table([211] * 10, [289] * 10, unit="c"))
    assert "28.9 for 289" in problem.hint


@pytest.mark.parametrize("begin", [0, 8, DAYS - 12])
def test_a_stretch_in_celsius_is_missing_and_told(begin: int) -> None:
    lows, highs = celsius(LOWS), celsius(HIGHS)
    stretch = range(begin, begin + 12)
    file = with_days({at: (lows[at], highs[at]) for at in stretch})
    assert [code for code, *_ in told(file)] == ["unit-switched"]
    assert "only if they are in °C" in file.findings[0].text
    assert missing_days(file) == list(stretch)


def test_a_stretch_in_fahrenheit_is_missing_and_told() -> None:
    file = with_days({at: (LOWS[at], HIGHS[at]) for at in range(5, 11)}, unit="c")
    assert told(file) == [("unit-switched", "2026-06-06", "2026-06-11")]


@pytest.mark.parametrize("fall", [15, 25, 35, 45])
def test_a_cold_spell_is_no_switch_of_the_unit(fall: int) -> None:
    lows = [60.0 + day % 3 for day in range(DAYS)]
    highs = [82.0 + day % 4 for day in range(DAYS)]
    for at in range(10, 14):
        lows[at], highs[at] = lows[at] - fall, highs[at] - fall
    assert read(days_table(lows, highs, first=date(2026, 3, 1))).findings == ()


def test_many_runs_of_one_kind_are_told_together_after_the_tenth() -> None:
    pairs = [(None, None) if at % 2 else (70 + at % 3, 95) for at in range(41)]
    file = read(days_table(*zip(*pairs, strict=True)))
    assert len(file.findings) == 11
    assert file.findings[-1].text == (
        "standard input, 2026-06-22 to 2026-07-10: 10 more days: no temperatures."
    )


def test_findings_of_some_days_are_named_whatever_came_before_them() -> None:
    pairs = [(None, None) if at % 2 else (70 + at % 3, 95) for at in range(61)]
    file = read(days_table(*zip(*pairs, strict=True)))
    chosen, outside = findings_between(file.findings * 2, date(2026, 7, 10), date(2026, 7, 13))
    assert [(f.first.isoformat(), f.code) for f in chosen] == [
        ("2026-07-10", "missing-days"),
        ("2026-07-12", "missing-days"),
    ]
    assert outside == 28
    everything, outside = findings_between(file.findings, date(2026, 1, 1), date(2026, 12, 31))
    assert (everything, outside) == (list(file.findings), 0)


def test_a_finding_that_two_files_share_is_chosen_once() -> None:
    findings = with_days({7: (95, 70)}).findings
    assert findings_between(findings * 2, JUNE, date(2026, 6, 30)) == (list(findings), 0)


def test_days_taken_out_are_marked_missing_and_nothing_is_filled_in() -> None:
    (days,) = with_days({2: (None, None), 7: (95, 70)}).stations
    assert days.marks[[2, 7]].tolist() == [DayMark.MISSING] * 2
    assert np.isnan(days.tmin_f[[2, 7]]).all()
    assert np.isnan(days.tmax_f[[2, 7]]).all()
