"""What a cell may hold: whole numbers, dates, names, words from a closed set.

Each reader takes a stripped text and gives its value, or raises `Misread` with what
was expected. A blank cell is None: not looked at, not given.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date
from enum import StrEnum
from typing import TypeVar

from quarterwalk.files.coded import Misread

# Years that a table or an option may have; outside of them a date is a slip of the pen. The
# oldest daily thermometer series begin in the 18th century (from memory).
FIRST_YEAR, LAST_YEAR = 1700, 2199
FAR_YEAR_HINT = f"The year must be from {FIRST_YEAR} to {LAST_YEAR}."

_WHOLE = re.compile(r"\+?([0-9]+)(?:\.0*)?")
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
# How a spreadsheet counts days; from 1954 to 2173 they have five digits.
SERIAL = re.compile(r"[2-9][0-9]{4}(?:\.[0-9]*)?")
SERIAL_HINT = "The number of a day in a spreadsheet? Format the column as a date."
"""What is said of such a number where a date or a time is wanted."""
_DAY_AND_TIME = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9]")
_LOOKALIKES = str.maketrans({"O": "0", "o": "0", "l": "1", "I": "1"})
_LONGEST = 18
# Control characters would rule the screen on which a name is printed; no workbook can
# hold them, nor lone surrogates and non-characters.
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_LINE_END = re.compile(r"[\t\n\r\u2028\u2029]")

Value = TypeVar("Value")
Word = TypeVar("Word", bound=StrEnum)


def day_hint(text: str) -> str:
    """Say what is wrong with a text that is no date as YYYY-MM-DD."""
    if SERIAL.fullmatch(text):
        return SERIAL_HINT
    if _DAY_AND_TIME.match(text):
        return "Write the day alone, without the time."
    return "Year first, then month, then day."


def whole(low: int, high: int) -> Callable[[str], int | None]:
    """Make a reader of whole numbers from `low` to `high`; ``3.0`` is one."""
    expected = f"a whole number from {low} to {high}"

    def read(text: str) -> int | None:
        if not text:
            return None
        found = _WHOLE.fullmatch(text)
        if not found or len(found.group(1)) > _LONGEST:
            raise Misread(expected, _whole_hint(text))
        number = int(found.group(1))
        if not low <= number <= high:
            raise Misread(expected)
        return number

    return read


def _whole_hint(text: str) -> str:
    if not _WHOLE.fullmatch(text) and _WHOLE.fullmatch(text.translate(_LOOKALIKES)):
        return "A letter for a digit?"
    if re.fullmatch(r"[0-9]+,0*", text):
        return "A decimal comma? Write the number without it."
    return ""


def required(read: Callable[[str], Value | None], expected: str) -> Callable[[str], Value]:
    """Make a reader that refuses a blank cell."""

    def strict(text: str) -> Value:
        value = read(text) if text else None
        if value is None or value == "":
            raise Misread(expected, "The cell is blank.")
        return value

    return strict


def day(text: str) -> date | None:
    """Read a date as ISO 8601, year first."""
    if not text:
        return None
    expected = "a date as YYYY-MM-DD"
    if not _ISO_DAY.fullmatch(text):
        raise Misread(expected, day_hint(text))
    return _on_calendar(text, expected)


def _on_calendar(text: str, expected: str) -> date:
    """Give the day that is written; one of a year far off is refused as no day is."""
    try:
        found = date.fromisoformat(text)
    except ValueError:
        raise Misread(expected, "There is no such day.") from None
    if not FIRST_YEAR <= found.year <= LAST_YEAR:
        raise Misread(expected, FAR_YEAR_HINT)
    return found


def word(kind: type[Word]) -> Callable[[str], Word | None]:
    """Make a reader of the words of an enum, in any letter case."""
    by_text: dict[str, Word] = {member.value.lower(): member for member in kind}
    expected = "one of " + ", ".join(member.value for member in kind)

    def read(text: str) -> Word | None:
        if not text:
            return None
        if text.lower() not in by_text:
            raise Misread(expected)
        return by_text[text.lower()]

    return read


def name(text: str) -> str:
    """Read a text on one line."""
    if _UNPRINTABLE.search(text) or _LINE_END.search(text):
        raise Misread("a text on one line, without control characters")
    return text


def note(text: str) -> str:
    """Read a text of any number of lines."""
    if _UNPRINTABLE.search(text):
        raise Misread("a text without control characters")
    return text


def flag(text: str) -> bool:
    """Read 1 for yes; 0 or blank for no."""
    if text and not re.fullmatch(r"[01](?:\.0*)?", text):
        raise Misread("1 for a plant passed over, 0 or blank for any other")
    return text.startswith("1")


def days(text: str) -> tuple[date, ...]:
    """Read dates separated by spaces; none where the cell is blank."""
    return tuple(_each_day(text.split()))


def _each_day(parts: Iterable[str]) -> Iterable[date]:
    for part in parts:
        try:
            found = day(part)
        except Misread as fault:
            raise Misread("dates as YYYY-MM-DD, separated by spaces", fault.hint) from None
        if found is not None:
            yield found


def day_range(text: str) -> tuple[date, date] | None:
    """Read one date, or the first and the last of a range as ``DATE/DATE``."""
    if not text:
        return None
    expected = "a date as YYYY-MM-DD, or a range as YYYY-MM-DD/YYYY-MM-DD"
    parts = text.split("/")
    bad = next((part for part in map(str.strip, parts) if not _ISO_DAY.fullmatch(part)), None)
    if len(parts) > 2 or bad is not None:
        raise Misread(expected, "" if bad is None else day_hint(bad))
    first, last = (_on_calendar(parts[end].strip(), expected) for end in (0, -1))
    if last < first:
        raise Misread(expected, "The range ends before it begins.")
    return first, last
