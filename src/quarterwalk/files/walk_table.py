"""Walk tables in: CSV or XLSX, one row a plant, many walks in a file.

A file is taken whole or not at all: every cell is read, every rule between rows is
checked, and all problems are told together.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput
from quarterwalk.files.grouping import group_walks
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
    stdin: io.BufferedIOBase | None = None,
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

    Raises
    ------
    RefusedInput
        If anything in the file is wrong; it names up to 50 problems by row and column.
    """
    sheet = open_sheet(path, stdin=stdin)
    places, notices = _places(sheet)
    columns, file_rows, faults = _gather(sheet, places, progress)
    problems = _Problems(sheet.file, file_rows)
    for index, problem in faults:
        problems.add(index, problem)
    for order, column in enumerate(columns.all()):
        for index in problems.worth_telling(column.bad_rows()):
            found = column.problem(sheet.file, int(file_rows[index]), int(index))
            problems.add(int(index), found, order)
    if not len(file_rows):
        expected = "a table with at least one plant"
        raise RefusedInput([Problem(sheet.file, sheet.header_row + 1, None, "", expected)])
    problems.refuse_if_any()
    groups = group_walks(columns)
    for index, order, column_name, value, expected in cross_row_problems(
        columns, groups, file_rows
    ):
        row = int(file_rows[index])
        problems.add(index, Problem(sheet.file, row, column_name, value, expected), order)
    problems.refuse_if_any()
    return WalkFile(sheet.file, _table(columns, groups.walk, groups.heads), notices, file_rows)


class _Problems:
    """Problems of one file, told in the order of its rows and columns."""

    def __init__(self, file: str, file_rows: IntArray) -> None:
        self.file = file
        self._found: list[tuple[int, int, Problem]] = []
        self._untold = 0

    def worth_telling(self, rows: IntArray) -> IntArray:
        """Give the first rows only, and count the rest: a bad column has a million."""
        self._untold += max(0, len(rows) - MOST_PROBLEMS)
        return rows[:MOST_PROBLEMS]

    def add(self, index: int, problem: Problem, order: int = -1) -> None:
        self._found.append((index, order, problem))

    def refuse_if_any(self) -> None:
        if self._found:
            self._found.sort(key=lambda found: found[:2])
            told = [problem for _, _, problem in self._found[:MOST_PROBLEMS]]
            raise RefusedInput(told, len(self._found) - len(told) + self._untold)


def _places(sheet: Sheet) -> tuple[dict[str, int], tuple[str, ...]]:
    """Find each column's place in the header; refuse a header that lacks one or has two."""
    lowered = [name.lower() for name in sheet.header]
    problems = []
    for name in REQUIRED:
        if name not in lowered:
            expected = "in the header"
            problems.append(Problem(sheet.file, sheet.header_row, name, "", expected))
    for name in COLUMNS:
        if lowered.count(name) > 1:
            second = sheet.header[lowered.index(name, lowered.index(name) + 1)]
            expected = "in the header once"
            problems.append(Problem(sheet.file, sheet.header_row, name, second, expected))
    if problems:
        raise RefusedInput(problems)
    unknown = [sheet.header[i] for i, name in enumerate(lowered) if name and name not in COLUMNS]
    notices = tuple(f"{sheet.file}: column {name} is not read." for name in unknown)
    return {name: lowered.index(name) for name in COLUMNS if name in lowered}, notices


def _gather(
    sheet: Sheet, places: dict[str, int], progress: Progress | None
) -> tuple[WalkColumns, IntArray, list[tuple[int, Problem]]]:
    """Go through the sheet once; blank rows are passed over."""
    columns = WalkColumns.empty()
    rows: list[IntArray] = []
    faults: list[tuple[int, Problem]] = []
    count = 0
    for block in sheet.blocks:
        kept, numbers = _without_blank_rows(block, len(sheet.header))
        for index, problem in _width_problems(sheet, block, places):
            faults.append((count + int(np.searchsorted(numbers, index)), problem))
        _add(columns, places, kept)
        rows.append(numbers)
        count += len(kept)
        if progress is not None:
            progress(count)
    return columns, np.concatenate(rows) if rows else np.zeros(0, np.int64), faults


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


def _width_problems(
    sheet: Sheet, block: Block, places: dict[str, int]
) -> Iterator[tuple[int, Problem]]:
    """Refuse cells beyond the header, and rows that end before a column that must be there."""
    width = len(sheet.header)
    last = max(REQUIRED, key=places.__getitem__)
    for offset, had in enumerate(block.widths or ()):
        row, cells = block.first_row + offset, block.rows[offset]
        extra = [cell for cell in cells[width:] if cell.strip()]
        if extra:
            expected = f"at most {width} cells in the row, as in the header"
            hint = "A separator inside a cell? Put the cell in quotation marks."
            column = f"{width + 1}"
            yield row, Problem(sheet.file, row, column, extra[0], expected, hint)
        elif had <= places[last] and any(map(str.strip, cells)):
            expected = "there: the row ends before it"
            yield row, Problem(sheet.file, row, last, "", expected, "The file may be cut off.")


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
