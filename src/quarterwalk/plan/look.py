"""One look of a walk under search: what ending at each count would do."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from quarterwalk.guideline import load_routine
from quarterwalk.plan.columns import Columns, columns
from quarterwalk.plan.course import Course
from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.plan import Stopping
from quarterwalk.plan.points import Criterion, points_for
from quarterwalk.plan.prior import FINE, fields_for
from quarterwalk.plan.regions import Room, Span
from quarterwalk.plan.worlds import NOMINAL, World


@dataclass(frozen=True)
class Aims:
    """What a plan must keep, and what it is to save.

    Parameters
    ----------
    points : Columns
        The points in every world.
    sign : float array, shape (points,)
        1 where to treat is the error, -1 where not to treat is. [dimensionless]
    allowed : float array, shape (points,)
        Error allowed above the full walk's. [fraction]
    full : float array, shape (points,)
        Chance that the full walk says treat. [fraction]
    fields : Columns
        The usual spread of fields, in the nominal world.
    weight : float array, shape (fields,)
        How many of the fields each stands for. [fraction]
    """

    points: Columns
    sign: FloatArray
    allowed: FloatArray
    full: FloatArray
    fields: Columns
    weight: FloatArray

    @property
    def course(self) -> Course:
        """The walk."""
        return self.points.course


def aims_for(
    course: Course,
    worlds: tuple[World, ...],
    criterion: Criterion,
    nodes: tuple[int, int] = FINE,
) -> Aims:
    """Set out what a plan of a course must keep.

    Parameters
    ----------
    course : Course
        The walk.
    worlds : tuple of World
        In which the limits are kept.
    criterion : Criterion
        The limits.
    nodes : tuple of int
        How finely the spread of fields is taken. [count]

    Returns
    -------
    Aims
    """
    points, spread = points_for(course.question), fields_for(course.question, nodes)
    density = np.array([point.density for point in points])
    share = np.array([point.share for point in points])
    allowed = np.array([criterion.allowed(point) for point in points])
    treat = [course.question.treat(point.density, point.share) for point in points]
    at_points = columns(course, worlds, density, share)
    return Aims(
        at_points,
        np.tile(np.where(treat, -1.0, 1.0), len(worlds)),
        np.tile(allowed, len(worlds)),
        at_points.full_walk(),
        columns(course, (NOMINAL,), spread.density, spread.share),
        spread.weight,
    )


@dataclass(frozen=True)
class AtLook:
    """What a look can do.

    Parameters
    ----------
    room : Room
        Where its limits may lie.
    base : float array, shape (points,)
        Error above the full walk's where the walk never ends at this look. [fraction]
    hold, treat : float arrays, shape (points, insects, lost)
        What ending at single counts adds to it. [fraction]
    saved : float array, shape (insects, lost)
        What ending at single counts saves, in the unit of the cost.
    """

    room: Room
    base: FloatArray
    hold: FloatArray
    treat: FloatArray
    saved: FloatArray


def room_at(course: Course, look: int, stopping: Stopping) -> Room:
    """Say where the limits of a look may lie.

    Parameters
    ----------
    course : Course
        The walk.
    look : int
        Which look, from 0.
    stopping : Stopping
        For what the walk may end.

    Returns
    -------
    Room
        Nothing that the rule itself would call treat may hold, and the other way round:
        so the call on the counts says what the plan said.
    """
    plants, squares = course.plants[look], course.squares[look]
    insects = course.question.least_insects(plants)
    lost = course.question.least_lost(squares)
    alone = course.question.bar is None
    # a call says treat only where the squares that it asks for can be read
    read = alone or squares >= load_routine().thin_sites
    either = read and stopping is Stopping.EITHER_WAY
    return Room(
        insects_low=Span(-1, insects - 1),
        lost_low=Span(-1, -1 if alone else lost - 1),
        sum_low=Span(0, -1 if alone else insects + lost - 1),
        insects_high=Span(insects, course.cap_insects) if either else None,
        lost_high=Span(lost, max(lost, course.cap_lost)) if either else None,
    )
