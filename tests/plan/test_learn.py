"""What is learnt from walks: on invented districts whose truth is known."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchmarks.learning import Truth, held, walked
from quarterwalk.plan.learn import (
    EXPECTED_LOG_SPREAD,
    EXPECTED_MEDIAN,
    EXPECTED_RHO,
    EXPECTED_STOP_CV,
    learn,
)
from quarterwalk.reading.density import EXPECTED_CLUMPING
from quarterwalk.walk import InsectCount, Method, PlantCheck, Quadrant, SquareCount, Walk, WalkTable

NAMES = ("k", "stop_cv", "rho", "median", "log_spread")


def district(walks, seed=1, **truth):
    return walked(Truth(**truth), walks, np.random.default_rng(seed))


def changed(table, **columns):
    return WalkTable(table.heads, replace(table.rows, **columns), table.scouts, table.notes)


def same(one, other):
    return (one.value, one.low, one.high) == pytest.approx((other.value, other.low, other.high))


def width(estimate):
    return estimate.high - estimate.low


@pytest.mark.parametrize(
    ("truth", "walks"),
    [
        (Truth(), 8),
        pytest.param(Truth(k=0.5), 40, marks=pytest.mark.slow),
        pytest.param(Truth(k=math.inf, stop_cv=0.0, median=0.3), 8, marks=pytest.mark.slow),
    ],
)
def test_intervals_hold_about_nine_times_in_ten(truth, walks):
    # of 60 intervals of one kind that hold in 0.9, fewer than 47 hold once in 1,000 times
    rng = np.random.default_rng(11)
    inside = np.sum([held(learn(walked(truth, walks, rng)), truth) for _ in range(60)], axis=0)
    assert inside.min() >= 47
    assert inside.sum() < 300


def test_many_walks_find_the_truth():
    learned = learn(district(400))
    assert learned.k.value == pytest.approx(1.0, abs=0.15)
    assert learned.stop_cv.value == pytest.approx(0.3, abs=0.1)
    assert learned.rho.value == pytest.approx(0.1, abs=0.02)
    assert learned.median.value == pytest.approx(0.13, rel=0.2)
    assert learned.log_spread.value == pytest.approx(1.0, abs=0.12)
    assert 300 < learned.k.walks_used == learned.stop_cv.walks_used < 400


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(2, 12))
def test_the_order_of_walks_and_plants_does_not_matter(seed, walks):
    table = district(walks, seed)
    records = list(table)
    rng = np.random.default_rng(seed)
    mixed = [
        replace(
            records[i], checks=tuple(rng.permutation(np.array(records[i].checks, dtype=object)))
        )
        for i in rng.permutation(walks)
    ]
    first, second = learn(table), learn(mixed)
    for name in NAMES:
        assert same(getattr(first, name), getattr(second, name))


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_twice_the_walks_narrow_every_interval(seed):
    table = district(12, seed)
    records = list(table)
    twins = [replace(walk, field=f"{walk.field} again") for walk in records]
    once, twice = learn(records), learn(records + twins)
    for name in NAMES[1:]:
        assert width(getattr(twice, name)) < width(getattr(once, name))
    assert 1 / twice.k.low - 1 / twice.k.high < 1 / once.k.low - 1 / once.k.high


def test_a_field_walked_twice_counts_once_among_fields():
    records = list(district(12))
    later = [replace(walk, date=date(2026, 7, 8)) for walk in records]
    once, twice = learn(records), learn(records + later)
    assert width(twice.median) == pytest.approx(width(once.median), rel=0.05)
    assert (once.median.walks_used, twice.median.walks_used) == (12, 24)
    assert width(twice.rho) < width(once.rho)


def test_no_walks_leave_what_was_expected():
    learned = learn([])
    assert learned.k.value == pytest.approx(1.0 / EXPECTED_CLUMPING, rel=0.02)
    assert learned.k.high == math.inf
    assert learned.stop_cv.value == pytest.approx(EXPECTED_STOP_CV, abs=0.01)
    assert learned.rho.value == pytest.approx(EXPECTED_RHO, abs=0.01)
    assert learned.median.value == pytest.approx(EXPECTED_MEDIAN, rel=0.02)
    assert learned.log_spread.value == pytest.approx(EXPECTED_LOG_SPREAD, abs=0.01)
    assert {getattr(learned, name).walks_used for name in NAMES} == {0}


def test_walks_without_an_insect_say_nothing_of_plants_and_that_fields_are_empty():
    table = district(20)
    counts = table.rows.counts.copy()
    counts[:, :2] = 0
    learned, nothing = learn(changed(table, counts=counts)), learn([])
    assert replace(learned.k, walks_used=0) == nothing.k
    assert replace(learned.stop_cv, walks_used=0) == nothing.stop_cv
    assert learned.k.walks_used == learned.stop_cv.walks_used == 0
    assert learned.median.walks_used == 20
    assert learned.median.high < 0.03
    assert learned.median.low > 0


def test_walks_without_squares_leave_the_likeness_as_expected():
    table = district(10)
    learned = learn(changed(table, squares_looked=np.zeros(len(table.rows), dtype=bool)))
    assert learned.rho == learn([]).rho
    assert learned.k == learn(table).k


@pytest.mark.parametrize("healthy", [0, 3])
def test_squares_all_healthy_or_all_lost_are_borne(healthy):
    checks = tuple(
        PlantCheck(Quadrant.NW, plant, 1, squares=SquareCount(healthy, 3 - healthy, 0, 0))
        for plant in range(1, 6)
    )
    learned = learn([Walk("North 40", date(2026, 7, 1), checks)])
    assert learned.rho.walks_used == 1
    assert 0 <= learned.rho.low <= learned.rho.value <= learned.rho.high < 0.9


def test_without_stop_numbers_quadrants_stand_for_stops():
    table = district(60, stop_cv=0.8)
    plain = learn(changed(table, stop=np.zeros(len(table.rows), dtype=np.int64)))
    assert same(plain.stop_cv, learn([]).stop_cv)
    assert plain.stop_cv.walks_used == 0
    assert plain.k.walks_used > 0
    # what stops do to plants now passes for clumping
    assert plain.k.value < learn(table).k.value


def test_a_walk_without_stop_numbers_is_left_out_beside_walks_with_them():
    table = district(10)
    stop = table.rows.stop.copy()
    stop[table.rows.walk == 3] = 0
    without = [walk for i, walk in enumerate(table) if i != 3]
    learned, others = learn(changed(table, stop=stop)), learn(without)
    assert (learned.k, learned.stop_cv) == (others.k, others.stop_cv)
    assert learned.median.walks_used == 10


def test_random_insects_have_an_interval_without_an_upper_end():
    learned = learn(district(60, k=math.inf, stop_cv=0.0, median=0.3))
    assert learned.k.high == math.inf
    assert learned.k.low > 3
    assert learned.stop_cv.low == 0


def test_one_walk_is_enough_to_say_something():
    learned, nothing = learn(district(1, seed=4)), learn([])
    assert 0 < learned.k.low < learned.k.value < learned.k.high
    assert width(learned.median) < width(nothing.median)
    assert learned.median.walks_used == 1


def test_only_counts_of_terminals_tell_of_insects():
    records = list(district(4))
    other = [replace(walk, method=Method.WHOLE_PLANT, field=f"{walk.field} b") for walk in records]
    learned = learn(records + other)
    assert learned.k == learn(records).k
    assert learned.median == learn(records).median
    assert learned.rho.walks_used == 8


def test_a_plant_passed_over_counts_nowhere():
    records = list(district(3))
    skipped = PlantCheck(Quadrant.NW, 99, 1, insects=None, squares=None, skipped=True)
    more = [replace(walk, checks=(*walk.checks, skipped)) for walk in records]
    assert learn(more) == learn(records)


def test_two_scouts_number_their_own_stops():
    def walk(second_stop):
        checks = [
            PlantCheck(Quadrant.NW, plant, stop, insects=InsectCount(plant % 3, 0), scout=scout)
            for scout, stop in (("A", 1), ("B", second_stop))
            for plant in range(1, 6)
        ]
        return Walk("North 40", date(2026, 7, 1), tuple(checks))

    assert learn([walk(1)]) == learn([walk(2)])


def test_fields_far_apart_are_told_from_fields_alike():
    near = learn(district(60, log_spread=0.2))
    far = learn(district(60, log_spread=2.0))
    assert near.log_spread.high < 0.7
    assert far.log_spread.low > 1.3


def test_the_world_takes_the_likeliest_values():
    learned = learn(district(5))
    world = learned.world()
    assert (world.k, world.rho, world.stop_cv) == (
        learned.k.value,
        learned.rho.value,
        learned.stop_cv.value,
    )
