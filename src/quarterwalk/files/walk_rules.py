"""Rules between the rows of a walk table: one field a walk, no plant twice, one method."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import shown
from quarterwalk.files.coded import CodedColumn
from quarterwalk.files.grouping import Groups, combined, dense
from quarterwalk.files.walk_columns import COLUMNS, WalkColumns
from quarterwalk.walk import MOST_SWEEPS, Method

IntArray = npt.NDArray[np.int64]
Value = TypeVar("Value")
Finding = tuple[int, int, str, str, str]
"""Row index, order of the column, its name, the value, what was expected."""
Pick = Callable[[IntArray], IntArray]
"""Gives the first of the row indices, which are ascending: those that are worth telling."""


def cross_row_problems(
    columns: WalkColumns, groups: Groups, file_rows: IntArray, pick: Pick
) -> Iterator[Finding]:
    """Find rows that can't stand beside the others of their walk.

    Parameters
    ----------
    columns : WalkColumns
        All cells readable.
    groups : Groups
        The walk of each row.
    file_rows : int array, shape (rows,)
        Rows as a spreadsheet shows them. [header = 1]
    pick : callable
        Gives the first of some row indices, and counts the rest.

    Yields
    ------
    tuple
        Row index, order of the column, its name, the value, what was expected.
    """
    yield from _more_than_one_field(columns, groups, file_rows, pick)
    one_each: tuple[CodedColumn[Any], ...] = (columns.sites, columns.method, columns.plan)
    for column in one_each:
        yield from _more_than_one_value(column, groups, file_rows, pick)
    yield from _plants_twice(columns, groups, file_rows, pick)
    yield from _sweeps_not_given(columns, groups, pick)


def _more_than_one_field(
    columns: WalkColumns, groups: Groups, file_rows: IntArray, pick: Pick
) -> Iterator[Finding]:
    field = dense(columns.field)
    first = groups.first[groups.walk]
    for row in pick(np.flatnonzero(field != field[first])):
        other = _said(columns.field, int(first[row]))
        walk = _said(columns.walk, int(row))
        expected = f'one field in walk "{walk}": "{other}", as in row {file_rows[first[row]]}'
        yield _finding(columns.field, int(row), expected)


def _more_than_one_value(
    column: CodedColumn[Value], groups: Groups, file_rows: IntArray, pick: Pick
) -> Iterator[Finding]:
    """Compare each value given with the first given in its walk."""
    given = np.flatnonzero(column.given())
    if not len(given):
        return
    value = dense(column)
    walks, first = np.unique(groups.walk[given], return_index=True)
    reference = given[first][np.searchsorted(walks, groups.walk[given])]
    for at in pick(np.flatnonzero(value[given] != value[reference])):
        other = _said(column, int(reference[at]))
        expected = f'one {column.name} a walk: "{other}", as in row {file_rows[reference[at]]}'
        yield _finding(column, int(given[at]), expected)


def _plants_twice(
    columns: WalkColumns, groups: Groups, file_rows: IntArray, pick: Pick
) -> Iterator[Finding]:
    place: tuple[CodedColumn[Any], ...] = (
        columns.scout,
        columns.quadrant,
        columns.stop,
        columns.plant,
    )
    key = combined([groups.walk, *map(dense, place)])
    order = np.argsort(key, kind="stable")
    again = np.flatnonzero(key[order][1:] == key[order][:-1]) + 1
    if not len(again):
        return
    before = np.zeros_like(order)
    before[order[again]] = order[again - 1]
    for row in pick(np.sort(order[again])):
        same = file_rows[before[row]]
        expected = f"a plant not yet in this walk (row {same} is the same plant)"
        yield _finding(columns.plant, int(row), expected)


def _sweeps_not_given(columns: WalkColumns, groups: Groups, pick: Pick) -> Iterator[Finding]:
    by_sweep = np.array([head.method is Method.SWEEP for head in groups.heads])[groups.walk]
    counted = columns.adults.given() | columns.nymphs.given()
    counted &= columns.skipped.take(bool) == 0
    for row in pick(np.flatnonzero(by_sweep & counted & ~columns.sweeps.given())):
        expected = f"a whole number from 1 to {MOST_SWEEPS}, since the method is sweep"
        yield _finding(columns.sweeps, int(row), expected)


def _said(column: CodedColumn[Value], row: int) -> str:
    """Give a cell as a message may hold it."""
    return shown(column.text(int(column.codes[row])).strip())


def _finding(column: CodedColumn[Value], row: int, expected: str) -> Finding:
    text = column.text(int(column.codes[row]))
    return row, COLUMNS.index(column.name), column.name, text, expected
