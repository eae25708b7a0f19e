"""The packaged guidelines and the field routine, against the sources of their numbers."""

from __future__ import annotations

from fractions import Fraction

from quarterwalk.guideline import guideline_names, load_guideline, load_routine
from tests.published.tables import numbers, read

LINES = read("guideline_lines")
FLOORS = read("guideline_floors")
SHARES = read("guideline_shares")
SEASONS = read("guideline_seasons")
ROUTINE = read("routine")


def test_every_region_is_compared_with_its_source():
    assert {row["name"] for row in LINES.rows} == set(guideline_names())
    assert {row["name"] for row in SEASONS.rows} == set(guideline_names())


@LINES.each()
def test_the_line_of_a_squaring_week(row):
    rule = load_guideline(row["name"])
    line = rule.line_for(int(row["week"]))
    assert (rule.method, line.low, line.high) == (row["method"], int(row["low"]), int(row["high"]))


@FLOORS.each()
def test_the_floor_of_a_squaring_week(row):
    floor = load_guideline(row["name"]).floor_for(int(row["week"]))
    assert floor is not None
    assert floor.floor == Fraction(row["floor"])


@SHARES.each()
def test_the_other_shares_of_squares(row):
    rule = load_guideline(row["name"])
    found = {}
    if rule.blasted:
        found = {"blasted": rule.blasted.at_least, "blasted well over": rule.blasted.well_over}
    if rule.half_line:
        found["line halved"] = rule.half_line.at_or_below
    assert found[row["share"]] == Fraction(row["value"])


@SEASONS.each()
def test_when_the_rule_stops_holding(row):
    assert load_guideline(row["name"]).season_end == row["end"]


@ROUTINE.each()
def test_a_number_of_the_field_routine(row):
    value = tuple(numbers(row["value"]).tolist())
    got = getattr(load_routine(), row["quantity"])
    assert got == (value if len(value) > 1 else value[0])
