"""The textbook plans against their formulas, tables and exact figures of other people."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count

import numpy as np
import pytest

from quarterwalk.plan.classical.acceptance import (
    SingleSample,
    acceptance,
    defective_at,
    mean_inspected,
)
from quarterwalk.plan.classical.counts import Binomial, Counts, NegativeBinomial
from quarterwalk.plan.classical.exact_single import Limits, cut_at, exact_ends, limits_at
from quarterwalk.plan.classical.fixed_precision import green_total, kuno_total
from quarterwalk.plan.classical.iwao import IwaoLines
from quarterwalk.plan.classical.sample_size import (
    clumped_plants,
    half_width_plants,
    hit_plants,
    taylor_plants,
)
from quarterwalk.plan.classical.wald import WaldLines, wald_approximation, wald_lines
from tests.published.tables import read

Row = dict[str, str]

LINES = read("plan_wald_lines")
STEPS = read("plan_wald_steps")
EXACT = read("plan_wald_exact")
APPROXIMATE = read("plan_wald_approximate")
TOTALS = read("plan_stop_totals")
ENOUGH = read("plan_plants_enough")
IWAO = read("plan_iwao")
ACCEPTANCE = read("plan_acceptance")
INSPECTED = read("plan_mean_inspected")
DEFECTIVE = read("plan_defective")
FIRST = read("plan_first_success")

PLANTS_FOR: dict[str, Callable[[Row], float]] = {
    "taylor": lambda row: taylor_plants(
        *map(float, (row["mean"], row["a"], row["b"])), precision(row)
    ),
    "clumped": lambda row: clumped_plants(float(row["mean"]), float(row["k"]), precision(row)),
    "half-width": lambda row: half_width_plants(
        float(row["mean"]), float(row["k"]), precision(row), 1.96
    ),
    "hit": lambda row: hit_plants(float(row["mean"]), precision(row)),
}


def precision(row: Row) -> float:
    return float(row["precision"])


def counts_of(row: Row) -> Counts:
    return NegativeBinomial(float(row["k"])) if row["k"] else Binomial()


def lines_of(row: Row) -> WaldLines:
    given = [float(row[name]) for name in ("low", "high", "alpha", "beta")]
    return wald_lines(counts_of(row), *given)


def mean_of(row: Row) -> float:
    return lines_of(row).slope if row["mean"] == "slope" else float(row["mean"])


@LINES.each()
def test_the_lines_are_those_of_the_formulas(row):
    lines = lines_of(row)
    assert lines.slope == LINES.near(row["slope"])
    assert lines.below == LINES.near(row["below"])
    assert lines.above == LINES.near(row["above"])


@STEPS.each()
def test_at_which_whole_numbers_a_lot_is_accepted_or_rejected(row):
    lines = wald_lines(Binomial(), 0.01, 0.10, 0.05, 0.10)
    looks = range(int(row["first"]), int(row["last"]) + 1)
    for limits in limits_at(lines.at, looks):
        assert (limits.low, limits.high) == (int(row["accept"]), int(row["reject"]))


@EXACT.each()
def test_the_exact_error_and_length_of_walds_test(row):
    looks = limits_at(lines_of(row).at, count(1))
    if row["ends"]:
        looks = cut_at(looks, int(row["ends"]), 25)
    ends = exact_ends(looks, counts_of(row), mean_of(row))
    assert ends.low == EXACT.near(row["chance"])
    assert ends.plants == EXACT.near(row["plants"])


@APPROXIMATE.each()
def test_what_wald_said_of_it(row):
    said = wald_approximation(lines_of(row), counts_of(row), mean_of(row))
    if row["chance"]:
        assert said.low == APPROXIMATE.near(row["chance"])
    assert said.plants == APPROXIMATE.near(row["plants"])


@TOTALS.each()
def test_the_total_at_which_the_mean_is_known_well_enough(row):
    plants = int(row["plants"])
    if row["rule"] == "green":
        total = green_total(plants, float(row["a"]), float(row["b"]), 0.25)
    else:
        total = kuno_total(plants, float(row["k"]), 0.25)
    assert total == TOTALS.near(row["total"])


@ENOUGH.each()
def test_how_many_plants_are_enough(row):
    assert PLANTS_FOR[row["rule"]](row) == ENOUGH.near(row["plants"])


@IWAO.each()
def test_iwaos_lines(row):
    lines = IwaoLines(0.25, float(row["alpha"]), float(row["beta"]), 1.645)
    assert lines.at(int(row["plants"])) == (IWAO.near(row["lower"]), IWAO.near(row["upper"]))


@ACCEPTANCE.each()
def test_the_acceptance_curve_of_a_single_sample(row):
    chance = acceptance(SingleSample(52, 3), int(row["percent"]) / 100)
    assert chance == ACCEPTANCE.near(row["printed"])
    assert f"{chance:.3f}" == f"{float(row['recomputed']):.3f}"


@INSPECTED.each()
def test_how_many_are_inspected_where_bad_lots_are_sorted(row):
    plan = SingleSample(int(row["size"]), int(row["most"]))
    inspected = mean_inspected(plan, int(row["percent"]) / 100, int(row["lot"]))
    assert inspected == INSPECTED.near(row["inspected"])


@DEFECTIVE.each()
def test_how_defective_a_lot_is_that_is_accepted_so_often(row):
    plan = SingleSample(int(row["size"]), int(row["most"]))
    percent = 100 * defective_at(plan, int(row["chance"]) / 100)
    assert percent == pytest.approx(float(row["percent"]), rel=0, abs=float(row["half"]))


@FIRST.each()
def test_looking_until_the_first_hit(row):
    share, last = float(row["share"]), int(row["last"])
    looks = cut_at((Limits(plants, -1, 1) for plants in count(1)), last, 1)
    ends = exact_ends(looks, Binomial(), share)
    assert ends.plants == FIRST.near(row["plants"])
    assert ends.high == pytest.approx(1 - np.power(1 - share, last), abs=1e-12)
