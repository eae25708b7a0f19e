"""What one's own walks would change: the errors and the plants of a plan, tried in their world."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.plan.columns import columns
from quarterwalk.plan.course import Course, course_of
from quarterwalk.plan.descent import descend
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.learn import Learned
from quarterwalk.plan.make import TWO_LOOPS
from quarterwalk.plan.minutes import minutes_by_look, square_field_loops
from quarterwalk.plan.one_look import best_row
from quarterwalk.plan.outcome import follow
from quarterwalk.plan.plan import Plan, Row
from quarterwalk.plan.points import CRITERION
from quarterwalk.plan.prior import FINE, Spread, fields_for
from quarterwalk.plan.worlds import NOMINAL, WORLDS, World

# The size of field for which the minutes of three loops are weighed, as in packaged plans
# (this project's rule). [acre]
_ACRES = 60.0


@dataclass(frozen=True, slots=True)
class Tried:
    """A plan tried in the world of one's own walks; the plan itself stays as it is.

    Parameters
    ----------
    worst_clear, worst_near : float
        The most by which its error lies above the full walk's in that world, at clear and at
        near points. [percentage points]
    plants : float
        Mean plants on the usual spread of fields. [count]
    own_plants : float
        Mean plants on the own spread of fields, in the own world. [count]
    fitted : tuple of Row
        Limits that would keep the errors in that world too.
    fitted_plants : float
        Mean plants with those, on the usual spread of fields. [count]
    """

    worst_clear: float
    worst_near: float
    plants: float
    own_plants: float
    fitted: tuple[Row, ...]
    fitted_plants: float


def try_plan(plan: Plan, row: int, learned: Learned) -> Tried:
    """Try one row of a plan in the world of one's own walks.

    Parameters
    ----------
    plan : Plan
        A stop plan.
    row : int
        Which row of its looks, from 0.
    learned : Learned
        What the walks say.

    Returns
    -------
    Tried
        Exact for that world; how well it is known, the intervals of `learned` say.
    """
    course, world = course_of(plan, row), learned.world()
    rows = [look.rows[row] for look in plan.looks]
    clear, near = worst_errors(course, rows, world)
    fitted = _fitted(plan, course, rows, world)
    spread = Spread(learned.median.value, learned.log_spread.value)
    return Tried(
        clear,
        near,
        _mean_plants(course, rows, NOMINAL, Spread()),
        _mean_plants(course, rows, world, spread),
        fitted,
        _mean_plants(course, list(fitted), NOMINAL, Spread()),
    )


def _fitted(plan: Plan, course: Course, rows: list[Row], world: World) -> tuple[Row, ...]:
    """Search for limits that keep the errors in one world more; kept ones stay as they are."""
    errors = worst_errors(course, rows, world)
    if errors[0] <= CRITERION.clear and errors[1] <= CRITERION.near:
        return tuple(rows)
    worlds = (*WORLDS, world)
    if len(plan.loops) == len(TWO_LOOPS):
        return (best_row(course, plan.stopping, worlds=worlds),)
    cost = minutes_by_look(course, square_field_loops(_ACRES, course))
    return descend(course, plan.stopping, cost, worlds=worlds, start=rows).rows


def _mean_plants(course: Course, rows: list[Row], world: World, spread: Spread) -> float:
    fields = fields_for(course.question, FINE, spread)
    done = follow(columns(course, (world,), fields.density, fields.share), rows)
    return float(done.mean(done.plants) @ fields.weight)
