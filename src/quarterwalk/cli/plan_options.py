"""The words behind ``plan`` and ``card``. Nothing heavy is imported here."""

from __future__ import annotations

import argparse
import math

from quarterwalk.cli.option_types import day, positive, split, week

DESIGNS = ((2, 3), (1, 2, 2))
"""Loops that a stop plan may have: stops a quarter in each. [count]"""

MOST_SQUARES, MOST_AMOUNT = 20, 10_000
"""First positions on one plant, and acres, seconds or metres, at most."""


MOST_COUNT = 10_000
"""Insects or squares of one walk at most. [count]"""


def planning(parser: argparse.ArgumentParser, fields: str, walks: str | None = None) -> None:
    """Add what chooses a stop plan.

    Parameters
    ----------
    parser : argparse.ArgumentParser
        Of a command.
    fields : str
        What a file of boundaries may be.
    walks : str or None
        What a table of walks may be; None for a command that tries no plan on walks.
    """
    parser.add_argument(
        "--guideline",
        required=True,
        metavar="NAME|FILE",
        help="the region's rule, or a guideline file of your own",
    )
    parser.add_argument("--week", type=week, required=True, metavar="N", help="week of squaring")
    parser.add_argument(
        "--line",
        type=positive,
        metavar="N",
        help="insects per 100 to treat at, inside the published range (default: its lower end)",
    )
    parser.add_argument(
        "--stop",
        choices=("hold-only", "either-way"),
        default="hold-only",
        help="end early for not to treat only, or for either answer (default: %(default)s)",
    )
    parser.add_argument(
        "--loops",
        type=loops,
        metavar="N+N",
        help="2+3 or 1+2+2 stops a quarter in each loop (default: what takes fewest minutes)",
    )
    parser.add_argument(
        "--squares-a-plant",
        type=squares,
        metavar="N",
        help="first positions on a plant (default: 2 in week 1, 3 in week 2, 5 later)",
    )
    _ground(parser, fields)
    _pace(parser)
    if walks is not None:
        _tried(parser, walks)


def _ground(parser: argparse.ArgumentParser, fields: str) -> None:
    parser.add_argument("--fields", metavar="FIELDS", help=fields)
    parser.add_argument(
        "--field", action="append", metavar="NAME", help="this field only; may be given again"
    )
    parser.add_argument("--date", type=day, metavar="DATE", help="day of the walk (default: today)")
    parser.add_argument(
        "--acres",
        type=amount,
        metavar="N",
        help="size of a square field, where no fields are given (default: 60)",
    )


def _pace(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--seconds-squares",
        type=amount,
        metavar="S",
        help="for a plant and its squares (default: 12)",
    )
    parser.add_argument(
        "--seconds-insects", type=amount, metavar="S", help="for a terminal alone (default: 8)"
    )
    parser.add_argument(
        "--pace", type=amount, metavar="METRES", help="walked in a minute (default: 75)"
    )


def _tried(parser: argparse.ArgumentParser, walks: str) -> None:
    parser.add_argument(
        "--walks", metavar="WALKS", help=f"what your own walks say of the plans: {walks}"
    )
    parser.add_argument(
        "--at",
        type=at,
        metavar="LOOK,INSECTS[,LOST,SQUARES]",
        help="where a walk with these counts stands; look 1 is the end of the first loop",
    )


def at(text: str) -> tuple[int, ...]:
    """Read a look and the counts there: insects, and where squares are asked lost ones of all."""
    parts = [part.strip() for part in text.split(",")]
    whole = all(part.isascii() and part.isdecimal() for part in parts)
    if not whole or len(parts) not in (2, 4):
        raise argparse.ArgumentTypeError(
            f'must be a look and its counts, such as 1,6 or 1,6,17,118, got "{text}"'
        )
    counts = tuple(map(int, parts))
    if counts[0] < 1:
        raise argparse.ArgumentTypeError(
            f'must begin with 1 for the end of the first loop, or 2, got "{text}"'
        )
    if max(counts) > MOST_COUNT:
        raise argparse.ArgumentTypeError(
            f'must have counts of at most {MOST_COUNT:,}, got "{text}"'
        )
    if len(counts) > 2 and counts[2] > counts[3]:
        raise argparse.ArgumentTypeError(
            f"must have no more squares lost than checked, got {counts[2]} lost of {counts[3]}"
        )
    return counts


def loops(text: str) -> tuple[int, ...]:
    """Read loops that a stop plan may have."""
    stops = split(text)
    if stops not in DESIGNS:
        raise argparse.ArgumentTypeError(f'must be 2+3 or 1+2+2, got "{text}"')
    return stops


def squares(text: str) -> float:
    """Read how many first positions a plant has. [count per plant]"""
    return _number(text, MOST_SQUARES)


def amount(text: str) -> float:
    """Read acres, seconds or metres."""
    return _number(text, MOST_AMOUNT)


def _number(text: str, most: int) -> float:
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not 0 < value <= most:
        raise argparse.ArgumentTypeError(
            f'must be a number above 0 and at most {most:,}, got "{text}"'
        )
    return value
