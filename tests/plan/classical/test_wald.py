"""Wald's lines are those of the likelihood ratio, and his formulas meet his risks."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import nbinom

from quarterwalk.plan.classical.counts import Binomial, Counts, NegativeBinomial
from quarterwalk.plan.classical.wald import wald_approximation, wald_lines

RISKS = st.floats(0.01, 0.4)
ALL_COUNTS = (NegativeBinomial(), NegativeBinomial(1.0), NegativeBinomial(0.3), Binomial())


@given(st.sampled_from(ALL_COUNTS), st.floats(0.05, 0.4), st.floats(1.1, 2.0), RISKS, RISKS)
def test_at_its_two_means_a_plan_is_said_to_err_as_it_was_made_to(
    counts: Counts, low: float, times: float, alpha: float, beta: float
) -> None:
    lines = wald_lines(counts, low, low * times, alpha, beta)
    assert wald_approximation(lines, counts, low).low == pytest.approx(1 - alpha, abs=1e-7)
    assert wald_approximation(lines, counts, low * times).low == pytest.approx(beta, abs=1e-7)


@pytest.mark.parametrize("counts", ALL_COUNTS)
def test_the_formulas_pass_smoothly_over_the_slope(counts: Counts) -> None:
    lines = wald_lines(counts, 0.15, 0.35, 0.1, 0.05)
    at, near = (wald_approximation(lines, counts, lines.slope * s) for s in (1.0, 1.0001))
    assert near.low == pytest.approx(at.low, abs=1e-3)
    assert near.plants == pytest.approx(at.plants, rel=1e-3)


@pytest.mark.parametrize("counts", ALL_COUNTS)
@pytest.mark.parametrize("mean", [1e-6, 0.01, 0.9, 0.999])
def test_far_from_the_lines_the_side_is_sure(counts: Counts, mean: float) -> None:
    lines = wald_lines(counts, 0.15, 0.35, 0.01, 0.01)
    said = wald_approximation(lines, counts, mean)
    assert said.low == pytest.approx(float(mean < 0.2), abs=0.01)
    assert said.plants > 0


def test_a_total_on_a_line_is_as_much_likelier_as_the_risks_say() -> None:
    counts, n = NegativeBinomial(0.8), 40
    lines = wald_lines(counts, 0.2, 0.5, 0.1, 0.05)
    step, per_plant = counts.weights(0.2, 0.5)
    lower, upper = lines.at(n)
    assert step * upper - per_plant * n == pytest.approx(math.log(0.95 / 0.1))
    assert step * lower - per_plant * n == pytest.approx(math.log(0.05 / 0.9))
    # and the ratio is that of the two distributions
    chances = [nbinom.logpmf(7, n * 0.8, 0.8 / (0.8 + d)) for d in (0.2, 0.5)]
    assert chances[1] - chances[0] == pytest.approx(7 * step - n * per_plant)


@pytest.mark.parametrize("k", [0.5, 1.0, math.inf])
def test_the_log_moment_is_that_of_the_chances(k: float) -> None:
    counts, mean, tilt = NegativeBinomial(k), 0.4, 0.3
    chances = counts.chances(mean, 1, 400)
    moment = sum(c * math.exp(tilt * x) for x, c in enumerate(chances))
    assert counts.log_moment(mean, tilt) == pytest.approx(math.log(moment))
    assert tilt < counts.most_tilt(mean)


@pytest.mark.parametrize(
    ("means", "risks", "said"),
    [((0.3, 0.3), (0.1, 0.1), "low < high"), ((0.0, 0.3), (0.1, 0.1), "low < high"),
     ((0.1, 0.3), (0.0, 0.1), "sum below 1"), ((0.1, 0.3), (0.6, 0.4), "sum below 1")],
)  # fmt: skip
def test_a_test_of_nothing_is_refused(means, risks, said) -> None:
    with pytest.raises(ValueError, match=said):
        wald_lines(NegativeBinomial(), *means, *risks)


def test_k_is_above_0() -> None:
    with pytest.raises(ValueError, match="k must be above 0"):
        NegativeBinomial(0.0)
