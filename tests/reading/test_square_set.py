"""Square set and blasted share: facts of the range."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.reading.odds import BetaOdds
from quarterwalk.reading.square_set import share_odds
from tests.reading.toy_field import LOST, NO_STOPS, QUADRANT, SQUARES, STOP, STOPS, sums

HEALTHY = SQUARES - LOST


def odds_of(hit, seen, quadrant=QUADRANT, stop=None):
    plants, stops = sums(hit, seen, quadrant), sums(hit, seen, quadrant, stop)
    kept, lost = share_odds(plants, stops, NO_STOPS if stop is None else STOPS)
    return BetaOdds(float(kept[0]), float(lost[0]))


def middle(odds):
    return (odds.kept - 0.5) / (odds.kept + odds.lost - 1.0)


def test_the_invented_field_has_the_ratio_of_a_survey_program():
    # R survey, svyratio, quadrants as strata: .871428571, SE .0200929634
    odds = odds_of(HEALTHY, SQUARES)
    assert middle(odds) == pytest.approx(0.871428571, abs=1e-9)
    told = odds.kept + odds.lost - 1.0
    variance = 0.871428571 * 0.128571429 / told
    # the variance is the survey program's, raised by 2/96 and 1/(lost squares)
    assert variance == pytest.approx(0.0200929634**2 * (1 + 2 / 96 + 1 / 36), rel=1e-6)


def test_the_invented_field_has_nearly_the_range_of_two_other_methods():
    # 95 %: logit with t .825860-.906424; Korn-Graubard .825429-.909000
    low, high = odds_of(HEALTHY, SQUARES).interval(0.95)
    assert low == pytest.approx(0.826, abs=0.002)
    assert high == pytest.approx(0.908, abs=0.002)


def test_all_healthy_is_not_surely_all_healthy():
    low, high = odds_of([3] * 40, [3] * 40, np.repeat(np.arange(4), 10)).interval(0.90)
    # Clopper-Pearson on 120 of 120 gives .9753; plants may be alike, so less is known
    assert 0.93 < low < 0.9753
    assert high > 0.9999


def test_all_lost_mirrors_all_healthy():
    lost, healthy = odds_of([0] * 100, [2] * 100), odds_of([2] * 100, [2] * 100)
    assert (lost.kept, lost.lost) == (healthy.lost, healthy.kept)


def test_one_plant_says_little():
    low, high = odds_of([5], [5], [1]).interval(0.90)
    assert low < 0.45
    assert high > 0.99
    low, high = odds_of([3], [5], [1]).interval(0.90)
    assert high - low > 0.8


def test_no_square_looked_at_has_no_odds():
    bare, none = sums([0, 0], [0, 0], [0, 1]), sums([], [], np.array([], dtype=int))
    assert all(np.isnan(share_odds(bare, bare, NO_STOPS)).ravel())
    assert all(np.isnan(share_odds(none, none, NO_STOPS)).ravel())


def test_plants_without_squares_count_in_the_weight_of_their_quadrant():
    # NW: 2 plants, 4 squares, all healthy; SE: 2 plants, one bare, 2 squares, none healthy.
    # per plant: healthy 2 and 0, squares 2 and 1: set 2/3
    odds = odds_of([2, 2, 0, 0], [2, 2, 0, 2], [0, 0, 3, 3])
    assert middle(odds) == pytest.approx(2.0 / 3.0)


def test_unequal_quadrants_count_by_area():
    # NW 20 plants of 1 square, all healthy; SE 5 plants of 1 square, none: set 1/2, not 4/5
    odds = odds_of([1] * 20 + [0] * 5, [1] * 25, np.repeat([0, 3], [20, 5]))
    assert middle(odds) == pytest.approx(0.5)


def test_squares_alike_on_a_plant_widen_the_range():
    apart = odds_of(np.tile([3, 3, 3, 3, 3], 20) - np.tile([1, 0, 1, 0, 1], 20), [3] * 100)
    alike = odds_of(np.tile([3, 3, 3, 3, 0], 20), [3] * 100)
    assert (middle(apart), middle(alike)) == pytest.approx((0.8, 0.8))
    assert np.diff(alike.interval(0.9)) > 1.3 * np.diff(apart.interval(0.9))


def test_stops_never_narrow_the_range():
    by_stop, by_plant = odds_of(HEALTHY, SQUARES, stop=STOP), odds_of(HEALTHY, SQUARES)
    assert by_stop.kept <= by_plant.kept


@given(
    st.lists(
        st.tuples(st.integers(0, 6), st.integers(0, 6), st.integers(0, 3)), min_size=1, max_size=50
    )
)
def test_any_walk_has_odds_that_never_beat_its_squares(rows):
    healthy, lost, quadrant = (np.array(column) for column in zip(*rows, strict=True))
    seen = healthy + lost
    if seen.sum() == 0:
        return
    odds = odds_of(healthy, seen, quadrant)
    assert odds.kept + odds.lost - 1.0 <= seen.sum()
    low, high = odds.interval(0.90)
    assert 0.0 <= low < high <= 1.0


@given(st.permutations(range(25)))
def test_the_order_of_plants_in_a_quadrant_never_matters(order):
    healthy, seen = HEALTHY.copy(), SQUARES.copy()
    healthy[25:50], seen[25:50] = HEALTHY[25:50][list(order)], SQUARES[25:50][list(order)]
    assert odds_of(healthy, seen) == odds_of(HEALTHY, SQUARES)
