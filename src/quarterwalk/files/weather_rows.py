"""The rows of a weather table, column by column."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput
from quarterwalk.files.coded import CodedColumn
from quarterwalk.files.header import width_problems
from quarterwalk.files.refusal import refuse
from quarterwalk.files.sheet import Block, Sheet

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Readers = Mapping[str, Callable[[str], Any]]

# Past so many unreadable cells the rest of a file is not gone through: it is no weather
# table. A rule of this project.
_ENOUGH_FAULTS = 10_000

MOST_STATIONS = 20_000
"""Stations of a file, against files made to fill the memory; a rule of this project. [count]"""


@dataclass(frozen=True, slots=True)
class WeatherRows:
    """The cells of a table, all readable, and the row of each in the file."""

    file: str
    columns: Mapping[str, CodedColumn[Any]]
    file_rows: IntArray

    def numbers(self, name: str) -> FloatArray:
        """Give a column of numbers, shape (rows,); NaN where blank or absent."""
        if name not in self.columns:
            return np.full(len(self.file_rows), np.nan)
        column = self.columns[name]
        return np.array(column.values or [np.nan], np.float64)[column.codes]

    def problem(self, index: int, name: str, expected: str, hint: str = "") -> Problem:
        """Say what is wrong with the cell of one row."""
        column = self.columns[name]
        text = column.text(int(column.codes[index]))
        return Problem(self.file, int(self.file_rows[index]), name, text, expected, hint)


def gather(
    sheet: Sheet, places: dict[str, int], readers: Readers, required: Sequence[str]
) -> WeatherRows:
    """Go through a sheet once; blank rows are passed over.

    Parameters
    ----------
    sheet : Sheet
        The table.
    places : dict of str to int
        Place of each column that is there. [from 0]
    readers : mapping of str to callable
        What each column's cells may hold.
    required : sequence of str
        Columns that every row must reach.

    Returns
    -------
    WeatherRows

    Raises
    ------
    RefusedInput
        If a cell can't be read, there is no row, or there are too many stations.
    """
    columns = {name: CodedColumn(name, readers[name]) for name in places}
    numbers: list[IntArray] = []
    problems: list[Problem] = []
    for block in sheet.blocks:
        rows, kept = _without_blank_rows(block)
        problems += [problem for _, problem in width_problems(sheet, block, places, required)]
        cells = list(zip(*rows, strict=False))
        for name, column in columns.items():
            column.add(cells[places[name]] if rows else (), len(rows))
        numbers.append(kept)
        if "station" in columns:
            refuse_too_many_stations(sheet.file, len(columns["station"].values))
        if len(problems) + sum(len(c.faults) for c in columns.values()) > _ENOUGH_FAULTS:
            break
    file_rows = np.concatenate([np.zeros(0, np.int64), *numbers])
    if not len(file_rows):
        raise RefusedInput([_no_day(sheet, required[0])])
    _refuse_faults(sheet.file, columns, file_rows, problems)
    return WeatherRows(sheet.file, columns, file_rows)


def refuse_too_many_stations(file: str, count: int) -> None:
    """Refuse a file, as it is read, once it has more than `MOST_STATIONS`."""
    if count > MOST_STATIONS:
        expected = f"at most {MOST_STATIONS:,} stations in a file"
        refuse(file, "more", expected, "Cut the file to the stations that are near.")


def _no_day(sheet: Sheet, column: str) -> Problem:
    hint = "The table has a header and no day; give at least one row."
    return Problem(sheet.file, sheet.header_row + 1, column, "", "the first row of weather", hint)


def _without_blank_rows(block: Block) -> tuple[list[Sequence[str]], IntArray]:
    numbers = np.arange(block.first_row, block.first_row + len(block.rows))
    # a row with a first cell is not blank, and nearly every row has one
    if block.widths is None and all(map(str.strip, (row[0] for row in block.rows))):
        return block.rows, numbers
    keep = np.array([any(map(str.strip, row)) for row in block.rows], np.bool_)
    return [row for row, kept in zip(block.rows, keep, strict=True) if kept], numbers[keep]


def _refuse_faults(
    file: str,
    columns: Mapping[str, CodedColumn[Any]],
    file_rows: IntArray,
    problems: list[Problem],
) -> None:
    """Refuse a table with unreadable cells; the first are told, the rest counted."""
    cut_off = {problem.row for problem in problems}
    count, told = len(problems), problems[:MOST_PROBLEMS]
    for column in columns.values():
        bad = [int(i) for i in column.bad_rows() if int(file_rows[i]) not in cut_off]
        count += len(bad)
        told += [column.problem(file, int(file_rows[i]), i) for i in bad[:MOST_PROBLEMS]]
    if told:
        told = sorted(told, key=lambda problem: problem.row or 0)[:MOST_PROBLEMS]
        raise RefusedInput(told, count - len(told))


def split_by(keys: IntArray) -> list[IntArray]:
    """Part rows by their keys.

    Parameters
    ----------
    keys : int array, shape (rows,)
        From 0, each at least once. [index]

    Returns
    -------
    list of int array
        The rows of each key, in their order. [index]
    """
    order = np.argsort(keys, kind="stable")
    return np.split(order, np.flatnonzero(np.diff(keys[order])) + 1)


def pairs_that_differ(
    of_row: IntArray, times: IntArray, values: Sequence[FloatArray]
) -> list[tuple[int, int]]:
    """Find rows of one station and time that say different things.

    Parameters
    ----------
    of_row, times : int array, shape (rows,)
        Station and time of each row.
    values : sequence of float arrays, shape (rows,)
        What the rows say; NaN where nothing.

    Returns
    -------
    list of (int, int)
        The earlier row and the later one, in the order of the later ones. [index]
    """
    order = np.lexsort((times, of_row))
    same = (np.diff(of_row[order]) == 0) & (np.diff(times[order]) == 0)
    before, after = order[:-1][same], order[1:][same]
    differ = np.zeros(len(after), np.bool_)
    for each in values:
        one, two = each[before], each[after]
        differ |= (one != two) & ~(np.isnan(one) & np.isnan(two))
    pairs = zip(before[differ].tolist(), after[differ].tolist(), strict=True)
    return sorted(pairs, key=lambda pair: pair[1])
