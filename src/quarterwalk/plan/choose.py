"""Which design a field is walked by: the one that takes the fewest minutes, or the whole walk."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from quarterwalk.plan.course import Course, course_of
from quarterwalk.plan.minutes import USUAL_PACE, Pace, full_walk_minutes, minutes_by_look
from quarterwalk.plan.plan import SquaresOn
from quarterwalk.plan.shelf import Shelved
from quarterwalk.plan.usual import first_square_plants


@dataclass(frozen=True, slots=True)
class Way:
    """How long the ways of a field are.

    Parameters
    ----------
    loops : mapping of tuple of int to tuple of float
        For each design, stops in each quadrant loop by loop: the length of each loop. [m]
    tour : float
        One tour through all stops of a full walk. [m]
    """

    loops: Mapping[tuple[int, ...], tuple[float, ...]]
    tour: float


@dataclass(frozen=True, slots=True)
class Cost:
    """What a plan costs in one field.

    Parameters
    ----------
    shelved : Shelved
        The plan.
    row : int
        Which of its rows the usual number of squares comes to, from 0.
    by_look : tuple of float
        Minutes spent by the end of each loop. [minutes]
    minutes : float
        Mean over the usual spread of fields. [minutes]
    clear_minutes : float
        Mean in a clear field. [minutes]
    full_minutes : float
        Of a full walk in one tour. [minutes]
    plants : float
        Mean over the usual spread of fields. [count]
    """

    shelved: Shelved
    row: int
    by_look: tuple[float, ...]
    minutes: float
    clear_minutes: float
    full_minutes: float
    plants: float

    @property
    def saves(self) -> float:
        """Minutes saved on average against the full walk; below 0 where it costs more."""
        return self.full_minutes - self.minutes


def cost_of(
    shelved: Shelved,
    way: Way,
    week: int | None,
    squares_a_plant: float,
    pace: Pace = USUAL_PACE,
) -> Cost:
    """Give what a plan costs in a field.

    Parameters
    ----------
    shelved : Shelved
        The plan.
    way : Way
        Of the field; it must have the plan's loops.
    week : int or None
        Squaring week: it says on how many plants squares are counted.
    squares_a_plant : float
        First positions on a plant. [count per plant]
    pace : Pace
        Of the scout.

    Returns
    -------
    Cost
        Its minutes, with the row that they belong to.
    """
    plan = shelved.plan
    counted = first_square_plants(plan.squares_on, week, plan.loops)
    row = nearest_row(shelved, round(counted * squares_a_plant))
    course = _counted_on(course_of(plan, row), plan.squares_on, counted)
    by_look = minutes_by_look(course, way.loops[plan.loops], pace)
    figures = shelved.figures[row]
    return Cost(
        shelved,
        row,
        by_look,
        _mean(by_look, figures.ends),
        _mean(by_look, figures.clear_ends),
        full_walk_minutes(course, way.tour, pace),
        figures.plants,
    )


def cheapest(costs: Sequence[Cost]) -> Cost | None:
    """Choose the plan that takes the fewest minutes on average.

    Parameters
    ----------
    costs : sequence of Cost
        Of one field.

    Returns
    -------
    Cost or None
        None where none saves anything: the whole walk is the best then.
    """
    saving = [each for each in costs if each.saves > 0.0]
    return min(saving, key=lambda each: each.minutes, default=None)


def nearest_row(shelved: Shelved, squares: int) -> int:
    """Say which row of a plan is nearest to so many squares.

    Parameters
    ----------
    shelved : Shelved
        The plan.
    squares : int
        Squares checked at the first look. [count]

    Returns
    -------
    int
        The row, from 0.
    """
    rows = shelved.plan.looks[0].rows
    return min(range(len(rows)), key=lambda row: abs(rows[row].squares - squares))


def _counted_on(course: Course, squares_on: SquaresOn, plants: int) -> Course:
    """Count squares on as many plants as the week asks for, in the first loop."""
    if squares_on is not SquaresOn.FIRST_LOOP:
        return course
    first, *others = course.stretches
    return replace(course, stretches=(replace(first, square_plants=plants), *others))


def _mean(spent: Sequence[float], ends: Sequence[float]) -> float:
    return sum(minutes * chance for minutes, chance in zip(spent, ends, strict=True))
