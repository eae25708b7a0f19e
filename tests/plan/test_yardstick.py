"""Figures known beforehand: cards for looks every five plants, and limits of walks in loops."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest

from quarterwalk.plan import NOMINAL, ROBUST, Criterion, Row, SquaresOn, Stopping, walked
from quarterwalk.plan.bound import least_cost, most_ends
from quarterwalk.plan.columns import columns
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.outcome import follow
from quarterwalk.plan.prior import fields_for
from tests.plan.made import (
    EITHER_WAY,
    FLOOR_85,
    HOLD_BY_EITHER,
    HOLD_BY_SUM,
    ROTATION,
    THREE_LOOP_ROWS,
)

CLUMPED, PATCHY, EVEN = ROBUST
STRICT = Criterion(0.5, 2.5)


def card(name: str) -> list[Row]:
    """Give the limits of one card of the file."""
    content = json.loads((Path(__file__).parent / "cards.json").read_text(encoding="utf-8"))
    each = content["squares_a_plant"]
    return [Row(each * int(n), *row) for n, row in content["cards"][name]["rows"].items()]


def mean_plants(course, rows) -> float:
    fields = fields_for(course.question)
    ends = follow(columns(course, (NOMINAL,), fields.density, fields.share), rows)
    return float(ends.mean(ends.plants) @ fields.weight)


@pytest.mark.parametrize(
    ("name", "plants"), [("A nominal", 34.02), ("A robust", 37.58), ("B nominal", 37.14)]
)
def test_mean_plants_of_a_card(name, plants):
    assert mean_plants(ROTATION, card(name)) == pytest.approx(plants, rel=0.005)


@pytest.mark.parametrize(
    ("name", "world", "clear", "near", "give"),
    [
        ("A nominal", NOMINAL, 1.00, 5.00, 0.02),
        ("A robust", NOMINAL, 0.63, 2.97, 0.02),
        ("A robust", CLUMPED, 1.00, 4.65, 0.05),
        ("A robust", PATCHY, 0.99, 4.0, 0.05),
        ("A robust", EVEN, 0.99, 3.8, 0.05),
    ],
)
def test_worst_errors_of_a_card(name, world, clear, near, give):
    found = worst_errors(ROTATION, card(name), world)
    assert found == (pytest.approx(clear, abs=give), pytest.approx(near, abs=give))


@pytest.mark.slow
def test_least_plants_of_any_plan_with_looks_every_five_plants():
    bound = least_cost(ROTATION, Stopping.EITHER_WAY, ROTATION.plants)
    assert bound.least == pytest.approx(32.77, rel=0.005)
    assert bound.least <= bound.attained <= bound.least * 1.002
    assert mean_plants(ROTATION, card("A nominal")) >= bound.least


@pytest.mark.slow
def test_least_plants_where_errors_may_rise_by_half_as_much():
    bound = least_cost(ROTATION, Stopping.EITHER_WAY, ROTATION.plants, criterion=STRICT)
    assert bound.least == pytest.approx(35.58, rel=0.005)
    assert mean_plants(ROTATION, card("B nominal")) >= bound.least


@pytest.mark.parametrize("stopping", list(Stopping))
def test_both_bounds_of_a_walk_in_two_loops_are_the_same(stopping):
    course = walked(FLOOR_85, (2, 3), SquaresOn.EVERY_PLANT, 120)
    ends = most_ends(course, stopping, worlds=(NOMINAL,))
    bound = least_cost(course, stopping, course.plants)
    assert bound.least == pytest.approx(100 - 60 * ends, rel=1e-3)
    assert bound.attained == pytest.approx(100 - 60 * ends, rel=1e-3)


@pytest.mark.parametrize(
    ("loops", "squares_on", "rows", "plants", "clear", "near"),
    [
        ((2, 3), SquaresOn.FIRST_LOOP, [HOLD_BY_EITHER], 61.0, 0.71, 1.10),
        ((2, 3), SquaresOn.EVERY_PLANT, [HOLD_BY_SUM], 62.3, 0.90, 2.96),
        ((2, 3), SquaresOn.EVERY_PLANT, [EITHER_WAY], 50.7, 0.95, 4.98),
        ((1, 2, 2), SquaresOn.EVERY_PLANT, list(THREE_LOOP_ROWS), 42.3, 1.00, 4.63),
    ],
    ids=["squares in the first loop", "hold only", "either way", "three loops"],
)
def test_walks_in_loops(loops, squares_on, rows, plants, clear, near):
    course = walked(FLOOR_85, loops, squares_on, rows[0].squares)
    assert course.squares[: len(rows)] == tuple(row.squares for row in rows)
    # the spread was taken more coarsely where these were worked out beforehand
    assert mean_plants(course, rows) == pytest.approx(plants, rel=0.006)
    assert worst_errors(course, rows, NOMINAL) == (
        pytest.approx(clear, abs=0.02),
        pytest.approx(near, abs=0.05),
    )


def test_the_fields_taken_are_fine_enough():
    course = walked(FLOOR_85, (2, 3), SquaresOn.EVERY_PLANT, 120)
    finer = fields_for(FLOOR_85, (61, 31))
    ends = follow(columns(course, (NOMINAL,), finer.density, finer.share), [EITHER_WAY])
    fine = float(np.array(ends.plants) @ ends.ends @ finer.weight)
    assert mean_plants(course, [EITHER_WAY]) == pytest.approx(fine, abs=0.2)
