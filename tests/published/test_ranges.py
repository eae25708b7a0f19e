"""Ranges of counts and shares against published ones."""

from __future__ import annotations

from quarterwalk.reading.odds import BetaOdds, GammaOdds
from quarterwalk.reading.textbook import clopper_pearson, garwood, wilson
from tests.published.tables import read

GARWOOD = read("garwood")
WILSON = read("wilson")
CLOPPER_PEARSON = read("clopper_pearson")
JEFFREYS = read("jeffreys")


def is_range(table, got, row):
    low, high = got
    return low == table.near(row["low"]) and high == table.near(row["high"])


def test_a_tolerance_is_neither_wider_nor_narrower_than_its_table_says():
    assert GARWOOD.near("121.6268") == 121.62685
    assert GARWOOD.near("121.6268") != 121.627


@GARWOOD.each()
def test_the_exact_range_of_a_count(row):
    assert is_range(GARWOOD, garwood(int(row["count"]), level=float(row["level"])), row)


@GARWOOD.each()
def test_the_ends_of_the_exact_range_are_those_of_two_gamma_odds(row):
    count, level = int(row["count"]), float(row["level"])
    low = GammaOdds(count, 1.0).interval(level)[0] if count else 0.0
    assert is_range(GARWOOD, (low, GammaOdds(count + 1.0, 1.0).interval(level)[1]), row)


@WILSON.each()
def test_the_score_range_of_a_share(row):
    assert is_range(WILSON, wilson(int(row["hit"]), int(row["seen"]), level=0.95), row)


@CLOPPER_PEARSON.each()
def test_the_exact_range_of_a_share(row):
    hit, seen, level = int(row["hit"]), int(row["seen"]), float(row["level"])
    assert is_range(CLOPPER_PEARSON, clopper_pearson(hit, seen, level=level), row)


@JEFFREYS.each()
def test_the_range_of_a_share_with_half_a_count_on_both_sides(row):
    hit, seen = int(row["hit"]), int(row["seen"])
    odds = BetaOdds(hit + 0.5, seen - hit + 0.5)
    assert is_range(JEFFREYS, odds.interval(0.95), row)
