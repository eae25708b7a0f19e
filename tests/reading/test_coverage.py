"""The ranges hold the truth as often as they say, in a few invented fields.

2,000 walks of a kind: standard error .0067, so .02 is three of them. The full
table is printed by benchmarks/coverage.py.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import betainc, gammainc

from quarterwalk.reading.density import density_odds
from quarterwalk.reading.evenness import evenness_p
from quarterwalk.reading.square_set import share_odds
from quarterwalk.reading.sums import cluster_sums

WALKS = 2000
SLACK = 0.02
CELL = (4 * np.arange(WALKS)[:, None] + np.repeat(np.arange(4), 25)).ravel()
PLAIN = np.zeros(WALKS, dtype=bool)


def rng():
    return np.random.default_rng(20260618)


def walks(counts, seen=None):
    seen = np.ones_like(counts) if seen is None else seen
    return cluster_sums(counts.ravel(), seen.ravel(), CELL, None, WALKS)


def insects(dice, density, k, patchy):
    quadrants = np.full((WALKS, 4), density)
    if patchy:
        quadrants *= dice.gamma(patchy**-2, patchy**2, (WALKS, 4))
    expected = np.repeat(quadrants, 25, axis=1)
    plants = dice.gamma(k, 1.0 / k, expected.shape) if np.isfinite(k) else 1.0
    return walks(dice.poisson(expected * plants)), quadrants.mean(axis=1)


def held(chance_below):
    return np.mean((chance_below >= 0.05) & (chance_below <= 0.95))


@pytest.mark.parametrize("patchy", [0.0, 0.6])
@pytest.mark.parametrize("k", [0.3, 1.0, np.inf])
@pytest.mark.parametrize("density", [0.04, 0.1, 0.25, 1.0])
def test_nine_in_ten_ranges_hold_the_insects(density, k, patchy):
    plants, truth = insects(rng(), density, k, patchy)
    shape, rate = density_odds(plants, plants, PLAIN)
    assert 0.86 - SLACK < held(gammainc(shape, rate * truth)) < 0.955 + SLACK


@pytest.mark.parametrize("rho", [0.0, 0.3])
@pytest.mark.parametrize("share", [0.05, 0.6, 0.85, 0.95])
def test_nine_in_ten_ranges_hold_the_square_set(share, rho):
    dice = rng()
    alike = 1.0 / rho - 1.0 if rho else 0.0
    chance = dice.beta(share * alike, (1 - share) * alike, (WALKS, 100)) if rho else share
    seen = 1 + dice.poisson(2, (WALKS, 100))
    plants = walks(dice.binomial(seen, chance), seen)
    kept, lost = share_odds(plants, plants, PLAIN)
    assert 0.86 - SLACK < held(betainc(kept, lost, share)) < 0.94 + SLACK


@pytest.mark.parametrize("k", [0.3, 1.0, np.inf])
def test_an_even_field_is_called_uneven_once_in_twenty_at_most(k):
    plants, _ = insects(rng(), 0.25, k, 0.0)
    assert np.mean(evenness_p(plants, plants, PLAIN) <= 0.05) < 0.05 + SLACK
