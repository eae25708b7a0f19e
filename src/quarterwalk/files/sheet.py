"""Rows of cells out of a CSV or XLSX file, with the row numbers that a spreadsheet shows.

Everything above this module sees text cells only; what a cell means is decided there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path
from typing import IO

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.csv_cells import SEPARATORS, csv_rows
from quarterwalk.files.xlsx_cells import XlsxTable, xlsx_table

ROWS_AT_ONCE = 20_000
"""Rows handed on together: large enough to be quick, small enough to keep memory low."""

STANDARD_INPUT = "standard input"
"""What errors call the file read from ``-``."""

_NOT_STANDARD_INPUT = (
    "Standard input (-) may be the walks, boundaries or weather; give any other table as a file."
)

# A title above a table is followed by few lines, if any, before the table begins. A rule
# of this project. [rows]
_TITLE_ROWS = 10

_ZIP_MAGIC = (b"PK\x03\x04", b"PK\x05\x06")
_OLE_MAGIC = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
"""How workbooks begin that are older than XLSX, or locked by a password."""
_WEB_PAGE = re.compile(rb"(?:\xef\xbb\xbf)?\s*<(?:!doctype html|html)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Block:
    """Some rows in a row; all as wide as the header.

    Parameters
    ----------
    first_row : int
        Row of the first, as a spreadsheet shows it. [header = 1]
    rows : list of sequences of str
        The cells.
    widths : list of int or None
        How many cells each row really had; None where all had the header's number.
    """

    first_row: int
    rows: list[Sequence[str]]
    widths: list[int] | None


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table with a header: names as in the file, stripped, and its rows in blocks.

    Parameters
    ----------
    file : str
        The file's name.
    header_row : int
        As a spreadsheet shows it.
    header : tuple of str
        The names of the columns.
    blocks : iterator of Block
        The rows below.
    name : str
        What the sheet of a workbook is called; empty for a CSV file.
    unread : tuple of str
        Other sheets of the workbook that have anything in them, and are not read.
    left : int
        Columns of the workbook's sheet left of the table, all blank. [count]
    """

    file: str
    header_row: int
    header: tuple[str, ...]
    blocks: Iterator[Block]
    name: str = ""
    unread: tuple[str, ...] = ()
    left: int = 0


def open_sheet(path: str | Path, *, stdin: IO[bytes] | None = None) -> Sheet:
    """Open a CSV or XLSX file as a sheet.

    Parameters
    ----------
    path : str or Path
        The file; ``-`` reads CSV from `stdin`.
    stdin : binary file or None
        Where ``-`` reads from.

    Returns
    -------
    Sheet
        Its blocks can be gone through once.

    Raises
    ------
    RefusedInput
        If the file can't be read, is not UTF-8, is damaged, or has no header.
    """
    if str(path) == "-" and stdin is not None:
        file, data = STANDARD_INPUT, stdin.read()
    else:
        file, data = str(path), _bytes_of(Path(path))
    if data.startswith(_OLE_MAGIC):
        expected = "a CSV or XLSX file without a password"
        hint = "Save the table as XLSX."
        raise RefusedInput([Problem(file, None, None, "an old or locked workbook", expected, hint)])
    if _WEB_PAGE.match(data):
        hint = "Save the table itself, not the page that shows it."
        problem = Problem(file, None, None, "a web page", "a CSV or XLSX file", hint)
        raise RefusedInput([problem])
    if data.startswith(_ZIP_MAGIC):
        return _with_header(file, xlsx_table(file, data))
    return _with_header(file, XlsxTable(csv_rows(file, data)))


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except (OSError, ValueError) as error:  # ValueError: a name with a null character
        expected = "a CSV or XLSX file that can be read"
        why = getattr(error, "strerror", None) or str(error)
        hint = _NOT_STANDARD_INPUT if str(path) == "-" else ""
        problem = Problem(str(path), None, None, why, expected, hint)
        raise RefusedInput([problem]) from None


def _with_header(file: str, table: XlsxTable) -> Sheet:
    """Take the first row that is not blank as the header."""
    records = table.rows
    for row, cells in enumerate(records, start=1):
        names = tuple(cell.strip() for cell in cells)
        if any(names):
            if _filled(names) == 1:
                after = list(islice(records, _TITLE_ROWS))
                _refuse_title(file, row, table.left, names, after)
                records = chain(after, records)
            blocks = _blocks(records, row + 1, len(names))
            return Sheet(file, row, names, blocks, table.name, table.unread, table.left)
    expected = "a table with a header row"
    raise RefusedInput([Problem(file, 1, "1", "", expected, "The file is empty.")])


def _filled(cells: Sequence[str]) -> int:
    return sum(1 for cell in cells if cell.strip())


def _refuse_title(
    file: str, row: int, left: int, names: Sequence[str], after: Sequence[Sequence[str]]
) -> None:
    """Refuse a title above the table: one cell, and wider rows after it."""
    # the separator was told from the title, so other ones still stand in the cells
    if any(_filled(cells) > 1 or set(SEPARATORS) & set("".join(cells)) for cells in after):
        column, title = next((at, name) for at, name in enumerate(names, start=left + 1) if name)
        expected = "the header, with a name for each column"
        hint = "A title? The header must be the first row; take out what stands above it."
        raise RefusedInput([Problem(file, row, str(column), title, expected, hint)])


def _blocks(records: Iterator[Sequence[str]], first_row: int, width: int) -> Iterator[Block]:
    """Gather records into blocks whose rows are all `width` wide."""
    while rows := list(islice(records, ROWS_AT_ONCE)):
        yield _block(first_row, rows, width)
        first_row += len(rows)


def _block(first_row: int, rows: list[Sequence[str]], width: int) -> Block:
    widths = list(map(len, rows))
    if widths.count(width) == len(widths):
        return Block(first_row, rows, None)
    padded: list[Sequence[str]] = [(*cells, *[""] * (width - len(cells))) for cells in rows]
    return Block(first_row, padded, widths)
