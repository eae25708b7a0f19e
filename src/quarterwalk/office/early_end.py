"""Whether a walk of a field may end early on a day, and the minutes that it takes there."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from quarterwalk.call.season import in_season
from quarterwalk.crop import CropDates, stage_on
from quarterwalk.field import DEFAULT_PLAN, Field, Layout, Plan, lay_out
from quarterwalk.office.models import FieldRow
from quarterwalk.office.translate import to_guideline, to_line, to_stopping
from quarterwalk.plan import (
    Cost,
    Question,
    Shelved,
    Stopping,
    Way,
    cost_of,
    question_for,
    shelved_for,
    squares_a_plant_in,
    squares_on_in,
)

# All stops in one loop: how a field is walked that is walked to the end anyway.
_TOUR = Plan((sum(DEFAULT_PLAN.split),), DEFAULT_PLAN.plants)


def stopping_in(row: FieldRow, on: date, dates: CropDates | None) -> Stopping | None:
    """Say for what a walk of a field may end early on a day.

    Parameters
    ----------
    row : FieldRow
        With its district.
    on : date
        The day.
    dates : CropDates or None
        Of the field's crop, given or worked out.

    Returns
    -------
    Stopping or None
        None where it may not: walks of the district are not to end early, the weeks that the
        day may lie in ask different things, or no plan of the package answers the rule.
    """
    found = _plan_in(row, on, dates)
    return None if found is None else found[0].plan.stopping


def cost_in(row: FieldRow, layout: Layout, dates: CropDates | None) -> Cost | None:
    """Give what the stop plan of a district costs in one of its fields.

    Parameters
    ----------
    row : FieldRow
        With its district.
    layout : Layout
        The field laid out for the day.
    dates : CropDates or None
        Of the field's crop, given or worked out.

    Returns
    -------
    Cost or None
        None where a walk may not end early.
    """
    found = _plan_in(row, layout.on, dates)
    return None if found is None else _cost(found[0], layout, found[1])


def _plan_in(row: FieldRow, on: date, dates: CropDates | None) -> tuple[Shelved, int | None] | None:
    """Find the plan with the loops that walks are laid in, and the week that it is used in."""
    stopping, asked = to_stopping(row.district), _asked(row, on, dates)
    if stopping is None or asked is None:
        return None
    question, week = asked
    found = shelved_for(question, stopping, squares_on_in(question, week))
    loops = DEFAULT_PLAN.split
    return next(((each, week) for each in found if each.plan.loops == loops), None)


def _asked(row: FieldRow, on: date, dates: CropDates | None) -> tuple[Question, int | None] | None:
    """Give what a walk of that day must answer, with the first week that the day may lie in."""
    guideline = to_guideline(row)
    if guideline is None or dates is None:
        return None
    weeks = in_season(stage_on(on, dates), guideline).weeks
    questions = {question_for(guideline, week, to_line(row)) for week in weeks}
    if len(questions) != 1:
        return None
    (question,) = questions
    # squares are counted on most plants in the first of the weeks, as the card says it too
    return None if question is None else (question, weeks[0])


def _cost(shelved: Shelved, layout: Layout, week: int | None) -> Cost:
    loops = tuple(loop.metres for loop in layout.loops)
    way = Way({shelved.plan.loops: loops}, _tour_metres(layout.field, layout.on))
    return cost_of(shelved, way, week, squares_a_plant_in(week))


@lru_cache(maxsize=256)
def _tour_metres(field: Field, on: date) -> float:
    return sum(loop.metres for loop in lay_out(field, on, plan=_TOUR).loops)
