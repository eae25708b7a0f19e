"""XLSX in: the first sheet that has anything in it, as text cells."""

from __future__ import annotations

import io
import lzma
import re
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from typing import IO

from python_calamine import CalamineError, CalamineWorkbook

from quarterwalk.errors import Problem, RefusedInput

# Limits against files made to fill the memory; a million plants need a tenth of them
# (this project's rule).
MOST_BYTES = 1 << 30
"""Most that the parts of a workbook may unpack to. [bytes]"""

LAST_COLUMN = "AZ"
"""Last column of a sheet that is read."""

_FAR_CELL = re.compile(rb'<(?:\w+:)?c\s[^>]*?r="((?:[B-Z][A-Z]|[A-Z]{3,})\d+)"')
_DAMAGED = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    NotImplementedError,  # a compression that this Python does not know
    RuntimeError,  # a password
    EOFError,
    OSError,
)
_PIECE = 1 << 20
_OVERLAP = 256


def xlsx_rows(file: str, data: bytes) -> Iterator[Sequence[str]]:
    """Give the rows of a workbook's first sheet with anything in it, as text.

    Parameters
    ----------
    file : str
        The name that errors use.
    data : bytes
        The whole file.

    Yields
    ------
    list of str
        The cells of one row; whole numbers without a decimal point, dates as ISO 8601.

    Raises
    ------
    RefusedInput
        If it is no workbook, is damaged, or unpacks to more than `MOST_BYTES`.
    """
    _refuse_bombs(file, data)
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        for name in book.sheet_names:
            rows = book.get_sheet_by_name(name).to_python(skip_empty_area=False)
            if any(cell != "" for row in rows for cell in row):
                return iter([[_text(cell) for cell in row] for row in rows])
    except CalamineError as error:
        raise RefusedInput([_no_workbook(file, str(error))]) from None
    return iter(())


def _refuse_bombs(file: str, data: bytes) -> None:
    """Unpack every part once, in pieces, and stop where there is too much of it."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as book:
            total = 0
            for part in book.infolist():
                with book.open(part) as stream:
                    total += _measure(file, stream, part.filename, MOST_BYTES - total)
    except _DAMAGED as error:
        raise RefusedInput([_no_workbook(file, str(error))]) from None


def _measure(file: str, stream: IO[bytes], part: str, left: int) -> int:
    size, tail = 0, b""
    while piece := stream.read(_PIECE):
        size += len(piece)
        if size > left:
            expected = f"a workbook that unpacks to at most {MOST_BYTES >> 20} MB"
            raise RefusedInput([Problem(file, None, None, part, expected)])
        if far := _FAR_CELL.search(tail + piece):
            cell = far.group(1).decode()
            hint = "Clear the cells far to the right of the table."
            expected = f"a sheet no wider than column {LAST_COLUMN}"
            raise RefusedInput([Problem(file, None, None, cell, expected, hint)])
        tail = piece[-_OVERLAP:]
    return size


def _no_workbook(file: str, said: str) -> Problem:
    return Problem(file, None, None, said, "an XLSX workbook that is whole")


def _text(cell: object) -> str:
    """Write a cell as CSV would hold it."""
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() else repr(cell)
    if isinstance(cell, datetime):
        at_midnight = (cell.hour, cell.minute, cell.second, cell.microsecond) == (0, 0, 0, 0)
        return cell.date().isoformat() if at_midnight else cell.isoformat(sep=" ")
    if isinstance(cell, date):
        return cell.isoformat()
    return str(cell)
