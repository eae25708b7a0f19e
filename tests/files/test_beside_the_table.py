"""What stands beside a table is told: other sheets, a title, cells without a column's name."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.plantings import read_plantings
from quarterwalk.files.seen_table import read_seen
from quarterwalk.files.walk_table import read_walks
from quarterwalk.files.weather_file import read_weather
from tests.files.tables import workbook

WALKS = [["field", "date", "quadrant", "plant", "adults", "nymphs"],
         ["Home", "2026-06-18", "NW", 1, 0, 2]]  # fmt: skip
DAYS = [["date", "tmin_f", "tmax_f"], ["2026-06-01", 70, 95]]
HOURS = [["time", "temp_f"], ["2026-06-01 06:00", 70], ["2026-06-01 15:00", 95]]
TABLES: dict[str, tuple[Callable[[Path], Any], list[list[object]]]] = {
    "walks": (read_walks, WALKS),
    "plantings": (read_plantings, [["field", "first_square"], ["Home", "2026-06-10"]]),
    "seen": (read_seen, [["field", "date", "nodes"], ["Home", "2026-06-10", 8]]),
    "days": (read_weather, DAYS),
    "hours": (read_weather, HOURS),
}  # type: ignore[assignment]


def named(*names: str) -> Callable[[Any, Any], None]:
    """Give a way to add sheets of these names with a cell in each."""

    def fill(book: Any, _: Any) -> None:
        for name in names:
            book.add_worksheet(name).write("C7", "North")

    return fill


@pytest.mark.parametrize("kind", TABLES)
def test_a_second_sheet_is_named_whatever_the_table_is_of(kind: str, tmp_path: Path) -> None:
    read, rows = TABLES[kind]
    path = tmp_path / "two.xlsx"
    path.write_bytes(workbook(rows, named("Creek")))
    assert read(path).notices == (
        f'{path}: the sheet "Creek" was not read; only the first is, "Sheet1".',
    )


def test_a_workbook_that_comes_through_a_pipe_names_its_sheets_too() -> None:
    data = io.BytesIO(workbook(DAYS, named("Creek")))
    (said,) = read_weather("-", stdin=data).notices
    assert said == 'standard input: the sheet "Creek" was not read; only the first is, "Sheet1".'


def test_several_sheets_are_told_in_one_line_and_very_many_are_counted(tmp_path: Path) -> None:
    path = tmp_path / "many.xlsx"
    path.write_bytes(workbook(WALKS, named("Creek", "North")))
    assert 'the sheets "Creek" and "North" were not read' in read_walks(path).notices[0]
    path.write_bytes(workbook(WALKS, named(*(f"Field {n}" for n in range(1, 12)))))
    (said,) = read_walks(path).notices
    assert '"Field 7", "Field 8" and 3 more were not read' in said


def test_sheets_that_are_hidden_or_empty_are_not_named(tmp_path: Path) -> None:
    def fill(book: Any, _: Any) -> None:
        book.add_worksheet("Empty")
        book.add_worksheet("Coloured").write_blank("B2", None, book.add_format({"bold": True}))
        few = {"validate": "list", "source": "=Lists!$A$1:$A$4"}
        book.add_worksheet("Choices").data_validation("A1", few)
        hidden = book.add_worksheet("Lists")
        hidden.write("A1", "NW")
        hidden.hide()

    path = tmp_path / "quiet.xlsx"
    path.write_bytes(workbook(WALKS, fill))
    assert read_walks(path).notices == ()


def test_sheets_of_numbers_or_of_formulas_alone_are_named(tmp_path: Path) -> None:
    def fill(book: Any, _: Any) -> None:
        book.add_worksheet("Numbers").write("B2", 0)
        book.add_worksheet("Sums").write_formula("A1", "=1+1", value="")

    path = tmp_path / "more.xlsx"
    path.write_bytes(workbook(WALKS, fill))
    assert '"Numbers" and "Sums"' in read_walks(path).notices[0]


def test_a_first_sheet_that_is_empty_is_passed_over_and_the_one_read_is_named(
    tmp_path: Path,
) -> None:
    def fill(book: Any, _: Any) -> None:
        for name in ("Walks", "Creek"):
            sheet = book.add_worksheet(name)
            for at, row in enumerate(WALKS):
                sheet.write_row(at, 0, row)

    path = tmp_path / "empty first.xlsx"
    path.write_bytes(workbook([], fill))
    told = read_walks(path)
    assert len(told.table) == 1
    assert told.notices == (f'{path}: the sheet "Creek" was not read; only the first is, "Walks".',)


def refused(read: Callable[[Path], Any], path: Path, data: str | bytes) -> Problem:
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    with pytest.raises(RefusedInput) as error:
        read(path)
    (problem,) = error.value.problems
    return problem


@pytest.mark.parametrize(
    "text",
    [
        "Weather 2026\ndate,tmin_f,tmax_f\n2026-06-01,70,95\n",
        "Weather 2026,,\n\n,,\ndate,tmin_f,tmax_f\n2026-06-01,70,95\n",
        "Weather 2026\nCreek\ndate;tmin_f;tmax_f\n2026-06-01;70;95\n",
        "Weather 2026\ndate\ttmin_f\ttmax_f\n2026-06-01\t70\t95\n",
        workbook([["Weather 2026"], *DAYS]),
    ],
    ids=["alone", "padded", "semicolons", "tabs", "workbook"],
)
def test_a_title_above_the_header_is_told_to_be_one(text: str | bytes, tmp_path: Path) -> None:
    problem = refused(read_weather, tmp_path / "weather.table", text)
    assert (problem.row, problem.column, problem.value) == (1, "1", "Weather 2026")
    assert problem.expected == "the header, with a name for each column"
    assert "The header must be the first row" in problem.hint


def test_a_title_that_stands_to_the_right_and_further_down_is_named_by_its_place(
    tmp_path: Path,
) -> None:
    text = "\n,Fields of 2026\nfield,first_square\nHome,2026-06-10\n"
    problem = refused(read_plantings, tmp_path / "plantings.csv", text)
    assert (problem.row, problem.column, problem.value) == (2, "2", "Fields of 2026")


@pytest.mark.parametrize("kind", TABLES)
@pytest.mark.parametrize("place", [1, 2, -1])
def test_a_value_in_a_column_without_a_name_is_not_dropped(
    kind: str, place: int, tmp_path: Path
) -> None:
    read, (header, *rows) = TABLES[kind]
    column = len(header) if place < 0 else place
    laid = [[*row[:column], "", *row[column:]] for row in (header, *rows)]
    path = tmp_path / "table.csv"
    path.write_text("".join(";".join(map(str, row)) + "\n" for row in laid))
    assert read(path).notices == ()
    laid[-1][column] = "2026-06-20"
    text = "".join(";".join(map(str, row)) + "\n" for row in laid)
    problem = refused(read, path, text)
    assert (problem.row, problem.column) == (len(laid), f"{column + 1}")
    assert problem.value == "2026-06-20"
    assert problem.expected == "blank: the header has no name for this column"


@pytest.mark.parametrize("kind", TABLES)
def test_a_first_column_that_numbers_the_rows_is_left_alone_with_a_notice(
    kind: str, tmp_path: Path
) -> None:
    read, rows = TABLES[kind]
    path = tmp_path / "table.csv"
    laid = [["" if at == 0 else at - 1, *row] for at, row in enumerate(rows)]
    path.write_text("".join(";".join(map(str, row)) + "\n" for row in laid))
    assert read(path).notices == (f"{path}: column 1 has no name and is not read.",)


def test_the_first_of_very_many_values_without_a_name_are_told(tmp_path: Path) -> None:
    path = tmp_path / "walks.csv"
    rows = (f"Home,2026-06-18,NW,{plant},0,0,5\n" for plant in range(1, 61))
    path.write_text("field,date,quadrant,plant,adults,nymphs,\n" + "".join(rows))
    with pytest.raises(RefusedInput) as error:
        read_walks(path)
    assert [each.row for each in error.value.problems] == list(range(2, 52))
    assert error.value.more == 10


def test_a_header_of_one_column_alone_is_no_title(tmp_path: Path) -> None:
    problem = refused(read_plantings, tmp_path / "plantings.csv", "field\nHome\nNorth\n")
    assert (problem.column, problem.expected) == ("first_square", "in the header")
