"""The stop plans on a card: at which counts the phone may say that a walk ends early."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from quarterwalk.card.about import CardFor
from quarterwalk.field import Layout
from quarterwalk.guideline import load_routine
from quarterwalk.plan import (
    Row,
    Shelved,
    course_of,
    question_for,
    shelved_for,
    squares_on_in,
)
from quarterwalk.plan.minutes import minutes_by_look
from quarterwalk.walk import QUADRANTS

Json = dict[str, Any]


def stop_plans(about: CardFor, weeks: Iterable[int | None]) -> list[Json]:
    """Give the stop plan of each squaring week that has one.

    Parameters
    ----------
    about : CardFor
        The field on its day; without `stopping` there is no plan.
    weeks : iterable of int or None
        Squaring weeks, from 1; None while blooming.

    Returns
    -------
    list of dict
        Ready for JSON; nothing of a week for which the package has no plan in these loops.
    """
    loops = _loops_of(about.layout)
    if loops is None:
        return []
    found = ((week, _shelved(about, week, loops)) for week in weeks)
    return [_plan(week, each, about.layout) for week, each in found if each is not None]


def _shelved(about: CardFor, week: int | None, loops: tuple[int, ...]) -> Shelved | None:
    """Find the plan of one week that is made for the field's own loops."""
    if about.followed is None or about.stopping is None:
        return None
    question = question_for(about.followed, week, about.line)
    if question is None:
        return None
    designs = shelved_for(question, about.stopping, squares_on_in(question, week))
    return next((each for each in designs if each.plan.loops == loops), None)


def _loops_of(layout: Layout) -> tuple[int, ...] | None:
    """Give the stops in each quadrant, loop by loop; None where no plan is made for them.

    Plans hold stops of the usual number of plants, as many of them in each quadrant.
    """
    if any(stop.plants != load_routine().plants_a_stop for stop in layout.stops):
        return None
    stops = Counter((stop.loop, stop.quadrant) for stop in layout.stops)
    each = [{stops[loop.number, quadrant] for quadrant in QUADRANTS} for loop in layout.loops]
    return tuple(min(counts) for counts in each) if all(len(n) == 1 for n in each) else None


def _plan(week: int | None, shelved: Shelved, layout: Layout) -> Json:
    plan, bar = shelved.plan, shelved.plan.question.bar
    return {
        "week": week,
        "hash": plan.hash,
        "squares": bar is not None,
        "bar": None if bar is None else bar.lost.value,
        "looks": [
            {
                "plants": look.plants,
                "a_quarter": look.plants // len(QUADRANTS),
                "loop": number + 1,
                "rows": [_row(row) for row in look.rows],
                "more": _more(shelved, number, layout),
            }
            for number, look in enumerate(plan.looks)
        ],
    }


def _row(row: Row) -> list[int | None]:
    return [
        row.squares, row.insects_low, row.lost_low, row.sum_low, row.insects_high, row.lost_high,
    ]  # fmt: skip


def _more(shelved: Shelved, look: int, layout: Layout) -> list[list[int]]:
    """Give for each row the mean plants and minutes still ahead where the walk goes on.

    Means over the usual spread of fields, whatever was counted: what the next looks settle is
    in them, so past the last look they are simply what is left.
    """
    metres = [loop.metres for loop in layout.loops]
    more = []
    for number, figures in enumerate(shelved.figures):
        course = course_of(shelved.plan, number)
        spent = (course.plants, minutes_by_look(course, metres))
        more.append([round(_ahead(each, figures.ends, look)) for each in spent])
    return more


def _ahead(spent: Sequence[float], ends: Sequence[float], look: int) -> float:
    """Give what is still ahead after a look, on average; all of it where no walk goes on."""
    later = range(look + 1, len(spent))
    going_on = sum(ends[end] for end in later)
    if going_on <= 0.0:
        return spent[-1] - spent[look]
    return sum(ends[end] * (spent[end] - spent[look]) for end in later) / going_on
