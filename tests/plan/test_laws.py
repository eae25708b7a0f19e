"""How many insects and lost squares a stretch shows: against libraries and plain sums."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import betabinom, binom, gamma, nbinom, poisson

from quarterwalk.plan import NOMINAL, ROBUST, SquaresOn, World, walked
from quarterwalk.plan.course import Stretch
from quarterwalk.plan.laws import insects_law, lost_law
from tests.plan.made import ALONE_15, FLOOR_85

CLUMPED, PATCHY, EVEN = ROBUST
UP_TO = np.arange(60)


@pytest.mark.parametrize("density", [0.0, 0.02, 0.25, 1.3])
@pytest.mark.parametrize("k", [0.05, 0.5, 1.0, 30.0])
def test_insects_without_stops_are_negative_binomial(k, density):
    law = insects_law(World("plain", k), density, 8, 60)
    assert law[:-1] == pytest.approx(nbinom.pmf(UP_TO, 40 * k, k / (k + density)), abs=1e-12)


@pytest.mark.parametrize("k", [1e9, 1e12, 1e200, np.inf])
def test_insects_that_hardly_clump_lie_at_random(k):
    law = insects_law(World("hardly", k), 0.25, 8, 60)
    assert law[:-1] == pytest.approx(poisson.pmf(UP_TO, 10.0), abs=1e-9)


@pytest.mark.parametrize("world", [CLUMPED, EVEN, World("alike", 1.0, 0.0, 0.05)])
def test_one_stop_has_its_gamma_factor(world):
    shape = world.stop_cv**-2
    law = insects_law(world, 0.25, 1, 60)

    def chance(factor, found):
        mean = 0.25 * factor
        if np.isinf(world.k):
            of_stop = poisson.pmf(found, 5 * mean)
        else:
            of_stop = nbinom.pmf(found, 5 * world.k, world.k / (world.k + mean))
        return of_stop * gamma.pdf(factor, shape, scale=1.0 / shape)

    for found in (0, 1, 4, 9):
        whole = quad(chance, 0.0, 6.0, args=(found,), epsabs=1e-12, points=[1.0], limit=200)[0]
        assert law[found] == pytest.approx(whole, abs=1e-9)


@pytest.mark.parametrize("stop_cv", [1e-9, 1e-6, 1e-3, 0.05, 0.076, 0.3])
def test_stops_as_alike_as_can_be_still_have_a_law(stop_cv):
    law = insects_law(World("alike", 0.5, 0.0, stop_cv), 0.25, 1, 400)
    found = np.arange(401)
    mean = found @ law
    assert mean == pytest.approx(1.25, rel=1e-9)
    within, between = 1.25 + 1.25 * 0.25 / 0.5 * (1.0 + stop_cv**2), (1.25 * stop_cv) ** 2
    assert found**2 @ law - mean**2 == pytest.approx(within + between, rel=1e-8)


def test_lost_squares_are_binomial_where_plants_are_not_alike():
    law = lost_law(NOMINAL, 0.15, 40, 120, 60)
    assert law[:-1] == pytest.approx(binom.pmf(UP_TO, 120, 0.15), abs=1e-12)


def test_lost_squares_of_like_plants_are_beta_binomial_plant_by_plant():
    alike = 1.0 / PATCHY.rho - 1.0
    one = lost_law(PATCHY, 0.15, 1, 6, 20)
    assert one[:7] == pytest.approx(betabinom.pmf(np.arange(7), 6, 0.15 * alike, 0.85 * alike))
    two = lost_law(PATCHY, 0.15, 2, 7, 20)
    four, three = (betabinom.pmf(np.arange(8), n, 0.15 * alike, 0.85 * alike) for n in (4, 3))
    assert two[:8] == pytest.approx(np.convolve(four, three)[:8])


def test_no_squares_no_loss():
    assert list(lost_law(PATCHY, 0.15, 0, 0, 3)) == [1.0, 0.0, 0.0, 0.0]


@pytest.mark.parametrize(
    "wrong", [{"k": 0.0}, {"k": -1.0}, {"rho": 1.0}, {"rho": -0.1}, {"stop_cv": -0.1},
              {"stop_cv": np.inf}, {"k": np.nan}],
)  # fmt: skip
def test_a_world_that_can_not_be_is_refused(wrong):
    with pytest.raises(ValueError, match="k must be above 0"):
        World("wrong", **{"k": 1.0, **wrong})


def test_squares_on_every_plant_go_along_with_the_plants():
    course = walked(FLOOR_85, (1, 2, 2), SquaresOn.EVERY_PLANT, 60)
    assert course.plants == (20, 60, 100)
    assert course.squares == (60, 180, 300)
    assert (course.treat_insects, course.treat_lost) == (25, 46)
    uneven = walked(FLOOR_85, (2, 3), SquaresOn.EVERY_PLANT, 41)
    assert uneven.squares == (41, 103)


def test_squares_in_the_first_loop_stand_on_the_fewest_plants_that_any_week_asks_for():
    course = walked(FLOOR_85, (2, 3), SquaresOn.FIRST_LOOP, 120)
    assert course.stretches == (Stretch(8, 24, 120), Stretch(12))
    assert course.treat_lost == 19


def test_a_walk_by_insects_alone_has_no_squares():
    course = walked(ALONE_15, (2, 3), SquaresOn.NONE, 0)
    assert course.stretches == (Stretch(8), Stretch(12))
    assert (course.cap_lost, course.treat_lost) == (0, 0)
