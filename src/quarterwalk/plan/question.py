"""What a walk must answer: treat or not, by one measure or by two, exact on the counts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from quarterwalk.guideline import Guideline
from quarterwalk.walk import Method


class Lost(StrEnum):
    """Which squares count against a field."""

    ANY = "lost"  # missing, blasted or flared: the set must be under its floor
    BLASTED = "blasted"  # blasted alone: the share must reach its line


@dataclass(frozen=True, slots=True)
class SquareBar:
    """What the squares must show before a field is treated.

    Parameters
    ----------
    share : Fraction
        Lost share of the squares: one less the floor, or the blasted share. [fraction]
    lost : Lost
        Which squares are counted; the set must be under its floor (more lost than
        `share`), a blasted share must reach its line.
    """

    share: Fraction
    lost: Lost = Lost.ANY

    def least(self, squares: int) -> int:
        """Give the fewest lost of so many squares with which a field is past the bar. [count]"""
        whole = self.share * squares
        return math.floor(whole) + 1 if self.lost is Lost.ANY else math.ceil(whole)

    def past(self, share: float) -> bool:
        """Tell whether a field with this true lost share is past the bar."""
        # points are written as decimals: a share meant to lie on the bar lies on it
        gap = share - float(self.share)
        if abs(gap) < _SAME:
            return self.lost is Lost.BLASTED
        return gap > 0.0


# Shares nearer than this are the same written number. [fraction]
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Question:
    """What decides between treat and not treat.

    Parameters
    ----------
    line : Fraction
        Insects at which the line is reached. [insects per 100 plants]
    bar : SquareBar or None
        What the squares must show too; None where insects decide alone.
    """

    line: Fraction
    bar: SquareBar | None = None

    def least_insects(self, plants: int) -> int:
        """Give the fewest insects on so many plants that reach the line. [count]"""
        return math.ceil(self.line * plants / 100)

    def least_lost(self, squares: int) -> int:
        """Give the fewest lost of so many squares past the bar; 0 without a bar. [count]"""
        return 0 if self.bar is None else self.bar.least(squares)

    def treat(self, density: float, share: float) -> bool:
        """Tell whether a field with these true values is to be treated.

        Parameters
        ----------
        density : float
            Insects per plant. [count per plant]
        share : float
            Lost share of the squares; not looked at without a bar. [fraction]
        """
        over = density >= float(self.line) / 100 - _SAME
        return over and (self.bar is None or self.bar.past(share))


def question_for(
    guideline: Guideline, week: int | None, line: Fraction | None = None
) -> Question | None:
    """Give what decides under a guideline in one squaring week.

    Parameters
    ----------
    guideline : Guideline
        The region's rule.
    week : int or None
        Squaring week, from 1; None while blooming.
    line : Fraction or None
        A line chosen inside the published range; None takes its lower end.
        [insects per 100]

    Returns
    -------
    Question or None
        None where no stop plan can follow the rule: it does not count terminals, or low
        square set moves its line.
    """
    if guideline.method is not Method.TERMINAL or guideline.half_line is not None:
        return None
    at = guideline.line_for(week).low if line is None else line
    if guideline.blasted is not None:
        return Question(at, SquareBar(guideline.blasted.at_least, Lost.BLASTED))
    floor = guideline.floor_for(week)
    if floor is None:
        return Question(at)
    return Question(at, SquareBar(1 - floor.floor))
