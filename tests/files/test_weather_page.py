"""The page on weather says what is read, what is told of it, and where the limits are."""

from __future__ import annotations

from pathlib import Path

import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.files import (
    hourly_days,
    hourly_table,
    weather_codes,
    weather_findings,
    weather_levels,
    weather_runs,
    weather_spikes,
    weather_table,
    weather_units,
)
from quarterwalk.files.boundary_limits import megabytes
from quarterwalk.files.weather_bytes import MOST_BYTES, MOST_LINES
from quarterwalk.files.weather_cells import MARKS
from quarterwalk.files.weather_days import MOST_DAYS
from quarterwalk.files.weather_file import read_weather
from quarterwalk.files.weather_rows import MOST_STATIONS
from quarterwalk.files.weather_said import Odd
from tests.docs.said import DOCS, blocks, rows, section

PAGE = DOCS / "weather.md"
TABLES = [(told.split()[2:], text) for told, text in blocks(PAGE, kind="csv")]
SAID = [text.strip() for _, text in blocks(PAGE, kind="text")]
PLAIN = [text for how, text in TABLES if not how]
ODD = list(zip([(how, text) for how, text in TABLES if how], SAID, strict=True))


@pytest.fixture(autouse=True)
def in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("text", PLAIN)
def test_example_tables_are_taken_without_a_word(text: str) -> None:
    Path("weather.csv").write_text(text, "utf-8")
    file = read_weather("weather.csv")
    codes = {finding.code for finding in file.findings}
    assert codes <= {Odd.FEW_HOURS}
    assert file.notices == ()


@pytest.mark.parametrize(("example", "said"), ODD)
def test_example_tables_that_are_odd_are_told_in_these_words(
    example: tuple[list[str], str], said: str
) -> None:
    how, text = example
    Path("weather.csv").write_text(text, "utf-8")
    if how == ["refused"]:
        with pytest.raises(RefusedInput) as refused:
            read_weather("weather.csv")
        assert str(refused.value) == said
    else:
        assert "\n".join(f.text for f in read_weather("weather.csv").findings) == said


@pytest.mark.parametrize(
    ("heading", "columns"),
    [
        ("The table of days", weather_table.COLUMNS),
        ("The table of hours", hourly_table.COLUMNS),
    ],
)
def test_every_column_is_told_and_no_other(heading: str, columns: tuple[str, ...]) -> None:
    told = [name.strip("` ") for row in rows(PAGE, heading)
            for part in row[0].split(",") for name in part.split(" or ")]  # fmt: skip
    assert sorted(told) == sorted(columns)


def test_every_mark_and_every_code_is_told() -> None:
    assert all(f"`{mark}`" in section(PAGE, "The table of days") for mark in MARKS)
    told = [row[0].strip("`") for row in rows(PAGE, "What is odd, and what is done")]
    assert sorted(told) == sorted(odd.value for odd in Odd)


def test_the_limits_are_told() -> None:
    told = [row[1] for row in rows(PAGE, "Limits")]
    limits = [f"{most:,}" for most in (MOST_LINES, MOST_DAYS, MOST_STATIONS)]
    assert told == [megabytes(MOST_BYTES), *limits]


def test_the_steps_of_a_stretch_and_the_days_that_tell_a_summer_are_told() -> None:
    told = [row for row in rows(PAGE, "The wrong unit") if row[0][0].isdigit() or "short" in row[0]]
    assert [[row[0], row[2].strip("°")] for row in told[:3]] == [
        [str(season.days), f"{season.farthest:.0f}"] for season in weather_levels.SEASONS
    ]
    assert [[float(cell) for cell in row[1:]] for row in told[3:]] == [
        weather_units.STEP.tolist(), weather_units.FAR_STEP.tolist(),
    ]  # fmt: skip
    assert told[3][0].startswith(f"{weather_units.LONG} days")
    assert f"or {weather_units.LONG_AT_END} and more" in told[3][0]
    gaps = f"{weather_units.NEAR_GAP + 1} to {weather_units.FAR_GAP} days missing"
    assert gaps in told[4][0]


@pytest.mark.parametrize(
    "said",
    [
        f"with more than {weather_units.MOST_STRETCHES} the file is refused",
        f"within {weather_units.FIT_F:.0f} °F once it is converted",
        f"highs of {weather_runs.WARM_F:.0f} °F and more",
        f"differ by {weather_spikes.STEP_F:.0f} °F, the same way",
        f"where one side is missing, they differ by {weather_spikes.STEP_AT_END_F:.0f} °F",
        f"differs by {weather_spikes.HOUR_STEP_F:.0f} °F from those before and after",
        f"highs below {weather_levels.COLDEST_TENTHS_C} °C",
        f"less than {weather_levels.LEAST_RANGE_C:.0f} °C from lowest to highest",
        f"the same temperature {weather_spikes.STUCK_HOURS} hours in a row",
        f"the same lowest temperature {weather_findings.STUCK_ALONE_DAYS} days in a row",
        f"exactly the same, {weather_codes.SAME_STEP_F:.0f} °F above or below the hours",
        f"one of the {weather_codes.BESIDE_END} hours beside has",
        f"stay {weather_codes.STAY_F:.0f} °F below the middle of the ten days",
        f"up to {hourly_days.MOST_WRONG_HOURS} hours of a day that are not possible",
    ],
)
def test_the_rules_of_what_is_odd_are_told_with_their_numbers(said: str) -> None:
    assert said in " ".join(PAGE.read_text("utf-8").split())
