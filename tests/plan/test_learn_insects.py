"""The likelihood of the insects of stops, where it is known in closed form."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import gammaln
from scipy.stats import nbinom

from quarterwalk.plan.learn_insects import InsectChance
from quarterwalk.plan.learn_tally import Stops


def quadrants(*counts):
    """Give the stops of quadrants, each written stop by stop as the insects of its plants."""
    plants = [plant for quadrant in counts for stop in quadrant for plant in stop]
    return Stops(
        walk=np.zeros(sum(len(quadrant) for quadrant in counts), dtype=np.int64),
        cell=np.repeat(np.arange(len(counts)), [len(quadrant) for quadrant in counts]),
        plants=np.array([len(stop) for quadrant in counts for stop in quadrant]),
        insects=np.array([sum(stop) for quadrant in counts for stop in quadrant]),
        plants_over=np.array([sum(x > j for x in plants) for j in range(max(plants))]),
    )


def drawn(density, seed=3, stops=5, cells=30):
    rng = np.random.default_rng(seed)
    mean = (
        density * rng.gamma(4.0, 0.25, (cells, stops, 1)) * rng.gamma(1.0, 1.0, (cells, stops, 5))
    )
    return quadrants(*rng.poisson(mean).tolist())


def shared_out(totals, concentration):
    """Log chance of counts that are negative binomial with one mean, given their sum."""
    each = (gammaln(concentration + totals) - gammaln(concentration)).sum()
    whole = totals.size * concentration
    return each - gammaln(whole + totals.sum()) + gammaln(whole)


def closed(stops, concentration):
    totals = [stops.insects[stops.cell == cell] for cell in np.unique(stops.cell)]
    return sum(shared_out(of, concentration) for of in totals if of.sum() >= 2)


@pytest.mark.parametrize("density", [0.1, 0.5, 3.0])
@pytest.mark.parametrize("stop_cv", [0.2, 0.4, 0.8, 1.4])
def test_random_insects_on_gamma_stops_share_out_as_negative_binomials(density, stop_cv):
    stops = drawn(density)
    chance = InsectChance(stops)
    told = chance.log(0.0, stop_cv) - chance.log(0.0, 0.5)
    assert told == pytest.approx(closed(stops, stop_cv**-2) - closed(stops, 4.0), abs=0.02)


@pytest.mark.parametrize("clumping", [0.05, 0.5, 4.0, 12.0])
def test_stops_all_alike_leave_one_negative_binomial_over_all_plants(clumping):
    # given the sum of the quadrant, plants of one k share it out whatever the stops are
    counts = drawn(0.5)
    chance = InsectChance(counts)
    rng = np.random.default_rng(3)
    mean = 0.5 * rng.gamma(4.0, 0.25, (30, 5, 1)) * rng.gamma(1.0, 1.0, (30, 5, 5))
    plants = rng.poisson(mean).reshape(30, 25)

    def whole(a):
        return sum(shared_out(of, 1.0 / a) for of in plants if of.sum() >= 1)

    assert chance.log(clumping, 0.0) - chance.log(1.0, 0.0) == pytest.approx(
        whole(clumping) - whole(1.0), abs=0.02
    )


def test_one_stop_in_the_open_is_summed_out_by_brute_force():
    counts = quadrants([[2, 0, 1], [0, 0, 0, 5]])
    chance = InsectChance(counts)
    log_d = np.linspace(np.log(1e-5), np.log(1e5), 401)
    u = np.linspace(-12.0, 3.0, 1501)

    def brute(k, cv):
        shape = cv**-2
        weight = np.exp(shape * (np.log(shape) + u - np.exp(u)) - gammaln(shape))
        weight /= weight.sum()
        stop = [0.0, 0.0]
        for i, (n, found) in enumerate(((3, 3), (4, 5))):
            at = np.exp(log_d[:, None] + u)
            stop[i] = nbinom.pmf(found, n * k, k / (k + at)) @ weight
        within = shared_out(np.array([2, 0, 1]), k) + shared_out(np.array([0, 0, 0, 5]), k)
        return within + np.log((stop[0] * stop[1]).sum())

    told = chance.log(1.0 / 0.7, 0.6) - chance.log(0.5, 0.3)
    assert told == pytest.approx(brute(0.7, 0.6) - brute(2.0, 0.3), abs=2e-3)


def test_the_likelihood_has_no_step_where_the_way_of_summing_changes():
    chance = InsectChance(drawn(0.5))
    cvs = np.linspace(0.05, 0.6, 111)
    rises = np.diff([chance.log(1.0, cv) for cv in cvs])
    assert np.abs(np.diff(rises)).max() < 0.02


def test_quadrants_with_one_insect_say_nothing():
    chance = InsectChance(quadrants([[1, 0], [0, 0]], [[0, 0], [0, 0]]))
    assert chance.log(0.0, 0.0) == pytest.approx(chance.log(3.0, 1.0), abs=1e-12)


@pytest.mark.parametrize("clumping", [0.0, 1.0, 4.0])
def test_the_plants_of_a_stop_as_worked_on_the_page(clumping):
    # three insects on five plants as 2, 0, 1, 0, 0: docs/methods/own-walks.md
    chance = InsectChance(quadrants([[2, 0, 1, 0, 0]]))
    worked = 3 * (1 + clumping) / (5 * (5 + clumping) * (5 + 2 * clumping))
    assert chance.log(clumping, 0.3) == pytest.approx(np.log(worked / 3), abs=1e-12)


@pytest.mark.parametrize("stop_cv", [0.1, 0.3, 0.8])
def test_two_insects_on_one_stop_or_on_two_as_worked_on_the_page(stop_cv):
    empty = [0] * 5
    together = InsectChance(quadrants([[1, 1, 0, 0, 0], empty, empty, empty, empty]))
    apart = InsectChance(quadrants([[1, 0, 0, 0, 0], [1, 0, 0, 0, 0], empty, empty, empty]))
    # both share out over the plants of a stop in ways that are as likely whatever stops do
    told = together.log(0.0, stop_cv) - apart.log(0.0, stop_cv)
    told -= together.log(0.0, 0.0) - apart.log(0.0, 0.0)
    assert told == pytest.approx(np.log1p(stop_cv**2), abs=2e-3)
