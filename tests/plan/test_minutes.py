"""Minutes of a walk and the choice between designs, against sums by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from quarterwalk.plan import (
    THREE_LOOPS,
    TWO_LOOPS,
    USUAL_PACE,
    Pace,
    Row,
    RowFigures,
    Shelved,
    SquaresOn,
    Stopping,
    Way,
    cheapest,
    cost_of,
    nearest_row,
    walked,
)
from quarterwalk.plan.minutes import (
    full_walk_minutes,
    minutes_by_look,
    square_field_loops,
    square_field_metres,
)
from tests.plan.made import EITHER_WAY, FLOOR_85, two_loops

FIRST = walked(FLOOR_85, TWO_LOOPS, SquaresOn.FIRST_LOOP, 120)
EVERY = walked(FLOOR_85, TWO_LOOPS, SquaresOn.EVERY_PLANT, 120)


# 60 acres are 242 811.4 square metres, 492.76 m each side: the tour of 20 stops is
# 0.7124 * 2203.69 * 1.0165 = 1595.8 m, and half a side more is the way in and back.
@pytest.mark.parametrize(
    ("acres", "stops", "metres"),
    [(60, 20, 1842.2), (60, 8, 1280.2), (60, 12, 1495.9), (60, 4, 1006.4), (15, 20, 921.1)],
)
def test_length_of_a_loop_in_a_square_field(acres, stops, metres):
    assert square_field_metres(acres, stops) == pytest.approx(metres, abs=0.1)


def test_each_loop_of_a_walk_has_its_own_length():
    course = walked(FLOOR_85, THREE_LOOPS, SquaresOn.EVERY_PLANT, 60)
    lengths = square_field_loops(60, course)
    assert lengths == pytest.approx([1006.4, 1280.2, 1280.2], abs=0.1)


def test_plants_with_squares_take_longer():
    # 24 plants of 12 seconds and 16 of 8, then 60 of 8
    assert minutes_by_look(FIRST, (0.0, 0.0)) == pytest.approx((416 / 60, 416 / 60 + 8))
    assert minutes_by_look(EVERY, (0.0, 0.0)) == pytest.approx((8.0, 20.0))


def test_the_way_is_walked_at_its_own_pace():
    pace = Pace(seconds_with_squares=30, seconds_insects=15, metres_a_minute=50)
    assert minutes_by_look(EVERY, (1000.0, 1500.0), pace) == pytest.approx((40.0, 100.0))
    assert minutes_by_look(FIRST, (1000.0, 1500.0), pace) == pytest.approx((36.0, 81.0))
    assert full_walk_minutes(EVERY, 2000.0, pace) == pytest.approx(90.0)


def test_the_usual_pace():
    assert Pace(12, 8, 75) == USUAL_PACE


@pytest.mark.parametrize(
    "wrong",
    [
        {"seconds_with_squares": 0},
        {"seconds_insects": -1},
        {"metres_a_minute": math.nan},
        {"metres_a_minute": math.inf},
    ],
)
def test_a_pace_is_above_nothing(wrong):
    with pytest.raises(ValueError, match="above 0"):
        Pace(**wrong)


def test_each_loop_needs_its_length():
    with pytest.raises(ValueError, match="zip"):
        minutes_by_look(EVERY, (1000.0,))


def shelved(*ends: tuple[float, float], squares_on=SquaresOn.EVERY_PLANT) -> Shelved:
    """Give a plan with rows of 80, 120, ... squares whose walks end so often after each loop."""
    rows = [replace(EITHER_WAY, squares=80 + 40 * n) for n in range(len(ends))]
    plan = two_loops(FLOOR_85, *rows, squares_on=squares_on)
    figures = tuple(
        RowFigures(row.squares, each, (0.9, 0.1), 100 - 60 * each[0], 29.0, 46.0, 1.0, 5.0)
        for row, each in zip(rows, ends, strict=True)
    )
    return Shelved(plan, figures)


WAY = Way({TWO_LOOPS: (1200.0, 1500.0)}, 1800.0)


def test_a_plan_costs_what_its_ends_say():
    cost = cost_of(shelved((0.8, 0.2), (0.75, 0.25)), WAY, 1, 3.0)
    assert cost.row == 1
    assert cost.by_look == pytest.approx((24.0, 56.0))
    assert cost.minutes == pytest.approx(0.75 * 24 + 0.25 * 56)
    assert cost.clear_minutes == pytest.approx(0.9 * 24 + 0.1 * 56)
    assert cost.full_minutes == pytest.approx(44.0)
    assert cost.saves == pytest.approx(12.0)
    assert cost.plants == pytest.approx(55.0)


def test_the_week_says_on_how_many_plants_squares_are_counted():
    plan = shelved((0.8, 0.2), squares_on=SquaresOn.FIRST_LOOP)
    second = cost_of(plan, WAY, 2, 3.0).by_look
    third = cost_of(plan, WAY, 3, 5.0).by_look
    assert second == pytest.approx((24.0, 52.0))
    assert third == pytest.approx((16.0 + 416 / 60, 44.0 + 416 / 60))


def test_the_row_nearest_to_the_squares_is_taken():
    plan = shelved((0.8, 0.2), (0.7, 0.3), (0.6, 0.4))
    assert [nearest_row(plan, n) for n in (0, 99, 101, 141, 900)] == [0, 0, 1, 2, 2]


def test_the_plan_with_the_fewest_minutes_is_chosen():
    some, most = (cost_of(shelved((share, 1 - share)), WAY, 1, 2.0) for share in (0.6, 0.8))
    assert cheapest([some, most]) is most
    assert cheapest([most, some]) is most


def test_where_nothing_is_saved_the_whole_walk_is_best():
    long_way = Way({TWO_LOOPS: (3000.0, 3000.0)}, 1800.0)
    costs = [cost_of(shelved((0.6, 0.4)), long_way, 1, 2.0)]
    assert costs[0].saves < 0
    assert cheapest(costs) is None
    assert cheapest([]) is None
    even = replace(costs[0], minutes=costs[0].full_minutes)
    assert cheapest([even]) is None


def test_a_row_that_never_ends_a_walk_costs_the_second_loop_always():
    plan = two_loops(FLOOR_85, Row(120), stopping=Stopping.HOLD_ONLY)
    figures = (RowFigures(120, (0.0, 1.0), (0.0, 1.0), 100.0, 0.0, 100.0, 0.0, 0.0),)
    cost = cost_of(Shelved(plan, figures), WAY, 1, 3.0)
    assert cost.minutes == pytest.approx(cost.by_look[-1])
