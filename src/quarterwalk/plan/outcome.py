"""What a plan comes to at given true values, exactly: which end, after how many plants."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from quarterwalk.plan.columns import BoolArray, Columns
from quarterwalk.plan.course import Course, course_of
from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.plan import Plan, Row
from quarterwalk.plan.worlds import NOMINAL, World


@dataclass(frozen=True)
class Outcomes:
    """Chances of all ends of a walk, field by field.

    Parameters
    ----------
    plants : tuple of int, length looks + 1
        Plants checked at each look and at the end. [count]
    hold, treat : float arrays, shape (looks + 1, fields)
        Chance to end there, not to treat or to treat; the last row is the full walk's. [fraction]
    """

    plants: tuple[int, ...]
    hold: FloatArray
    treat: FloatArray

    @property
    def says_treat(self) -> FloatArray:
        """Chance that the field is to be treated, shape (fields,). [fraction]"""
        return np.asarray(self.treat.sum(axis=0))

    @property
    def ends(self) -> FloatArray:
        """Chance to end at each look and at the full walk, shape (looks + 1, fields)."""
        return self.hold + self.treat

    def mean(self, cost: Sequence[float]) -> FloatArray:
        """Give the mean of what has been spent by the end.

        Parameters
        ----------
        cost : sequence of float, length looks + 1
            Spent by each look and by the end, such as plants or minutes.

        Returns
        -------
        float array, shape (fields,)
            In the unit of `cost`.
        """
        return np.asarray(cost, dtype=float) @ self.ends

    def spread(self, cost: Sequence[float]) -> FloatArray:
        """Give the standard deviation of what has been spent by the end."""
        spent = np.asarray(cost, dtype=float)
        gap = spent[:, None] - self.mean(cost)[None, :]
        return np.asarray(np.sqrt((gap**2 * self.ends).sum(axis=0)))


def sides(course: Course, row: Row) -> tuple[BoolArray, BoolArray]:
    """Give the counts at which a row ends the walk.

    Parameters
    ----------
    course : Course
        It says how far counts go.
    row : Row
        Limits of a look.

    Returns
    -------
    hold, treat : bool arrays, shape (insects, lost)
        Hold goes first, as it does where counts are looked up.
    """
    insects = np.arange(course.cap_insects + 1)[:, None]
    lost = np.arange(course.cap_lost + 1)[None, :]
    hold = (insects <= row.insects_low) | (lost <= row.lost_low) | (insects + lost <= row.sum_low)
    if row.insects_high is None or row.lost_high is None:
        return hold, np.zeros_like(hold)
    return hold, (insects >= row.insects_high) & (lost >= row.lost_high) & ~hold


def follow(fields: Columns, rows: Sequence[Row]) -> Outcomes:
    """Follow a walk from look to look in all fields at once.

    Parameters
    ----------
    fields : Columns
        The fields.
    rows : sequence of Row
        The limits of each look.

    Returns
    -------
    Outcomes
        All ends of the walk.

    Notes
    -----
    Chances of the counts at which nothing ended are carried on from look to look: exact, but
    for the rounding of floating numbers. Insects and lost squares are independent given the
    true values until a look has taken some counts away.
    """
    reach = fields.first()
    hold, treat = [], []
    for look, row in enumerate(rows):
        held, treated = sides(fields.course, row)
        hold.append((reach * held).sum(axis=(1, 2)))
        treat.append((reach * treated).sum(axis=(1, 2)))
        reach = reach * ~(held | treated)
        if look + 1 < len(rows):
            reach = fields.onward(reach, look)
    left = reach.sum(axis=(1, 2))
    at_end = (reach * fields.full_ahead(len(rows) - 1)).sum(axis=(1, 2))
    hold.append(left - at_end)
    treat.append(at_end)
    return Outcomes(fields.course.plants, np.array(hold), np.array(treat))


def outcomes(
    plan: Plan,
    row: int,
    density: FloatArray,
    share: FloatArray,
    world: World = NOMINAL,
) -> Outcomes:
    """Give what one row of a plan comes to.

    Parameters
    ----------
    plan : Plan
        A stop plan.
    row : int
        Which row of its looks, from 0: so many squares checked.
    density, share : float arrays, shape (fields,)
        True values. [count per plant, fraction]
    world : World
        How insects and squares lie.

    Returns
    -------
    Outcomes
        All ends of the walk, exact.
    """
    fields = Columns(course_of(plan, row), (world,) * len(density), density, share)
    return follow(fields, [look.rows[row] for look in plan.looks])
