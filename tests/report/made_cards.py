"""Cards of packaged plans, for the tests of the card."""

from __future__ import annotations

from datetime import date
from functools import cache

from quarterwalk.guideline import load_guideline
from quarterwalk.plan import (
    Cost,
    Stopping,
    Way,
    cost_of,
    question_for,
    shelved_for,
    squares_a_plant_in,
    squares_on_in,
)
from quarterwalk.plan.usual import first_square_plants
from quarterwalk.report.stop_card import StopCard, stop_card
from quarterwalk.report.stop_card_back import Place

DAY = date(2026, 6, 24)
BOTH, HOLD = Stopping.EITHER_WAY, Stopping.HOLD_ONLY
CARDS = [
    ("southern-high-plains", 1, BOTH, 0),
    ("southern-high-plains", 1, HOLD, 1),
    ("southern-high-plains", 1, BOTH, 1),
    ("southern-high-plains", 2, HOLD, 0),
    ("southern-high-plains", 3, BOTH, 0),
    ("kansas", 2, BOTH, 0),
    ("kansas", 1, HOLD, 1),
    ("blacklands", 2, BOTH, 0),
    ("blacklands", 2, HOLD, 1),
    ("oklahoma", 3, HOLD, 0),
]
"""Guideline, week, for what it may stop, and which design of loops."""


@cache
def card_cost(name: str, week: int, stopping: Stopping, design: int) -> Cost:
    question = question_for(load_guideline(name), week)
    shelved = shelved_for(question, stopping, squares_on_in(question, week))[design]
    way = Way({(2, 3): (1400.0, 1800.0), (1, 2, 2): (1100.0, 1500.0, 1500.0)}, 2300.0)
    return cost_of(shelved, way, week, squares_a_plant_in(week))


def made_card(
    name: str,
    week: int,
    stopping: Stopping,
    design: int,
    *,
    field: str = "",
    language: str = "en",
) -> StopCard:
    cost = card_cost(name, week, stopping, design)
    plan = cost.shelved.plan
    return stop_card(
        cost,
        load_guideline(name),
        week,
        place=Place(field, 60.0),
        square_plants=first_square_plants(plan.squares_on, week, plan.loops),
        on=DAY,
        language=language,
    )
