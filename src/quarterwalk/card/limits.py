"""The tables in which the phone looks its counts up, each taken from the core's own rules.

No rule stands here: every limit is found by asking the core on which side a count lies.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from quarterwalk.call.figures import plain_number
from quarterwalk.call.rule import (
    Insects,
    Squares,
    blasted_side,
    full_line,
    insect_side,
    set_side,
    verdict_for,
)
from quarterwalk.guideline import BlastedShare, Guideline, load_routine
from quarterwalk.reading.take import readable

Json = dict[str, Any]

# Half again a full walk of 100 plants, and 8 squares on each of its plants: more than one
# walk on the phone holds (this project's rule). [count]
MOST_PLANTS = 150
MOST_SQUARES = 800

_INSECTS = (Insects.FEW, Insects.MIDDLE, Insects.NEAR, Insects.OVER)
_SQUARES = (Squares.FINE, Squares.UNDER, Squares.WELL_UNDER)


@dataclass(frozen=True, slots=True)
class Judged:
    """A guideline that the phone can follow, and the line that was chosen in its range.

    `chosen` is None where the published line holds. [insects per 100]
    """

    guideline: Guideline
    chosen: Fraction | None = None

    def line(self, week: int | None) -> Fraction:
        """Give the line of a squaring week; None is the bloom. [insects per 100]"""
        return full_line(self.guideline, week, self.chosen)

    def floor(self, week: int | None) -> Fraction | None:
        """Give the floor of a squaring week; None is the bloom. [fraction, 0 to 1]"""
        floor = None if self.guideline.blasted else self.guideline.floor_for(week)
        return None if floor is None else floor.floor


def limits(judged: Judged | None) -> Json:
    """Give everything that counts are compared with.

    Parameters
    ----------
    judged : Judged or None
        The rule; None where there is none that the phone can follow: no line, no floor.

    Returns
    -------
    dict
        Ready for JSON.
    """
    routine = load_routine()
    guideline = None if judged is None else judged.guideline
    blasted = None if guideline is None else guideline.blasted
    floors = [] if guideline is None or blasted else guideline.floors
    return {
        "full": routine.full_walk_plants,
        "least": routine.least_plants,
        "few": routine.few_plants,
        "least_a_quarter": routine.least_per_quadrant,
        "readable_squares": routine.readable_sites,
        "thin_squares": routine.thin_sites,
        "squaring": _squaring(),
        "needs": None if guideline is None else needs(guideline),
        "insects": [
            {"line": plain_number(line), "rows": insect_rows(line)} for line in _lines(judged)
        ],
        "squares": [
            {"floor": plain_number(floor), "rows": square_rows(floor)}
            for floor in dict.fromkeys(each.floor for each in floors)
        ],
        "blasted": None if blasted is None else {"rows": blasted_rows(blasted)},
        "verdicts": {
            insects.value: {squares.value: verdict_for(insects, squares).value
                            for squares in Squares}
            for insects in _INSECTS
        },
    }  # fmt: skip


def needs(guideline: Guideline) -> str:
    """Say what a rule goes by: the insects alone, or a second measure too.

    Parameters
    ----------
    guideline : Guideline
        The rule.

    Returns
    -------
    str
    """
    if guideline.blasted is not None:
        return "insects-and-blasted"
    return "insects-and-set" if guideline.needs_set else "insects"


@cache
def insect_rows(line: Fraction) -> list[list[int]]:
    """Give the fewest insects with which a walk is on each side of a line.

    Parameters
    ----------
    line : Fraction
        The line in force. [insects per 100]

    Returns
    -------
    list of list of int
        Row n is for n plants: the fewest for middle, for near and for over. [count]
    """

    def side(insects: int, plants: int) -> int:
        return _INSECTS.index(insect_side(Fraction(100 * insects, plants), line))

    return _rows(side, len(_INSECTS), MOST_PLANTS, most=None)


@cache
def square_rows(floor: Fraction) -> list[list[int]]:
    """Give the fewest lost squares with which a walk is under a floor.

    Parameters
    ----------
    floor : Fraction
        The week's floor. [fraction, 0 to 1]

    Returns
    -------
    list of list of int
        Row m is for m squares: the fewest for under and for well under; m + 1 where all
        lost are not enough. [count]
    """

    def side(lost: int, squares: int) -> int:
        return _SQUARES.index(set_side(Fraction(squares - lost, squares), floor))

    return _rows(side, len(_SQUARES), MOST_SQUARES, most=1)


@cache
def blasted_rows(blasted: BlastedShare) -> list[list[int]]:
    """Give the fewest blasted squares with which a walk has what a rule asks for.

    Parameters
    ----------
    blasted : BlastedShare
        What the rule asks for.

    Returns
    -------
    list of list of int
        Row m is for m squares: the fewest for the share asked for, and for well over it;
        m + 1 where all blasted are not enough. [count]
    """

    def side(dead: int, squares: int) -> int:
        return _SQUARES.index(blasted_side(Fraction(dead, squares), blasted))

    return _rows(side, len(_SQUARES), MOST_SQUARES, most=1)


def _rows(
    side: Callable[[int, int], int], sides: int, last: int, *, most: int | None
) -> list[list[int]]:
    """Find the fewest that reach each side, for 0 to `last` looked at.

    On nothing looked at nothing was found: its row asks for one, which can't be. With more
    looked at it never takes fewer, so the search goes on where it stood. `most` is how many
    one that was looked at can hold.
    """
    fewest = [1] * (sides - 1)
    rows = [list(fewest)]
    for looked in range(1, last + 1):
        fewest = [
            _least(side, reached, looked, start if looked > 1 else 0, most)
            for reached, start in enumerate(fewest, start=1)
        ]
        rows.append(list(fewest))
    return rows


def _least(
    side: Callable[[int, int], int], reached: int, looked: int, start: int, most: int | None
) -> int:
    count = start
    while (most is None or count <= most * looked) and side(count, looked) < reached:
        count += 1
    return count


@cache
def _squaring() -> list[int]:
    """Give the fewest squaring plants, of so many looked at, with which set can be read."""
    enough = load_routine().thin_sites
    return [
        next(n for n in range(plants + 1) if readable(enough, plants, n))
        for plants in range(MOST_PLANTS + 1)
    ]


def _lines(judged: Judged | None) -> Iterator[Fraction]:
    """Give each line that may be in force, once."""
    if judged is None:
        return
    weeks = [week for line in judged.guideline.lines for week in line.weeks or (1,)]
    yield from dict.fromkeys(judged.line(week) for week in weeks)
