"""What is worked out exactly agrees with walks that were drawn plant by plant."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
from scipy.stats import binom

from quarterwalk.plan import (
    NOMINAL,
    ROBUST,
    Plan,
    Row,
    SquaresOn,
    Stopping,
    World,
    course_of,
    outcomes,
)
from quarterwalk.plan.columns import columns
from tests.plan import simulate
from tests.plan.made import (
    ALONE_15,
    BLASTED_10,
    EITHER_WAY,
    FLOOR_85,
    THREE_LOOP_ROWS,
    three_loops,
    two_loops,
)

CLUMPED, PATCHY, EVEN = ROBUST

WALKS = 12_000

# Chance that all comparisons of all points together fail though everything is right.
_BY_CHANCE = 1e-4


@dataclass(frozen=True)
class Case:
    """One plan at eight points, two in each world."""

    name: str
    plan: Plan
    points: tuple[tuple[World, float, float], ...]


def spread(*points: tuple[float, float]) -> tuple[tuple[World, float, float], ...]:
    """Give two points to each world."""
    worlds = [world for world in (NOMINAL, CLUMPED, PATCHY, EVEN) for _ in range(2)]
    return tuple((w, d, s) for w, (d, s) in zip(worlds, points, strict=True))


CASES = (
    Case(
        "two loops, either way",
        two_loops(FLOOR_85, EITHER_WAY),
        spread(
            (0.10, 0.10), (0.30, 0.19), (0.20, 0.16), (0.50, 0.23),
            (0.25, 0.18), (0.80, 0.30), (0.15, 0.23), (0.30, 0.15),
        ),
    ),
    Case(
        "squares in the first loop, uneven over its plants",
        two_loops(
            FLOOR_85,
            Row(115, 5, 17, 24),
            stopping=Stopping.HOLD_ONLY,
            squares_on=SquaresOn.FIRST_LOOP,
        ),
        spread(
            (0.15, 0.12), (0.35, 0.19), (0.35, 0.23), (0.20, 0.45),
            (0.30, 0.15), (0.10, 0.07), (0.50, 0.18), (0.25, 0.16),
        ),
    ),
    Case(
        "three loops, either way",
        three_loops(FLOOR_85, *THREE_LOOP_ROWS),
        spread(
            (0.05, 0.10), (0.35, 0.23), (0.30, 0.19), (1.30, 0.45),
            (0.20, 0.12), (0.35, 0.18), (0.25, 0.17), (0.15, 0.20),
        ),
    ),
    Case(
        "three loops, insects alone",
        three_loops(ALONE_15, Row(0, 0, -1, -1, 8, 0), Row(0, 6, -1, -1, 15, 0)),
        spread(
            (0.06, 0.0), (0.15, 0.0), (0.12, 0.0), (0.30, 0.0),
            (0.09, 0.0), (0.21, 0.0), (0.15, 0.0), (0.18, 0.0),
        ),
    ),
    Case(
        "two loops, blasted squares",
        two_loops(BLASTED_10, Row(100, 5, 7, 19, 14, 14)),
        spread(
            (0.30, 0.10), (0.10, 0.02), (0.35, 0.13), (0.50, 0.07),
            (0.25, 0.11), (0.80, 0.18), (0.20, 0.09), (0.35, 0.02),
        ),
    ),
)  # fmt: skip

# Chances of an end to hold and to treat at each look and of treat in both walks, and the mean.
_COMPARED = sum(len(case.points) * (2 * len(case.plan.looks) + 3) for case in CASES)


def may_be(found: int, chance: float) -> bool:
    """Tell whether so many of all walks may show what has this chance, by exact tails."""
    chance = min(max(chance, 0.0), 1.0)
    least = _BY_CHANCE / _COMPARED / 2.0
    fewer, more = binom.cdf(found, WALKS, chance), binom.sf(found - 1, WALKS, chance)
    return bool(min(fewer, more) > least)


def furthest(spent: np.ndarray, ends: np.ndarray) -> float:
    """Give how far a mean may lie off by chance, by Bernstein's inequality."""
    mean = float(spent @ ends)
    variance = float((spent - mean) ** 2 @ ends)
    log = math.log(2.0 * _COMPARED / _BY_CHANCE)
    reach = float(spent.max() - spent.min()) * log / 3.0
    return (reach + math.sqrt(reach**2 + 2.0 * WALKS * variance * log)) / WALKS


def test_the_points_are_forty_in_all_four_worlds():
    points = [point for case in CASES for point in case.points]
    assert len(points) == 40
    assert {world for world, _, _ in points} == {NOMINAL, *ROBUST}


@pytest.mark.parametrize("number", range(len(CASES)), ids=[case.name for case in CASES])
def test_ends_and_means_are_those_of_drawn_walks(number):
    plan, course = CASES[number].plan, course_of(CASES[number].plan, 0)
    dice = np.random.default_rng(20_260 + number)
    for world, density, share in CASES[number].points:
        exact = outcomes(plan, 0, np.array([density]), np.array([share]), world)
        full = columns(course, (world,), np.array([density]), np.array([share])).full_walk()[0]
        drawn = simulate.draw(course, world, density, share, WALKS, dice)
        ends = simulate.follow(plan, course, drawn)
        where = f"{world.name} {density} {share}"
        for look in range(len(plan.looks)):
            assert may_be(ends.hold[look], exact.hold[look, 0]), (where, "hold", look)
            assert may_be(ends.treat[look], exact.treat[look, 0]), (where, "treat", look)
        assert may_be(int(ends.treat.sum()), exact.says_treat[0]), (where, "treat")
        assert may_be(ends.full_treats, full), (where, "full walk")
        plants = np.array(exact.plants, dtype=float)
        mean = float(plants @ (ends.hold + ends.treat)) / WALKS
        assert abs(mean - exact.mean(plants)[0]) < furthest(plants, exact.ends[:, 0]), where


def test_a_wrong_world_would_be_seen():
    plan = two_loops(FLOOR_85, EITHER_WAY)
    course = course_of(plan, 0)
    exact = outcomes(plan, 0, np.array([0.25]), np.array([0.18]), NOMINAL)
    drawn = simulate.draw(course, PATCHY, 0.25, 0.18, WALKS, np.random.default_rng(3))
    assert not may_be(simulate.follow(plan, course, drawn).hold[0], exact.hold[0, 0])
