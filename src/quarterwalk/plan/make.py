"""Makes a stop plan: for each number of squares at a look, the limits that save most."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from quarterwalk.guideline import load_routine
from quarterwalk.plan.course import Course, walked
from quarterwalk.plan.descent import descend
from quarterwalk.plan.minutes import minutes_by_look, square_field_loops
from quarterwalk.plan.one_look import good_rows
from quarterwalk.plan.plan import Look, Plan, Row, SquaresOn, Stopping
from quarterwalk.plan.points import CRITERION, Criterion
from quarterwalk.plan.question import Question
from quarterwalk.plan.rising import rising_rows
from quarterwalk.plan.worlds import WORLDS, World
from quarterwalk.walk import QUADRANTS

TWO_LOOPS = (2, 3)
THREE_LOOPS = (1, 2, 2)
"""Stops in each quadrant, loop by loop: the designs that people walk. [count]"""

# Limits of three loops weigh the minutes of one loop against those of another: in a field of
# this size, about the middle of those that are walked (this project's rule). [acre]
_ACRES = 60.0

# Squares on each plant of the first loop for which rows are made: from one to seven, as many
# as plants have from week 1 to week 3 and later (common practice), closer together where
# a square more changes more. [squares a plant]
_A_PLANT = (1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.25, 3.5, 4, 4.5, 5, 5.5, 6, 7)

# Search from a neighbour needs fewer sweeps. [count]
_WARM_SWEEPS = 12


Told = Callable[[int, int], None]
"""Who is told what is done, and of how many."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A plan that is to be made.

    Parameters
    ----------
    question : Question
        What it answers.
    stopping : Stopping
        For what a walk may end early.
    squares_on : SquaresOn
        On which plants squares are counted; ``none`` where insects decide alone.
    loops : tuple of int
        Stops in each quadrant, loop by loop. [count]
    criterion : Criterion
        How far errors may rise.
    worlds : tuple of World
        In which.

    Raises
    ------
    ValueError
        If squares are asked and not counted, or the other way round, or there is one loop.
    """

    question: Question
    stopping: Stopping
    squares_on: SquaresOn
    loops: tuple[int, ...] = TWO_LOOPS
    criterion: Criterion = CRITERION
    worlds: tuple[World, ...] = WORLDS

    def __post_init__(self) -> None:
        if (self.question.bar is None) != (self.squares_on is SquaresOn.NONE):
            raise ValueError(
                f"squares must be counted where they decide, and only there, got {self}."
            )
        if len(self.loops) < 2:
            raise ValueError(f"a plan needs two loops or more, got {self.loops}.")


def first_squares(wanted: Wanted) -> tuple[int, ...]:
    """Give the squares of the first loop for which a plan has rows.

    Parameters
    ----------
    wanted : Wanted
        The plan.

    Returns
    -------
    tuple of int
        Rising; one row for 0 squares where insects decide alone. [count]
    """
    if wanted.question.bar is None:
        return (0,)
    plants = len(QUADRANTS) * wanted.loops[0] * load_routine().plants_a_stop
    each = _A_PLANT if len(wanted.loops) == len(TWO_LOOPS) else _A_PLANT[::2]
    return tuple(round(plants * squares) for squares in each)


def make_plan(wanted: Wanted, told: Told | None = None) -> Plan:
    """Search for the limits of a plan.

    Parameters
    ----------
    wanted : Wanted
        What it is to do.
    told : callable or None
        Told the rows done, and how many there are.

    Returns
    -------
    Plan
        The same for the same input.
    """
    courses = [
        walked(wanted.question, wanted.loops, wanted.squares_on, squares)
        for squares in first_squares(wanted)
    ]
    search = _two_loops if len(wanted.loops) == len(TWO_LOOPS) else _more_loops
    found = search(wanted, courses, told or _untold)
    looks = tuple(
        Look(courses[0].plants[look], tuple(rows[look] for rows in found))
        for look in range(len(wanted.loops) - 1)
    )
    return Plan(wanted.question, wanted.stopping, wanted.squares_on, wanted.loops, looks)


def _untold(done: int, of: int) -> None:
    """Tell nobody."""


def _two_loops(wanted: Wanted, courses: Sequence[Course], told: Told) -> list[tuple[Row, ...]]:
    good = []
    for course in courses:
        good.append(
            good_rows(course, wanted.stopping, worlds=wanted.worlds, criterion=wanted.criterion)
        )
        told(len(good), len(courses))
    return [(row,) for row in rising_rows(good)]


def _more_loops(wanted: Wanted, courses: Sequence[Course], told: Told) -> list[tuple[Row, ...]]:
    """Search row by row, each from the one before and not under its limits."""
    found: list[tuple[Row, ...]] = []
    for course in courses:
        cost = minutes_by_look(course, square_field_loops(_ACRES, course))
        search = partial(
            descend, course, wanted.stopping, cost,
            worlds=wanted.worlds, criterion=wanted.criterion,
        )  # fmt: skip
        done = None
        if found:
            moved = [
                _moved(row, squares)
                for row, squares in zip(found[-1], course.squares, strict=False)
            ]
            done = search(start=moved, over=found[-1], sweeps=_WARM_SWEEPS)
        if done is None or done.cost == math.inf:
            done = search()
        found.append(done.rows)
        told(len(found), len(courses))
    return found


def _moved(row: Row, squares: int) -> Row:
    """Move the limits on lost squares along with the number of squares."""
    times = squares / row.squares if row.squares else 1.0
    more = round(row.lost_low * times) - row.lost_low if row.lost_low > 0 else 0
    return replace(
        row,
        squares=squares,
        lost_low=row.lost_low + more,
        sum_low=row.sum_low + more if row.sum_low >= 0 else -1,
        lost_high=None if row.lost_high is None else round(row.lost_high * times),
    )
