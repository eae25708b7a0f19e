"""Where in a CSV text reading stopped: the row, the column and the cell, for the message.

The reader of the standard library says only what it did not like. This is worked out
afterwards, so that files without a fault pay nothing for it.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass

from quarterwalk.errors import shown

_QUOTED = re.compile(r'"(?:[^"]++|"")*+"')
_ENDS = {"", "\r", "\n"}


@dataclass(frozen=True, slots=True)
class CsvPlace:
    """A cell that can't be read.

    Parameters
    ----------
    row : int
        As a spreadsheet shows it. [header = 1]
    column : str
        Its name in the header, or its number where the header does not name it.
    cell : str
        The cell, or its beginning.
    """

    row: int
    column: str
    cell: str


def place_of_fault(text: str, separator: str) -> CsvPlace:
    """Find the cell at which reading a text as strict CSV stops.

    Parameters
    ----------
    text : str
        A text that `csv.reader` refuses.
    separator : str
        What stands between cells.

    Returns
    -------
    CsvPlace
    """
    row, lines, header = 0, 0, None
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        for cells in reader:
            row, lines = row + 1, reader.line_num
            header = header or (cells if any(map(str.strip, cells)) else None)
    except csv.Error:
        pass
    record = "".join(list(io.StringIO(text, newline=""))[lines:])
    number, cell = _first_bad(record, separator)
    return CsvPlace(row + 1, column_name(header or [], number), cell)


def place_of_end(text: str, separator: str) -> CsvPlace:
    """Find the cell in which a text ends.

    Parameters
    ----------
    text : str
        The text before something that can't be read.
    separator : str
        What stands between cells.

    Returns
    -------
    CsvPlace
    """
    reader = csv.reader(io.StringIO(text + ".", newline=""), delimiter=separator)
    *before, last = reader
    header = next((cells for cells in before if any(map(str.strip, cells))), [])
    return CsvPlace(len(before) + 1, column_name(header, len(last) - 1), last[-1][:-1])


def column_name(header: list[str], number: int) -> str:
    """Name a column by the header, or by its number from 1 where the header does not.

    Parameters
    ----------
    header : list of str
        The names.
    number : int
        The column. [from 0]

    Returns
    -------
    str
    """
    named = shown(header[number].strip()) if number < len(header) else ""
    return named or str(number + 1)


def _first_bad(record: str, separator: str) -> tuple[int, str]:
    """Find the first cell that is neither quoted whole nor not at all, or is too long."""
    number, cell = 0, ""
    for number, (cell, whole) in enumerate(_cells(record, separator)):  # noqa: B007
        if not whole or len(cell) > csv.field_size_limit():
            break
    return number, cell


def _cells(record: str, separator: str) -> Iterator[tuple[str, bool]]:
    """Give the cells of a record, each with whether it is quoted whole or not at all."""
    plain = re.compile(rf"[^{re.escape(separator)}\r\n]*+")
    at = 0
    while True:
        quoted = _QUOTED.match(record, at)
        if record[at : at + 1] == '"' and quoted is None:
            yield record[at:], False
            return
        found = quoted or plain.match(record, at)
        end = found.end() if found else at
        follows = record[end : end + 1]
        whole = follows == separator or follows in _ENDS
        yield record[at:end], whole
        if follows != separator:
            return
        at = end + 1
