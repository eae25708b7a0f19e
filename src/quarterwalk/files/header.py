"""Where each column of a table stands: header names in any letter case, each at most once.

A column without a name is passed over where it is blank, and refused where it is not, but for
the first, which exports use to number rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from quarterwalk.errors import Problem, RefusedInput, shown
from quarterwalk.files.sheet import Block, Sheet

_MOST_NAMED = 8  # more would bury the rest [count]
_NO_HINTS: Mapping[str, str] = MappingProxyType({})


def find_columns(
    sheet: Sheet,
    columns: Sequence[str],
    required: Sequence[str],
    hints: Mapping[str, str] = _NO_HINTS,
) -> tuple[dict[str, int], tuple[str, ...]]:
    """Find each column's place in the header; refuse a header that lacks one or has two.

    Parameters
    ----------
    sheet : Sheet
        The table.
    columns : sequence of str
        Names that are read, in small letters.
    required : sequence of str
        Those that must be there.
    hints : mapping of str to str
        What to do where one of those is not there, by its name.

    Returns
    -------
    places : dict of str to int
        Place of each column that is there. [from 0]
    notices : tuple of str
        Columns and sheets that are not read, in plain words.

    Raises
    ------
    RefusedInput
        If a required column is not there, or a column stands twice.
    """
    lowered = [name.lower() for name in sheet.header]
    problems = [
        Problem(sheet.file, sheet.header_row, name, "", "in the header", hints.get(name, ""))
        for name in required
        if name not in lowered
    ]
    for name in columns:
        if lowered.count(name) > 1:
            second = sheet.header[lowered.index(name, lowered.index(name) + 1)]
            problems.append(
                Problem(sheet.file, sheet.header_row, name, second, "in the header once")
            )
    if problems:
        raise RefusedInput(problems)
    unknown = [sheet.header[i] for i, name in enumerate(lowered) if name and name not in columns]
    notices = tuple(f"{sheet.file}: column {shown(name)} is not read." for name in unknown)
    if _numbers_rows(sheet):
        notices = (f"{sheet.file}: column 1 has no name and is not read.", *notices)
    places = {name: lowered.index(name) for name in columns if name in lowered}
    return places, (*_sheets_not_read(sheet), *notices)


def _numbers_rows(sheet: Sheet) -> bool:
    """Tell whether the first column has no name, as exports have it that number their rows."""
    return not sheet.header[0] and any(sheet.header)


def _sheets_not_read(sheet: Sheet) -> Iterator[str]:
    """Name the sheets of a workbook beside the one that is read."""
    told = [f'"{shown(name)}"' for name in sheet.unread[:_MOST_NAMED]]
    if (more := len(sheet.unread) - len(told)) > 0:
        told.append(f"{more} more")
    if told:
        names = told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"
        what = f"sheet {names} was" if len(told) == 1 else f"sheets {names} were"
        yield f'{sheet.file}: the {what} not read; only the first is, "{shown(sheet.name)}".'


def width_problems(
    sheet: Sheet, block: Block, places: dict[str, int], required: Sequence[str]
) -> Iterator[tuple[int, Problem]]:
    """Refuse cells that the header does not name, and rows that end before they may.

    Such a cell may belong to the column beside it, so it is not passed over.

    Parameters
    ----------
    sheet : Sheet
        The table.
    block : Block
        Some of its rows.
    places : dict of str to int
        Place of each column that is there. [from 0]
    required : sequence of str
        Columns that every row must reach.

    Yields
    ------
    tuple of int and Problem
        The row, as a spreadsheet shows it, and what is wrong with it; one a row, in their
        order. [header = 1]
    """
    width = len(sheet.header)
    nameless = [place for place, name in enumerate(sheet.header) if place and not name]
    if block.widths is None and not nameless:
        return
    last = max(required, key=places.__getitem__)
    for offset, cells in enumerate(block.rows):
        row = block.first_row + offset
        had = width if block.widths is None else block.widths[offset]
        unnamed = [*nameless, *range(width, len(cells))]
        stray = next((place for place in unnamed if cells[place].strip()), None)
        if stray is not None:
            yield row, _stray(sheet, row, stray, cells[stray])
        elif had <= places[last] and any(map(str.strip, cells)):
            expected = "there: the row ends before it"
            yield row, Problem(sheet.file, row, last, "", expected, "The file may be cut off.")


def _stray(sheet: Sheet, row: int, place: int, cell: str) -> Problem:
    """Say that a cell stands where the header has no name."""
    column, width = f"{sheet.left + place + 1}", len(sheet.header)
    if place < width:
        expected = "blank: the header has no name for this column"
        hint = "A value in the wrong column? Move it, or give the column a name."
    else:
        expected = f"at most {width} cells in the row, as in the header"
        hint = "A separator inside a cell? Put the cell in quotation marks."
    return Problem(sheet.file, row, column, cell, expected, hint)
