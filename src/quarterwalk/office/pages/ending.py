"""Ending walks early: the page on which a lead switches it, and what it comes to in a field."""

from __future__ import annotations

from collections.abc import Iterator

from django.urls import reverse

from quarterwalk.field import DEFAULT_PLAN
from quarterwalk.guideline import load_routine
from quarterwalk.office.early_end import cost_in
from quarterwalk.office.models import District
from quarterwalk.office.pages.judged_by import Fact
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.page import FormPage, cancel, to_fields
from quarterwalk.office.queries.field import FieldTold
from quarterwalk.office.translate import to_stopping
from quarterwalk.plan import CRITERION, Cost, Stopping
from quarterwalk.walk import QUADRANTS

_FULL = load_routine().full_walk_plants
_FIRST = len(QUADRANTS) * DEFAULT_PLAN.split[0] * DEFAULT_PLAN.plants


def ending_page(district: District) -> FormPage:
    """Give the page on which a lead says whether walks may end early.

    Parameters
    ----------
    district : District
        Theirs.

    Returns
    -------
    FormPage
    """
    return FormPage(
        "Ending walks early",
        "Save",
        said=(
            f"A walk checks {_FULL} plants in two loops. After the first loop, {_FIRST} plants, the"
            " phone compares what was counted with limits that were worked out beforehand, and"
            " says whether the walk may end there. The scout may always go on.",
            f"This is off until a lead of {district.name} switches it on here. It then holds for"
            " every field whose rule and line the package has limits for; in the others all"
            " plants are walked. The page of each field says how many minutes its walk takes.",
            "Calls get a little worse. More of them are wrong than after full walks: in clear"
            f" fields at most {CRITERION.clear:.0f} in 100 more, near the lines at most"
            f" {CRITERION.near:.0f} in 100 more. These bounds are a rule of this project; they are"
            " worked out, not seen in fields.",
            "To treat, the walk is finished, unless you choose either way.",
            "After a change phones get new cards the next time they ask for the day. Walks and"
            " calls from before stay as they are.",
        ),
        above=to_fields(),
        back=cancel(to_fields()),
    )


def ending_fact(told: FieldTold, may: May) -> Fact:
    """Say whether a walk of a field may end early today, and what that saves.

    Parameters
    ----------
    told : FieldTold
        What is known of the field.
    may : May
        Who reads it; a lead is shown the way to change it.

    Returns
    -------
    Fact
    """
    return Fact(
        "Ending the walk early",
        tuple(_ending(told)),
        "Change it for the district",
        reverse("district-ending") if may.lead else "",
    )


def _ending(told: FieldTold) -> Iterator[str]:
    row = told.standing.field
    if to_stopping(row.district) is None:
        yield "Off"
        return
    cost = cost_in(row, told.layout, told.dates)
    if cost is None:
        yield "No limits for this rule, line and week: finish the walk"
        return
    yield f"May end after the first loop: {_takes(cost)}"
    if cost.saves <= 0.0:
        yield (
            f"All {_FULL} plants in one round would take {_minutes(cost.full_minutes)} minutes,"
            " no more than that on average"
        )
    if cost.shelved.plan.stopping is Stopping.HOLD_ONLY:
        yield "To treat, finish the walk"


def _takes(cost: Cost) -> str:
    return (
        f"about {_minutes(cost.minutes)} minutes on average here, {_minutes(cost.clear_minutes)}"
        f" in a clear field; both loops take {_minutes(cost.by_look[-1])}"
    )


def _minutes(minutes: float) -> str:
    return f"{minutes:.0f}"
