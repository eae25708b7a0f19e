"""A single sample from a lot: its curve falls, and is turned round exactly."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.plan.classical.acceptance import (
    SingleSample,
    acceptance,
    defective_at,
    mean_inspected,
)
from quarterwalk.plan.classical.counts import Binomial
from quarterwalk.plan.classical.exact_single import Limits, exact_ends

PLANS = st.integers(1, 200).flatmap(
    lambda size: st.builds(SingleSample, st.just(size), st.integers(0, size - 1))
)


@given(PLANS, st.floats(0.01, 0.99))
def test_a_lot_so_defective_is_accepted_so_often(plan: SingleSample, chance: float) -> None:
    assert acceptance(plan, defective_at(plan, chance)) == pytest.approx(chance, abs=1e-9)


@given(PLANS, st.floats(0.0, 0.99), st.floats(0.0, 0.01))
def test_a_worse_lot_is_not_accepted_more_often(plan, defective, more) -> None:
    assert acceptance(plan, defective + more) <= acceptance(plan, defective) + 1e-12


@given(PLANS, st.floats(0.01, 0.99))
def test_a_single_sample_is_a_plan_with_one_look(plan: SingleSample, defective: float) -> None:
    ends = exact_ends([Limits(plan.size, plan.most, plan.most + 1)], Binomial(), defective)
    assert ends.low == pytest.approx(acceptance(plan, defective), abs=1e-11)


def test_good_lots_cost_the_sample_and_bad_ones_the_lot() -> None:
    plan = SingleSample(52, 3)
    assert mean_inspected(plan, 0.0, 10_000) == 52
    assert mean_inspected(plan, 1.0, 10_000) == 10_000


def test_a_plan_that_accepts_every_lot_is_refused() -> None:
    with pytest.raises(ValueError, match="most must lie from 0 to under 5"):
        SingleSample(5, 5)
