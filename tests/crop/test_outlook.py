"""Days to plan by: when to begin, to look closest, to stop, and to clear host weeds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from quarterwalk.crop import DayOdds, Event, Given, Seen, load_needs, outlook_of, read_clock
from tests.crop.seasons import after, steady

SQUARE, BLOOM = Event.FIRST_SQUARE, Event.FIRST_BLOOM
CLOCK = read_clock(steady(18.0), on=after(20))


def with_days(**days):
    """The clock with an event on one day for sure."""
    odds = {Event(name): DayOdds(day, np.ones(1)) for name, day in days.items()}
    return replace(CLOCK, odds={**CLOCK.odds, **odds})


def test_walks_begin_at_the_fourth_true_leaf():
    assert outlook_of(CLOCK).begin == CLOCK.four_leaves.within(0.8)


def test_the_fourth_leaf_comes_two_and_a_half_nodes_before_first_square():
    heat = (6.5 - 4) * 55
    apart = CLOCK.odds[SQUARE].likely - CLOCK.four_leaves.likely
    assert apart.days == pytest.approx(heat / 18, abs=1)


def test_the_fourth_leaf_is_as_unsure_as_first_square_and_the_first_branch_together():
    square, branch = (9**2 + 45**2) ** 0.5 / 18, 55 / 18
    first, last = CLOCK.four_leaves.within(0.8)
    by_hand = 2 * 1.2816 * (square**2 + branch**2) ** 0.5
    assert (last - first).days + 1 == pytest.approx(by_hand, abs=1)


@pytest.mark.parametrize("a_day", [10.0, 14.0, 18.0, 24.0])
def test_walks_begin_before_first_square(a_day):
    clock = read_clock(steady(a_day), on=after(0))
    first, last = outlook_of(clock).begin
    assert first <= last < clock.odds[SQUARE].likely


def test_the_closest_watch_is_three_weeks_from_the_likely_first_square():
    told = outlook_of(with_days(first_square=date(2026, 6, 10)))
    assert told.closest == (date(2026, 6, 10), date(2026, 6, 30))


def test_first_bloom_is_told_8_in_10():
    assert outlook_of(CLOCK).bloom == CLOCK.odds[BLOOM].within(0.8)


def test_host_weeds_are_cleared_until_the_day_before_squaring_may_begin():
    told = outlook_of(CLOCK)
    odds = CLOCK.odds[SQUARE]
    assert odds.by(told.weeds_until) < 0.05 <= odds.by(told.weeds_until + timedelta(days=1))


def test_host_weeds_are_cleared_again_once_bloom_has_all_but_surely_come():
    told = outlook_of(CLOCK)
    odds = CLOCK.odds[BLOOM]
    assert odds.by(told.weeds_again - timedelta(days=1)) < 0.95 <= odds.by(told.weeds_again)


def test_days_that_are_sure_leave_no_doubt_about_weeds():
    told = outlook_of(with_days(first_square=date(2026, 6, 10), first_bloom=date(2026, 7, 4)))
    assert (told.weeds_until, told.weeds_again) == (date(2026, 6, 9), date(2026, 7, 4))


def test_what_was_seen_moves_the_days_to_plan_by():
    late = Seen(after(33), plants=20, pinhead=3)
    clock = read_clock(steady(18.0), on=after(33), seen=[late])
    assert outlook_of(clock).closest[0] > after(33)
    assert outlook_of(clock).bloom[0] > outlook_of(CLOCK).bloom[0]


def test_a_first_square_that_was_given_begins_the_closest_watch():
    days = (after(27), after(27))
    clock = read_clock(steady(18.0), on=after(30), given=Given(first_square=days))
    assert outlook_of(clock).closest == (after(27), after(47))


def test_days_past_the_season_are_not_told():
    told = outlook_of(read_clock(steady(1.0), on=after(10)))
    assert told.bloom is None
    assert told.weeds_again is None


def test_the_look_for_bloom_begins_before_most_fields_bloom():
    days = load_needs().value("look_for_bloom_after")
    clock = read_clock(steady(12.5), on=after(50), given=Given(first_square=(after(40), after(40))))
    assert 0.05 < clock.odds[BLOOM].by(after(40 + int(days))) < 0.5


def test_host_weeds_are_left_alone_from_the_first_square_that_was_seen():
    plain = outlook_of(read_clock(steady(18.0), on=after(24)))
    some = [Seen(after(23), plants=100, pinhead=3)]
    seen = outlook_of(read_clock(steady(18.0), on=after(24), seen=some))
    assert plain.weeds_until > after(22)
    assert seen.weeds_until == after(22)


def test_weeds_are_safe_until_the_day_before_the_first_day_that_was_given():
    days = Given(first_square=(after(22), after(45)))
    clock = read_clock(steady(18.0), on=after(20), given=days)
    assert outlook_of(clock).weeds_until == after(21)
