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
    """Read a day as ISO 8601."""
    from datetime import date

    try:
        if len(text) != len("YYYY-MM-DD"):
            raise ValueError(text)
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'must be a date as YYYY-MM-DD, got "{text}"') from None


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
    """Read a chance."""
    try:
        chance = float(text)
    except ValueError:
        chance = 0.0
    if not 0.0 < chance < 1.0:
        raise argparse.ArgumentTypeError(f'must lie between 0 and 1, such as 0.90, got "{text}"')
    return chance


def positive(text: str) -> Fraction:
    """Read an exact number above 0."""
    from fractions import Fraction

    try:
        number = Fraction(text)
    except (ValueError, ZeroDivisionError):
        number = Fraction(0)
    if number <= 0:
        raise argparse.ArgumentTypeError(f'must be a number above 0, got "{text}"')
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
