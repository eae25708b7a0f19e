"""What a cell of a weather table may hold: temperatures, days, hours, places, marks.

Each reader takes a stripped text and gives its value, or raises `Misread`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime, timedelta

import numpy as np

from quarterwalk.files.boundary_limits import LONGEST_NAME
from quarterwalk.files.cells import (
    FAR_YEAR_HINT,
    FIRST_YEAR,
    LAST_YEAR,
    SERIAL,
    SERIAL_HINT,
    day,
    name,
)
from quarterwalk.files.coded import Misread
from quarterwalk.weather.daily import DayMark

MARKS = {
    "measured": DayMark.MEASURED,
    "forecast": DayMark.FORECAST,
    "neighbour": DayMark.NEIGHBOUR,
    "between": DayMark.BETWEEN,
    "other-years": DayMark.OTHER_YEARS,
}
"""How a table says where a day's temperatures came from."""

_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,6}(?:\.[0-9]{0,20})?|\.[0-9]{1,20})")
_HOUR = re.compile(
    r"([0-9]{4}-[0-9]{2}-[0-9]{2})"
    r"(?:[T ]([01][0-9]|2[0-3]):([0-9]{2})(:[0-5][0-9](?:\.[0-9]{1,9})?)?)?"
)
_LOOKALIKES = str.maketrans({"O": "0", "o": "0", "l": "1", "I": "1", "S": "5", "B": "8"})
_FOR_NOTHING = re.compile(r"n/?a|nan|null|none|m|missing|-+|\.|\?+|#n/a", re.IGNORECASE)
_WITH_UNIT = re.compile(r"[+-]?[0-9.]+ *(?:°|º|deg|degrees)? *[CFcf%]?")
_HALF_TURN, _QUARTER_TURN = 180.0, 90.0
# The land below the Dead Sea and above Everest, with room (from memory). [m]
_LOWEST_M, _HIGHEST_M = -500.0, 9000.0


def number(expected: str, low: float, high: float) -> Callable[[str], float]:
    """Make a reader of decimal numbers from `low` to `high`; a blank cell is NaN."""

    def read(text: str) -> float:
        if not text:
            return float("nan")
        if not _NUMBER.fullmatch(text):
            raise Misread(expected, _number_hint(text))
        value = float(text)
        if not low <= value <= high:
            raise Misread(expected)
        return value

    return read


def _number_hint(text: str) -> str:
    if _FOR_NOTHING.fullmatch(text):
        return "Leave the cell blank where nothing was measured."
    if _NUMBER.fullmatch(text.replace(",", ".", 1)):
        return "A decimal comma? Write the number with a point."
    if _WITH_UNIT.fullmatch(text):
        return "Write the number alone; the unit stands in the column's name."
    if _NUMBER.fullmatch(text.translate(_LOOKALIKES)):
        return "A letter for a digit?"
    if _NUMBER.fullmatch(text.replace("\N{MINUS SIGN}", "-").replace("\N{EN DASH}", "-")):
        return "A dash for a minus sign? Write a hyphen."
    return ""


# What no place on earth has is told and left out later; only what is no number is refused.
temperature = number("a temperature as a number such as 75.2, or blank", -np.inf, np.inf)
humidity = number("relative humidity in percent, from 0 to 100, or blank", 0.0, 100.0)
latitude = number("degrees north from -90 to 90", -_QUARTER_TURN, _QUARTER_TURN)
longitude = number("degrees east from -180 to 180; west is below 0", -_HALF_TURN, _HALF_TURN)
elevation = number("metres above the sea from -500 to 9000", _LOWEST_M, _HIGHEST_M)


def weather_day(text: str) -> date:
    """Read the day of a row."""
    found = day(text)
    if found is None:
        raise Misread("a date as YYYY-MM-DD", "The cell is blank.")
    return found


def hour(text: str) -> datetime:
    """Read a time of the clock, to the nearest minute; a day alone is its midnight."""
    expected = "a time as YYYY-MM-DDTHH:MM"
    found = _HOUR.fullmatch(text)
    if not found:
        hint = "The cell is blank." if not text else "Year first; hours from 00 to 23; no zone."
        hint = SERIAL_HINT if SERIAL.fullmatch(text) else hint
        raise Misread(expected, hint)
    try:
        when = datetime.fromisoformat(f"{found[1]}T{found[2] or '00'}:{found[3] or '00'}")
        seconds = float((found[4] or ":00")[1:])
    except ValueError:
        raise Misread(expected, "There is no such time.") from None
    if not FIRST_YEAR <= when.year <= LAST_YEAR:
        raise Misread(expected, FAR_YEAR_HINT)
    return when + timedelta(minutes=round(seconds / 60.0))


def mark(text: str) -> DayMark:
    """Read where a day's temperatures came from; a blank cell is measured."""
    if not text:
        return DayMark.MEASURED
    if text.lower() not in MARKS:
        raise Misread("one of " + ", ".join(MARKS) + ", or blank")
    return MARKS[text.lower()]


def short_text(text: str) -> str:
    """Read a station's id or name."""
    if len(text) > LONGEST_NAME:
        raise Misread(f"a text of at most {LONGEST_NAME} characters")
    return name(text)
