"""What the clock does at the edges of its rules."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from quarterwalk.crop import SEASON_DAYS, DayOdds, Event, Seen, Sign, bbch, load_needs, read_clock
from quarterwalk.crop.chain import LATEST, steps_of
from quarterwalk.crop.window import has_four_leaves
from tests.crop.seasons import PLANTED, after, steady
from tests.crop.test_likeness import counted

SQUARE, BLOOM = Event.FIRST_SQUARE, Event.FIRST_BLOOM
NEEDS = load_needs()


@pytest.mark.parametrize("day", [40, 60, 70, 90])
def test_it_blooms_with_the_chance_that_first_bloom_has_come(day):
    clock = read_clock(steady(18.0), on=after(day))
    assert clock.weeks.blooming == pytest.approx(clock.odds[BLOOM].by(after(day)), abs=1e-9)


def test_of_several_that_disagree_the_call_is_told_the_one_farthest_from_the_weather():
    looks = [Seen(after(18), plants=12, pinhead=9), Seen(after(41), bloom=True)]
    clock = read_clock(steady(18.0), on=after(60), seen=looks)
    told = {each.event: each.chance for each in clock.disagreements}
    worst = min(told, key=told.get)
    assert len(told) > 1
    assert clock.stage().worked_out.at_odds.event is worst


def test_first_square_keeps_its_range_once_flowers_were_seen():
    clock = read_clock(steady(18.0), on=after(70), seen=[Seen(after(68), bloom=True)])
    first, last = clock.first_square
    dates = clock.dates()
    assert first < last
    assert (dates.first_square, dates.latest) == (first, min(last, dates.bloom - timedelta(days=1)))


@pytest.mark.parametrize(
    "count", [{"bloom": False}, {"nodes": 0.0}, {"nawf": 5.0}, {"plants": 20, "pinhead": 0}]
)
def test_one_thing_that_was_looked_for_tells(count):
    assert Seen(PLANTED, **count).tells
    assert not Seen(PLANTED).tells


def test_of_many_looks_the_one_that_no_season_can_hold_is_set_aside():
    looks = [Seen(after(165), plants=20, pinhead=2), Seen(after(10), true_leaves=1.0)]
    clock = read_clock(steady(18.0), on=after(170), seen=looks)
    assert (Sign.PINHEADS, after(165)) in {(each.sign, each.on) for each in clock.set_aside}
    assert not any(each.on == after(165) for each in clock.disagreements)


def test_half_a_branch_weighs_days_as_first_square_itself():
    told = counted(squaring_branches=0.5)
    assert np.argmax(told) == 40
    assert told[37] / told[40] == pytest.approx(np.exp(-0.5))


@pytest.mark.parametrize("event", list(Event))
def test_the_last_day_of_the_season_may_hold_an_event_and_no_later_one_does(event):
    heat = np.arange(SEASON_DAYS)[None, :] * 8.0
    step = steps_of(heat, NEEDS)[event]
    starts, reach = step.starts, step.chance.shape[2]
    for start in range(starts):
        on_last = SEASON_DAYS - 1 - start  # so many days on is the last day
        if 1 <= on_last <= min(reach, LATEST[event]):
            assert step.chance[0, start, on_last - 1] > 0
        if 0 <= on_last < reach:
            assert step.chance[0, start, on_last:].sum() == 0


@pytest.mark.parametrize(
    ("event", "days"),
    [("emergence", 45), ("first_square", 80), ("first_bloom", 75), ("cutout", 75)],
)
def test_without_heat_an_event_comes_within_its_latest_days(event, days):
    chance = steps_of(np.zeros((1, SEASON_DAYS)), NEEDS)[Event(event)].chance[0, 0]
    assert np.flatnonzero(chance).max() + 1 == days


def test_a_season_that_cools_reaches_as_far_as_heat_may_take():
    """Heat falls from day to day, so the latest starts wait longest: none may be cut short."""
    a_day = np.linspace(10.0, 6.0, SEASON_DAYS)
    heat = np.cumsum(a_day)[None, :] - a_day[0]
    steps = steps_of(heat, NEEDS)
    sure = spread = 0.0
    for event in list(Event)[:3]:
        need, step = NEEDS.needs[event], steps[event]
        before = int(np.searchsorted(heat[0], sure + 4 * np.sqrt(spread)))
        before = min(before, step.starts - 1, SEASON_DAYS - 1)
        enough = int(np.searchsorted(heat[0], heat[0, before] + need.mean + 4 * need.sd))
        if enough < SEASON_DAYS:
            assert step.chance.shape[2] >= enough - before
        sure, spread = sure + need.mean, spread + need.sd**2


def test_an_event_as_likely_come_as_not_has_its_code():
    clock = read_clock(steady(18.0), on=after(20))
    half = DayOdds(PLANTED, np.array([0.5] + [0.0] * 40 + [0.5]))
    never = DayOdds(after(150), np.array([1.0]))
    odds = dict.fromkeys(Event, never) | {Event.EMERGENCE: half, SQUARE: half}
    assert bbch(replace(clock, odds=odds)) == 51


def test_of_a_bloom_past_day_150_no_cutout_is_told():
    step = steps_of(np.zeros((1, SEASON_DAYS)), NEEDS)[Event.CUTOUT]
    assert (step.starts, step.chance.shape[2]) == (151, 100)


@pytest.mark.parametrize("looks", [[(16, 2.0)], [(12, 1.0), (20, 3.0)], [(16, 5.0)]])
def test_leaves_that_were_counted_move_the_fourth_leaf_and_lose_none_of_its_chance(looks):
    seen = [Seen(after(day), true_leaves=leaves) for day, leaves in looks]
    odds = read_clock(steady(18.0), on=after(40), seen=seen).four_leaves
    assert odds.chance.sum() + odds.beyond == pytest.approx(1.0)


def test_no_flower_is_as_unlikely_as_all_days_of_bloom_after_it():
    clock = read_clock(steady(18.0), on=after(75), seen=[Seen(after(75), bloom=False)])
    (told,) = clock.disagreements
    assert told.window == (after(76), None)
    assert told.chance == pytest.approx(1.0 - clock.by_weather[BLOOM].by(after(75)), rel=1e-6)


def test_a_count_above_white_flower_means_four_leaves_long_ago():
    assert has_four_leaves(Seen(PLANTED, nawf=0.0), NEEDS) is True


@pytest.mark.parametrize("count", [{"nodes": 30.0}, {"plants": 20, "pinhead": 9}, {"nodes": 8.0}])
def test_the_day_that_agrees_best_agrees_by_one(count):
    assert counted(**count).max() == pytest.approx(1.0)
