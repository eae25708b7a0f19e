"""How many plants and minutes a walk has ahead of it, from any counts at a look."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from quarterwalk.plan.columns import Columns, columns
from quarterwalk.plan.course import course_of
from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.outcome import sides
from quarterwalk.plan.plan import Plan, Row
from quarterwalk.plan.prior import fields_for
from quarterwalk.plan.worlds import NOMINAL


@dataclass(frozen=True)
class Ahead:
    """What lies ahead after one look.

    Parameters
    ----------
    plants : float array, shape (insects, lost)
        Mean plants still to be checked; 0 where the walk ends. [count]
    settled : float array, shape (insects, lost)
        Chance that the next look settles it; 1 where it is the full walk. [fraction]
    """

    plants: FloatArray
    settled: FloatArray


@lru_cache(maxsize=256)
def ahead(plan: Plan, row: int, look: int) -> Ahead:
    """Give what lies ahead from every count at a look.

    Parameters
    ----------
    plan : Plan
        A stop plan.
    row : int
        Which row of its looks, from 0: so many squares checked.
    look : int
        After which look, from 0.

    Returns
    -------
    Ahead
        Means over the fields that may show such counts: the usual spread of fields, weighed by
        how likely each is to show them. The last insects and the last lost squares stand for
        all beyond.

    Notes
    -----
    Exact: what later looks let through is carried back to this one, field by field.
    """
    course = course_of(plan, row)
    spread = fields_for(plan.question)
    fields = columns(course, (NOMINAL,), spread.density, spread.share)
    rows = [each.rows[row] for each in plan.looks]
    seen = spread.weight[:, None, None] * _unstopped(fields, look)
    left = _left(fields, rows, look, course.plants)
    often = seen.sum(axis=0)
    rest = float(course.plants[-1] - course.plants[look])
    mean = np.where(
        often > _NEVER_SEEN, (seen * left).sum(axis=0) / np.maximum(often, _NEVER_SEEN), rest
    )
    held, treated = sides(course, rows[look])
    over = held | treated
    settled = np.ones_like(mean)
    if look + 1 < len(rows):
        ends = np.logical_or(*sides(course, rows[look + 1])).astype(float)
        chance = fields.back(np.broadcast_to(ends, seen.shape), look)
        settled = (seen * chance).sum(axis=0) / np.maximum(often, _NEVER_SEEN)
    return Ahead(np.where(over, 0.0, mean), np.where(over, 1.0, settled))


def expected_minutes(table: Ahead, by_look: Sequence[float], look: int) -> FloatArray:
    """Give the mean minutes still to be walked, from every count at a look.

    Parameters
    ----------
    table : Ahead
        What lies ahead after that look.
    by_look : sequence of float
        Minutes spent by the end of each loop. [minutes]
    look : int
        Which look, from 0.

    Returns
    -------
    float array, shape (insects, lost)
        [minutes]
    """
    if look + 2 >= len(by_look):
        rest = np.full_like(table.plants, by_look[-1] - by_look[look])
        return np.where(table.plants > 0, rest, 0.0)
    next_loop = by_look[look + 1] - by_look[look]
    later = by_look[-1] - by_look[look + 1]
    minutes = next_loop + (1.0 - table.settled) * later
    return np.where(table.plants > 0, minutes, 0.0)


# Counts less likely than this are never seen: the whole rest is told for them. [fraction]
_NEVER_SEEN = 1e-300


def _unstopped(fields: Columns, look: int) -> FloatArray:
    """Give the chances of all counts at a look, had nothing ended the walk before."""
    reach = fields.first()
    for earlier in range(look):
        reach = fields.onward(reach, earlier)
    return reach


def _left(fields: Columns, rows: Sequence[Row], look: int, plants: Sequence[int]) -> FloatArray:
    """Give the plants still to be checked from every count at a look, field by field."""
    last = len(rows) - 1
    shape = (len(fields.density), fields.course.cap_insects + 1, fields.course.cap_lost + 1)
    left = np.full(shape, float(plants[last + 1] - plants[last]))
    for later in range(last, look, -1):
        held, treated = sides(fields.course, rows[later])
        after = fields.back(np.where(held | treated, 0.0, left), later - 1)
        left = float(plants[later] - plants[later - 1]) + after
    return left
