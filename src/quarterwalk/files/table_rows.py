"""Rows of a small table one by one, and their cells read each by its own reader."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from quarterwalk.errors import Problem
from quarterwalk.files.coded import Misread, read_cell
from quarterwalk.files.header import width_problems
from quarterwalk.files.sheet import Sheet


def filled_rows(
    sheet: Sheet, places: dict[str, int], needed: Sequence[str]
) -> Iterator[tuple[int, Sequence[str], Problem | None]]:
    """Give each row that is not blank, with what is wrong with its width.

    Parameters
    ----------
    sheet : Sheet
        The table.
    places : dict of str to int
        Place of each column that is there. [from 0]
    needed : sequence of str
        Columns that every row must reach.

    Yields
    ------
    (int, sequence of str, Problem or None)
        The row as a spreadsheet shows it, its cells, and what is wrong. [header = 1]
    """
    for block in sheet.blocks:
        wrong = dict(width_problems(sheet, block, places, needed))
        for row, cells in enumerate(block.rows, start=block.first_row):
            if any(map(str.strip, cells)):
                yield row, cells, wrong.get(row)


def read_cells(
    readers: Mapping[str, Callable[[str], Any]], text: Mapping[str, str]
) -> tuple[dict[str, Any], dict[str, Misread]]:
    """Read one row's cells; a column that is absent reads as blank.

    Parameters
    ----------
    readers : mapping of str to callable
        One for each column.
    text : mapping of str to str
        The cells that are there, by column.

    Returns
    -------
    (dict, dict)
        Values by column, and what can't be read.
    """
    values: dict[str, Any] = {}
    faults: dict[str, Misread] = {}
    for column, read in readers.items():
        try:
            values[column] = read_cell(read, text.get(column, ""))
        except Misread as fault:
            faults[column] = fault
    return values, faults
