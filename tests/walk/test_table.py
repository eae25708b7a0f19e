"""A table of walks holds the same facts as the walks."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.walk import (
    COUNTS,
    InsectCount,
    Method,
    PlantCheck,
    Quadrant,
    Sites,
    SquareCount,
    Walk,
    WalkHead,
    WalkTable,
)

DAY = date(2026, 6, 18)
HOME = Walk(
    "Home",
    DAY,
    (
        PlantCheck(Quadrant.SE, 2, 3, InsectCount(1, 2), scout="Ann", on=date(2026, 6, 17)),
        PlantCheck(
            Quadrant.NW, 1, squares=SquareCount(5, 1, 0, 2), scout="Ben", skipped=True, note="hail"
        ),
    ),
    "w1",
    Method.BUCKET,
    Sites.TOP3,
    "ab12",
)
NORTH = Walk(
    "North",
    DAY,
    (PlantCheck(Quadrant.NE, 7, insects=InsectCount(4), sweeps=25, scout="Ann"),),
    method=Method.SWEEP,
)


def test_walks_come_back_from_a_table_as_they_went_in() -> None:
    table = WalkTable.from_walks([HOME, NORTH])
    assert list(table) == [HOME, NORTH]
    assert [table.walk(0), table.walk(1), table.walk(-1)] == [HOME, NORTH, NORTH]
    assert len(table) == 2


def test_a_walk_beyond_the_table_is_not_there() -> None:
    with pytest.raises(IndexError):
        WalkTable.from_walks([HOME]).walk(1)


def test_columns_hold_what_was_seen_and_whether_anybody_looked() -> None:
    rows = WalkTable.from_walks([HOME, NORTH]).rows
    assert COUNTS == ("adults", "nymphs", "healthy", "missing", "blasted", "flared")
    assert rows.counts.tolist() == [[1, 2, 0, 0, 0, 0], [0, 0, 5, 1, 0, 2], [4, 0, 0, 0, 0, 0]]
    assert rows.insects_looked.tolist() == [True, False, True]
    assert rows.squares_looked.tolist() == [False, True, False]
    assert rows.walk.tolist() == [0, 0, 1]
    assert rows.quadrant.tolist() == [3, 0, 1]
    assert (rows.stop.tolist(), rows.plant.tolist()) == ([3, 0, 0], [2, 1, 7])
    assert (rows.sweeps.tolist(), rows.skipped.tolist()) == ([0, 0, 25], [False, True, False])
    assert [date.fromordinal(day).day for day in rows.day] == [17, 18, 18]
    assert len(rows) == 3


def test_heads_scouts_and_notes_stand_beside_the_columns() -> None:
    table = WalkTable.from_walks([HOME, NORTH])
    assert table.heads == (
        WalkHead("Home", DAY, "w1", Method.BUCKET, Sites.TOP3, "ab12", ("Ann", "Ben")),
        WalkHead("North", DAY, method=Method.SWEEP, scouts=("Ann",)),
    )
    assert [table.scouts[code] for code in table.rows.scout] == ["Ann", "Ben", "Ann"]
    assert table.notes == {1: "hail"}


def test_tables_are_equal_where_their_walks_are() -> None:
    assert WalkTable.from_walks([HOME, NORTH]) == WalkTable.from_walks(iter([HOME, NORTH]))
    assert WalkTable.from_walks([HOME, NORTH]) != WalkTable.from_walks([NORTH, HOME])
    assert WalkTable.from_walks([HOME]) != [HOME]


def test_blank_and_0_make_different_tables() -> None:
    blank, zero = (
        Walk("Home", DAY, (PlantCheck(Quadrant.NW, 1, insects=insects),))
        for insects in (None, InsectCount(0, 0))
    )
    assert WalkTable.from_walks([blank]) != WalkTable.from_walks([zero])


def test_a_table_of_no_walks_is_empty() -> None:
    table = WalkTable.from_walks([])
    assert (len(table), len(table.rows), list(table)) == (0, 0, [])
