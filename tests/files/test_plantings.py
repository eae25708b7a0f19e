"""A table of plantings gives each field its dates, or names the cell to mend."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.crop import CropDates
from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.plantings import Planting, PlantingFile, read_plantings
from tests.files.tables import workbook

BASIC = "field,planted,first_square,bloom,treated"
FULL = BASIC + ",variety,water,seed_treatment,replanted,hail"


def june(day: int) -> date:
    return date(2026, 6, day)


def read(
    folder: Path,
    *rows: str,
    header: str = BASIC,
    need_first_square: bool = True,
    asked: set[str] | None = None,
) -> PlantingFile:
    path = folder / "plantings.csv"
    path.write_text("\n".join([header, *rows]), "utf-8")
    return read_plantings(path, need_first_square=need_first_square, asked=asked)


def problems(folder: Path, *rows: str, header: str = BASIC) -> tuple[Problem, ...]:
    with pytest.raises(RefusedInput) as refused:
        read(folder, *rows, header=header)
    assert {p.file for p in refused.value.problems} == {str(folder / "plantings.csv")}
    return refused.value.problems


def test_a_row_is_a_field_with_the_dates_of_its_season(tmp_path: Path) -> None:
    row = (
        "Home 40,2026-05-01,2026-06-10,2026-07-02,2026-06-12 2026-06-20,"
        "early,irrigated,full,2026-05-12,2026-05-10 2026-06-01"
    )
    found = read(tmp_path, row, header=FULL)
    assert found.notices == ()
    assert dict(found.plantings) == {
        "Home 40": Planting(
            "Home 40",
            date(2026, 5, 1),
            (june(10), june(10)),
            date(2026, 7, 2),
            (june(12), june(20)),
            "early",
            "irrigated",
            "full",
            date(2026, 5, 12),
            (date(2026, 5, 10), june(1)),
        )
    }


def test_weather_is_named_only_to_who_could_give_it(tmp_path: Path) -> None:
    (found,) = problems(tmp_path, "Home,2026-05-01,,,")
    assert found.hint == "The cell is blank."
    with pytest.raises(RefusedInput) as refused:
        read_plantings(tmp_path / "plantings.csv", may_give_weather=True)
    assert [p.hint for p in refused.value.problems] == [
        "Give a day, or leave it blank and give --weather."
    ]


def test_of_a_field_that_nobody_asked_for_nothing_is_needed(tmp_path: Path) -> None:
    rows = ("Home,2026-05-01,,,", "North,,,,", "Creek,2026-05-01,2026-06-10,,")
    found = read(tmp_path, *rows, asked={"Creek"})
    assert list(found.plantings) == ["Home", "North", "Creek"]
    assert found.plantings["Home"].dates is None
    with pytest.raises(RefusedInput) as refused:
        read_plantings(tmp_path / "plantings.csv", asked={"Home", "Creek"})
    assert [(p.row, p.column) for p in refused.value.problems] == [(2, "first_square")]
    with pytest.raises(RefusedInput) as refused:
        read_plantings(tmp_path / "plantings.csv", need_first_square=False, asked={"North"})
    assert [(p.row, p.column) for p in refused.value.problems] == [(3, "planted")]


def test_a_cell_that_can_not_be_read_is_refused_whoever_asked(tmp_path: Path) -> None:
    rows = ("Home,2026-05-01,6/1/2026,,", "Creek,2026-05-01,2026-06-10,,")
    with pytest.raises(RefusedInput, match="row 2, column first_square"):
        read(tmp_path, *rows, asked={"Creek"})


def test_first_square_of_a_stand_that_was_planted_over_is_refused(tmp_path: Path) -> None:
    header = "field,planted,first_square,replanted"
    with pytest.raises(RefusedInput) as refused:
        read(tmp_path, "Home,2026-05-08,2026-06-10,2026-06-12", header=header)
    (problem,) = refused.value.problems
    assert (problem.row, problem.column, problem.value) == (2, "replanted", "2026-06-12")
    assert problem.expected == "a day before first square (2026-06-10)"
    assert read(tmp_path, "Home,2026-05-08,2026-06-10,2026-05-20", header=header).plantings


def test_first_square_may_be_a_range(tmp_path: Path) -> None:
    found = read(tmp_path, "Home,,2026-06-10/2026-06-14,,", "North,,2026-06-10 / 2026-06-10,,")
    assert found.plantings["Home"].dates == CropDates(june(10), june(14))
    assert found.plantings["North"].dates == CropDates(june(10))


def test_all_cells_but_field_and_first_square_may_be_blank(tmp_path: Path) -> None:
    found = read(tmp_path, "Home,,2026-06-10,,,,,,,", header=FULL)
    assert found.plantings["Home"] == Planting("Home", None, (june(10), june(10)))


def test_columns_but_field_and_first_square_need_not_be_there(tmp_path: Path) -> None:
    found = read(tmp_path, "2026-06-10;Home", header=" First_Square ; FIELD")
    assert found.plantings["Home"] == Planting("Home", None, (june(10), june(10)))


def test_first_square_may_be_blank_where_it_is_worked_out_from_planting(tmp_path: Path) -> None:
    found = read(tmp_path, "Home,2026-05-01,,,", need_first_square=False)
    planting = found.plantings["Home"]
    assert planting.dates is None
    assert planting.stand_planted == date(2026, 5, 1)


def test_first_square_can_not_be_worked_out_without_a_day_of_planting(tmp_path: Path) -> None:
    with pytest.raises(RefusedInput, match="row 2, column planted: must be a date"):
        read(tmp_path, "Home,,,,", need_first_square=False)


def test_bloom_can_not_come_before_planting(tmp_path: Path) -> None:
    with pytest.raises(RefusedInput, match="column bloom: must be a day after planting"):
        read(tmp_path, "Home,2026-05-01,,2026-04-30,", need_first_square=False)


def test_a_table_without_its_two_columns_is_refused(tmp_path: Path) -> None:
    found = problems(tmp_path, "2026-05-01", header="planted")
    assert [(p.row, p.column, p.expected) for p in found] == [
        (1, "field", "in the header"),
        (1, "first_square", "in the header"),
    ]


def test_an_unknown_column_is_left_alone_with_a_notice(tmp_path: Path) -> None:
    found = read(tmp_path, "Home,2026-06-10,x", header="field,first_square,Soil")
    assert found.notices == (f"{tmp_path / 'plantings.csv'}: column Soil is not read.",)


def test_a_workbook_with_real_dates_is_read_like_csv(tmp_path: Path) -> None:
    def fill(book: object, sheet: object) -> None:
        day = book.add_format({"num_format": "dd/mm/yyyy"})  # type: ignore[attr-defined]
        sheet.write_datetime("C2", june(10), day)  # type: ignore[attr-defined]
        sheet.write_datetime("E2", june(12), day)  # type: ignore[attr-defined]

    path = tmp_path / "plantings.xlsx"
    path.write_bytes(workbook([BASIC.split(","), [12]], fill))
    planting = read_plantings(path).plantings["12"]
    assert planting.dates == CropDates(june(10), treated=(june(12),))


@pytest.mark.parametrize(
    ("row", "column", "value", "expected"),
    [
        (",,2026-06-10,,", "field", "", "the name of a field"),
        ("North,,,,", "first_square", "", "a date as YYYY-MM-DD, or a range"),
        ("North,,soon,,", "first_square", "soon", "a date as YYYY-MM-DD, or a range"),
        ("North,,2026-06-14/2026-06-10,,", "first_square", "2026-06-14/2026-06-10", "a date"),
        ("North,1 May,2026-06-10,,", "planted", "1 May", "a date as YYYY-MM-DD"),
        ("North,,2026-06-10,2026-06-31,", "bloom", "2026-06-31", "a date as YYYY-MM-DD"),
        ("North,,2026-06-10,,2026-06-12 or so", "treated", "2026-06-12 or so", "dates as"),
        ("North,,2026-06-10,2026-06-10,", "bloom", "2026-06-10", "a day after first square"),
        ("North,2026-06-10,2026-06-10/2026-06-14,,", "planted", "2026-06-10", "a day before first"),
        ("Home,,2026-06-10,,", "field", "Home", "a field that is named once (row 2"),
        ("North,,2026-06-10,,,?", "6", "?", "at most 5 cells in the row"),
        ("North", "first_square", "", "there: the row ends before it"),
    ],
)
def test_a_cell_that_can_not_be_is_named(
    tmp_path: Path, row: str, column: str, value: str, expected: str
) -> None:
    (problem,) = problems(tmp_path, "Home,2026-05-01,2026-06-10,2026-07-02,", "", row)
    assert (problem.row, problem.column, problem.value) == (4, column, value)
    assert problem.expected.startswith(expected)


@pytest.mark.parametrize("day", ["0001-01-01", "1699-12-31", "2200-01-01", "9999-12-31"])
@pytest.mark.parametrize(
    "column", ["planted", "first_square", "bloom", "treated", "replanted", "hail"]
)
def test_a_day_of_a_year_far_off_is_a_slip_of_the_pen(
    tmp_path: Path, column: str, day: str
) -> None:
    cells = {"field": "Home", "first_square": "2026-06-10", column: day}
    path = tmp_path / "plantings.csv"
    path.write_text(f"{','.join(cells)}\n{','.join(cells.values())}\n", "utf-8")
    with pytest.raises(RefusedInput) as refused:
        read_plantings(path)
    (problem,) = refused.value.problems
    assert (problem.row, problem.column, problem.value) == (2, column, day)
    assert problem.hint == "The year must be from 1700 to 2199."


def test_both_ends_of_a_range_have_a_year_that_can_be(tmp_path: Path) -> None:
    for far in ("1026-06-10/2026-06-14", "2026-06-10/2206-06-14"):
        (problem,) = problems(tmp_path, f"Home,,{far},,")
        assert (problem.column, problem.hint) == (
            "first_square",
            "The year must be from 1700 to 2199.",
        )
    assert read(tmp_path, "Home,,1700-01-01/2199-12-31,,").plantings["Home"].dates


@pytest.mark.parametrize(
    "row", ["Home,N,2026-06-10,,", "Home,,N,,", "Home,,2026-06-10,N,", "Home,,2026-06-10,,N"]
)
def test_the_number_of_a_day_and_a_formula_are_told_to_be_one(tmp_path: Path, row: str) -> None:
    (problem,) = problems(tmp_path, row.replace("N", "46150"))
    assert problem.hint == "The number of a day in a spreadsheet? Format the column as a date."
    (problem,) = problems(tmp_path, row.replace("N", "=TODAY()"))
    assert problem.hint.startswith("A formula that was not worked out")


def test_standard_input_is_for_other_tables(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(RefusedInput, match="Standard input \\(-\\) may be the walks, boundaries"):
        read_plantings("-")


@pytest.mark.parametrize("column", ["replanted", "hail"])
def test_a_further_date_that_can_not_be_read_is_named(tmp_path: Path, column: str) -> None:
    header = f"field,first_square,{column}"
    (problem,) = problems(tmp_path, "Home,2026-06-10,May", header=header)
    assert (problem.row, problem.column, problem.value) == (2, column, "May")


def test_bloom_may_fall_inside_the_range_of_first_square(tmp_path: Path) -> None:
    found = read(tmp_path, "Home,,2026-06-10/2026-06-14,2026-06-11,")
    assert found.plantings["Home"].dates.bloom == june(11)


def test_all_problems_are_told_in_the_order_of_the_file(tmp_path: Path) -> None:
    found = problems(tmp_path, "Home,x,y,z,", ",,2026-06-10,,", "Home,,2026-06-10,,")
    assert [(p.row, p.column) for p in found] == [
        (2, "planted"),
        (2, "first_square"),
        (2, "bloom"),
        (3, "field"),
        (4, "field"),
    ]


def test_of_very_many_problems_the_first_are_told_and_the_rest_counted(tmp_path: Path) -> None:
    with pytest.raises(RefusedInput) as refused:
        read(tmp_path, *(f"Field {n},,soon,," for n in range(60)))
    assert [p.row for p in refused.value.problems] == list(range(2, 52))
    assert refused.value.more == 10


def test_a_table_without_a_field_is_refused(tmp_path: Path) -> None:
    (problem,) = problems(tmp_path, "", ",,,,")
    assert (problem.row, problem.expected) == (2, "a table with at least one field")


CELLS = st.sampled_from([
    "", " ", "Home", "2026-06-10", "2026-06-01/2026-06-20", "2026-06-20/2026-06-01", "2026-02-30",
    "2026-06-12 2026-06-12", "/", "x", '"', "a\nb", "\x00", ",", ";", "0001-01-01", "9999-12-31",
])  # fmt: skip
EXAMPLES = int(os.environ.get("QUARTERWALK_EXAMPLES", "300"))


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.lists(st.lists(CELLS, max_size=11), max_size=4), st.binary(max_size=20))
def test_a_malformed_table_is_refused_with_the_place_of_each_problem(
    rows: list[list[str]], tail: bytes
) -> None:
    with tempfile.NamedTemporaryFile() as file:
        lines = "\n".join([FULL, *(",".join(cells) for cells in rows)])
        Path(file.name).write_bytes(lines.encode() + tail)
        with suppress(RefusedInput):
            found = read_plantings(file.name)
            assert found.plantings
            assert all(name == planting.field for name, planting in found.plantings.items())
