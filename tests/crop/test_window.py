"""Days that something seen leaves to an event, and which of two that clash holds."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.crop import Event, Given, Seen, Sign, load_needs
from quarterwalk.crop.window import Window, days_for, kept, windows_of
from tests.crop.seasons import PLANTED, after

SQUARE, BLOOM, CUTOUT = Event.FIRST_SQUARE, Event.FIRST_BLOOM, Event.CUTOUT


def all_windows(*seen, given_days=None, on=None):
    """Windows as read on a day, that of the last look where none is told."""
    on = on or max((each.on for each in seen), default=PLANTED)
    return windows_of(PLANTED, given_days or Given(), seen, load_needs(), on=on)


def days_left(seen, event, *, later=0):
    """The days that one look leaves to an event so many days later, as (first, last)."""
    told = all_windows(seen, on=seen.on + timedelta(days=later))[1:]
    return [(w.first, w.last) for w in told if w.event is event]


def test_nothing_emerges_on_the_day_of_planting():
    (sown,) = all_windows()
    assert (sown.event, sown.first, sown.last) == (Event.EMERGENCE, after(1), None)


@pytest.mark.parametrize(("have", "left"), [(10, (None, 30)), (9, (31, None)), (0, (31, None))])
def test_half_of_the_plants_with_a_pinhead_make_first_square(have, left):
    seen = Seen(after(30), plants=20, pinhead=have)
    expected = tuple(None if day is None else after(day) for day in left)
    assert days_left(seen, SQUARE) == [expected]


@pytest.mark.parametrize(("have", "left"), [(10, (None, 31)), (9, (30, None)), (0, (30, None))])
def test_from_the_next_day_on_a_share_of_pinheads_may_be_a_day_off(have, left):
    seen = Seen(after(30), plants=20, pinhead=have)
    expected = tuple(None if day is None else after(day) for day in left)
    assert days_left(seen, SQUARE, later=1) == [expected]
    assert days_left(seen, SQUARE, later=20) == [expected]


@pytest.mark.parametrize(
    "seen",
    [
        Seen(after(50), squaring_branches=3.0),
        Seen(after(50), bloom=False, nodes=9),
        Seen(after(50), nawf=7.0),
    ],
)
def test_what_else_was_seen_says_the_same_on_later_days(seen):
    for event in Event:
        assert days_left(seen, event, later=9) == days_left(seen, event)


def test_fewer_than_half_a_branch_may_be_a_day_off_once_read_later():
    seen = Seen(after(50), squaring_branches=0.2)
    assert days_left(seen, SQUARE) == [(after(51), None)]
    assert days_left(seen, SQUARE, later=9) == [(after(50), None)]


def test_no_plants_looked_at_say_nothing():
    assert len(all_windows(Seen(after(30), plants=0, pinhead=0))) == 1


@pytest.mark.parametrize(
    ("branches", "first", "last"),
    [(0.5, 6, 0), (1, 8, 0), (2, 11, 0), (3, 14, 1), (4.5, 18, 6), (6, 23, 10)],
)
def test_squaring_branches_take_three_days_each_and_are_right_within_two(branches, first, last):
    seen = Seen(after(50), squaring_branches=branches)
    assert days_left(seen, SQUARE) == [(after(50 - first), after(50 - last))]


@pytest.mark.parametrize("branches", [0, 0.2, 0.49])
def test_less_than_half_a_squaring_branch_is_before_first_square(branches):
    assert days_left(Seen(after(50), squaring_branches=branches), SQUARE) == [(after(51), None)]


@pytest.mark.parametrize(("branches", "days"), [(0.5, 0), (1, 1.5), (3, 7.5), (5, 13.5)])
def test_half_a_branch_is_the_day_of_first_square_and_each_further_one_three_days(branches, days):
    assert days_for(branches, load_needs()) == days


def test_white_flowers_were_first_seen_on_the_day_or_before():
    assert days_left(Seen(after(55), bloom=True), BLOOM) == [(None, after(55))]
    assert days_left(Seen(after(55), bloom=False), BLOOM) == [(after(56), None)]


@pytest.mark.parametrize(("nawf", "left"), [(5, (None, 80)), (4.2, (None, 80)), (5.1, (81, None))])
def test_five_nodes_above_white_flower_are_cutout(nawf, left):
    seen = Seen(after(80), nawf=nawf)
    expected = tuple(None if day is None else after(day) for day in left)
    assert days_left(seen, CUTOUT) == [expected]
    assert days_left(seen, BLOOM) == [(None, after(80))]


@pytest.mark.parametrize("count", [{"true_leaves": 3.0}, {"nodes": 5.0}])
def test_a_count_of_leaves_or_nodes_says_only_that_the_crop_is_up(count):
    (_, window) = all_windows(Seen(after(20), **count))
    assert (window.event, window.first, window.last) == (Event.EMERGENCE, None, after(20))


def test_what_was_given_comes_before_what_was_seen_and_the_later_day_before_the_earlier():
    given_days = Given(first_square=(after(25), after(28)), bloom=after(50))
    seen = [Seen(after(day), plants=20, pinhead=12) for day in (30, 40, 35)]
    signs = [(w.sign, w.on) for w in all_windows(*seen, given_days=given_days)]
    assert signs[:3] == [
        (Sign.PLANTED, PLANTED),
        (Sign.FIRST_BLOOM, after(50)),
        (Sign.FIRST_SQUARE, after(25)),
    ]
    assert [on for _, on in signs[3:]] == [after(40), after(35), after(30)]


def window(event, first, last, on=1):
    days = (None if day is None else after(day) for day in (first, last))
    return Window(event, *days, Sign.PINHEADS, after(on))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (window(SQUARE, 30, None), window(SQUARE, None, 29)),
        (window(SQUARE, 30, None), window(BLOOM, None, 30)),  # bloom is a day later at least
        (window(SQUARE, 29, None), window(CUTOUT, None, 30)),
        (window(Event.EMERGENCE, 28, None), window(CUTOUT, None, 30)),
    ],
)
def test_two_that_leave_no_order_of_days_clash_whichever_holds_first(one, other):
    assert kept([one, other]).set_aside == ((other, one),)
    assert kept([other, one]).set_aside == ((one, other),)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (window(SQUARE, 30, None), window(SQUARE, None, 30)),
        (window(SQUARE, 30, None), window(BLOOM, None, 31)),
        (window(SQUARE, None, 30), window(BLOOM, 90, None)),
        (window(SQUARE, 20, 25), window(SQUARE, 25, 40)),
    ],
)
def test_two_that_can_both_be_true_are_both_kept(one, other):
    assert kept([one, other]).windows == (one, other)


def test_what_clashes_with_something_set_aside_is_kept():
    held, out = window(SQUARE, 40, None), window(SQUARE, None, 30, on=2)
    fine = window(SQUARE, 35, None, on=3)
    told = kept([held, out, fine])
    assert told.windows == (held, fine)
    assert told.set_aside == ((out, held),)


def test_a_look_is_set_aside_whole_and_frees_what_it_had_ruled_out():
    """Few nodes above white flower told of bloom before their word of cutout fell."""
    still = window(CUTOUT, 60, None)
    blooms, cut = window(BLOOM, None, 50, on=2), window(CUTOUT, None, 50, on=2)
    late = window(BLOOM, 55, None, on=3)
    told = kept([still, blooms, cut, late])
    assert told.windows == (still, late)
    assert told.set_aside == ((cut, still),)


def test_flowers_hold_before_squares_that_are_missed_later():
    seen = Seen(after(70), nawf=7.0), Seen(after(95), plants=20, pinhead=2)
    told = kept(all_windows(*seen))
    assert [(aside.sign, by.sign) for aside, by in told.set_aside] == [
        (Sign.PINHEADS, Sign.ABOVE_FLOWER)
    ]


def test_no_true_leaf_says_nothing_of_plants():
    assert len(all_windows(Seen(after(3), true_leaves=0.0))) == 1


@pytest.mark.parametrize(
    "count",
    [
        {"plants": 20, "pinhead": 0},
        {"squaring_branches": 0.0},
        {"true_leaves": 2.0},
        {"nodes": 4.0},
    ],
)
def test_plants_counted_before_planting_clash_with_it(count):
    told = kept(all_windows(Seen(after(-5), **count), on=after(20)))
    assert {by.sign for _, by in told.set_aside} == {Sign.PLANTED}


DAYS = st.none() | st.integers(0, 100)


@given(st.lists(st.tuples(st.sampled_from(list(Event)), DAYS, DAYS), max_size=8))
def test_every_window_is_kept_or_set_aside_and_the_first_always_holds(drawn):
    windows = [
        window(event, *((first, last) if None in (first, last) else sorted((first, last))), on=on)
        for on, (event, first, last) in enumerate(drawn)
    ]
    told = kept(windows)
    assert len(told.windows) + len(told.set_aside) == len(windows)
    assert windows[:1] == list(told.windows[:1])


@given(st.lists(st.integers(1, 99), min_size=2, max_size=12))
def test_later_looks_come_first(days):
    on = [w.on for w in all_windows(*(Seen(after(day), bloom=False) for day in days))[1:]]
    assert all(later >= earlier for later, earlier in pairwise(on))
