"""A walk table says what a scout wrote, or which cell to mend."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from quarterwalk.errors import MOST_PROBLEMS, RefusedInput
from quarterwalk.files.walk_table import read_walks
from quarterwalk.walk import InsectCount, Method, PlantCheck, Quadrant, Sites, SquareCount, Walk
from tests.files.tables import csv_of, places, problems, read, short_csv

DAY = date(2026, 6, 18)


def only_walk(data: bytes) -> Walk:
    (walk,) = read(data).table
    return walk


def only_check(data: bytes) -> PlantCheck:
    (check,) = only_walk(data).checks
    return check


def test_a_row_is_a_plant_in_its_place() -> None:
    assert only_walk(csv_of("Home 40,2026-06-18,Ann,SE,3,2,1,2,5,1,0,4,by the pivot")) == Walk(
        "Home 40",
        DAY,
        (
            PlantCheck(
                Quadrant.SE,
                2,
                3,
                InsectCount(1, 2),
                SquareCount(healthy=5, missing=1, blasted=0, flared=4),
                scout="Ann",
                note="by the pivot",
            ),
        ),
    )


def test_a_blank_count_is_not_looked_at_and_0_is_none_there() -> None:
    blank = only_check(csv_of("Home,2026-06-18,,NW,,1,,,,,,,"))
    assert (blank.insects, blank.squares) == (None, None)
    zero = only_check(csv_of("Home,2026-06-18,,NW,,1,0,0,0,0,0,0,"))
    assert (zero.insects, zero.squares) == (InsectCount(0, 0), SquareCount(0, 0, 0, 0))


def test_a_blank_beside_a_count_of_its_kind_is_0() -> None:
    check = only_check(csv_of("Home,2026-06-18,,NW,,1,,2,,,1,,"))
    assert check.insects == InsectCount(adults=0, nymphs=2)
    assert check.squares == SquareCount(healthy=0, missing=0, blasted=1, flared=0)


def test_squares_may_be_counted_on_a_plant_whose_terminal_was_not() -> None:
    check = only_check(csv_of("Home,2026-06-18,,NW,,1,,,3,,,,"))
    assert check.insects is None
    assert check.squares == SquareCount(3)


def test_letter_case_of_headers_and_quadrants_and_spaces_do_not_matter() -> None:
    header = " FIELD ,Date,QuadRant, plant,ADULTS ,nymphs"
    data = csv_of(" Home\u00a0, 2026-06-18 ,\tnw , 4 , 1,0 ", header=header)
    walk = only_walk(data)
    assert (walk.field, walk.date) == ("Home", DAY)
    assert walk.checks == (PlantCheck(Quadrant.NW, 4, insects=InsectCount(1, 0)),)


@pytest.mark.parametrize("cell", ["3", "3.0", "3.", "3.000", "+3", "03", " 3 "])
def test_a_whole_number_may_be_written_in_several_ways(cell: str) -> None:
    assert only_check(short_csv(f"Home,2026-06-18,NW,1,{cell},0")).insects == InsectCount(3, 0)


@pytest.mark.parametrize(
    "cell",
    ["2O", "3.5", "-1", "100", "1e1", "three", "３", "٣", "1 2", "0x1", "∞", "9" * 40, "1_0", "--"],
)
def test_a_count_is_a_whole_number_from_0_to_99(cell: str) -> None:
    (problem,) = problems(short_csv(f"Home,2026-06-18,NW,1,0,{cell}"))
    assert (problem.row, problem.column, problem.value) == (2, "nymphs", cell)
    assert problem.expected == "a whole number from 0 to 99"


def test_a_letter_for_a_digit_is_hinted_at() -> None:
    (problem,) = problems(short_csv("Home,2026-06-18,NW,1,0,2O"))
    assert problem.message == (
        "standard input row 2, column nymphs: must be a whole number from 0 to 99, "
        'got "2O". A letter for a digit?'
    )


@pytest.mark.parametrize("cell", ["1e20", "100000000000000000000"])
def test_a_number_beyond_all_counts_is_no_letter_for_a_digit(cell: str) -> None:
    (problem,) = problems(short_csv(f"Home,2026-06-18,NW,1,0,{cell}"))
    assert (problem.column, problem.hint) == ("nymphs", "")


@pytest.mark.parametrize(
    ("cell", "hint"),
    [
        ("46150", "The number of a day in a spreadsheet? Format the column as a date."),
        ("46150.5", "The number of a day in a spreadsheet? Format the column as a date."),
        ("=TODAY()", "A formula that was not worked out"),
        ("2026-06-18 09:30:00", "Write the day alone, without the time."),
        ("6/18/2026", "Year first"),
    ],
)
def test_a_cell_that_is_no_day_is_told_why(cell: str, hint: str) -> None:
    (problem,) = problems(short_csv(f"Home,{cell},NW,1,0,0"))
    assert (problem.column, problem.value) == ("date", cell)
    assert problem.hint.startswith(hint)


def test_99_is_the_most_and_plant_and_stop_count_from_1() -> None:
    data = csv_of("Home,2026-06-18,,NW,1,1,99,99,99,99,99,99,")
    assert only_check(data).insects == InsectCount(99, 99)
    data = csv_of("Home,2026-06-18,,NW,0,0,0,0,,,,,")
    assert places(data) == [(2, "stop", "0"), (2, "plant", "0")]


@pytest.mark.parametrize(
    ("row", "column", "value", "expected"),
    [
        (",2026-06-18,NW,1,0,0", "field", "", "the name of a field"),
        ("Home,,NW,1,0,0", "date", "", "a date as YYYY-MM-DD"),
        ("Home,18.06.2026,NW,1,0,0", "date", "18.06.2026", "a date as YYYY-MM-DD"),
        ("Home,2026-06-31,NW,1,0,0", "date", "2026-06-31", "a date as YYYY-MM-DD"),
        ("Home,２026-06-18,NW,1,0,0", "date", "２026-06-18", "a date as YYYY-MM-DD"),
        ("Home,9999-12-31,NW,1,0,0", "date", "9999-12-31", "a date as YYYY-MM-DD"),
        ("Home,0001-01-01,NW,1,0,0", "date", "0001-01-01", "a date as YYYY-MM-DD"),
        ("Home,2026-06-18,,1,0,0", "quadrant", "", "one of NW, NE, SW, SE"),
        ("Home,2026-06-18,N,1,0,0", "quadrant", "N", "one of NW, NE, SW, SE"),
        ("Home,2026-06-18,NW,,0,0", "plant", "", "a whole number from 1 to 999999"),
        ("Ho\x1b[2Jme,2026-06-18,NW,1,0,0", "field", "Ho\x1b[2Jme", "a text on one line"),
    ],
)
def test_a_cell_that_can_not_be_read_is_named(
    row: str, column: str, value: str, expected: str
) -> None:
    (problem,) = problems(short_csv("Home,2026-06-18,SE,9,0,0", row))
    assert (problem.file, problem.row, problem.column) == ("standard input", 3, column)
    assert problem.value == value
    assert problem.expected.startswith(expected)


@pytest.mark.parametrize(
    ("column", "cell", "expected"),
    [
        ("sites", "top4", "one of all, top3"),
        ("method", "shake", "one of terminal, whole-plant, bucket, sweep"),
        ("sweeps", "0", "a whole number from 1 to 9999"),
        ("skipped", "yes", "1 for a plant passed over, 0 or blank for any other"),
    ],
)
def test_an_optional_cell_that_can_not_be_read_is_named(
    column: str, cell: str, expected: str
) -> None:
    (problem,) = problems(short_csv(f"Home,2026-06-18,NW,1,0,0,{cell}", more=f",{column}"))
    assert (problem.row, problem.column, problem.value) == (2, column, cell)
    assert problem.expected == expected


def test_every_problem_is_told_in_the_order_of_the_file() -> None:
    data = short_csv("Home,2026-06-18,XX,1,0,a", "Home,2026-06-18,NW,1,0,0", ",2026-06-18,NW,b,0,0")
    assert places(data) == [
        (2, "quadrant", "XX"),
        (2, "nymphs", "a"),
        (4, "field", ""),
        (4, "plant", "b"),
    ]


def test_of_very_many_problems_the_first_are_told_and_the_rest_counted() -> None:
    rows = [f"Home,2026-06-18,NW,{plant},x,0" for plant in range(1, 121)]
    with pytest.raises(RefusedInput) as refused:
        read(short_csv(*rows))
    assert [p.row for p in refused.value.problems] == list(range(2, 2 + MOST_PROBLEMS))
    assert refused.value.more == 70


def test_columns_that_must_be_there_are_asked_for_all_together() -> None:
    data = csv_of("Home,1", header="field,stop")
    assert places(data) == [(1, name, "") for name in
                            ("date", "quadrant", "plant", "adults", "nymphs")]  # fmt: skip
    assert problems(data)[0].expected == "in the header"


def test_a_column_named_twice_is_refused() -> None:
    (problem,) = problems(short_csv("Home,2026-06-18,NW,1,0,0,1", more=", Plant"))
    assert (problem.row, problem.column, problem.value) == (1, "plant", "Plant")


def test_an_unknown_column_is_left_alone_with_a_notice() -> None:
    found = read(short_csv("Home,2026-06-18,NW,1,0,0,red,", more=",Colour,"))
    assert found.notices == ("standard input: column Colour is not read.",)
    assert len(found.table) == 1


def test_a_table_without_a_plant_is_refused() -> None:
    (problem,) = problems(short_csv())
    assert (problem.row, problem.expected) == (2, "a table with at least one plant")


def test_blank_rows_are_passed_over_and_the_others_keep_their_row_numbers() -> None:
    data = short_csv("", "Home,2026-06-18,NW,1,0,0", ",,,,,", " , ,,,,", "Home,2026-06-18,NW,2,x,0")
    assert places(data) == [(6, "adults", "x")]
    data = short_csv("", "Home,2026-06-18,NW,1,0,0", ",,,,,", "Home,2026-06-18,NW,2,0,0")
    assert read(data).file_rows.tolist() == [3, 5]


def test_a_row_that_ends_early_is_told_once() -> None:
    data = short_csv("Home,2026-06-18,NW,1,0,0", "Home,2026-06-18")
    (problem,) = problems(data)
    assert (problem.row, problem.column) == (3, "nymphs")
    assert problem.expected == "there: the row ends before it"


def test_a_row_may_end_before_columns_that_need_not_be_there() -> None:
    assert len(only_walk(csv_of("Home,2026-06-18,Ann,NW,1,1,0,0")).checks) == 1


def test_cells_beyond_the_header_are_refused() -> None:
    (problem,) = problems(short_csv("Home,2026-06-18,NW,1,0,0,,so it was"))
    assert (problem.row, problem.column, problem.value) == (2, "8", "so it was")
    assert read(short_csv("Home,2026-06-18,NW,1,0,0,,")).notices == ()


def test_a_walk_is_one_field_on_one_date_all_scouts_together() -> None:
    data = csv_of(
        "Home,2026-06-18,Ann,NW,,1,0,0,,,,,",
        "North,2026-06-18,Ann,NW,,1,0,0,,,,,",
        "Home,2026-06-18,Ben,NE,,1,0,0,,,,,",
        "Home,2026-06-20,Ann,NW,,1,0,0,,,,,",
    )
    walks = list(read(data).table)
    assert [(w.field, w.date.day, len(w.checks), w.scouts) for w in walks] == [
        ("Home", 18, 2, ("Ann", "Ben")),
        ("North", 18, 1, ("Ann",)),
        ("Home", 20, 1, ("Ann",)),
    ]


def test_a_walk_id_joins_parts_of_several_days_and_the_last_is_its_date() -> None:
    data = short_csv(
        "Home,2026-06-18,NW,1,0,0,w1", "Home,2026-06-19,NE,1,0,0,w1", "Home,2026-06-18,NW,1,0,0,",
        more=",walk",
    )  # fmt: skip
    joined, alone = read(data).table
    assert (joined.id, joined.date, [c.on for c in joined.checks]) == (
        "w1",
        date(2026, 6, 19),
        [DAY, None],
    )
    assert (alone.id, alone.date) == ("", DAY)


def test_a_walk_id_belongs_to_one_field() -> None:
    data = short_csv(
        "Home,2026-06-18,NW,1,0,0,w1", "North,2026-06-18,NE,1,0,0,w1", more=",walk"
    )  # fmt: skip
    (problem,) = problems(data)
    assert (problem.row, problem.column, problem.value) == (3, "field", "North")
    assert problem.expected == 'one field in walk "w1": "Home", as in row 2'


@pytest.mark.parametrize(
    ("column", "one", "other"),
    [("sites", "all", "top3"), ("method", "terminal", "bucket"), ("plan", "ab12", "cd34")],
)
def test_a_walk_has_one_value_of_sites_method_and_plan(column: str, one: str, other: str) -> None:
    rows = [f"Home,2026-06-18,NW,{plant},0,0," for plant in (1, 2, 3)]
    data = short_csv(rows[0], rows[1] + one, rows[2] + other, more=f",{column}")
    (problem,) = problems(data)
    assert (problem.row, problem.column, problem.value) == (4, column, other)
    assert problem.expected == f'one {column} a walk: "{one}", as in row 3'
    head = read(short_csv(*rows[:2], rows[2] + other, more=f",{column}")).table.heads[0]
    assert str(getattr(head, column)) == other


def test_sites_are_all_and_the_method_terminal_unless_said() -> None:
    walk = only_walk(short_csv("Home,2026-06-18,NW,1,0,0"))
    assert (walk.sites, walk.method, walk.plan) == (Sites.ALL, Method.TERMINAL, "")


def test_the_same_plant_twice_in_a_walk_is_refused() -> None:
    row = "Home,2026-06-18,{},NW,{},1,0,0,,,,,"
    (problem,) = problems(csv_of(row.format("Ann", "2"), row.format("Ann", " 2.0")))
    assert (problem.row, problem.column, problem.value) == (3, "plant", "1")
    assert problem.expected == "a plant not yet in this walk (row 2 is the same plant)"


@pytest.mark.parametrize("other", ["Ben,NW,2,1", "Ann,NE,2,1", "Ann,NW,3,1", "Ann,NW,,1"])
def test_a_plant_differs_by_scout_quadrant_or_stop(other: str) -> None:
    data = csv_of("Home,2026-06-18,Ann,NW,2,1,0,0,,,,,", f"Home,2026-06-18,{other},0,0,,,,,")
    assert len(only_walk(data).checks) == 2


def test_with_no_stop_a_plant_is_one_of_its_quadrant() -> None:
    (problem,) = problems(csv_of(*["Home,2026-06-18,Ann,NW,,7,0,0,,,,,"] * 2))
    assert (problem.row, problem.column, problem.value) == (3, "plant", "7")


def test_a_sweep_sample_needs_its_sweeps_unless_it_was_skipped_or_not_counted() -> None:
    rows = ["NW,1,2,0,sweep,25,", "NE,1,2,0,sweep,,", "SW,1,2,0,sweep,,1", "SE,1,,,sweep,,"]
    data = short_csv(*(f"Home,2026-06-18,{row}" for row in rows), more=",method,sweeps,skipped")
    (problem,) = problems(data)
    assert (problem.row, problem.column, problem.value) == (3, "sweeps", "")
    assert "since the method is sweep" in problem.expected


@pytest.mark.parametrize(
    ("cell", "skipped"), [("1", True), ("1.0", True), ("0", False), ("", False)]
)
def test_skipped_is_1_for_a_plant_passed_over(cell: str, skipped: bool) -> None:
    data = short_csv(f"Home,2026-06-18,NW,1,0,0,{cell}", more=",skipped")
    assert only_check(data).skipped is skipped


def test_the_rows_of_a_walk_need_not_stand_together() -> None:
    rows = [f"{field},2026-06-18,NW,{plant},{plant},0" for plant in (1, 2) for field in "AB"]
    found = read(short_csv(*rows))
    assert [[c.plant for c in walk.checks] for walk in found.table] == [[1, 2], [1, 2]]
    assert [found.first_row(walk) for walk in (0, 1)] == [2, 3]


def test_progress_is_told_up_to_the_last_row(tmp_path: Path) -> None:
    path = tmp_path / "walks.csv"
    path.write_bytes(short_csv(*(f"H,2026-06-18,NW,{n},0,0" for n in range(1, 25_002))))
    told: list[int] = []
    assert len(read_walks(path, progress=told.append).table.rows) == 25_001
    assert told[-1] == 25_001
    assert told == sorted(told)


@pytest.mark.parametrize("which", ["missing.csv", "", "a\0b"])
def test_a_file_that_can_not_be_read_is_refused(tmp_path: Path, which: str) -> None:
    path = f"{tmp_path}/{which}"
    with pytest.raises(RefusedInput) as refused:
        read_walks(path)
    (problem,) = refused.value.problems
    assert (problem.file.rstrip("/"), problem.row) == (path.rstrip("/"), None)
    assert problem.expected == "a CSV or XLSX file that can be read"


def test_rows_carry_what_was_looked_at_as_columns() -> None:
    data = csv_of("Home,2026-06-18,,NW,,1,2,,,,,,", "Home,2026-06-18,,SE,4,1,,,5,1,,,")
    rows = read(data).table.rows
    assert rows.quadrant.tolist() == [0, 3]
    assert rows.stop.tolist() == [0, 4]
    assert rows.insects_looked.tolist() == [True, False]
    assert rows.squares_looked.tolist() == [False, True]
    assert np.array_equal(rows.counts, [[2, 0, 0, 0, 0, 0], [0, 0, 5, 1, 0, 0]])


def test_what_another_cell_says_is_shown_fit_to_print() -> None:
    rows = ["Home,2026-06-18,NW,1,0,0," + "\ufeff" * 9, "Home,2026-06-18,NW,2,0,0," + "x" * 999]
    (problem,) = problems(short_csv(*rows, more=",plan"))
    assert problem.message.isprintable()
    assert len(problem.message) < 400


def test_a_row_that_ends_early_counts_once_among_very_many() -> None:
    with pytest.raises(RefusedInput) as refused:
        read(short_csv(*["Home,2026-06-18"] * 70))
    assert {p.column for p in refused.value.problems} == {"nymphs"}
    assert (len(refused.value.problems), refused.value.more) == (50, 20)
