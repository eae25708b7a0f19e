"""What the rules refuse is refused: a table by row and column, a command line by its status."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from quarterwalk.cli import main

HEADER = "field,date,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted,flared"
GOOD = "Gin,2019-06-10,NW,1,1,0,0,1,0,0,0"
OTHER = "Gin,2019-06-10,NE,1,1,0,0,1,0,0,0"
KANSAS = ("--guideline", "kansas")
CROP = (*KANSAS, "--first-square", "2019-06-01")
TABLE = "field,planted,first_square,bloom,treated\n"

ROWS = {
    "a count over 99": ("adults", "Gin,2019-06-10,NW,1,2,100,0,,,,"),
    "a count under 0": ("nymphs", "Gin,2019-06-10,NW,1,2,0,-1,,,,"),
    "half a square": ("healthy", "Gin,2019-06-10,NW,1,2,0,0,1.5,,,"),
    "a word for a count": ("missing", "Gin,2019-06-10,NW,1,2,0,0,0,x,,"),
    "a quadrant nobody knows": ("quadrant", "Gin,2019-06-10,N,1,2,0,0,,,,"),
    "no quadrant": ("quadrant", "Gin,2019-06-10,,1,2,0,0,,,,"),
    "plant 0": ("plant", "Gin,2019-06-10,NW,1,0,0,0,,,,"),
    "no plant": ("plant", "Gin,2019-06-10,NW,1,,0,0,,,,"),
    "plant and a half": ("plant", "Gin,2019-06-10,NW,1,2.5,0,0,,,,"),
    "stop 0": ("stop", "Gin,2019-06-10,NW,0,2,0,0,,,,"),
    "a date the other way round": ("date", "Gin,10/06/2019,NW,1,2,0,0,,,,"),
    "a day that is not": ("date", "Gin,2019-06-31,NW,1,2,0,0,,,,"),
    "no date": ("date", "Gin,,NW,1,2,0,0,,,,"),
    "no field": ("field", ",2019-06-10,NW,1,2,0,0,,,,"),
    "the same plant again": ("plant", "Gin,2019-06-10,nw,1.0, 1 ,0,0,,,,"),
}
EXTRA = {
    "a walk in two fields": ("walk", "field", GOOD + ",w", OTHER.replace("Gin", "Río") + ",w"),
    "two kinds of sites": ("sites", "sites", GOOD + ",all", OTHER + ",top3"),
    "sites nobody knows": ("sites", "sites", GOOD + ",all", OTHER + ",top5"),
    "two plans": ("plan", "plan", GOOD + ",abc", OTHER + ",abd"),
    "a method nobody knows": ("method", "method", GOOD + ",", OTHER + ",net"),
    "half skipped": ("skipped", "skipped", GOOD + ",0", OTHER + ",2"),
    "a sample of no sweeps": ("method,sweeps", "sweeps", GOOD + ",sweep,25", OTHER + ",sweep,0"),
}
PLANTINGS = {
    "no first square": ("first_square", "Gin,,,,"),
    "a month for a first square": ("first_square", "Gin,,June,,"),
    "a range that runs back": ("first_square", "Gin,,2019-06-05/2019-06-01,,"),
    "a word for bloom": ("bloom", "Gin,,2019-06-01,soon,"),
    "one treatment that is no date": ("treated", "Gin,,2019-06-01,,2019-06-02 x"),
}
COMMAND_LINES = {
    "no guideline": ("--first-square", "2019-06-01"),
    "a guideline nobody knows": ("--guideline", "nowhere", "--first-square", "2019-06-01"),
    "no first square": KANSAS,
    "a month for a date": (*KANSAS, "--first-square", "June"),
    "a range that runs back": (*KANSAS, "--first-square", "2019-06-05/2019-06-01"),
    "a word for bloom": (*CROP, "--bloom", "soon"),
    "a word for treated": (*CROP, "--treated", "soon"),
    "a line just under the range": (*CROP, "--line", "24.99"),
    "a line just over the range": (*CROP, "--line", "40.01"),
    "a line that is no number": (*CROP, "--line", "nan"),
    "a level of one": (*CROP, "--level", "1"),
    "a level of nothing": (*CROP, "--level", "0"),
    "first square given twice": (*CROP, "--plantings", "nowhere.csv"),
}


def status_of(arguments: list[str]) -> int:
    """Run the command; the parser of the command line leaves by itself."""
    try:
        return main(arguments)
    except SystemExit as left:
        return int(left.code or 0)


def places(
    folder: Path, capsys: pytest.CaptureFixture[str], table: str, plantings: str = ""
) -> list[tuple[str, int, str]]:
    """Return file, row and column of every refusal; the call has to be refused."""
    walks, crops = folder / "walks.csv", folder / "crops.csv"
    walks.write_text(table, encoding="utf-8")
    crops.write_text(TABLE + plantings + "\n", encoding="utf-8")
    crop = [*KANSAS, "--plantings", str(crops)] if plantings else list(CROP)
    assert status_of(["call", str(walks), *crop, "--json"]) == 3
    said = capsys.readouterr()
    errors = json.loads(said.out)["errors"]
    assert len(said.err.strip().splitlines()) == len(errors)
    assert all({"value", "expected", "message"} <= set(error) for error in errors)
    return [(Path(error["file"]).name, error["row"], error["column"]) for error in errors]


@pytest.mark.parametrize("name", ROWS)
def test_a_bad_row_is_refused_by_row_and_column(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    column, row = ROWS[name]
    table = "\n".join((HEADER, GOOD, OTHER, row)) + "\n"
    assert places(tmp_path, capsys, table) == [("walks.csv", 4, column)]


@pytest.mark.parametrize("name", EXTRA)
def test_a_bad_value_of_an_optional_column_is_refused(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    columns, column, first, second = EXTRA[name]
    table = f"{HEADER},{columns}\n{first}\n{second}\n"
    assert places(tmp_path, capsys, table) == [("walks.csv", 3, column)]


@pytest.mark.parametrize("column", ["field", "date", "quadrant", "plant", "adults", "nymphs"])
def test_a_required_column_that_is_not_there_is_refused(
    column: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = f"{HEADER}\n{GOOD}\n".replace(column, "other", 1)
    assert places(tmp_path, capsys, table) == [("walks.csv", 1, column)]


def test_every_problem_is_told_not_only_the_first(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bad = "Gin,2019-06-10,N,1,0,0,0,,,,"
    told = places(tmp_path, capsys, f"{HEADER}\n{bad}\n{GOOD}\n")
    assert sorted(told) == [("walks.csv", 2, "plant"), ("walks.csv", 2, "quadrant")]


@pytest.mark.parametrize("name", PLANTINGS)
def test_a_bad_planting_is_refused_by_row_and_column(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    column, row = PLANTINGS[name]
    told = places(tmp_path, capsys, f"{HEADER}\n{GOOD}\n", row)
    assert told == [("crops.csv", 2, column)]


def test_a_walk_in_a_field_without_a_planting_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = places(tmp_path, capsys, f"{HEADER}\n{GOOD}\n", "Río,,2019-06-01,,")
    assert told == [("walks.csv", 2, "field")]


@pytest.mark.parametrize("name", COMMAND_LINES)
def test_a_wrong_command_line_ends_with_status_2(name: str, tmp_path: Path) -> None:
    walks = tmp_path / "walks.csv"
    walks.write_text(f"{HEADER}\n{GOOD}\n", encoding="utf-8")
    assert status_of(["call", str(walks), *COMMAND_LINES[name], "--json"]) == 2


def test_two_scouts_may_look_at_the_same_plant(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    walks = tmp_path / "walks.csv"
    walks.write_text(f"{HEADER},scout\n{GOOD},Ana\n{GOOD},Bo\n", encoding="utf-8")
    assert status_of(["call", str(walks), *CROP, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["walks"][0]["reading"]["plants"] == 2


def test_an_unknown_column_is_left_alone_with_a_notice(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    walks = tmp_path / "walks.csv"
    walks.write_text(f"{HEADER},weather\n{GOOD},hot\n", encoding="utf-8")
    assert status_of(["call", str(walks), *CROP, "--json"]) == 0
    assert "weather" in capsys.readouterr().err
