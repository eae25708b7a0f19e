"""The page on weather says what is read, what is told of it, and where the limits are."""

from __future__ import annotations

from pathlib import Path

import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.files import hourly_table, weather_table
from quarterwalk.files.boundary_limits import megabytes
from quarterwalk.files.weather_bytes import MOST_BYTES, MOST_LINES
from quarterwalk.files.weather_cells import MARKS
from quarterwalk.files.weather_days import MOST_DAYS
from quarterwalk.files.weather_file import read_weather
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
    assert told == [megabytes(MOST_BYTES), f"{MOST_LINES:,}", f"{MOST_DAYS:,}"]
