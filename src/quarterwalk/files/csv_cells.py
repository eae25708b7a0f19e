"""CSV in: UTF-8 with or without a byte order mark, any line ending, comma, semicolon or tab."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator, Sequence

from quarterwalk.errors import Problem, RefusedInput

SEPARATORS = ",;\t"
_UTF16_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def csv_rows(file: str, data: bytes) -> Iterator[Sequence[str]]:
    """Give the records of a CSV file, blank lines as empty ones (RFC 4180).

    Parameters
    ----------
    file : str
        The name that errors use.
    data : bytes
        The whole file.

    Yields
    ------
    list of str
        The cells of one record.

    Raises
    ------
    RefusedInput
        If the text is not UTF-8, or a quotation mark is not closed.
    """
    text = _text(file, data)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_separator(text), strict=True)
    row = 1
    try:
        for cells in reader:
            yield cells
            row += 1
    except csv.Error as error:
        raise RefusedInput([_quote_problem(file, row, error)]) from None


def _text(file: str, data: bytes) -> str:
    if data.startswith(_UTF16_MARKS):
        hint = "Save the table as CSV UTF-8."
        raise RefusedInput([Problem(file, 1, None, "UTF-16", "text in UTF-8", hint)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        start = error.start + (len(codecs.BOM_UTF8) if data.startswith(codecs.BOM_UTF8) else 0)
        before = data[:start]
        row = len(before.splitlines()) + (1 if before.endswith((b"\n", b"\r")) or not before else 0)
        hint = "Save the table as CSV UTF-8."
        problem = Problem(file, row, None, f"byte 0x{data[start]:02X}", "text in UTF-8", hint)
        raise RefusedInput([problem]) from None


def _separator(text: str) -> str:
    """Tell the separator from the first line that is not blank."""
    for line in io.StringIO(text, newline=""):
        if line.strip():
            outside = "".join(line.split('"')[::2])
            return max(SEPARATORS, key=outside.count)
    return ","


def _quote_problem(file: str, row: int, error: csv.Error) -> Problem:
    said = str(error)
    if "unexpected end of data" in said:
        expected = "a row in which every quotation mark is closed"
        return Problem(file, row, None, said, expected, "The file may be cut off.")
    if "field larger" in said:
        return Problem(file, row, None, said, f"cells of at most {csv.field_size_limit()} letters")
    expected = "a row of cells, quoted whole or not at all"
    hint = "A quotation mark inside a quoted cell is written twice."
    return Problem(file, row, None, said, expected, hint)
