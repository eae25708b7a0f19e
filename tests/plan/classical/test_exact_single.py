"""How walks by one running total end: the chances add up, and agree with counting every walk."""

from __future__ import annotations

from itertools import count, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import nbinom

from quarterwalk.plan.classical import exact_single
from quarterwalk.plan.classical.counts import Binomial, NegativeBinomial
from quarterwalk.plan.classical.exact_single import (
    Limits,
    cut_at,
    exact_ends,
    limits_at,
)
from quarterwalk.plan.classical.wald import wald_lines

K = st.one_of(st.floats(0.2, 20.0), st.just(np.inf))
MEANS = st.floats(0.02, 3.0)


@st.composite
def plans(draw: st.DrawFn) -> list[Limits]:
    """Draw any plan: looks anywhere, limits anywhere, with or without a limit on a side."""
    plants, looks = 0, []
    for _ in range(draw(st.integers(1, 6))):
        plants += draw(st.integers(1, 12))
        low = draw(st.integers(-1, 10))
        high = draw(st.one_of(st.none(), st.integers(low + 1, low + 15)))
        looks.append(Limits(plants, low, high))
    return looks


@given(plans(), K, MEANS)
def test_every_walk_ends_somewhere(looks: list[Limits], k: float, mean: float) -> None:
    ends = exact_ends(looks, NegativeBinomial(k), mean)
    assert ends.low + ends.high + ends.undecided == pytest.approx(1, abs=1e-11)
    assert min(ends.low, ends.high, ends.undecided) >= 0
    assert looks[0].plants - 1e-9 <= ends.plants <= looks[-1].plants + 1e-9


@given(plans(), K, MEANS, st.floats(0.0, 2.0))
def test_more_insects_never_make_the_low_side_likelier(
    looks: list[Limits], k: float, mean: float, more: float
) -> None:
    few = exact_ends(looks, NegativeBinomial(k), mean)
    many = exact_ends(looks, NegativeBinomial(k), mean + more)
    assert many.low <= few.low + 1e-11
    assert many.high >= few.high - 1e-11


@given(plans(), st.floats(0.02, 0.97), st.floats(0.0, 0.02))
def test_more_plants_hit_never_make_the_low_side_likelier(
    looks: list[Limits], share: float, more: float
) -> None:
    few, many = (exact_ends(looks, Binomial(), s) for s in (share, share + more))
    assert many.low <= few.low + 1e-11
    assert many.high >= few.high - 1e-11


@pytest.mark.parametrize("mean", [0.15, 0.25, 0.35])
def test_insects_less_and_less_clumped_come_to_poisson(mean: float) -> None:
    def ends(k: float) -> tuple[float, float]:
        counts = NegativeBinomial(k)
        lines = wald_lines(counts, 0.15, 0.35, 0.1, 0.1)
        got = exact_ends(limits_at(lines.at, count(1)), counts, mean)
        return got.low, got.plants

    poisson = np.array(ends(np.inf))
    gaps = [np.abs(ends(k) - poisson) for k in (1e2, 1e4, 1e6)]
    assert (gaps[0] > gaps[1]).all()
    assert gaps[2] == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize("share", [0.1, 0.3, 0.6])
def test_counting_every_walk_of_ten_plants_gives_the_same(share: float) -> None:
    looks = [Limits(2, -1, 2), Limits(5, 0, 3), Limits(6, 1, 4), Limits(10, 3, 4)]
    low = plants = 0.0
    for walk in product((0, 1), repeat=10):
        chance = share ** sum(walk) * (1 - share) ** (10 - sum(walk))
        for look in looks:
            total = sum(walk[: look.plants])
            if total <= look.low or total >= (look.high or 0):
                low += chance * (total <= look.low)
                plants += chance * look.plants
                break
    ends = exact_ends(looks, Binomial(), share)
    assert (ends.low, ends.plants) == pytest.approx((low, plants), abs=1e-12)
    assert ends.undecided == 0


def test_a_walk_with_one_look_is_one_sum() -> None:
    ends = exact_ends([Limits(100, 24, 25)], NegativeBinomial(1.0), 0.2)
    assert ends.low == pytest.approx(nbinom.cdf(24, 100, 1 / 1.2), abs=1e-12)
    assert ends.plants == pytest.approx(100)


@settings(max_examples=25)
@given(st.integers(5, 20), st.integers(5, 20))
def test_looks_that_decide_nothing_change_nothing(first: int, more: int) -> None:
    counts = NegativeBinomial(0.7)
    last = Limits(first + more, 6, 7)
    one = exact_ends([last], counts, 0.3)
    two = exact_ends([Limits(first), last], counts, 0.3)
    assert (two.low, two.high) == pytest.approx((one.low, one.high), abs=1e-12)


def test_limits_are_inclusive_where_a_line_meets_a_whole_number() -> None:
    # in floating point 0.29 × 100 is a little under 29, and 1.1 × 100 a little over 110
    (limits,) = limits_at(lambda n: (0.29 * n, 1.1 * n), [100])
    assert (limits.low, limits.high) == (29, 110)


def test_a_plan_is_cut_at_its_last_plant() -> None:
    looks = list(cut_at((Limits(n, -1, None) for n in count(10, 10)), 25, 7))
    assert [look.plants for look in looks] == [10, 20, 25]
    assert looks[-1] == Limits(25, 6, 7)


def test_a_plan_that_never_ends_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(exact_single, "_MOST_LOOKS", 500)
    with pytest.raises(ValueError, match="go on after 500 looks"):
        exact_ends((Limits(n, -1, 2) for n in count(1)), Binomial(), 0.0)


def test_looks_out_of_order_are_refused() -> None:
    with pytest.raises(ValueError, match="after 20 plants"):
        exact_ends([Limits(20, -1, 9), Limits(20, 2, 3)], NegativeBinomial(), 0.1)


def test_a_lower_limit_on_the_upper_one_is_refused() -> None:
    with pytest.raises(ValueError, match="low must lie under high"):
        Limits(10, 3, 3)
