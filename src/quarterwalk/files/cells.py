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

_WHOLE = re.compile(r"\+?([0-9]+)(?:\.0*)?")
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_LOOKALIKES = str.maketrans({"O": "0", "o": "0", "l": "1", "I": "1"})
_LONGEST = 18
# Control characters would rule the screen on which a name is printed; no workbook can
# hold them, nor lone surrogates and non-characters.
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_LINE_END = re.compile(r"[\t\n\r\u2028\u2029]")

Value = TypeVar("Value")
Word = TypeVar("Word", bound=StrEnum)


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
    if _WHOLE.fullmatch(text.translate(_LOOKALIKES)):
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
        raise Misread(expected, "Year first, then month, then day.")
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise Misread(expected, "There is no such day.") from None


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
    if len(parts) > 2 or not all(_ISO_DAY.fullmatch(part.strip()) for part in parts):
        raise Misread(expected)
    try:
        first, last = date.fromisoformat(parts[0].strip()), date.fromisoformat(parts[-1].strip())
    except ValueError:
        raise Misread(expected, "There is no such day.") from None
    if last < first:
        raise Misread(expected, "The range ends before it begins.")
    return first, last
