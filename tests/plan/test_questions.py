"""What decides: lines, bars, points at which limits are kept, and the spread of fields."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from scipy.special import expit, logit
from scipy.stats import norm

from quarterwalk.guideline import load_guideline
from quarterwalk.plan import (
    CRITERION,
    Criterion,
    Lost,
    Point,
    Question,
    SquareBar,
    SquaresOn,
    clear_field,
    points_for,
    question_for,
    squares_a_plant_in,
    squares_on_in,
)
from quarterwalk.plan.prior import COARSE, FINE, fields_for, truly_to_treat
from quarterwalk.plan.usual import first_square_plants
from tests.plan.made import ALONE_15, BLASTED_10, FLOOR_85


@pytest.mark.parametrize(("plants", "insects"), [(20, 5), (40, 10), (41, 11), (60, 15), (100, 25)])
def test_the_fewest_insects_that_reach_a_line(plants, insects):
    assert FLOOR_85.least_insects(plants) == insects


@pytest.mark.parametrize(
    ("question", "squares", "lost"),
    [(FLOOR_85, 120, 19), (FLOOR_85, 100, 16), (FLOOR_85, 119, 18), (BLASTED_10, 100, 10),
     (BLASTED_10, 101, 11), (ALONE_15, 120, 0)],
)  # fmt: skip
def test_the_fewest_lost_squares_past_a_bar(question, squares, lost):
    assert question.least_lost(squares) == lost


def test_on_its_floor_a_set_is_kept_and_on_its_line_a_blasted_share_is_reached():
    assert not FLOOR_85.treat(0.25, 0.15)
    assert FLOOR_85.treat(0.25, 0.1501)
    assert not FLOOR_85.treat(0.2499, 0.3)
    assert BLASTED_10.treat(0.25, 0.10)
    assert not BLASTED_10.treat(0.25, 0.0999)
    assert ALONE_15.treat(0.15, 0.0)


@pytest.mark.parametrize(
    ("week", "share"), [(1, "1/10"), (2, "3/20"), (3, "1/4"), (4, "1/4"), (None, "1/4")]
)
def test_the_floor_of_the_week_is_asked(week, share):
    asked = question_for(load_guideline("southern-high-plains"), week)
    assert asked == Question(Fraction(25), SquareBar(Fraction(share)))


def test_blasted_squares_a_chosen_line_and_insects_alone_are_asked():
    kansas = question_for(load_guideline("kansas"), 2, Fraction(30))
    assert kansas == Question(Fraction(30), SquareBar(Fraction(1, 10), Lost.BLASTED))
    assert question_for(load_guideline("mid-coast"), 1) == ALONE_15


def test_no_plan_follows_a_sweep_net():
    assert question_for(load_guideline("tennessee-sweep"), 1) is None


def test_points_lie_where_the_line_and_the_floor_put_them():
    points = points_for(FLOOR_85)
    assert [point.clear for point in points].count(True) == 19
    assert [point.clear for point in points].count(False) == 18
    assert points[0] == Point(pytest.approx(0.10), pytest.approx(0.45), True)
    assert {round(point.density, 4) for point in points} == {
        0.1, 0.15, 0.2, 0.3, 0.35, 0.5, 0.8, 1.3,
    }  # fmt: skip
    assert min(point.share for point in points) == pytest.approx(0.07)


def test_without_squares_points_are_densities():
    points = points_for(ALONE_15)
    assert {point.share for point in points} == {0.0}
    clear = sorted(point.density for point in points if point.clear)
    assert clear == pytest.approx([0.06, 0.09, 0.21, 0.30, 0.48, 0.78])


def test_without_squares_only_densities_that_are_not_clear_are_near():
    near = sorted(point.density for point in points_for(ALONE_15) if not point.clear)
    assert near == pytest.approx([0.12, 0.18])


def test_shares_of_points_stay_shares():
    points = points_for(Question(Fraction(25), SquareBar(Fraction(1, 50))))
    assert min(point.share for point in points) == 0.0


def test_errors_may_rise_by_one_point_where_it_is_clear_and_by_five_near():
    assert (CRITERION.clear, CRITERION.near) == (1.0, 5.0)
    assert CRITERION.allowed(Point(0.1, 0.1, True)) == 0.01
    assert Criterion(0.5, 2.5).allowed(Point(0.1, 0.1, False)) == 0.025


def drawn(blasted: float = 1.0) -> tuple[np.ndarray, np.ndarray]:
    """Draw fields by the words of the numbers' own file."""
    dice = np.random.default_rng(5)
    density = 0.13 * np.exp(dice.standard_normal(400_000))
    kept = 0.92 * np.exp(-0.6 * density)
    kept = expit(logit(kept) + 0.55 * dice.standard_normal(density.size))
    return density, blasted * (1.0 - kept)


def test_so_many_of_the_usual_fields_are_truly_to_be_treated():
    assert truly_to_treat(FLOOR_85) == pytest.approx(0.2334, abs=5e-5)
    density, share = drawn()
    assert ((density >= 0.25) & (share > 0.15)).mean() == pytest.approx(0.2334, abs=0.004)
    density, share = drawn(blasted=0.4)
    among = ((density >= 0.25) & (share >= 0.10)).mean()
    assert truly_to_treat(BLASTED_10) == pytest.approx(among, abs=0.004)
    assert truly_to_treat(ALONE_15) == pytest.approx(norm.sf(np.log(0.15 / 0.13)))
    never = Question(Fraction(25), SquareBar(Fraction(1, 2), Lost.BLASTED))
    assert truly_to_treat(never) == 0.0


@pytest.mark.parametrize("nodes", [FINE, COARSE])
@pytest.mark.parametrize(("question", "blasted"), [(FLOOR_85, 1.0), (BLASTED_10, 0.4)])
def test_the_fields_taken_have_the_means_of_the_spread(nodes, question, blasted):
    fields = fields_for(question, nodes)
    assert fields.weight.sum() == pytest.approx(1.0)
    density, share = drawn(blasted)
    assert fields.weight @ fields.density == pytest.approx(0.13 * np.exp(0.5), rel=1e-3)
    assert fields.weight @ fields.share == pytest.approx(share.mean(), abs=0.002)
    both = (density * share).mean()
    assert fields.weight @ (fields.density * fields.share) == pytest.approx(both, rel=0.02)


def test_a_clear_field_has_a_fifth_of_the_line_and_keeps_its_set():
    assert clear_field(FLOOR_85) == (pytest.approx(0.05), pytest.approx(0.08))
    assert clear_field(ALONE_15) == (pytest.approx(0.03), 0.0)


def test_squares_are_counted_on_every_plant_in_week_one_and_then_in_the_first_loop():
    assert squares_on_in(FLOOR_85, 1) is SquaresOn.EVERY_PLANT
    assert squares_on_in(FLOOR_85, 2) is SquaresOn.FIRST_LOOP
    assert squares_on_in(FLOOR_85, None) is SquaresOn.FIRST_LOOP
    assert squares_on_in(ALONE_15, 1) is SquaresOn.NONE
    assert [squares_a_plant_in(week) for week in (1, 2, 3, 4, None)] == [2, 3, 5, 5, 5]


@pytest.mark.parametrize(
    ("squares_on", "week", "loops", "plants"),
    [
        (SquaresOn.EVERY_PLANT, 1, (2, 3), 40),
        (SquaresOn.FIRST_LOOP, 1, (2, 3), 40),
        (SquaresOn.FIRST_LOOP, 2, (2, 3), 40),
        (SquaresOn.FIRST_LOOP, 3, (2, 3), 24),
        (SquaresOn.FIRST_LOOP, None, (2, 3), 24),
        (SquaresOn.FIRST_LOOP, 3, (1, 2, 2), 20),
        (SquaresOn.NONE, 1, (2, 3), 0),
    ],
)
def test_plants_with_squares_in_the_first_loop(squares_on, week, loops, plants):
    assert first_square_plants(squares_on, week, loops) == plants
