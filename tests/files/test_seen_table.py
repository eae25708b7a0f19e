"""A table of what was seen gives each field its days, or names the cell to mend."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.crop.seen import Seen
from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput
from quarterwalk.files.seen_table import COLUMNS, SeenFile, read_seen
from tests.files.tables import workbook

FULL = "field,date,true_leaves,nodes,plants,pinhead,squaring_branches,bloom,nawf,note"
EXAMPLES = int(os.environ.get("QUARTERWALK_EXAMPLES", "300"))


def june(day: int) -> date:
    return date(2026, 6, day)


def read(folder: Path, *rows: str, header: str = FULL) -> SeenFile:
    path = folder / "seen.csv"
    path.write_text("\n".join([header, *rows]), "utf-8")
    return read_seen(path)


def problems(folder: Path, *rows: str, header: str = FULL) -> list[Problem]:
    with pytest.raises(RefusedInput) as refused:
        read(folder, *rows, header=header)
    assert {p.file for p in refused.value.problems} == {str(folder / "seen.csv")}
    return list(refused.value.problems)


def places(folder: Path, *rows: str) -> list[tuple[int | None, str | None, str]]:
    return [(p.row, p.column, p.value) for p in problems(folder, *rows)]


def test_a_row_is_what_was_seen_of_a_field_on_a_day(tmp_path: Path) -> None:
    found = read(tmp_path, "Home 40,2026-06-10,5.5,7,20,3,0.2,0,,after rain")
    assert found.notices == ()
    assert dict(found.seen) == {"Home 40": (Seen(june(10), 5.5, 7, 20, 3, 0.2, bloom=False),)}


def test_days_of_a_field_come_in_their_order(tmp_path: Path) -> None:
    rows = ("Home,2026-06-20,,,,,3,,,", "Gin,2026-06-12,4,,,,,,,", "Home,2026-06-05,4,,,,,,,")
    found = read(tmp_path, *rows).seen
    assert [seen.on for seen in found["Home"]] == [june(5), june(20)]
    assert found["Gin"] == (Seen(june(12), true_leaves=4),)


def test_columns_but_field_and_date_need_not_be_there(tmp_path: Path) -> None:
    found = read(tmp_path, "7;2026-06-10;Home", header=" NAWF ; Date;FIELD")
    assert found.seen["Home"] == (Seen(june(10), nawf=7),)


def test_plants_and_pinheads_of_the_quadrants_are_added_up(tmp_path: Path) -> None:
    rows = [f"Home,2026-06-10,,,5,{pinhead},,,," for pinhead in (0, 2, 1, 4)]
    assert read(tmp_path, *rows).seen["Home"] == (Seen(june(10), plants=20, pinhead=7),)


def test_other_counts_are_means_over_the_rows_that_have_them(tmp_path: Path) -> None:
    rows = ("Home,2026-06-10,4,,,,2,,,", "Home,2026-06-10,,,,,3,,,", "Home,2026-06-10,5,,,,4,,,")
    (seen,) = read(tmp_path, *rows).seen["Home"]
    assert (seen.true_leaves, seen.squaring_branches) == (4.5, 3)


def test_means_are_weighted_by_plants_where_every_row_gives_them(tmp_path: Path) -> None:
    rows = ("Home,2026-06-10,,,5,,1,,,", "Home,2026-06-10,,,15,,3,,,")
    assert read(tmp_path, *rows).seen["Home"] == (Seen(june(10), squaring_branches=2.5),)
    rows = ("Home,2026-06-10,,,,,1,,,", "Home,2026-06-10,,,15,,3,,,")
    assert read(tmp_path, *rows).seen["Home"] == (Seen(june(10), squaring_branches=2),)


def test_plants_whose_pinheads_nobody_counted_are_not_among_those_looked_at(
    tmp_path: Path,
) -> None:
    rows = ("Home,2026-06-10,,,20,8,,,,", "Home,2026-06-10,,,5,,1,,,")
    (seen,) = read(tmp_path, *rows).seen["Home"]
    assert (seen.plants, seen.pinhead) == (20, 8)


def test_flowers_in_one_quadrant_are_flowers_in_the_field(tmp_path: Path) -> None:
    rows = ("Home,2026-07-10,,,,,,0,,", "Home,2026-07-10,,,,,,1,,", "Home,2026-07-10,9,,,,,,,")
    assert read(tmp_path, *rows).seen["Home"][0].bloom is True
    rows = ("Home,2026-07-10,,,,,,0,,", "Home,2026-07-10,,,,,,,7,")
    assert read(tmp_path, *rows).seen["Home"][0].bloom is True
    assert read(tmp_path, "Home,2026-07-10,9,,,,,,,").seen["Home"][0].bloom is None


def test_a_workbook_is_read_like_a_csv(tmp_path: Path) -> None:
    row = ["Home", "2026-06-10", 4.5, "", 20, 3, "", 0, "", ""]
    (tmp_path / "seen.xlsx").write_bytes(workbook([FULL.split(","), row]))
    found = read_seen(tmp_path / "seen.xlsx")
    assert found.seen["Home"] == (Seen(june(10), 4.5, None, 20, 3, bloom=False),)


@pytest.mark.parametrize(
    ("row", "column", "value"),
    [
        (",2026-06-10,4,,,,,,,", "field", ""),
        ("Home,,4,,,,,,,", "date", ""),
        ("Home,6/10/2026,4,,,,,,,", "date", "6/10/2026"),
        ("Home,2026-06-31,4,,,,,,,", "date", "2026-06-31"),
        ("Home,9999-12-31,4,,,,,,,", "date", "9999-12-31"),
        ("Home,2026-06-10,31,,,,,,,", "true_leaves", "31"),
        ("Home,2026-06-10,,-1,,,,,,", "nodes", "-1"),
        ("Home,2026-06-10,,,5.5,1,,,,", "plants", "5.5"),
        ("Home,2026-06-10,,,0,0,,,,", "plants", "0"),
        ("Home,2026-06-10,,,5,few,,,,", "pinhead", "few"),
        ("Home,2026-06-10,,,5,6,,,,", "pinhead", "6"),
        ("Home,2026-06-10,,,,6,,,,", "plants", ""),
        ("Home,2026-06-10,,,,,many,,,", "squaring_branches", "many"),
        ("Home,2026-06-10,,,,,,yes,,", "bloom", "yes"),
        ("Home,2026-06-10,,,,,,0,6,", "nawf", "6"),
        ("Home,2026-06-10,,,20,,,,,", "true_leaves", ""),
        ("Home,2026-06-10,,,,,,,,looked fine", "true_leaves", ""),
    ],
)
def test_a_cell_that_can_not_be_is_told_with_its_place(
    row: str, column: str, value: str, tmp_path: Path
) -> None:
    sound = "Gin,2026-06-10,4,,,,,,,"
    assert places(tmp_path, sound, row) == [(3, column, value)]


def test_a_letter_for_a_digit_is_told(tmp_path: Path) -> None:
    (problem,) = problems(tmp_path, "Home,2026-06-10,4O,,,,,,,")
    assert problem.message == (
        f"{tmp_path / 'seen.csv'} row 2, column true_leaves: must be a number from 0 to 30,"
        ' such as 4 or 4.5, got "4O". A letter for a digit?'
    )


def test_a_table_without_rows_or_columns_that_must_be_there_is_refused(tmp_path: Path) -> None:
    assert places(tmp_path, ",,,,,,,,,") == [(2, "field", "")]
    lacking = problems(tmp_path, "Home,4", header="field,nodes")
    assert [(p.column, p.expected) for p in lacking] == [("date", "in the header")]


def test_a_column_that_is_not_known_is_left_alone_with_a_notice(tmp_path: Path) -> None:
    found = read(tmp_path, "Home,2026-06-10,4,Ana", header="field,date,nodes,scout")
    assert found.notices == (f"{tmp_path / 'seen.csv'}: column scout is not read.",)


CELL = st.sampled_from([
    "", " ", "Home", "2026-06-10", "2026-13-01", "1", "0", "4.5", "4,5", "31", "-1", "1e3", "nan",
    "inf", "٣", "\x00", "\u2028", '"', "a\nb", "#N/A", "9" * 5000, "true", "x" * 140_000,
])  # fmt: skip
ROW = st.lists(CELL, max_size=len(COLUMNS) + 1).map(",".join)


@settings(max_examples=EXAMPLES, deadline=None)
@given(
    st.lists(st.sampled_from([*COLUMNS, "x", "DATE", ""]), max_size=10).map(",".join)
    | st.just(FULL),
    st.lists(ROW, max_size=6),
    st.sampled_from(["utf-8", "utf-8-sig", "latin-1", "utf-16"]),
)
def test_a_malformed_table_is_read_or_refused_with_the_place_of_each_problem(
    header: str, rows: list[str], encoding: str
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "seen.csv"
        path.write_bytes("\n".join([header, *rows]).encode(encoding, "replace"))
        with suppress(RefusedInput):
            assert all(read_seen(path).seen.values())
            return
        with pytest.raises(RefusedInput) as refused:
            read_seen(path)
    assert 1 <= len(refused.value.problems) <= MOST_PROBLEMS
    assert all(problem.message.isprintable() for problem in refused.value.problems)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 50), st.integers(0, 30)), min_size=1, max_size=6))
def test_a_joined_mean_lies_between_its_rows(pairs: list[tuple[int, int]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        rows = [f"Home,2026-06-10,,,{plants},,{count},,," for plants, count in pairs]
        ((seen,),) = read(Path(folder), *rows).seen.values()
    counts = [count for _, count in pairs]
    assert seen.squaring_branches is not None
    assert min(counts) - 1e-9 <= seen.squaring_branches <= max(counts) + 1e-9
