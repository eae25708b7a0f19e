"""A guideline's values are possible from birth, and a bloom week asks the last of them."""

from __future__ import annotations

import dataclasses
import pickle
from fractions import Fraction

import pytest

from quarterwalk.guideline import Floor, Line, Source, SourceKind, load_guideline

DEMO = Source("demo", "Demo (invented)", kind=SourceKind.OWN_RULE)


def line(low, high, *weeks):
    return Line(weeks, Fraction(low), Fraction(high), DEMO)


@pytest.mark.parametrize(("low", "high"), [(0, 5), (-1, 5), (30, 25)])
def test_a_line_runs_from_above_zero_upwards(low, high):
    with pytest.raises(ValueError, match="lower end first"):
        line(low, high)


@pytest.mark.parametrize("floor", [0, 1, 85])
def test_a_floor_is_a_share_and_not_a_percentage(floor):
    with pytest.raises(ValueError, match=r"0\.85 for 85 %"):
        Floor((1,), and_later=False, floor=Fraction(floor), source=DEMO)


def test_a_guideline_has_a_line():
    with pytest.raises(ValueError, match="must have a line"):
        dataclasses.replace(load_guideline("kansas"), lines=())


def test_in_bloom_the_last_line_holds_and_only_a_floor_that_says_so():
    floors = (
        Floor((1, 2), and_later=False, floor=Fraction("0.9"), source=DEMO),
        Floor((3,), and_later=True, floor=Fraction("0.8"), source=DEMO),
    )
    rule = dataclasses.replace(load_guideline("coastal-bend"), floors=floors)
    assert rule.line_for(None).low == 10
    assert rule.floor_for(None) is floors[1]
    assert dataclasses.replace(rule, floors=floors[:1]).floor_for(None) is None
    assert dataclasses.replace(rule, floors=floors[:1]).floor_for(3) is None


def test_weekly_lines_leave_to_choose_what_they_share():
    rule = load_guideline("kansas")
    shared = dataclasses.replace(rule, lines=(line(10, 20, 1), line(15, 30, 2, 3)))
    assert shared.allowed_line() == (15, 20)


def test_a_rule_on_squares_needs_the_set_and_one_on_insects_does_not():
    needing = {"southern-high-plains", "kansas"}
    for name in ("southern-high-plains", "kansas", "mid-coast", "tennessee-sweep"):
        assert load_guideline(name).needs_set == (name in needing)


def test_a_source_says_what_is_not_known_of_it():
    assert Source("x", "Page", place="Here").citation == "Page, Here (year not recorded)"
    memory = Source("x", "Book", kind=SourceKind.FROM_MEMORY)
    assert memory.citation == "Book (from memory, not checked)"
    assert Source("x", "Report of 2019", place="Here", year=2019).citation == "Report of 2019, Here"
    assert Source("x", "Guide", "EX-1", "Here", 2018).citation == "Guide, EX-1, Here, 2018"


def test_a_guideline_survives_the_way_to_another_process():
    rule = load_guideline("southern-high-plains")
    assert pickle.loads(pickle.dumps(rule)) == rule
