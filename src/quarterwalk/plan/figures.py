"""What a plan comes to, row by row: how many walks end early, and how far errors rise."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from quarterwalk.plan.columns import columns
from quarterwalk.plan.course import Course, course_of
from quarterwalk.plan.numbers import number
from quarterwalk.plan.outcome import follow
from quarterwalk.plan.plan import Plan, Row
from quarterwalk.plan.points import points_for
from quarterwalk.plan.prior import fields_for
from quarterwalk.plan.question import Question
from quarterwalk.plan.worlds import NOMINAL, WORLDS, World


@dataclass(frozen=True, slots=True)
class RowFigures:
    """What one row of a plan comes to.

    Parameters
    ----------
    squares : int
        Squares checked at the first look. [count]
    ends : tuple of float, length looks + 1
        Of the usual spread of fields, the share whose walk ends at each look and at the full
        walk. [fraction]
    clear_ends : tuple of float
        The same for a clear field. [fraction]
    plants, plants_spread, clear_plants : float
        Mean plants and their standard deviation over the usual spread; mean plants of a
        clear field. [count]
    worst_clear, worst_near : float
        The most by which its error lies above the full walk's at the clear and the near
        points, in the worst of the four worlds. [percentage points]
    """

    squares: int
    ends: tuple[float, ...]
    clear_ends: tuple[float, ...]
    plants: float
    plants_spread: float
    clear_plants: float
    worst_clear: float
    worst_near: float


def figures_of(plan: Plan) -> tuple[RowFigures, ...]:
    """Work out what a plan comes to.

    Parameters
    ----------
    plan : Plan
        A stop plan.

    Returns
    -------
    tuple of RowFigures
        One for each row of its looks.
    """
    return tuple(
        row_figures(course_of(plan, number), [look.rows[number] for look in plan.looks])
        for number in range(len(plan.looks[0].rows))
    )


def row_figures(course: Course, rows: list[Row]) -> RowFigures:
    """Work out what one row of limits comes to.

    Parameters
    ----------
    course : Course
        The walk.
    rows : list of Row
        The limits of each look.

    Returns
    -------
    RowFigures
    """
    spread = fields_for(course.question)
    usual = follow(columns(course, (NOMINAL,), spread.density, spread.share), rows)
    density, share = clear_field(course.question)
    clear = follow(columns(course, (NOMINAL,), np.array([density]), np.array([share])), rows)
    ends = usual.ends @ spread.weight
    plants = np.array(usual.plants)
    mean = float(plants @ ends)
    errors = [worst_errors(course, rows, world) for world in WORLDS]
    return RowFigures(
        course.squares[0],
        tuple(float(each) for each in ends),
        tuple(float(each) for each in clear.ends[:, 0]),
        mean,
        float(np.sqrt((plants - mean) ** 2 @ ends)),
        float(clear.mean(clear.plants)[0]),
        max(clear for clear, _ in errors),
        max(near for _, near in errors),
    )


def worst_errors(course: Course, rows: list[Row], world: World) -> tuple[float, float]:
    """Give the most by which the error lies above the full walk's in one world.

    Parameters
    ----------
    course : Course
        The walk.
    rows : list of Row
        The limits of each look.
    world : World
        How insects and squares lie.

    Returns
    -------
    clear, near : float
        At the clear and at the near points. [percentage points]
    """
    points = points_for(course.question)
    excess = 100.0 * excess_errors(
        course,
        rows,
        world,
        np.array([point.density for point in points]),
        np.array([point.share for point in points]),
    )
    is_clear = np.array([point.clear for point in points])
    return float(excess[is_clear].max()), float(excess[~is_clear].max())


def excess_errors(
    course: Course, rows: list[Row], world: World, density: np.ndarray, share: np.ndarray
) -> np.ndarray:
    """Give the error above the full walk's at true values.

    Parameters
    ----------
    course : Course
        The walk.
    rows : list of Row
        The limits of each look.
    world : World
        How insects and squares lie.
    density, share : float arrays, shape (fields,)
        True values. [count per plant, fraction]

    Returns
    -------
    float array, shape (fields,)
        Below 0 where the plan errs less. [fraction]
    """
    fields = columns(course, (world,), density, share)
    more = follow(fields, rows).says_treat - fields.full_walk()
    treat = [course.question.treat(d, s) for d, s in zip(density, share, strict=True)]
    return np.where(treat, -more, more)


def clear_field(question: Question) -> tuple[float, float]:
    """Give the true values of what is called a clear field.

    Parameters
    ----------
    question : Question
        Its line and bar.

    Returns
    -------
    density, share : float
        [count per plant, fraction]
    """
    density = number("fields", "clear_density") * float(question.line) / 100.0
    if question.bar is None:
        return density, 0.0
    return density, max(0.0, float(question.bar.share) - number("fields", "clear_set"))
