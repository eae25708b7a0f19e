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
    try:
        yield from _reader(text)
    except csv.Error as error:
        raise RefusedInput([_quote_problem(file, _last_row(text), error)]) from None


def _reader(text: str) -> Iterator[list[str]]:
    return csv.reader(io.StringIO(text, newline=""), delimiter=_separator(text), strict=True)


def _last_row(text: str) -> int:
    """Tell the row in which reading ends; counting as rows are read would slow every file."""
    reader, row = _reader(text), 0
    try:
        for _ in reader:
            row += 1
    except csv.Error:
        row += 1
    return row


def _text(file: str, data: bytes) -> str:
    if data.startswith(_UTF16_MARKS):
        hint = "Save the table as CSV UTF-8."
        raise RefusedInput([Problem(file, 1, None, "UTF-16", "text in UTF-8", hint)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        start = error.start + (len(codecs.BOM_UTF8) if data.startswith(codecs.BOM_UTF8) else 0)
        hint = "Save the table as CSV UTF-8."
        value = f"byte 0x{data[start]:02X}"
        row = _last_row(data[:start].decode("utf-8-sig") + ".")
        problem = Problem(file, row, None, value, "text in UTF-8", hint)
        raise RefusedInput([problem]) from None


def _separator(text: str) -> str:
    """Tell the separator from the first line that is not blank."""
    first = len(text) - len(text.lstrip())
    start = max(text.rfind("\n", 0, first), text.rfind("\r", 0, first)) + 1
    ends = [end for end in (text.find("\n", first), text.find("\r", first)) if end >= 0]
    line = text[start : min(ends, default=len(text))]
    outside = "".join(line.split('"')[::2])
    return max(SEPARATORS, key=outside.count)


def _quote_problem(file: str, row: int, error: csv.Error) -> Problem:
    said = str(error)
    if "unexpected end of data" in said:
        expected = "a row in which every quotation mark is closed"
        return Problem(file, row, None, said, expected, "The file may be cut off.")
    if "field larger" in said:
        expected = f"cells of at most {csv.field_size_limit()} letters"
        return Problem(file, row, None, said, expected, "A quotation mark that is not closed?")
    expected = "a row of cells, quoted whole or not at all"
    hint = "A quotation mark inside a quoted cell is written twice."
    return Problem(file, row, None, said, expected, hint)
