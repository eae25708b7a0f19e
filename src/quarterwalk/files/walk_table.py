"""Walk tables in: CSV or XLSX, one row a plant, many walks in a file.

A file is taken whole or not at all: every cell is read, every rule between rows is
checked, and all problems are told together.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import IO

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput
from quarterwalk.files.grouping import group_walks
from quarterwalk.files.header import find_columns, width_problems
from quarterwalk.files.sheet import Block, Sheet, open_sheet
from quarterwalk.files.walk_columns import COLUMNS, REQUIRED, WalkColumns
from quarterwalk.files.walk_rules import cross_row_problems
from quarterwalk.walk import QUADRANTS, PlantRows, WalkHead, WalkTable

IntArray = npt.NDArray[np.int64]
Progress = Callable[[int], None]


@dataclass(frozen=True, slots=True)
class WalkFile:
    """A walk table and what is worth saying about the file it came from.

    Parameters
    ----------
    file : str
        The file's name.
    table : WalkTable
        The walks.
    notices : tuple of str
        What was left alone, in plain words.
    file_rows : int array, shape (rows,)
        Row of each plant, as a spreadsheet shows it. [header = 1]
    """

    file: str
    table: WalkTable
    notices: tuple[str, ...]
    file_rows: IntArray

    def first_row(self, walk: int) -> int:
        """Give the row of a walk's first plant.

        Parameters
        ----------
        walk : int
            Index of the walk. [from 0]

        Returns
        -------
        int
            As a spreadsheet shows it. [header = 1]
        """
        return int(self.file_rows[np.argmax(self.table.rows.walk == walk)])


def read_walks(
    path: str | Path,
    *,
    stdin: IO[bytes] | None = None,
    progress: Progress | None = None,
) -> WalkFile:
    """Read a table of walks.

    Parameters
    ----------
    path : str or Path
        A CSV or XLSX file; ``-`` reads CSV from `stdin`.
    stdin : binary file or None
        Where ``-`` reads from.
    progress : callable or None
        Told now and then how many rows have been read. [count]

    Returns
    -------
    WalkFile
        The walks, and what is worth saying about the file.

    Raises
    ------
    RefusedInput
        If anything in the file is wrong; it names up to 50 problems by row and column.
    """
    sheet = open_sheet(path, stdin=stdin)
    places, notices = find_columns(sheet, COLUMNS, REQUIRED)
    columns, file_rows, faults = _gather(sheet, places, progress)
    if not len(file_rows):
        expected = "a table with at least one plant"
        raise RefusedInput([Problem(sheet.file, sheet.header_row + 1, "field", "", expected)])
    problems = _Problems(faults)
    whole = np.ones(len(file_rows), np.bool_)
    whole[list(faults)] = False
    _add_cells(problems, columns, sheet.file, np.where(whole, file_rows, 0))
    problems.refuse_if_any()
    groups = group_walks(columns)
    for index, order, column_name, value, expected in cross_row_problems(
        columns, groups, file_rows, problems.worth_telling
    ):
        row = int(file_rows[index])
        problems.add(index, Problem(sheet.file, row, column_name, value, expected), order)
    problems.refuse_if_any()
    return WalkFile(sheet.file, _table(columns, groups.walk, groups.heads), notices, file_rows)


class _Problems:
    """Problems of one file, told in the order of its rows and columns."""

    def __init__(self, found: dict[int, Problem | None]) -> None:
        self._found = [(index, -1, problem) for index, problem in found.items() if problem]
        self._untold = len(found) - len(self._found)

    def worth_telling(self, rows: IntArray) -> IntArray:
        """Give the first rows only, and count the rest: a bad column has a million."""
        self._untold += max(0, len(rows) - MOST_PROBLEMS)
        return rows[:MOST_PROBLEMS]

    def add(self, index: int, problem: Problem, order: int) -> None:
        self._found.append((index, order, problem))

    def refuse_if_any(self) -> None:
        if self._found:
            self._found.sort(key=lambda found: found[:2])
            told = [problem for _, _, problem in self._found[:MOST_PROBLEMS]]
            raise RefusedInput(told, len(self._found) - len(told) + self._untold)


def _add_cells(problems: _Problems, columns: WalkColumns, file: str, rows: IntArray) -> None:
    """Add the cells that can't be read; row 0 is one that has been told as a whole."""
    for order, column in enumerate(columns.all()):
        bad = column.bad_rows()
        for index in map(int, problems.worth_telling(bad[rows[bad] > 0])):
            problems.add(index, column.problem(file, int(rows[index]), index), order)


def _gather(
    sheet: Sheet, places: dict[str, int], progress: Progress | None
) -> tuple[WalkColumns, IntArray, dict[int, Problem | None]]:
    """Go through the sheet once; blank rows are passed over.

    Gives the columns, the rows' numbers, and the indices of rows of a wrong width, the
    first of them with what is wrong.
    """
    columns = WalkColumns.empty()
    rows: list[IntArray] = []
    faults: dict[int, Problem | None] = {}
    count = 0
    for block in sheet.blocks:
        kept, numbers = _without_blank_rows(block, len(sheet.header))
        for row, problem in width_problems(sheet, block, places, REQUIRED):
            index = count + int(np.searchsorted(numbers, row))
            faults[index] = problem if len(faults) < MOST_PROBLEMS else None
        _add(columns, places, kept)
        rows.append(numbers)
        count += len(kept)
        if progress is not None:
            progress(count)
    return columns, np.concatenate([np.zeros(0, np.int64), *rows]), faults


def _add(columns: WalkColumns, places: dict[str, int], rows: list[tuple[str, ...]]) -> None:
    cells = list(zip(*rows, strict=False)) if rows else []
    for column in columns.all():
        if rows and column.name in places:
            column.add(cells[places[column.name]], len(rows))
        elif rows:
            column.add([""] * len(rows), len(rows))


def _without_blank_rows(block: Block, width: int) -> tuple[list[tuple[str, ...]], IntArray]:
    numbers = np.arange(block.first_row, block.first_row + len(block.rows))
    # a row with a first cell is not blank, and nearly every row has one
    if block.widths is None and all(map(str.strip, (row[0] for row in block.rows))):
        return block.rows, numbers  # type: ignore[return-value]
    keep = [any(map(str.strip, row)) for row in block.rows]
    rows = [tuple(row) for row, kept in zip(block.rows, keep, strict=True) if kept]
    return rows, numbers[np.array(keep, np.bool_)]


def _table(columns: WalkColumns, walk: IntArray, heads: tuple[WalkHead, ...]) -> WalkTable:
    """Lay the columns out as a table."""
    counts = [columns.adults, columns.nymphs, columns.healthy, columns.missing,
              columns.blasted, columns.flared]  # fmt: skip
    looked = [column.given() for column in counts]
    names = {name: code for code, name in enumerate(dict.fromkeys(columns.scout.values))}
    note_codes = columns.note.codes
    notes = {
        int(i): columns.note.values[note_codes[i]] or ""
        for i in np.flatnonzero(columns.note.given())
    }
    rows = PlantRows(
        walk=walk,
        quadrant=columns.quadrant.take(QUADRANTS.index),
        stop=columns.stop.take(lambda n: n or 0),
        plant=columns.plant.take(lambda n: n),
        counts=np.stack([c.take(lambda n: n or 0) for c in counts], axis=1),
        insects_looked=looked[0] | looked[1],
        squares_looked=looked[2] | looked[3] | looked[4] | looked[5],
        sweeps=columns.sweeps.take(lambda n: n or 0),
        skipped=columns.skipped.take(bool).astype(np.bool_),
        scout=columns.scout.take(names.__getitem__),
        day=columns.date.take(lambda d: d.toordinal()),
    )
    return WalkTable(heads, rows, tuple(name or "" for name in names), notes)
