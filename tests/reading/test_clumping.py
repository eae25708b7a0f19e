"""How clumped insects are: fits against published data."""

from __future__ import annotations

import numpy as np
import pytest

from quarterwalk.reading.clumping import fit_clumping, fit_likeness


def spelled(frequencies):
    return np.repeat(np.arange(len(frequencies)), frequencies)


def test_mites_on_150_leaves():
    # Bliss & Fisher 1953, Biometrics 9:176: k 1.02459; SE and log-likelihood from R (MASS)
    fit = fit_clumping(spelled([70, 38, 17, 10, 9, 3, 2, 1, 0]))
    assert fit.mean == pytest.approx(1.14666667, abs=1e-8)
    assert fit.k == pytest.approx(1.02459239, rel=1e-6)
    assert fit.k_error == pytest.approx(0.275907, abs=1e-6)
    assert fit.log_likelihood == pytest.approx(-222.437154, abs=1e-6)
    assert fit.moment_k == pytest.approx(1.16669737, abs=1e-8)


@pytest.mark.parametrize(
    ("frequencies", "k", "log_likelihood"),
    [
        # Student 1907, Biometrika 5:351, yeast A; Greenwood & Yule 1920, accidents
        ([213, 128, 37, 18, 3, 1], 3.58609, -446.531576),
        ([447, 132, 42, 21, 3, 2], 0.865116, -592.26710),
    ],
)
def test_published_counts(frequencies, k, log_likelihood):
    fit = fit_clumping(spelled(frequencies))
    assert fit.k == pytest.approx(k, rel=2e-6)
    assert fit.log_likelihood == pytest.approx(log_likelihood, abs=2e-5)


def test_yeast_c_is_nearly_poisson():
    assert fit_clumping(spelled([75, 103, 121, 54, 30, 13, 2, 1, 0, 1])).k == pytest.approx(
        20.862, abs=0.001
    )


@pytest.mark.parametrize(
    "counts", [spelled([103, 143, 98, 42, 8, 4, 2]), [1, 1, 1], [0, 0, 0], [0, 1], [4]]
)
def test_counts_no_more_unlike_than_chance_have_no_finite_k(counts):
    fit = fit_clumping(counts)
    assert fit.k == np.inf
    assert np.isnan(fit.k_error)
    assert np.isfinite(fit.log_likelihood)


def test_one_full_plant_among_many_empty_ones_is_clumped():
    assert 0.0 < fit_clumping([0] * 50 + [9]).k < 0.05


@pytest.mark.parametrize("counts", [[], [-1, 2]])
def test_impossible_counts_are_refused(counts):
    with pytest.raises(ValueError, match="Leave blanks out"):
        fit_clumping(counts)


def test_boys_in_6115_families():
    # Geissler 1889 (Saxony, families of 12): beta parameters 34.10, 31.58
    boys = [3, 24, 104, 286, 670, 1033, 1343, 1112, 829, 478, 181, 45, 7]
    fit = fit_likeness(spelled(boys), np.full(sum(boys), 12))
    alike = (1.0 - fit.rho) / fit.rho
    assert (fit.share * alike, (1.0 - fit.share) * alike) == pytest.approx((34.10, 31.58), abs=0.05)
    assert fit.log_likelihood == pytest.approx(-12492.8714, abs=1e-4)


def test_chromosome_pairs():
    # Skellam 1948, J. R. Stat. Soc. B 10:257
    fit = fit_likeness(spelled([32, 103, 122, 80]), np.full(337, 3))
    assert fit.share == pytest.approx(0.580712, abs=1e-6)
    assert fit.rho == pytest.approx(0.086668, abs=1e-6)
    assert fit.log_likelihood == pytest.approx(-436.81295, abs=1e-5)


@pytest.mark.parametrize(
    ("healthy", "sites"), [([3, 3], [3, 3]), ([0, 0], [2, 2]), ([2] * 4, [3] * 4), ([1, 0], [1, 1])]
)
def test_plants_no_more_unlike_than_chance_have_no_likeness(healthy, sites):
    assert fit_likeness(healthy, sites).rho == 0.0


@pytest.mark.parametrize(("healthy", "sites"), [([2], [1]), ([0], [0]), ([-1], [1])])
def test_impossible_squares_are_refused(healthy, sites):
    with pytest.raises(ValueError, match="healthy must lie"):
        fit_likeness(healthy, sites)
