"""CSV in: UTF-8 with or without a byte order mark, any line ending, comma, semicolon or tab."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator, Sequence

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.csv_place import CsvPlace, place_of_end, place_of_fault

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
    separator = _separator(text)
    try:
        yield from csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    except csv.Error as error:
        place = place_of_fault(text, separator)
        raise RefusedInput([_quote_problem(file, place, error)]) from None


def _text(file: str, data: bytes) -> str:
    expected, hint = "text in UTF-8", "Save the table as CSV UTF-8."
    if data.startswith(_UTF16_MARKS):
        raise RefusedInput([Problem(file, 1, "1", "UTF-16", expected, hint)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        start = error.start + (len(codecs.BOM_UTF8) if data.startswith(codecs.BOM_UTF8) else 0)
        before = data[:start].decode("utf-8-sig")
        value = f"byte 0x{data[start]:02X}"
        try:
            place = place_of_end(before, _separator(before))
        except (
            csv.Error
        ):  # a cell too long, or a quotation mark: the first fault is the one to tell
            place = place_of_fault(before, _separator(before))
        problem = Problem(file, place.row, place.column, value, expected, hint)
        raise RefusedInput([problem]) from None


def _separator(text: str) -> str:
    """Tell the separator from the first line that is not blank."""
    first = len(text) - len(text.lstrip())
    start = max(text.rfind("\n", 0, first), text.rfind("\r", 0, first)) + 1
    ends = [end for end in (text.find("\n", first), text.find("\r", first)) if end >= 0]
    line = text[start : min(ends, default=len(text))]
    outside = "".join(line.split('"')[::2])
    return max(SEPARATORS, key=outside.count)


def _quote_problem(file: str, place: CsvPlace, error: csv.Error) -> Problem:
    said, where = str(error), (file, place.row, place.column, place.cell)
    if "unexpected end of data" in said:
        expected = "a cell whose quotation mark is closed"
        return Problem(*where, expected, "The file may be cut off.")
    if "field larger" in said:
        expected = f"a cell of at most {csv.field_size_limit()} letters"
        return Problem(*where, expected, "A quotation mark that is not closed?")
    expected = "a cell that is quoted whole or not at all"
    return Problem(*where, expected, "A quotation mark inside a quoted cell is written twice.")
