"""The field routine holds the trade's numbers, exact, each with a source and a reason."""

from __future__ import annotations

import dataclasses
from fractions import Fraction

import pytest

from quarterwalk.guideline import SourceKind, load_routine


def test_a_full_walk_is_25_terminals_in_each_of_four_quadrants():
    assert load_routine().full_walk_plants == 4 * 25


def test_the_shares_of_the_line_and_of_the_squares_are_exact():
    routine = load_routine()
    assert (routine.near_line, routine.low_line) == (Fraction(2, 3), Fraction(1, 3))
    assert (routine.well_under, routine.squaring_share) == (Fraction(1, 20), Fraction(1, 2))


def test_a_clear_field_is_walked_weekly_and_one_in_question_after_3_to_4_days():
    routine = load_routine()
    assert (routine.hold, routine.look_sooner, routine.treated) == (7, (3, 4), (3, 4))


def test_100_sites_follow_from_the_published_formula_at_one_in_five_lost():
    # n = (1 - p) / (p D^2), p 0.20, D 0.2 -> 100 (Muegge et al. 2004, Beltwide)
    share, precision = Fraction(1, 5), Fraction(1, 5)
    assert load_routine().readable_sites == (1 - share) / (share * precision**2)


def test_every_number_of_the_routine_has_a_source_and_a_reason():
    routine = load_routine()
    names = {field.name for field in dataclasses.fields(routine)} - {"rules"}
    assert {rule.name for rule in routine.rules} == names
    assert all(rule.unit and rule.why.endswith(".") for rule in routine.rules)
    kinds = {rule.source.kind for rule in routine.rules}
    assert kinds == {SourceKind.COMMON_PRACTICE, SourceKind.OWN_RULE}


def test_a_number_that_the_routine_lacks_is_not_made_up():
    with pytest.raises(KeyError):
        load_routine().rule_for("moon")
