"""One distribution gives both the range and the chance."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from quarterwalk.reading.odds import HIGHEST_LEVEL, BetaOdds, GammaOdds

parameter = st.floats(0.5, 300.0)


@pytest.mark.parametrize(("shape", "rate"), [(0.5, 100.0), (20.5, 69.9), (150.5, 100.0)])
def test_gamma_range_is_that_of_an_independent_program(shape, rate):
    reference = stats.gamma(shape, scale=1.0 / rate)
    assert GammaOdds(shape, rate).interval(0.9) == pytest.approx(reference.ppf([0.05, 0.95]))
    assert GammaOdds(shape, rate).at_least(0.25) == pytest.approx(reference.sf(0.25))


@pytest.mark.parametrize(("kept", "lost"), [(100.5, 0.5), (0.5, 40.5), (244.5, 36.5)])
def test_beta_range_is_that_of_an_independent_program(kept, lost):
    reference = stats.beta(kept, lost)
    assert BetaOdds(kept, lost).interval(0.9) == pytest.approx(reference.ppf([0.05, 0.95]))
    assert BetaOdds(kept, lost).below(0.85) == pytest.approx(reference.cdf(0.85))


@given(shape=parameter, rate=parameter, line=st.floats(0.001, 3.0))
def test_the_low_end_reaches_the_line_exactly_when_over_is_19_in_20(shape, rate, line):
    odds = GammaOdds(shape, rate)
    if abs(odds.at_least(line) - 0.95) > 1e-9:
        assert (odds.interval(0.90)[0] >= line) == (odds.at_least(line) >= 0.95)


@given(kept=parameter, lost=parameter, floor=st.floats(0.01, 0.99))
def test_the_high_end_is_under_the_floor_exactly_when_under_is_19_in_20(kept, lost, floor):
    odds = BetaOdds(kept, lost)
    if abs(odds.below(floor) - 0.95) > 1e-9:
        assert (odds.interval(0.90)[1] <= floor) == (odds.below(floor) >= 0.95)


@given(shape=parameter, rate=parameter, value=st.floats(-1.0, 3.0))
def test_at_least_and_below_leave_nothing_out(shape, rate, value):
    gamma, beta = GammaOdds(shape, rate), BetaOdds(shape, rate)
    assert gamma.at_least(value) + gamma.below(value) == pytest.approx(1.0)
    assert beta.at_least(value) + beta.below(value) == pytest.approx(1.0)


def test_four_times_the_plants_halve_the_range():
    low, high = GammaOdds(100.5, 400.0).interval(0.9)
    longer_low, longer_high = GammaOdds(100.5, 400.0).scaled(4.0).interval(0.9)
    assert longer_high - longer_low == pytest.approx((high - low) / 2.0, rel=0.01)
    assert BetaOdds(85.5, 15.5).scaled(4.0) == BetaOdds(340.5, 60.5)


@pytest.mark.parametrize("level", [0.0, 0.9999999999999999, 1.0, 90.0, float("nan")])
def test_a_level_that_no_range_has_is_refused(level):
    with pytest.raises(ValueError, match=r"Use 0\.90"):
        GammaOdds(1.0, 1.0).interval(level)


def test_at_the_highest_level_a_range_still_has_ends():
    low, high = GammaOdds(0.5, 1.0).interval(HIGHEST_LEVEL)
    assert 0.0 < low < high < 20.0
    low, high = BetaOdds(0.5, 0.5).interval(HIGHEST_LEVEL)
    assert 0.0 < low < high < 1.0


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_no_check_gives_no_odds(bad):
    with pytest.raises(ValueError, match="No check, no odds"):
        GammaOdds(bad, 1.0)
    with pytest.raises(ValueError, match="No check, no odds"):
        BetaOdds(1.0, bad)
