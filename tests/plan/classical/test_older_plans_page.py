"""Every number in the tables of the page on older plans is worked out here again."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from itertools import count

import pytest

from quarterwalk.plan.classical.acceptance import (
    SingleSample,
    acceptance,
    defective_at,
    mean_inspected,
)
from quarterwalk.plan.classical.counts import NegativeBinomial
from quarterwalk.plan.classical.exact_single import (
    Ends,
    Limits,
    Look,
    cut_at,
    exact_ends,
    limits_at,
)
from quarterwalk.plan.classical.fixed_precision import kuno_total, precise_looks
from quarterwalk.plan.classical.iwao import IwaoLines
from quarterwalk.plan.classical.sample_size import clumped_plants
from quarterwalk.plan.classical.wald import wald_approximation, wald_lines
from tests.docs.said import DOCS, rows, section

PAGE = DOCS / "methods" / "older-plans.md"
LINE, FULL, LEAST, K = 0.25, 100, 25, 1.0
MADE_FOR = NegativeBinomial(K)
WALD = wald_lines(MADE_FOR, 0.15, 0.35, 0.10, 0.10)
IWAO = IwaoLines(LINE, 0.0, 1 + 1 / K, 1.645)
ERRORS = (0.15, 0.20, 0.25, 0.30, 0.35)
LENGTHS = (0.10, 0.15, 0.25, 0.35, 0.50)

PLANS: dict[str, Callable[[], Iterable[Look]]] = {
    "all 100 plants": lambda: [Limits(FULL, LEAST - 1, LEAST)],
    "Wald, no end": lambda: limits_at(WALD.at, count(1)),
    "Wald, to 100": lambda: cut_at(limits_at(WALD.at, count(1)), FULL, LEAST),
    "Wald, to 100, by stops": lambda: cut_at(limits_at(WALD.at, count(5, 5)), FULL, LEAST),
    "Iwao, to 100": lambda: cut_at(limits_at(IWAO.at, count(1)), FULL, LEAST),
    "Iwao, to 100, by stops from 20": lambda: cut_at(limits_at(IWAO.at, count(20, 5)), FULL, LEAST),
    "Kuno, to 100": lambda: precise_looks(
        lambda n: kuno_total(n, K, 0.25), LINE, range(1, FULL), FULL
    ),
}
LOOKS = {
    "once, at 40": [40],
    "at 20, 40, 60, 80": range(20, FULL, 20),
    "at 20, 25, ... 95": range(20, FULL, 5),
    "at 1, 2, ... 99": range(1, FULL),
}


def wrong(ends: Ends, mean: float) -> float:
    """Give the chance of the other answer; on the line the answer is to treat."""
    return ends.high if mean < LINE else ends.low


def told(value: float, decimals: int) -> str:
    """Write a number as the page does: shares without their 0."""
    text = f"{value:.{decimals}f}"
    return text.removeprefix("0") if decimals >= 3 else text


def plan_row(name: str, k: float) -> list[str]:
    def at(mean: float) -> Ends:
        return exact_ends(PLANS[name](), NegativeBinomial(k), mean)

    errors = [told(wrong(at(mean), mean), 3) for mean in ERRORS]
    return errors + [told(at(mean).plants, 1) for mean in LENGTHS]


def test_what_wald_said_and_what_is_so() -> None:
    for true, *figures in rows(PAGE, "What was said and what is so"):
        mean = int(true) / 100
        said = wald_approximation(WALD, MADE_FOR, mean)
        is_so = exact_ends(PLANS["Wald, no end"](), MADE_FOR, mean)
        assert figures == [
            told(1 - said.low, 3), told(is_so.high, 3), told(said.plants, 1), told(is_so.plants, 1)
        ]  # fmt: skip


def test_the_lines_of_the_example() -> None:
    said = section(PAGE, "What was said and what is so")
    assert f"{WALD.slope:.4f} n − {WALD.below:.3f}" in said
    assert f"{WALD.slope:.4f} n + {WALD.above:.3f}" in said


@pytest.mark.parametrize(("heading", "k"), [("Seven plans, one line", 1.0), ("Another k", 0.5)])
def test_the_error_and_length_of_each_plan(heading: str, k: float) -> None:
    table = rows(PAGE, heading)
    assert {row[0] for row in table} <= set(PLANS)
    for name, *figures in table:
        assert figures == plan_row(name, k)


def test_every_plan_is_told_in_the_first_table() -> None:
    assert [row[0] for row in rows(PAGE, "Seven plans, one line")] == list(PLANS)


def test_how_often_iwaos_plan_judges_a_field_on_its_line() -> None:
    table = rows(PAGE, "Iwao's lines")
    assert [row[0] for row in table] == list(LOOKS)
    for looks, *figures in table:
        ends = exact_ends(limits_at(IWAO.at, LOOKS[looks]), MADE_FOR, LINE)
        shown = [ends.low, ends.high, ends.low + ends.high]
        assert figures == [told(chance, 3) for chance in shown]


def test_the_plants_that_a_precision_asks_for() -> None:
    for true, *figures in rows(PAGE, "The wrong goal for a yes or no"):
        mean = int(true) / 100
        short, kuno = (exact_ends(PLANS[name](), MADE_FOR, mean).plants
                       for name in ("Wald, to 100", "Kuno, to 100"))  # fmt: skip
        needed = clumped_plants(mean, K, 0.25)
        assert figures == [told(needed, 1), told(kuno, 1), told(short, 1)]


def test_a_single_sample_from_a_lot() -> None:
    plan = SingleSample(52, 3)
    for percent, *figures in rows(PAGE, "Acceptance by attributes"):
        share = int(percent) / 100
        inspected = mean_inspected(plan, share, 10_000)
        assert figures == [told(acceptance(plan, share), 3), f"{inspected:,.0f}"]
    text = section(PAGE, "Acceptance by attributes")
    shares = re.findall(r"at ([\d.]+)\s%\sdefective", text)
    assert shares == [f"{100 * defective_at(plan, chance):.2f}" for chance in (0.95, 0.10)]


@pytest.mark.parametrize("mean", [0.10, 0.15, 0.20, 0.35])
def test_iwaos_plan_errs_less_than_kunos_with_fewer_plants(mean: float) -> None:
    # what the page says in words under its table
    iwao, kuno = (exact_ends(PLANS[name](), MADE_FOR, mean)
                  for name in ("Iwao, to 100, by stops from 20", "Kuno, to 100"))  # fmt: skip
    assert iwao.plants < kuno.plants
    assert wrong(iwao, mean) < wrong(kuno, mean)


def test_walds_walks_are_longer_than_said_by_as_much_as_the_page_says() -> None:
    longer = []
    for true, *_ in rows(PAGE, "What was said and what is so"):
        mean = int(true) / 100
        is_so = exact_ends(PLANS["Wald, no end"](), MADE_FOR, mean).plants
        longer.append(is_so / wald_approximation(WALD, MADE_FOR, mean).plants - 1)
    low, high = (round(100 * share) for share in (min(longer), max(longer)))
    text = " ".join(section(PAGE, "What was said and what is so").split())
    assert f"walks are {low} to {high} in 100 longer than said" in text
