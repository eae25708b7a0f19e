"""Temperatures in another unit than the file says are told: all of them, or the days that are."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

import numpy as np
import pytest

from quarterwalk.errors import Problem
from quarterwalk.files.weather_file import WeatherFile
from tests.files.weather_days import days_table, month_line, problems, read, told

APRIL = date(2026, 4, 1)
DAYS = 60
RNG = np.random.default_rng(7)
MEAN = np.linspace(62.0, 80.0, DAYS) + RNG.normal(0.0, 4.0, DAYS)
LOWS, HIGHS = np.round(MEAN - 13.0, 1), np.round(MEAN + 13.0, 1)


def celsius(values: object) -> np.ndarray:
    return np.round((np.asarray(values) - 32.0) / 1.8, 1)


def table(stretch: Iterable[int], *, unit: str = "f", lacking: Iterable[int] = ()) -> str:
    """Give a spring of which some days are in the other unit, and some are lacking. [from 0]"""
    own, other = (LOWS, HIGHS), (celsius(LOWS), celsius(HIGHS))
    if unit == "c":
        own, other = other, own
    pairs = [tuple(float(values[at]) for values in own) for at in range(DAYS)]
    for at in stretch:
        pairs[at] = tuple(float(values[at]) for values in other)
    blank: dict[int, tuple[object, object]] = dict.fromkeys(lacking, (None, None))
    cells = [blank.get(at, pair) for at, pair in enumerate(pairs)]
    return days_table(*zip(*cells, strict=True), unit=unit, first=APRIL)


def switched(file: WeatherFile) -> int:
    (found,) = [f for f in file.findings if f.code == "unit-switched"]
    return (found.last - found.first).days + 1


@pytest.mark.parametrize("unit", ["f", "c"])
def test_a_spring_in_one_unit_has_no_findings(unit: str) -> None:
    assert read(table([], unit=unit)).findings == ()


@pytest.mark.parametrize("unit", ["f", "c"])
@pytest.mark.parametrize("long", [1, 2, 3, 5])
def test_a_few_days_in_the_other_unit_are_found(unit: str, long: int) -> None:
    file = read(table(range(40, 40 + long), unit=unit))
    assert switched(file) == long
    assert np.flatnonzero(file.stations[0].missing).tolist() == list(range(40, 40 + long))


@pytest.mark.parametrize("long", [1, 3, 8])
def test_the_last_days_in_the_other_unit_are_found(long: int) -> None:
    assert switched(read(table(range(DAYS - long, DAYS)))) == long


@pytest.mark.parametrize("gap", [1, 12, 20])
def test_a_switch_behind_missing_days_is_found(gap: int) -> None:
    file = read(table(range(50, DAYS), lacking=range(50 - gap, 50)))
    assert switched(file) == DAYS - 50


def test_nothing_is_concluded_over_more_than_thirty_missing_days() -> None:
    file = read(table(range(50, DAYS), lacking=range(19, 50)))
    assert {code for code, *_ in told(file)} == {"missing-days"}


def test_a_file_that_changes_over_and_over_is_refused() -> None:
    (problem,) = problems(table(range(1, DAYS, 2)))
    assert "changes to °C" in problem.value
    assert "two sources" in problem.hint


def test_days_in_the_other_unit_are_named_where_the_rest_is_right() -> None:
    lows, highs = np.full(30, 72.0), np.array([98.0 + day % 7 for day in range(30)])
    lows[15:], highs[15:] = celsius(lows[15:]), celsius(highs[15:])
    assert switched(read(days_table(lows.tolist(), highs.tolist()))) == 15


@pytest.mark.parametrize("fall", [30, 40, 50])
@pytest.mark.parametrize("first", [20, 27])
def test_a_cold_wave_of_winter_is_no_other_unit_and_no_code(fall: int, first: int) -> None:
    lows, highs = (
        np.array([28.0 + d % 3 for d in range(30)]),
        np.array([52.0 + d % 5 for d in range(30)]),
    )
    lows[first : first + 3] -= fall
    highs[first : first + 3] -= fall
    text = days_table(lows.tolist(), highs.tolist(), first=date(2026, 1, 1))
    assert read(text).findings == ()


@pytest.mark.parametrize("days", [3, 5, 15])
def test_a_few_days_of_july_in_celsius_that_say_fahrenheit_are_refused(days: int) -> None:
    lows, highs = [21 + day % 3 for day in range(days)], [34 + day % 4 for day in range(days)]
    (problem,) = problems(days_table(lows, highs, first=date(2026, 7, 1)))
    assert "likely in °C" in problem.hint
    assert problem.value.startswith("summer highs below 3")


@pytest.mark.parametrize(
    ("place", "first", "refused"),
    [
        ("39.9,0,100", date(2026, 7, 1), True),
        ("40.1,0,100", date(2026, 7, 1), False),
        ("39.9,0,1501", date(2026, 7, 1), False),
        ("39.9,0,100", date(2026, 5, 20), False),
        ("-30,0,100", date(2026, 7, 1), False),
        ("-30,0,100", date(2026, 1, 1), True),
    ],
)
def test_where_and_when_three_days_tell_the_unit(place: str, first: date, refused: bool) -> None:
    rows = days_table([21, 22, 23], [34, 35, 36], first=first).splitlines()
    text = "\n".join(
        ["latitude,longitude,elevation_m," + rows[0], *(f"{place},{r}" for r in rows[1:])]
    )
    if refused:
        assert problems(text)
    else:
        assert read(text).findings == ()


@pytest.mark.parametrize(("latitude", "refused"), [(49.9, True), (50.1, False), (-54.5, False)])
def test_a_cool_may_tells_the_unit_up_to_50_degrees(latitude: float, refused: bool) -> None:
    first = date(2026, 5 if latitude > 0 else 11, 1)
    rows = days_table([30 + at % 3 for at in range(28)], [42 + at % 5 for at in range(28)],
                      first=first).splitlines()  # fmt: skip
    told = [f"latitude,longitude,{rows[0]}", *(f"{latitude},0,{row}" for row in rows[1:])]
    if refused:
        assert problems("\n".join(told))
    else:
        assert read("\n".join(told)).findings == ()


def test_the_point_of_an_error_is_not_cut_off() -> None:
    text = days_table(celsius(LOWS + 15.0).tolist(), celsius(HIGHS + 15.0).tolist())
    (problem,) = problems("name," + text.replace("\n20", "\n" + "n" * 80 + ",20"))
    assert "°F" in problem.message.split("got ")[1].split("(station")[0]


def test_kelvin_is_called_kelvin() -> None:
    (problem,) = problems(days_table([293.5] * 10, [305.5] * 10, unit="c"))
    assert "Kelvin" in problem.hint


def archive(lows: list[int], highs: list[int]) -> tuple[Problem, ...]:
    return problems(month_line("TMAX", highs) + month_line("TMIN", lows))


@pytest.mark.parametrize(("low", "high"), [(70, 95), (82, 118), (21, 35)])
def test_whole_degrees_in_a_file_of_tenths_are_refused(low: int, high: int) -> None:
    (problem,) = archive(
        [low + day % 3 for day in range(30)], [high + day % 3 for day in range(30)]
    )
    assert "whole degrees, not tenths" in problem.hint


@pytest.mark.parametrize(
    ("lows", "highs"),
    [([60, 65, 70], [105, 115, 118]), ([100, 110, 105], [130, 140, 135])],
)
def test_a_cool_summer_in_tenths_is_taken(lows: list[int], highs: list[int]) -> None:
    assert read(month_line("TMAX", highs * 10) + month_line("TMIN", lows * 10)).findings == ()
