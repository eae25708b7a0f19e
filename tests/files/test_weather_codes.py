"""Codes for missing that are no step of 45 °F, and one temperature that is off alone."""

from __future__ import annotations

import pytest

from tests.files.weather_days import days_table, read, told

DAYS = 60
LOWS = [66.0 + day % 5 for day in range(DAYS)]
HIGHS = [92.0 + day % 7 for day in range(DAYS)]


def celsius(values: list[float]) -> list[float]:
    return [round((value - 32) / 1.8, 1) for value in values]


def far_off(changed: dict[int, tuple[float, float]], unit: str = "f", drop: float = 0) -> list[int]:
    """Give the days of the year's June and July that are taken out as far off. [from 0]"""
    lows, highs = ([value - drop for value in values] for values in (LOWS, HIGHS))
    if unit == "c":
        lows, highs = celsius(lows), celsius(highs)
    pairs = [changed.get(at, (lows[at], highs[at])) for at in range(DAYS)]
    file = read(days_table(*zip(*pairs, strict=True), unit=unit))
    assert {code for code, *_ in told(file)} <= {"far-off"}
    return file.stations[0].missing.nonzero()[0].tolist()


@pytest.mark.parametrize("unit", ["f", "c"])
@pytest.mark.parametrize(
    "days",
    [range(30, 31), range(30, 34), range(20, 40), range(56, 60), range(4), range(30, 40, 2)],
    ids=str,
)
def test_days_of_two_zeros_among_warm_ones_are_missing(days: range, unit: str) -> None:
    assert far_off(dict.fromkeys(days, (0, 0)), unit) == list(days)


def test_zeros_of_a_cold_spell_are_weather() -> None:
    spell = {29: (4.0, 9.0), 30: (0, 0), 31: (0, 0), 32: (-1.0, 6.0)}
    assert far_off(spell, "c") == []
    # highs of some 55 °F beside
    assert far_off({30: (0, 0)}, "c", drop=40) == []


def test_a_day_of_one_zero_is_weather() -> None:
    assert far_off({30: (0, 12.0), 31: (-3.0, 0)}, "c") == []


@pytest.mark.parametrize("low", [0, 18.5])
@pytest.mark.parametrize("days", [range(30, 31), range(30, 33), range(15, 40)], ids=str)
def test_lowest_temperatures_that_are_off_alone_are_missing(days: range, low: float) -> None:
    assert far_off({at: (low, HIGHS[at]) for at in days}) == list(days)


def test_highest_temperatures_that_are_off_alone_are_missing() -> None:
    highs = [value - 20 for value in HIGHS]
    changed = {at: (LOWS[at], highs[at]) for at in range(DAYS)} | {30: (68.0, 125.0)}
    assert far_off(changed) == [30]


def test_a_clear_night_and_a_front_are_kept() -> None:
    assert far_off({30: (LOWS[30] - 40, HIGHS[30])}) == []
    # the high of a front's day stands at its midnight, and the cold goes slowly
    assert far_off({30: (17, 83), 31: (25, 50), 32: (30, 60), 33: (45, 70)}) == []
    assert far_off({DAYS - 1: (17, 83)}) == []


def hours(changed: dict[int, object], unit: str = "f") -> str:
    temps: list[object] = [70 + 12 * ((at % 24) > 9) + at % 24 % 5 for at in range(72)]
    if unit == "c":
        temps = celsius(temps)  # type: ignore[arg-type]
    for at, value in changed.items():
        temps[at] = value
    rows = [f"2026-06-{1 + at // 24:02d}T{at % 24:02d}:00,{temp}" for at, temp in enumerate(temps)]
    return "\n".join([f"time,temp_{unit}", *rows])


def missing(changed: dict[int, object], unit: str = "f") -> list[int]:
    return read(hours(changed, unit)).hourly[0].missing.nonzero()[0].tolist()


@pytest.mark.parametrize("unit", ["f", "c"])
@pytest.mark.parametrize(
    "places",
    [range(28, 29), range(28, 33), range(28, 40), range(24, 48), range(2), range(69, 72)],
    ids=str,
)
def test_hours_of_zeros_are_missing_however_many(places: range, unit: str) -> None:
    assert missing(dict.fromkeys(places, 0), unit) == list(places)


def test_two_runs_in_one_day_are_missing_and_the_day_with_them() -> None:
    places = [26, 27, 28, 38, 39, 40]
    file = read(hours(dict.fromkeys(places, 0)))
    assert file.hourly[0].missing.nonzero()[0].tolist() == places
    assert [code for code, *_ in told(file)] == ["wrong-hours", "few-hours"]


def test_hours_of_another_value_are_missing_between_two_steps() -> None:
    assert missing(dict.fromkeys(range(28, 33), 135)) == list(range(28, 33))
    assert missing(dict.fromkeys(range(38, 44), 45)) == list(range(38, 44))


def test_a_heat_burst_a_storm_and_a_front_at_the_end_are_kept() -> None:
    assert missing({28: 100}) == []
    assert missing({38: 60, 39: 60, 40: 61}) == []
    assert missing({70: 50, 71: 50}) == []


def test_readings_three_hours_apart_are_kept() -> None:
    temps = {0: 62, 3: 58, 6: 55, 9: 60, 12: 90, 15: 90, 18: 60, 21: 64}
    assert len(missing({at: temps.get(at % 24, "") for at in range(72)})) == 48


def test_zeros_at_the_end_of_a_winters_file_are_weather() -> None:
    cold = {at: 10.0 + at % 5 for at in range(72)}
    assert missing(cold | {70: 0, 71: 0}, "c") == []
    assert missing({at: temp + 5 for at, temp in cold.items()} | {70: 0, 71: 0}, "c") == [70, 71]
