"""The chance of each day, and the days that are read from it."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.crop import DayOdds
from tests.crop.seasons import PLANTED, after


def odds(*chance, beyond=0.0):
    return DayOdds(PLANTED, np.array(chance, np.float64), beyond)


EVEN = odds(*[0.1] * 10)


def test_a_chance_by_a_day_takes_in_the_day_itself():
    assert odds(0.2, 0.5, 0.3).by(after(1)) == pytest.approx(0.7)


def test_before_the_first_day_nothing_has_fallen_and_after_the_last_all_has():
    assert odds(0.2, 0.8).by(after(-1)) == 0
    assert odds(0.2, 0.8).by(after(99)) == 1


def test_what_lies_beyond_all_days_has_not_fallen_by_the_last():
    assert odds(0.2, 0.3, beyond=0.5).by(after(99)) == pytest.approx(0.5)


def test_the_likely_day_is_the_middle_one():
    assert odds(0.2, 0.2, 0.2, 0.4).likely == after(2)


def test_a_day_that_brings_the_chance_to_just_half_is_the_middle():
    assert odds(0.5, 0.5).likely == PLANTED


def test_a_share_that_lies_beyond_all_days_has_no_day():
    late = odds(0.2, 0.2, beyond=0.6)
    assert late.reached(0.4) == after(1)
    assert late.likely is None
    assert late.within(0.8) is None


def test_eight_in_ten_of_even_days_are_eight():
    first, last = EVEN.within(0.8)
    assert (last - first).days + 1 == 8


def test_the_fewest_days_are_taken_wherever_they_lie():
    assert odds(0.1, 0.4, 0.4, 0.05, 0.05).within(0.8) == (after(1), after(2))
    assert odds(0.8, 0.1, 0.1).within(0.8) == (PLANTED, PLANTED)


def test_where_whole_days_can_not_meet_the_chance_the_nearer_is_taken():
    assert odds(0.39, 0.39, 0.22).within(0.8) == (PLANTED, after(1))
    assert odds(0.30, 0.30, 0.30, 0.10).within(0.8) == (PLANTED, after(2))


def test_a_day_that_is_sure_is_the_whole_range():
    assert odds(0, 0, 1, 0).within(0.8) == (after(2), after(2))


def test_no_range_begins_or_ends_with_days_that_have_no_chance():
    assert odds(0, 0, 0.25, 0.55, 0, 0, 0.2).within(0.8) == (after(2), after(3))
    assert odds(0.25, 0.55, 0, 0.2, 0).within(0.8) == (after(0), after(1))


@st.composite
def any_odds(draw):
    weights = draw(st.lists(st.floats(0, 1), min_size=1, max_size=60).filter(lambda w: sum(w) > 0))
    beyond = draw(st.sampled_from([0.0, 0.05, 0.4]))
    return odds(*(np.array(weights) / sum(weights) * (1 - beyond)), beyond=beyond)


@given(any_odds(), st.sampled_from([0.5, 0.8, 0.9]))
def test_a_range_lies_among_the_days_and_holds_the_middle_one(told, level):
    span = told.within(level)
    if span is not None:
        assert PLANTED <= span[0] <= told.likely <= span[1]
        assert span[1] < PLANTED + timedelta(days=told.chance.size)


@given(any_odds())
def test_a_range_misses_its_chance_by_no_more_than_one_day_holds(told):
    span = told.within(0.8)
    if span is not None:
        held = told.by(span[1]) - told.by(span[0] - timedelta(days=1))
        assert held >= 0.8 - told.chance.max() - 1e-9


@given(any_odds(), st.floats(0.01, 0.99))
def test_the_day_of_a_share_is_the_first_that_has_it(told, share):
    day = told.reached(share)
    if day is not None:
        assert told.by(day) >= share - 1e-9
        assert told.by(day - timedelta(days=1)) < share


@given(any_odds(), st.integers(-5, 70))
def test_chances_never_fall_as_days_go_on(told, days):
    day = date(2026, 5, 8) + timedelta(days=days)
    assert 0 <= told.by(day) <= told.by(day + timedelta(days=1)) + 1e-12
    assert told.by(day) <= 1
