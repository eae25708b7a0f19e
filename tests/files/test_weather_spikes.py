"""Days and hours that stand out from those on both sides are no weather, and told."""

from __future__ import annotations

import pytest

from tests.files.weather_days import days_table, read, told

DAYS = 30
LOWS = [66.0 + day % 5 for day in range(DAYS)]
HIGHS = [92.0 + day % 7 for day in range(DAYS)]


def findings(changed: dict[int, tuple[float, float]]) -> list[tuple[str, str, str]]:
    pairs = [changed.get(at, (LOWS[at], HIGHS[at])) for at in range(DAYS)]
    return told(read(days_table(*zip(*pairs, strict=True))))


@pytest.mark.parametrize("long", [1, 2, 3])
def test_zeros_for_missing_are_found_in_summer(long: int) -> None:
    days = range(10, 10 + long)
    assert findings(dict.fromkeys(days, (0, 0))) == [
        ("far-off", "2026-06-11", f"2026-06-{10 + long}")
    ]


@pytest.mark.parametrize("at", [0, DAYS - 1])
def test_a_zero_on_the_first_or_the_last_day_is_found(at: int) -> None:
    assert [code for code, *_ in findings({at: (0, 0)})] == ["far-off"]


def test_a_good_day_between_two_zeros_is_kept() -> None:
    found = findings({10: (0, 0), 12: (0, 0)})
    assert [first for _, first, _ in found] == ["2026-06-11", "2026-06-13"]


def test_four_cold_days_and_a_day_that_is_cold_in_one_temperature_are_kept() -> None:
    cold = {at: (LOWS[at] - 50, HIGHS[at] - 50) for at in range(10, 14)}
    assert findings(cold) == []
    assert findings({10: (LOWS[10] - 60, HIGHS[10] - 40)}) == []


def test_a_heavy_front_is_kept() -> None:
    cold = {at: (LOWS[at] - 40, HIGHS[at] - 44) for at in range(10, 12)}
    assert findings(cold) == []
    assert findings({at: (LOWS[at] - 38, HIGHS[at] - 55) for at in range(DAYS - 2, DAYS)}) == []


def hours(changed: dict[int, object]) -> str:
    temps: list[object] = [70 + 12 * ((at % 24) > 9) + at % 24 % 5 for at in range(72)]
    for at, value in changed.items():
        temps[at] = value
    rows = [f"2026-06-{1 + at // 24:02d}T{at % 24:02d}:00,{temp}" for at, temp in enumerate(temps)]
    return "\n".join(["time,temp_f", *rows])


@pytest.mark.parametrize("code", [999, -99.9, 0, 20])
def test_one_wrong_hour_is_taken_out_and_the_day_stays(code: float) -> None:
    file = read(hours({40: code}))
    assert told(file) == [("wrong-hours", "2026-06-02", "2026-06-02")]
    assert f"first {code} °F (16:00)" in file.findings[0].text
    assert file.hourly[0].missing.nonzero()[0].tolist() == [40]
    assert not file.stations[0].missing.any()


def test_three_wrong_hours_in_a_row_are_taken_out() -> None:
    file = read(hours(dict.fromkeys((40, 41, 42), 0)))
    assert file.hourly[0].missing.nonzero()[0].tolist() == [40, 41, 42]


def test_a_storm_that_cools_the_air_is_kept() -> None:
    assert read(hours({38: 62, 39: 58, 40: 60})).findings == ()
    assert read(hours({at: 45 + at % 2 for at in range(38, 44)})).findings == ()


def test_a_day_of_wrong_hours_is_out_with_its_hours() -> None:
    file = read(hours(dict.fromkeys(range(30, 36), 999)))
    assert told(file) == [("impossible-value", "2026-06-02", "2026-06-02")]
    assert file.hourly[0].missing.nonzero()[0].tolist() == list(range(24, 48))


@pytest.mark.parametrize(("long", "codes"), [(23, []), (24, ["stuck-hours"])])
def test_hours_that_stay_alike_for_a_day_are_told_and_kept(long: int, codes: list[str]) -> None:
    file = read(hours(dict.fromkeys(range(30, 30 + long), 78.5)))
    assert [code for code, *_ in told(file)] == codes
    assert not file.hourly[0].missing.any()
    if codes:
        assert "78.5 °F (2026-06-02 06:00 – 2026-06-03 05:00)" in file.findings[0].text
