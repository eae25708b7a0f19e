"""How a walk ended by the plan that it names, and what lay ahead of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from scipy.stats import binom, nbinom

from quarterwalk.plan import (
    Ended,
    Fault,
    Limit,
    Look,
    Question,
    Row,
    Side,
    SquareBar,
    SquaresOn,
    ahead,
    ended_by,
    expected_minutes,
)
from quarterwalk.plan.prior import fields_for
from quarterwalk.reading import take_reading
from quarterwalk.walk import QUADRANTS, InsectCount, PlantCheck, SquareCount, Walk
from tests.call.made import FIRST_SQUARE, reading
from tests.plan.made import (
    ALONE_15,
    BLASTED_10,
    EITHER_WAY,
    FLOOR_85,
    THREE_LOOP_ROWS,
    three_loops,
    two_loops,
)

FORTY = (10, 10, 10, 10)
TWO = two_loops(FLOOR_85, EITHER_WAY)
THREE = three_loops(FLOOR_85, *THREE_LOOP_ROWS)


def after(insects, lost, plants=FORTY, squares=120, **choices):
    return reading(insects, plants=plants, healthy=squares - lost, missing=lost, **choices)


def ended(plan, read):
    return ended_by(plan, plan.question, read)


@pytest.mark.parametrize(
    ("insects", "lost", "side", "fault", "limit"),
    [
        (5, 60, Side.HOLD, None, Limit.INSECTS_LOW),
        (30, 15, Side.HOLD, None, Limit.LOST_LOW),
        (9, 18, Side.HOLD, None, Limit.SUM_LOW),
        (13, 21, Side.TREAT, None, Limit.HIGH),
        (9, 19, Side.GO_ON, Fault.SAID_GO_ON, None),
        (13, 20, Side.GO_ON, Fault.SAID_GO_ON, None),
    ],
)
def test_the_counts_say_how_a_walk_ended(insects, lost, side, fault, limit):
    assert ended(TWO, after(insects, lost)) == Ended(TWO, side, fault, limit)


@pytest.mark.parametrize(
    "other",
    [
        replace(FLOOR_85, line=Fraction(30)),
        Question(Fraction(25), SquareBar(Fraction(1, 10))),
        Question(Fraction(25)),
        BLASTED_10,
    ],
)
def test_a_plan_answers_its_own_question_only(other):
    assert ended_by(TWO, other, after(0, 0)).fault is Fault.OTHER_QUESTION


@pytest.mark.parametrize(
    "plants",
    [
        (10, 10, 10, 9),
        (10, 10, 10, 12),
        (8, 10, 11, 11),
        (20, 20, 0, 0),
        (25, 25, 25, 25),
        (5,) * 4,
    ],
)
def test_a_walk_ends_with_the_plants_of_a_look_in_every_quarter(plants):
    assert ended(TWO, after(0, 0, plants)).fault is Fault.NOT_AT_A_LOOK


def test_a_plant_too_many_in_a_quarter_may_hold_but_not_treat():
    for plants in ((10, 10, 10, 11), (11, 11, 11, 11)):
        assert ended(TWO, after(5, 10, plants)).fault is None
        assert ended(TWO, after(20, 40, plants)).fault is Fault.TOO_MANY_PLANTS


def test_with_squares_too_few_to_be_read_no_end_to_treat_is_covered():
    plan = two_loops(FLOOR_85, Row(40, 4, 2, 8, 12, 10), Row(60, 4, 3, 12, 12, 14))
    assert ended(plan, after(20, 20, squares=49)).fault is Fault.NOT_READABLE
    assert ended(plan, after(20, 20, squares=50)).fault is None
    assert ended(plan, after(4, 20, squares=49)).fault is None


def test_each_look_of_three_loops_is_found():
    assert ended(THREE, after(0, 0, (5,) * 4, 60)).side is Side.HOLD
    assert ended(THREE, after(9, 13, (5,) * 4, 60)).side is Side.TREAT
    assert ended(THREE, after(9, 13, (15,) * 4, 180)).side is Side.HOLD
    assert ended(THREE, after(18, 29, (15,) * 4, 180)).side is Side.TREAT
    assert ended(THREE, after(0, 0, FORTY, 120)).fault is Fault.NOT_AT_A_LOOK


def test_blasted_squares_are_counted_where_they_are_asked():
    plan = two_loops(BLASTED_10, Row(100, 5, 7, 19, 14, 14))
    missing = reading(20, plants=FORTY, healthy=60, missing=40)
    blasted = reading(20, plants=FORTY, healthy=60, blasted=40)
    assert ended(plan, missing).side is Side.HOLD
    assert ended(plan, blasted).side is Side.TREAT


def test_squares_do_not_matter_where_insects_decide_alone():
    plan = two_loops(ALONE_15, Row(0, 2, -1, -1, 10, 0))
    for lost in (0, 60):
        assert ended(plan, after(2, lost)).side is Side.HOLD
        assert ended(plan, after(10, lost)).side is Side.TREAT
    assert ended(plan, reading(2, plants=FORTY)).side is Side.HOLD


def test_with_fewer_squares_than_any_row_a_walk_goes_on():
    assert ended(TWO, after(0, 0, squares=119)).fault is Fault.SAID_GO_ON
    assert ended(TWO, reading(0, plants=FORTY)).fault is Fault.SAID_GO_ON


def test_with_more_squares_than_any_row_a_walk_may_hold_but_not_treat():
    assert ended(TWO, after(0, 0, squares=121)).side is Side.HOLD
    assert ended(TWO, after(40, 90, squares=121)).fault is Fault.SAID_GO_ON


def test_between_two_rows_limits_lie_on_the_straight_line_between_theirs():
    rows = (Row(100, 4, 12, 22, 12, 18), Row(120, 5, 15, 27, 13, 21))
    plan = two_loops(FLOOR_85, *rows)
    # halfway: 4.5 insects, 13.5 lost and 24.5 together hold; 12.5 and 19.5 treat
    assert ended(plan, after(4, 60, squares=110)).side is Side.HOLD
    assert ended(plan, after(5, 40, squares=110)).fault is Fault.SAID_GO_ON
    assert ended(plan, after(40, 13, squares=110)).side is Side.HOLD
    assert ended(plan, after(40, 14, squares=110)).fault is Fault.SAID_GO_ON
    assert ended(plan, after(8, 16, squares=110)).side is Side.HOLD
    assert ended(plan, after(8, 17, squares=110)).fault is Fault.SAID_GO_ON
    assert ended(plan, after(12, 30, squares=110)).fault is Fault.SAID_GO_ON
    assert ended(plan, after(40, 19, squares=110)).fault is Fault.SAID_GO_ON
    assert ended(plan, after(13, 20, squares=110)).side is Side.TREAT


def test_after_the_only_look_sixty_plants_lie_ahead_wherever_it_goes_on():
    table = ahead(TWO, 0, 0)
    for insects in range(30):
        for lost in range(50):
            on = TWO.looks[0].side(insects, lost, 120) is Side.GO_ON
            assert table.plants[insects, lost] == (pytest.approx(60.0) if on else 0.0)
            assert table.settled[insects, lost] == pytest.approx(1.0)


def test_after_the_first_of_two_looks_forty_to_eighty_plants_lie_ahead():
    table = ahead(THREE, 0, 0)
    on = table.plants > 0
    assert not on[0, 0]
    assert not on[9, 13]
    assert on[5, 8]
    assert table.plants[on].min() >= 40.0
    assert table.plants[on].max() <= 80.0 + 1e-9
    assert table.plants[on] == pytest.approx(80.0 - 40.0 * table.settled[on])
    last = ahead(THREE, 0, 1).plants
    assert np.unique(last.round(9)).tolist() == [0.0, 40.0]


@pytest.mark.parametrize(("insects", "lost"), [(5, 8), (1, 12), (8, 12), (4, 7), (12, 9)])
def test_what_lies_ahead_is_the_mean_over_fields_that_may_show_such_counts(insects, lost):
    assert THREE.looks[0].side(insects, lost, 60) is Side.GO_ON
    fields = fields_for(FLOOR_85)
    seen = (
        fields.weight
        * nbinom.pmf(insects, 20, 1.0 / (1.0 + fields.density))
        * binom.pmf(lost, 60, fields.share)
    )
    seen = seen / seen.sum()
    more, gone = np.arange(250), np.arange(121)
    chance_more = seen[:, None] * nbinom.pmf(more, 40, 1.0 / (1.0 + fields.density[:, None]))
    both = chance_more.T @ binom.pmf(gone, 120, fields.share[:, None])
    ends = np.array([
        [THREE.looks[1].side(insects + x, lost + y, 180) is not Side.GO_ON for y in gone]
        for x in more
    ])  # fmt: skip
    settled = float((both * ends).sum())
    table = ahead(THREE, 0, 0)
    assert table.settled[insects, lost] == pytest.approx(settled, abs=1e-6)
    assert table.plants[insects, lost] == pytest.approx(80.0 - 40.0 * settled, abs=1e-4)


def test_minutes_ahead_are_those_of_the_loops_that_may_follow():
    by_look = (10.0, 25.0, 40.0)
    table = ahead(THREE, 0, 0)
    minutes = expected_minutes(table, by_look, 0)
    assert minutes[0, 0] == 0.0
    assert minutes[5, 8] == pytest.approx(15.0 + (1.0 - table.settled[5, 8]) * 15.0)
    assert expected_minutes(ahead(THREE, 0, 1), by_look, 1).max() == 15.0
    only = expected_minutes(ahead(TWO, 0, 0), (20.0, 50.0), 0)
    assert np.unique(only).tolist() == [0.0, 30.0]


def test_a_look_without_rows_goes_on():
    assert Look(40, ()).side(0, 0, 120) is Side.GO_ON


def unlike(lost_in_last: int) -> Walk:
    """Give 40 plants, 39 of them with squares: one plant of the last quarter has none."""
    squares = dict.fromkeys(range(40), 3) | {39: 0, 30: 4, 31: 4, 32: 4}
    lost = dict.fromkeys(range(18 - lost_in_last), 1)
    lost |= {30 + place: 1 for place in range(lost_in_last)}
    checks = [
        PlantCheck(
            QUADRANTS[place // 10],
            place % 10 + 1,
            insects=InsectCount(1 if place % 4 == 0 else 0),
            squares=SquareCount(n - lost.get(place, 0), lost.get(place, 0)) if n else None,
        )
        for place, n in squares.items()
    ]
    return Walk("Home 40", FIRST_SQUARE, tuple(checks))


@pytest.mark.parametrize(("lost_in_last", "fault"), [(0, None), (9, Fault.QUARTERS_UNLIKE)])
def test_a_plan_never_speaks_against_the_rule_where_quarters_are_unlike(lost_in_last, fault):
    plan = two_loops(FLOOR_85, Row(120, 4, 18, 26), squares_on=SquaresOn.FIRST_LOOP)
    read = take_reading(unlike(lost_in_last))
    assert (read.insects, read.squares, read.losses.total) == (10, 120, 18)
    assert plan.looks[0].side(10, 18, 120) is Side.HOLD
    assert (read.square_set < Fraction(85, 100)) == (fault is not None)
    assert ended(plan, read) == Ended(plan, Side.HOLD, fault, Limit.LOST_LOW)
