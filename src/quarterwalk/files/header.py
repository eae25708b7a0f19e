"""Where each column of a table stands: header names in any letter case, each at most once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quarterwalk.errors import Problem, RefusedInput, shown
from quarterwalk.files.sheet import Block, Sheet


def find_columns(
    sheet: Sheet, columns: Sequence[str], required: Sequence[str]
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

    Returns
    -------
    places : dict of str to int
        Place of each column that is there. [from 0]
    notices : tuple of str
        Columns that are not read, in plain words.

    Raises
    ------
    RefusedInput
        If a required column is not there, or a column stands twice.
    """
    lowered = [name.lower() for name in sheet.header]
    problems = [
        Problem(sheet.file, sheet.header_row, name, "", "in the header")
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
    return {name: lowered.index(name) for name in columns if name in lowered}, notices


def width_problems(
    sheet: Sheet, block: Block, places: dict[str, int], required: Sequence[str]
) -> Iterator[tuple[int, Problem]]:
    """Refuse cells beyond the header, and rows that end before a column that must be there.

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
        The row, as a spreadsheet shows it, and what is wrong with it. [header = 1]
    """
    width = len(sheet.header)
    last = max(required, key=places.__getitem__)
    for offset, had in enumerate(block.widths or ()):
        row, cells = block.first_row + offset, block.rows[offset]
        extra = [cell for cell in cells[width:] if cell.strip()]
        if extra:
            expected = f"at most {width} cells in the row, as in the header"
            hint = "A separator inside a cell? Put the cell in quotation marks."
            yield row, Problem(sheet.file, row, f"{width + 1}", extra[0], expected, hint)
        elif had <= places[last] and any(map(str.strip, cells)):
            expected = "there: the row ends before it"
            yield row, Problem(sheet.file, row, last, "", expected, "The file may be cut off.")
