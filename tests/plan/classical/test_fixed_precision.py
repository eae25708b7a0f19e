"""Fixed precision: stop totals lie on the sample sizes; what it asks for as a classifier."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.plan.classical.counts import NegativeBinomial
from quarterwalk.plan.classical.exact_single import Limits, exact_ends
from quarterwalk.plan.classical.fixed_precision import (
    PreciseEnough,
    green_total,
    kuno_total,
    precise_looks,
)
from quarterwalk.plan.classical.iwao import IwaoLines
from quarterwalk.plan.classical.sample_size import (
    clumped_plants,
    half_width_plants,
    hit_plants,
    taylor_plants,
)


@given(st.integers(5, 200), st.floats(0.5, 3.0), st.floats(1.0, 1.8), st.floats(0.1, 0.5))
def test_at_greens_total_just_so_many_plants_are_needed(n, a, b, precision) -> None:
    mean = green_total(n, a, b, precision) / n
    assert taylor_plants(mean, a, b, precision) == pytest.approx(n, rel=1e-9)


@given(st.integers(5, 200), st.floats(0.3, 10.0), st.floats(0.1, 0.5))
def test_at_kunos_total_just_so_many_plants_are_needed(n, k, precision) -> None:
    total = kuno_total(n, k, precision)
    if math.isfinite(total):
        assert clumped_plants(total / n, k, precision) == pytest.approx(n, rel=1e-6)
    else:
        assert n <= 1 / (k * precision**2) + 1e-9


def test_poisson_is_the_same_by_taylor_and_by_k() -> None:
    assert taylor_plants(0.25, 1, 1, 0.25) == pytest.approx(clumped_plants(0.25, math.inf, 0.25))
    assert green_total(50, 1, 1, 0.25) == pytest.approx(kuno_total(50, math.inf, 0.25))


def test_a_half_width_of_z_standard_errors_is_a_precision() -> None:
    assert half_width_plants(2.0, 1.5, 0.196, 1.96) == clumped_plants(2.0, 1.5, 0.1)


def test_hits_are_counts_whose_variance_is_less_than_their_mean() -> None:
    share, precision = 0.2, 0.3
    variance = share * (1 - share)
    assert hit_plants(share, precision) == pytest.approx(variance / (precision * share) ** 2)


def test_iwaos_lines_have_the_variance_of_a_negative_binomial() -> None:
    lower, upper = IwaoLines(0.25, 0.0, 1 + 1 / 0.5, 2.0).at(40)
    half = 2 * math.sqrt(40 * NegativeBinomial(0.5).variance(0.25))
    assert (lower, upper) == pytest.approx((10 - half, 10 + half))


def test_a_precise_walk_is_judged_by_its_mean() -> None:
    look = PreciseEnough(plants=40, total=8, least=10)
    assert look.sides(10).tolist() == [0] * 8 + [-1, -1, 1]


def test_a_precise_walk_that_never_stops_is_a_full_walk() -> None:
    counts = NegativeBinomial(1.0)
    never = exact_ends(precise_looks(lambda _: 300.0, 0.25, range(1, 100), 100), counts, 0.2)
    full = exact_ends([Limits(100, 24, 25)], counts, 0.2)
    assert (never.low, never.high) == pytest.approx((full.low, full.high), abs=1e-12)
    assert never.plants == pytest.approx(100)


def test_precision_asks_for_most_plants_where_the_answer_is_plainest() -> None:
    def plants(mean: float) -> float:
        looks = precise_looks(lambda n: kuno_total(n, 1.0, 0.25), 0.25, range(1, 2000), 2000)
        return exact_ends(looks, NegativeBinomial(1.0), mean).plants

    assert plants(0.10) > plants(0.15) > plants(0.25) > plants(0.50)
