"""On a screen many like problems of one column are told together; scripts get them all."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from quarterwalk.cli.refusal_told import refusal_lines
from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput
from tests.cli.ground import Run, run_in
from tests.cli.stations import write_table

DAY = "a date as YYYY-MM-DD"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


def american(count: int) -> str:
    """Write weather with so many dates that have the month first, and give the file's name."""
    rows = (f"4/{n}/2026,60,{80 + n % 3}" for n in range(1, count + 1))
    return write_table("weather.csv", "date,tmin_f,tmax_f", *rows)


def cells(count: int, column: str = "date", expected: str = DAY) -> list[Problem]:
    return [Problem("walks.csv", row, column, "x", expected) for row in range(2, 2 + count)]


def on_a_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)


def test_a_hundred_dates_with_the_month_first_are_three_lines_and_two_counts(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    on_a_screen(monkeypatch)
    said = run("weather", american(100), status=3)[1].splitlines()
    assert [line.partition(",")[0] for line in said[:3]] == [
        "weather.csv row 2",
        "weather.csv row 3",
        "weather.csv row 4",
    ]
    assert said[3:] == [
        "weather.csv, column date: and 47 more cells like these.",
        "weather.csv: and 50 more like these.",
    ]


def test_a_file_that_takes_the_lines_gets_every_one(run: Run) -> None:
    said = run("weather", american(100), status=3)[1].splitlines()
    assert len(said) == MOST_PROBLEMS + 1


def test_a_script_gets_every_problem_even_beside_a_screen(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    on_a_screen(monkeypatch)
    out, said = run("weather", american(40), "--json", status=3)
    assert len(json.loads(out)["errors"]) == 40
    assert len(said.splitlines()) == 40


def test_problems_of_other_columns_stay_between_them() -> None:
    (count,) = cells(1, "plant", "a whole number from 1 to 999999")
    lines = refusal_lines(RefusedInput([*cells(3), count, *cells(9)[3:]]))
    assert lines == [
        *(problem.message for problem in (*cells(3), count)),
        "walks.csv, column date: and 6 more cells like these.",
    ]


@pytest.mark.parametrize("count", [1, 3, 4])
def test_a_count_that_would_save_no_line_is_not_made(count: int) -> None:
    assert refusal_lines(RefusedInput(cells(count))) == [each.message for each in cells(count)]


def test_what_is_wrong_with_no_cell_is_told_each_for_itself() -> None:
    each = [Problem("walks.csv", None, "date", f"{n}", DAY) for n in range(8)]
    other = [Problem("walks.csv", n, "plant", "1", f"other than row {n - 1}") for n in range(3, 11)]
    error = RefusedInput([*each, *other])
    assert refusal_lines(error) == str(error).splitlines()
