"""On how many plants of each stop squares are counted, week by week."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.field import Layout
from quarterwalk.field.square_plants import square_plants
from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, Guideline
from quarterwalk.walk import QUADRANTS


@dataclass(frozen=True, slots=True)
class WeekSquares:
    """One squaring week; the last one stands for all later ones too.

    Parameters
    ----------
    week : int
        Squaring week. [from 1]
    stops : tuple of int
        Plants of each stop of a quarter, in the order in which the quarter's stops are
        walked; they are the stop's first ones. [count]
    every : bool
        Whether that is every plant.
    """

    week: int
    stops: tuple[int, ...]
    every: bool

    @property
    def plants(self) -> int:
        """Plants in each quarter. [count]"""
        return sum(self.stops)


def squares_by_week(layout: Layout, guideline: Guideline | None) -> tuple[WeekSquares, ...]:
    """Say for each squaring week which plants get their squares counted.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk; its quarters have the same stops and plants.
    guideline : Guideline or None
        The rule; one that does not read squares asks for none.

    Returns
    -------
    tuple of WeekSquares
        Weeks 1 to 3; the last holds for later weeks and in bloom.
    """
    return tuple(_week(layout, guideline, week) for week in range(1, CLOSEST_WATCH_WEEKS + 1))


def _week(layout: Layout, guideline: Guideline | None, week: int) -> WeekSquares:
    counted = square_plants(layout.stops, guideline, week)
    mine = [stop for stop in layout.stops if stop.quadrant is QUADRANTS[0]]
    stops = tuple(counted[stop.number] for stop in mine)
    return WeekSquares(week, stops, stops == tuple(stop.plants for stop in mine))
