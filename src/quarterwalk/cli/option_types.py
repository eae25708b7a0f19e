"""What the words behind an option may be. Nothing heavy is imported here."""

from __future__ import annotations

import argparse

TYPE_CHECKING = False

if TYPE_CHECKING:
    from datetime import date
    from fractions import Fraction

MOST_PLANTS, MOST_WEEKS = 50, 8
"""What a stop and a sheet take at most."""


def day(text: str) -> date:
    """Read a day as a table holds it."""
    # only who gives a day waits for what reads tables, and then needs it anyway
    from quarterwalk.files.cells import day as day_of_cell
    from quarterwalk.files.cells import required
    from quarterwalk.files.coded import Misread

    try:
        return required(day_of_cell, "a date as YYYY-MM-DD")(text)
    except Misread as wrong:
        hint = wrong.hint if text else ""
        told = f'must be {wrong.expected}, got "{text}". {hint}'
        raise argparse.ArgumentTypeError(told.removesuffix(". ")) from None


def day_or_range(text: str) -> tuple[date, date]:
    """Read a day, or the first and the last of a range as ``DATE/DATE``."""
    first, slash, last = text.partition("/")
    days = day(first), day(last if slash else first)
    if days[1] < days[0]:
        raise argparse.ArgumentTypeError(f'must not end before it begins, got "{text}"')
    return days


def near(text: str) -> tuple[float, float]:
    """Read latitude and longitude, and give longitude and latitude."""
    north, _, east = text.partition(",")
    try:
        latitude, longitude = float(north), float(east)
    except ValueError:
        latitude = longitude = 999.0
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        raise argparse.ArgumentTypeError(
            f'must be latitude and longitude in degrees, such as 33.6,-101.9, got "{text}"'
        )
    return longitude, latitude


def degrees(text: str) -> float:
    """Read degrees Fahrenheit."""
    try:
        value = float(text)
    except ValueError:
        value = 999.0
    if not -100 <= value <= 200:
        raise argparse.ArgumentTypeError(f'must be degrees Fahrenheit, such as 60, got "{text}"')
    return value


def level(text: str) -> float:
    """Read the chance that a range holds the true value."""
    # only who gives one waits for what reads walks, and then needs it anyway
    from quarterwalk.reading import HIGHEST_LEVEL

    chance = _number(text)
    if not 0.0 < chance <= HIGHEST_LEVEL:
        raise argparse.ArgumentTypeError(
            f'must be above 0 and at most {HIGHEST_LEVEL}, such as 0.90, got "{text}"'
        )
    return chance


def share(text: str) -> float:
    """Read a share that is neither none nor all."""
    part = _number(text)
    if not 0.0 < part < 1.0:
        raise argparse.ArgumentTypeError(f'must lie between 0 and 1, such as 0.5, got "{text}"')
    return part


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return float("nan")


def positive(text: str) -> Fraction:
    """Read a line: an exact number above 0."""
    # only who chooses a line waits for what makes calls, and then needs it anyway
    from quarterwalk.call.figures import exact

    try:
        number = exact(text)
    except ValueError:
        number = None
    if not number:
        raise argparse.ArgumentTypeError(
            f'must be a number above 0, such as 25 or 27.5, got "{text}"'
        )
    return number


def split(text: str) -> tuple[int, ...]:
    """Read the stops a quarter in each loop."""
    try:
        stops = tuple(int(part) for part in text.split("+"))
    except ValueError:
        stops = ()
    if not stops or min(stops) < 1:
        raise argparse.ArgumentTypeError(
            f'must be stops a quarter in each loop, such as 2+3 or 1+2+2, got "{text}"'
        )
    return stops


def count(text: str) -> int:
    """Read how many plants a stop has."""
    if not text.isdecimal() or not 1 <= int(text) <= MOST_PLANTS:
        raise argparse.ArgumentTypeError(
            f'must be a whole number from 1 to {MOST_PLANTS}, got "{text}"'
        )
    return int(text)


def week(text: str) -> int:
    """Read a week of squaring. [from 1]"""
    if not text.isdecimal() or not 1 <= int(text) <= MOST_WEEKS:
        raise argparse.ArgumentTypeError(
            f'must be a week of squaring from 1 to {MOST_WEEKS}, got "{text}"'
        )
    return int(text)
