"""What a search finds keeps the limits, and lies near what any plan could do."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from itertools import pairwise, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.guideline import load_routine
from quarterwalk.plan import (
    CRITERION,
    NOMINAL,
    THREE_LOOPS,
    TWO_LOOPS,
    WORLDS,
    Course,
    Row,
    SquaresOn,
    Stopping,
    Stretch,
    Wanted,
    walked,
)
from quarterwalk.plan.bound import least_cost, most_ends
from quarterwalk.plan.columns import columns
from quarterwalk.plan.descent import descend
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.look import room_at
from quarterwalk.plan.make import first_squares
from quarterwalk.plan.minutes import minutes_by_look, square_field_loops
from quarterwalk.plan.one_look import Good, best_row, good_rows
from quarterwalk.plan.outcome import follow
from quarterwalk.plan.prior import COARSE, FINE, fields_for
from quarterwalk.plan.rising import rising_rows
from tests.plan.made import ALONE_15, FLOOR_85

ROUNDING = 1e-9

THIN = load_routine().thin_sites
"""With fewer squares no call can read the square set. [count]"""

A_FALL = 0.05
"""What a limit that falls from row to row is worth. [fraction of the walks]"""

HOLDING = ("insects_low", "lost_low", "sum_low")

MANNERS = [
    (stopping, on) for stopping in Stopping for on in (SquaresOn.EVERY_PLANT, SquaresOn.FIRST_LOOP)
]

THREE = walked(FLOOR_85, THREE_LOOPS, SquaresOn.EVERY_PLANT, 60)
MINUTES = minutes_by_look(THREE, square_field_loops(60.0, THREE))


def keeps(course, rows, worlds=WORLDS) -> bool:
    found = [worst_errors(course, list(rows), world) for world in worlds]
    return all(
        clear <= CRITERION.clear + ROUNDING and near <= CRITERION.near + ROUNDING
        for clear, near in found
    )


def ends_first(course, rows, nodes=FINE) -> np.ndarray:
    """Share of the usual fields whose walk ends at each look."""
    fields = fields_for(course.question, nodes)
    at = columns(course, (NOMINAL,), fields.density, fields.share)
    return follow(at, rows).ends @ fields.weight


@pytest.mark.parametrize(("stopping", "squares_on"), MANNERS)
def test_the_best_row_keeps_all_limits_and_costs_little_more_than_any_plan(stopping, squares_on):
    course = walked(FLOOR_85, TWO_LOOPS, squares_on, 120)
    row = best_row(course, stopping)
    assert keeps(course, [row])
    first, whole = minutes_by_look(course, square_field_loops(60.0, course))
    ended, most = ends_first(course, [row])[0], most_ends(course, stopping)
    assert ended <= most + ROUNDING
    cost, least = (whole - (whole - first) * share for share in (ended, most))
    assert cost <= 1.04 * least


@pytest.mark.parametrize(("stopping", "squares_on"), MANNERS)
def test_no_neighbour_of_the_best_row_is_better(stopping, squares_on):
    course = walked(FLOOR_85, TWO_LOOPS, squares_on, 90)
    row = best_row(course, stopping)
    ended = ends_first(course, [row])[0]
    for name in ("insects_low", "lost_low", "sum_low", "insects_high", "lost_high"):
        at = getattr(row, name)
        if at is None:
            continue
        looser = replace(row, **{name: at + (1 if name.endswith("low") else -1)})
        if keeps(course, [looser]):
            assert ends_first(course, [looser])[0] <= ended + ROUNDING


def test_a_walk_by_insects_alone_has_limits_of_insects_alone():
    course = walked(ALONE_15, TWO_LOOPS, SquaresOn.NONE, 0)
    row = best_row(course, Stopping.EITHER_WAY)
    assert keeps(course, [row])
    assert (row.squares, row.lost_low, row.sum_low, row.lost_high) == (0, -1, -1, 0)
    assert row.insects_low >= 0
    assert row.insects_high is not None


def falls(before: Row, after: Row) -> int:
    """Count the limits that move the wrong way: that on insects to treat may only fall."""
    holding = [(getattr(before, name), getattr(after, name)) for name in HOLDING]
    wrong = sum(last < first for first, last in holding)
    if before.lost_high is not None and after.lost_high is not None:
        wrong += after.lost_high < before.lost_high
        wrong += after.insects_high > before.insects_high
    return wrong


few = st.integers(-1, 4)
treating = st.none() | st.tuples(st.integers(5, 8), st.integers(5, 8))
goods = st.builds(
    lambda low, high, ends: Good(Row(0, *low, *(high or (None, None))), ends / 100),
    st.tuples(few, few, few), treating, st.integers(40, 50),
)  # fmt: skip


@given(st.lists(st.lists(goods, min_size=1, max_size=4), min_size=2, max_size=4))
@settings(max_examples=200)
def test_of_all_ways_to_choose_rows_the_one_that_ends_most_is_chosen(good):
    def worth(chain):
        wrong = sum(falls(a.row, b.row) for a, b in pairwise(chain))
        return sum(each.ends for each in chain) - A_FALL * wrong

    # of two that are the same row, the one that ends more walks is meant
    chosen = [
        max((each for each in here if each.row == row), key=lambda each: each.ends)
        for here, row in zip(good, rising_rows(good), strict=True)
    ]
    best = max(worth(chain) for chain in product(*good))
    assert worth(chosen) == pytest.approx(best)


def test_the_rows_near_the_best_keep_all_limits_and_end_nearly_as_many():
    course = walked(FLOOR_85, TWO_LOOPS, SquaresOn.FIRST_LOOP, 90)
    good = good_rows(course, Stopping.EITHER_WAY)
    assert good[0].row == best_row(course, Stopping.EITHER_WAY)
    ends = [each.ends for each in good]
    assert ends == sorted(ends, reverse=True)
    assert ends[0] - ends[-1] <= 0.03 + ROUNDING
    assert len({each.row for each in good}) == len(good) > 1
    for each in good[:: len(good) // 6]:
        assert keeps(course, [each.row])
        assert ends_first(course, [each.row])[0] == pytest.approx(each.ends)


def test_limits_on_lost_squares_of_three_loops_can_be_kept_from_falling():
    neighbour = walked(FLOOR_85, THREE_LOOPS, SquaresOn.EVERY_PLANT, 50)
    search = partial(descend, stopping=Stopping.EITHER_WAY, cost=MINUTES, worlds=(NOMINAL,))
    before = search(neighbour).rows
    moved = [replace(row, squares=n) for row, n in zip(before, THREE.squares, strict=False)]
    found = search(THREE, start=moved, over=before, sweeps=12)
    assert keeps(THREE, found.rows, (NOMINAL,))
    for row, over in zip(before, found.rows, strict=True):
        for name in ("lost_low", "sum_low", "lost_high"):
            assert getattr(over, name) >= getattr(row, name)


def test_three_loops_keep_all_limits_and_cost_no_more_than_without_the_first_look():
    found = descend(THREE, Stopping.EITHER_WAY, MINUTES)
    assert keeps(THREE, found.rows)
    spent = MINUTES @ ends_first(THREE, found.rows, COARSE)
    assert found.cost == pytest.approx(100.0 * spent / MINUTES[-1])
    joined = Course(FLOOR_85, (Stretch(12, 60, 180), Stretch(8, 40, 120)))
    never = [Row(60), best_row(joined, Stopping.EITHER_WAY)]
    assert keeps(THREE, never)
    assert spent <= MINUTES @ ends_first(THREE, never, COARSE)


def test_three_loops_come_near_the_least_of_any_plan():
    found = descend(THREE, Stopping.EITHER_WAY, MINUTES, worlds=(NOMINAL,))
    assert keeps(THREE, found.rows, (NOMINAL,))
    spent = MINUTES @ ends_first(THREE, found.rows)
    bound = least_cost(THREE, Stopping.EITHER_WAY, MINUTES)
    assert bound.least <= spent <= 1.07 * bound.least


def test_a_start_from_a_neighbour_comes_to_about_the_same():
    neighbour = walked(FLOOR_85, THREE_LOOPS, SquaresOn.EVERY_PLANT, 50)
    start = descend(neighbour, Stopping.EITHER_WAY, MINUTES, worlds=(NOMINAL,)).rows
    moved = [replace(row, squares=n) for row, n in zip(start, THREE.squares, strict=False)]
    warm = descend(THREE, Stopping.EITHER_WAY, MINUTES, worlds=(NOMINAL,), start=moved, sweeps=12)
    cold = descend(THREE, Stopping.EITHER_WAY, MINUTES, worlds=(NOMINAL,))
    assert keeps(THREE, warm.rows, (NOMINAL,))
    assert warm.cost == pytest.approx(cold.cost, rel=0.02)


def test_three_loops_that_may_only_hold_never_treat_early():
    rows = descend(THREE, Stopping.HOLD_ONLY, MINUTES, worlds=(NOMINAL,), sweeps=6).rows
    assert keeps(THREE, rows, (NOMINAL,))
    assert all(row.insects_high is None and row.lost_high is None for row in rows)


def test_with_squares_too_few_to_be_read_no_number_treats():
    few, enough = (
        best_row(walked(FLOOR_85, TWO_LOOPS, SquaresOn.FIRST_LOOP, n), Stopping.EITHER_WAY)
        for n in (THIN - 1, THIN)
    )
    assert (few.insects_high, few.lost_high) == (None, None)
    assert few.lost_low >= 0
    assert enough.insects_high is not None
    assert enough.lost_high is not None


def test_only_looks_with_squares_too_few_to_be_read_have_no_room_to_treat():
    rooms = [
        room_at(walked(FLOOR_85, THREE_LOOPS, SquaresOn.EVERY_PLANT, n), look, Stopping.EITHER_WAY)
        for n in (THIN - 1, THIN)
        for look in (0, 1)
    ]
    assert [room.insects_high is not None for room in rooms] == [False, True, True, True]
    assert [room.lost_high is not None for room in rooms] == [False, True, True, True]
    alone = walked(ALONE_15, TWO_LOOPS, SquaresOn.NONE, 0)
    assert room_at(alone, 0, Stopping.EITHER_WAY).insects_high is not None


@pytest.mark.parametrize(("loops", "first", "last"), [(TWO_LOOPS, 40, 280), (THREE_LOOPS, 20, 140)])
def test_rows_are_made_from_one_to_seven_squares_a_plant(loops, first, last):
    numbers = first_squares(Wanted(FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, loops))
    assert (numbers[0], numbers[-1]) == (first, last)
    assert list(numbers) == sorted(set(numbers))


def test_a_plan_by_insects_alone_has_one_row():
    wanted = Wanted(ALONE_15, Stopping.EITHER_WAY, SquaresOn.NONE)
    assert first_squares(wanted) == (0,)


@pytest.mark.parametrize(
    ("question", "squares_on", "loops"),
    [
        (ALONE_15, SquaresOn.EVERY_PLANT, TWO_LOOPS),
        (FLOOR_85, SquaresOn.NONE, TWO_LOOPS),
        (FLOOR_85, SquaresOn.EVERY_PLANT, (5,)),
    ],
)
def test_what_can_not_be_made_is_refused(question, squares_on, loops):
    with pytest.raises(ValueError, match="got"):
        Wanted(question, Stopping.EITHER_WAY, squares_on, loops)
