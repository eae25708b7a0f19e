"""Insects per plant: facts of the range."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.reading.density import density_odds, raw_dispersion
from quarterwalk.reading.odds import GammaOdds
from quarterwalk.reading.sums import cluster_sums
from tests.reading.toy_field import INSECTS, NO_STOPS, QUADRANT, STOP, STOPS, sums


def odds_of(insects, quadrant=QUADRANT, b=None):
    plants = sums(insects, b, quadrant)
    shape, rate = density_odds(plants, plants, NO_STOPS)
    return GammaOdds(float(shape[0]), float(rate[0]))


def middle(odds):
    return (odds.shape - 0.5) / odds.rate


def test_the_invented_field_has_the_dispersion_worked_for_it_elsewhere():
    # 1.431548: stratified variance over mean, worked by an independent prototype
    assert raw_dispersion(sums(INSECTS))[0] == pytest.approx(1.431548, abs=5e-7)


def test_the_dispersion_can_be_worked_on_paper():
    # quadrants of two plants: 0 2 | 1 1 | 0 0 | 3 1: variances 2 0 0 2, means 1 1 0 2
    quadrant = np.repeat(np.arange(4), 2)
    assert raw_dispersion(sums([0, 2, 1, 1, 0, 0, 3, 1], quadrant=quadrant))[0] == 4.0 / 4.0


def test_the_invented_field_steps_follow_the_method_page():
    # by hand: seen (1.431548-1)/.28 = 1.541243; noise 2*(1.42/.28)^2 = 51.43878;
    # trust 96/147.43878 = 0.651118; 1/k 1.5 + 0.651118*0.041243 = 1.526854;
    # doubt 6*1.526854/100 + 2/100 = 0.111611; phi 1.427519*1.111611 = 1.586846
    odds = odds_of(INSECTS)
    assert odds.rate == pytest.approx(100 / 1.586846, rel=2e-6)
    assert odds.shape == pytest.approx(28 / 1.586846 + 0.5, rel=2e-6)


def test_no_insect_found_is_not_none_there():
    odds = odds_of(np.zeros(100, dtype=int))
    low, high = odds.interval(0.90)
    assert low < 0.0001
    # Poisson alone: 19 in 20 against more than 3 in 100; less would be false precision
    assert 0.015 < high < 0.04


def test_a_quadrant_counts_by_its_area_not_by_its_plants():
    # NW 20 plants with 1 each, NE SW SE 5 plants with none: mean of means is 1/4
    quadrant = np.repeat(np.arange(4), [20, 5, 5, 5])
    assert middle(odds_of([1] * 20 + [0] * 15, quadrant)) == pytest.approx(0.25)


def test_a_missing_quadrant_leaves_the_mean_of_the_others():
    assert middle(odds_of([2, 0, 4, 4], [0, 0, 3, 3])) == pytest.approx(2.5)


def test_no_insect_check_has_no_odds():
    nothing = sums([], quadrant=np.array([], dtype=int))
    shape, rate = density_odds(nothing, nothing, NO_STOPS)
    assert np.isnan(shape[0])
    assert np.isnan(rate[0])


@pytest.mark.parametrize("found", [0, 1, 9])
def test_one_plant_says_next_to_nothing(found):
    low, high = odds_of([found], [2]).interval(0.90)
    assert 0.0 <= low < 0.1 * max(found, 2)
    assert high > 5 * max(found, 1)


def test_one_plant_without_insects_does_not_make_a_quadrant_surely_empty():
    full = np.tile([1, 0, 2, 0, 1], 15)
    lone = odds_of([*full, 0], [*np.repeat(np.arange(3), 25), 3])
    low, high = lone.interval(0.90)
    assert high - low > 0.5


def test_a_walk_of_one_plant_in_each_quadrant_is_wide():
    low, high = odds_of([1, 0, 0, 1], [0, 1, 2, 3]).interval(0.90)
    assert low < 0.15
    assert high > 1.5


def test_clumped_insects_widen_the_range():
    even, clumped = np.tile([1, 0, 0, 0, 0], 20), np.tile([5] + [0] * 24, 4)
    ends = [np.diff(odds_of(x).interval(0.90))[0] for x in (even, clumped)]
    assert ends[1] > 1.5 * ends[0]


def test_stops_never_narrow_the_range():
    plants, stops = sums(INSECTS), sums(INSECTS, stop=STOP)
    assert density_odds(plants, stops, STOPS)[1] <= density_odds(plants, stops, NO_STOPS)[1]


def test_plants_alike_within_stops_widen_the_range():
    insects = np.repeat(np.tile([1, 0, 0, 0, 0], 4), 5)
    plants, stops = sums(insects), sums(insects, stop=STOP)
    by_stop, by_plant = density_odds(plants, stops, STOPS), density_odds(plants, stops, NO_STOPS)
    assert by_stop[1][0] < 0.5 * by_plant[1][0]


def test_sweeps_are_counted_each():
    odds = odds_of([10, 5, 5, 5, 10, 5, 5, 5], [0, 1, 2, 3] * 2, b=[25] * 8)
    assert middle(odds) == pytest.approx(50 / 200)
    assert odds.rate < 200


@given(st.permutations(range(25)))
def test_the_order_of_plants_in_a_quadrant_never_matters(order):
    shuffled = INSECTS.copy()
    shuffled[50:75] = INSECTS[50:75][list(order)]
    assert odds_of(shuffled) == odds_of(INSECTS)


@given(st.lists(st.tuples(st.integers(0, 99), st.integers(0, 3)), min_size=1, max_size=60))
def test_any_walk_has_finite_odds_around_its_mean(rows):
    insects, quadrant = zip(*rows, strict=True)
    odds = odds_of(insects, quadrant)
    means = [np.mean([i for i, q in rows if q == each]) for each in set(quadrant)]
    assert middle(odds) == pytest.approx(np.mean(means), abs=1e-9)
    low, high = odds.interval(0.90)
    assert 0.0 <= low < high < np.inf
    assert odds.rate < len(rows) + 1e-9


def test_many_walks_are_read_as_one_by_one():
    half = np.concatenate([np.repeat(0, 60), np.repeat(1, 40)])
    both = cluster_sums(INSECTS, np.ones_like(INSECTS), half * 4 + QUADRANT, None, 2)
    shape, rate = density_odds(both, both, np.zeros(2, dtype=bool))
    for walk in (0, 1):
        alone = odds_of(INSECTS[half == walk], QUADRANT[half == walk])
        assert (shape[walk], rate[walk]) == pytest.approx((alone.shape, alone.rate), rel=1e-12)
