"""The growth stage of a field by the BBCH scale."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.crop import Event, Given, Seen, bbch, read_clock
from tests.crop.seasons import after, steady


def code(day, *seen, a_day=18.0, **given_days):
    days = Given(**given_days)
    return bbch(read_clock(steady(a_day), on=after(day), seen=seen, given=days))


def test_before_emergence_there_is_no_code():
    assert code(0) is None
    assert code(2) is None


def test_a_crop_that_is_likely_up_is_emerged():
    assert code(4) == 9


@pytest.mark.parametrize("leaves", range(10))
def test_leaves_counted_on_the_day_are_the_code(leaves):
    seen = Seen(after(15), true_leaves=leaves, plants=20, pinhead=0)
    assert code(15, seen) == 10 + leaves


def test_a_leaf_half_counted_is_not_yet_unfolded():
    assert code(15, Seen(after(15), true_leaves=3.8)) == 13


def test_nine_leaves_and_more_have_one_code():
    assert code(25, Seen(after(25), true_leaves=12, plants=20, pinhead=0)) == 19


def test_leaves_counted_on_an_earlier_day_are_not_those_of_today():
    assert code(22, Seen(after(15), true_leaves=3)) > 13


def test_without_a_count_leaves_follow_the_heat():
    codes = [code(day) for day in range(11, 29)]
    assert codes[0] == 10
    assert codes[-1] == 15
    assert all(later - earlier in (0, 1) for earlier, later in pairwise(codes))


def test_from_first_square_on_buds_can_be_detected():
    likely = read_clock(steady(18.0), on=after(0)).odds[Event.FIRST_SQUARE].likely
    day = (likely - after(0)).days
    assert code(day - 1) < 51
    assert code(day) == 51


def test_buds_that_were_seen_are_the_code():
    assert code(27, Seen(after(27), plants=20, pinhead=10)) == 51
    assert code(27, Seen(after(27), plants=20, pinhead=9)) < 51


def test_flowers_that_were_seen_or_given_are_the_code():
    assert code(45, Seen(after(45), bloom=True)) == 60
    assert code(45, Seen(after(45), nawf=8.0)) == 60
    assert code(45, bloom=after(45)) == 60
    assert code(60, Seen(after(60), bloom=False)) == 51


@given(a_day=st.floats(8, 26))
@settings(max_examples=15, deadline=None)
def test_codes_never_go_back(a_day):
    codes = [code(day, a_day=a_day) or 0 for day in range(0, 110, 6)]
    assert codes == sorted(codes)
    assert set(codes) <= {0, 9, *range(10, 20), 51, 60}


def test_leaves_once_counted_stay_though_the_heat_is_short_of_them():
    seen = Seen(after(15), true_leaves=5)
    assert code(15, seen) == 15
    assert code(16, seen) == 15
