"""Where days stand in a drawing of a season, and how large its words are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.picture.drawing import figure
from quarterwalk.picture.scale import Scale

SMALL, HEAD, LARGE = 14.0, 16.0, 22.0
"""Sizes of its words: beside marks, above a part, and the one number that counts. [px]"""

MARGIN = 9.0
"""Paper at either end of the days, so that a dot on the first is whole. [px]"""


@dataclass(frozen=True, slots=True)
class SeasonRoom:
    """The days of a season spread over the width of a drawing.

    Parameters
    ----------
    planted : date
        At the left end.
    last : date
        At the right end.
    width : float
        Of the drawing. [px]
    """

    planted: date
    last: date
    width: float

    @property
    def left(self) -> float:
        """Where the first day stands. [px]"""
        return MARGIN

    @property
    def right(self) -> float:
        """Where the last day stands. [px]"""
        return self.width - MARGIN

    @property
    def scale(self) -> Scale:
        """From days after planting to their place."""
        days = max((self.last - self.planted).days, 1)
        return Scale(0, days, self.left, self.right)

    def at(self, day: date) -> float:
        """Give the place of a day, held at the ends. [px]"""
        return self.scale((day - self.planted).days)

    def shows(self, day: date) -> bool:
        """Whether a day lies on the paper."""
        return self.planted <= day <= self.last

    def over(self, first: date, last: date, least: float = 0.0) -> tuple[float, float]:
        """Give both ends of whole days, held at the ends of the season. [px]

        Parameters
        ----------
        first, last : date
            The first and the last day.
        least : float
            Width that they take at least. [px]

        Returns
        -------
        (float, float)
        """
        left = self.scale((first - self.planted).days - 0.5)
        right = self.scale((last - self.planted).days + 0.5)
        lacking = max(0.0, least - (right - left)) / 2
        left = min(max(left - lacking, 0.0), self.width - least)
        return left, max(right + lacking, left + least)


def upright(x: float, top: float, bottom: float) -> str:
    """Write an upright line as the data of a path."""
    return f"M{figure(x)},{figure(top)}V{figure(bottom)}"
