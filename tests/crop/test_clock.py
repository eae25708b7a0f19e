"""What the crop's clock makes of heat, and of what was seen."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from quarterwalk.crop import (
    CropDateError,
    Event,
    Given,
    Seen,
    Sign,
    StageName,
    clock_for,
    load_needs,
    read_clock,
)
from quarterwalk.weather import WeatherError
from tests.crop.seasons import PLANTED, after, station, steady

SQUARE, BLOOM = Event.FIRST_SQUARE, Event.FIRST_BLOOM


def likely(clock, event=SQUARE):
    return (clock.odds[event].likely - PLANTED).days


def width(clock, event=SQUARE, level=0.8):
    first, last = clock.odds[event].within(level)
    return (last - first).days


def middle_by_hand(a_day, *events):
    """The day by which the mean needs of all events before have come."""
    return sum(load_needs().needs[event].mean for event in events) / a_day


@pytest.mark.parametrize("a_day", [10.0, 15.0, 20.0, 25.0])
def test_first_square_comes_when_the_mean_need_has(a_day):
    by_hand = middle_by_hand(a_day, Event.EMERGENCE, SQUARE)
    assert likely(read_clock(steady(a_day), on=after(10))) == pytest.approx(by_hand, abs=2)


@pytest.mark.parametrize("a_day", [15.0, 20.0, 25.0])
def test_first_bloom_comes_when_the_mean_need_has(a_day):
    by_hand = middle_by_hand(a_day, Event.EMERGENCE, SQUARE, BLOOM)
    assert likely(read_clock(steady(a_day), on=after(10)), BLOOM) == pytest.approx(by_hand, abs=3)


def test_chances_of_each_event_add_up_to_one():
    clock = read_clock(steady(18.0, known=20, spread=0.2), on=after(19))
    for odds in clock.odds.values():
        assert odds.chance.sum() + odds.beyond == pytest.approx(1)
        assert odds.chance.min() >= 0


def test_where_the_crop_stands_adds_up_to_one():
    for day in range(0, 120, 7):
        weeks = read_clock(steady(18.0), on=after(day)).weeks
        assert weeks.before + sum(weeks.weeks) + weeks.blooming == pytest.approx(1)


def test_the_chain_agrees_with_fields_drawn_by_dice():
    heat, needs = steady(18.0), load_needs().needs
    rng = np.random.default_rng(3)
    drawn = [rng.normal(needs[e].mean, needs[e].sd, 200_000) for e in (Event.EMERGENCE, SQUARE)]
    days = np.ceil(np.ceil(drawn[0] / 18.0) + drawn[1] / 18.0)
    odds = read_clock(heat, on=after(0)).odds[SQUARE]
    for share in (0.1, 0.25, 0.5, 0.75, 0.9):
        day = (odds.reached(share) - PLANTED).days
        assert np.mean(days <= day - 1) - 0.02 < share < np.mean(days <= day) + 0.02


def test_weather_to_come_that_differs_by_year_makes_the_range_wider():
    sure = read_clock(steady(18.0, known=10), on=after(9))
    unsure = read_clock(steady(18.0, known=10, spread=0.25), on=after(9))
    assert width(unsure) > width(sure)


def test_warmer_is_earlier():
    days = [likely(read_clock(steady(heat), on=after(0)), BLOOM) for heat in (12, 16, 20, 24)]
    assert days == sorted(days, reverse=True)
    assert len(set(days)) == len(days)


SHARES = st.integers(0, 20)


@given(day=st.integers(20, 50), have=SHARES, a_day=st.floats(12, 24))
@settings(max_examples=60, deadline=None)
def test_a_share_of_pinheads_is_never_contradicted(day, have, a_day):
    seen = Seen(after(day), plants=20, pinhead=have)
    clock = read_clock(steady(a_day), on=after(day), seen=[seen])
    reached = clock.odds[SQUARE].by(after(day))
    assert reached == pytest.approx(1.0 if have >= 10 else 0.0, abs=1e-9)
    assert (clock.stage().name is not StageName.BEFORE_SQUARING) == (have >= 10)


@given(day=st.integers(20, 50), have=SHARES, later=st.integers(1, 30))
@settings(max_examples=40, deadline=None)
def test_a_share_of_pinheads_may_be_a_day_off_later_on_and_no_more(day, have, later):
    seen = Seen(after(day), plants=20, pinhead=have)
    odds = read_clock(steady(18.0), on=after(day + later), seen=[seen]).odds[SQUARE]
    if have >= 10:
        assert odds.by(after(day + 1)) == pytest.approx(1.0)
    else:
        assert odds.by(after(day - 1)) == pytest.approx(0.0, abs=1e-9)


@given(day=st.integers(20, 70), branches=st.floats(0, 9), a_day=st.floats(12, 24))
@settings(max_examples=60, deadline=None)
def test_squaring_branches_are_never_contradicted(day, branches, a_day):
    seen = Seen(after(day), squaring_branches=branches)
    clock = read_clock(steady(a_day), on=after(day), seen=[seen])
    odds, days = clock.odds[SQUARE], 3 * (branches - 0.5)
    if branches < 0.5:
        assert odds.by(after(day)) == pytest.approx(0, abs=1e-9)
        return
    assume(days + 6 < day)
    held = odds.by(after(day) - timedelta(days=max(0, int(days - 6))))
    held -= odds.by(after(day) - timedelta(days=int(days + 6) + 2))
    assert held == pytest.approx(1, abs=1e-6)


@given(day=st.integers(30, 110), flowers=st.booleans(), a_day=st.floats(12, 24))
@settings(max_examples=60, deadline=None)
def test_white_flowers_are_never_contradicted(day, flowers, a_day):
    clock = read_clock(steady(a_day), on=after(day), seen=[Seen(after(day), bloom=flowers)])
    assert clock.odds[BLOOM].by(after(day)) == pytest.approx(float(flowers), abs=1e-9)
    assert (clock.stage().name is StageName.BLOOMING) == flowers


@given(day=st.integers(60, 120), nawf=st.floats(3, 10))
@settings(max_examples=40, deadline=None)
def test_nodes_above_white_flower_are_never_contradicted(day, nawf):
    clock = read_clock(steady(18.0), on=after(day), seen=[Seen(after(day), nawf=nawf)])
    assert clock.odds[BLOOM].by(after(day)) == pytest.approx(1, abs=1e-9)
    assert clock.odds[Event.CUTOUT].by(after(day)) == pytest.approx(float(nawf <= 5), abs=1e-9)


@given(first=st.integers(15, 80), long=st.integers(0, 6), a_day=st.floats(12, 24))
@settings(max_examples=40, deadline=None)
def test_a_first_square_that_was_given_holds(first, long, a_day):
    days = (after(first), after(first + long))
    clock = read_clock(steady(a_day), on=after(30), given=Given(first_square=days))
    odds = clock.odds[SQUARE]
    assert odds.by(days[1]) - odds.by(days[0] - timedelta(days=1)) == pytest.approx(1)
    assert clock.first_square == days
    assert clock.stage().worked_out is None


@given(sign=st.sampled_from(["pinhead", "branches", "bloom"]), a_day=st.floats(14, 24))
@settings(max_examples=40, deadline=None)
def test_ranges_narrow_with_what_was_seen_where_the_model_expected_it(sign, a_day):
    before = read_clock(steady(a_day), on=after(100))
    square, bloom = likely(before), likely(before, BLOOM)
    seen = {
        "pinhead": Seen(after(square), plants=20, pinhead=10),
        "branches": Seen(after(square + 7), squaring_branches=2.8),
        "bloom": Seen(after(bloom), bloom=True),
    }[sign]
    clock = read_clock(steady(a_day), on=after(100), seen=[seen])
    event = BLOOM if sign == "bloom" else SQUARE
    assert width(clock, event) < width(before, event)


def test_more_squaring_branches_make_first_square_earlier():
    seen = [Seen(after(45), squaring_branches=branches) for branches in (1, 2, 3, 4, 5, 6)]
    days = [likely(read_clock(steady(18.0), on=after(45), seen=[each])) for each in seen]
    assert days == sorted(days, reverse=True)
    assert days[0] - days[-1] > 8


@pytest.mark.parametrize(("branches", "week"), [(1, 1), (2, 1), (3, 2), (4, 2), (5, 3), (6, 3)])
def test_squaring_branches_tell_the_week(branches, week):
    day = likely(read_clock(steady(18.0), on=after(20))) + 7 * week - 4
    seen = Seen(after(day), squaring_branches=branches)
    clock = read_clock(steady(18.0), on=after(day), seen=[seen])
    assert clock.weeks.likely_week == week


def test_more_nodes_make_first_square_earlier():
    seen = [Seen(after(25), nodes=nodes) for nodes in (2, 3, 4, 5, 6, 7)]
    days = [likely(read_clock(steady(18.0), on=after(25), seen=[each])) for each in seen]
    assert days == sorted(days, reverse=True)


def test_what_was_seen_against_the_weather_is_told():
    seen = Seen(after(18), plants=20, pinhead=15)
    clock = read_clock(steady(18.0), on=after(30), seen=[seen])
    (told,) = clock.disagreements
    assert (told.sign, told.on, told.event) == (Sign.PINHEADS, after(18), SQUARE)
    assert told.window == (None, after(19))
    assert told.expected == clock.by_weather[SQUARE].within(0.8)
    assert told.expected[0] > after(18)


def test_what_was_seen_as_expected_is_no_disagreement():
    day = likely(read_clock(steady(18.0), on=after(0)))
    seen = [Seen(after(day), plants=20, pinhead=11), Seen(after(day - 9), nodes=4)]
    assert read_clock(steady(18.0), on=after(60), seen=seen).disagreements == ()


def test_a_count_of_leaves_far_off_is_told_and_rules_nothing_out():
    clock = read_clock(steady(18.0), on=after(20), seen=[Seen(after(20), true_leaves=8)])
    assert [told.sign for told in clock.disagreements] == [Sign.LEAVES]
    assert 0 < clock.odds[SQUARE].by(after(20)) < 1


def test_of_two_that_can_not_both_be_true_the_later_holds():
    many, few = Seen(after(27), plants=20, pinhead=15), Seen(after(30), plants=20, pinhead=2)
    clock = read_clock(steady(18.0), on=after(40), seen=[many, few])
    assert clock.odds[SQUARE].by(after(29)) == pytest.approx(0, abs=1e-9)
    (aside,) = clock.set_aside
    assert (aside.sign, aside.on, aside.by_on) == (Sign.PINHEADS, after(27), after(30))


def test_what_was_given_holds_before_what_was_seen():
    seen = Seen(after(28), plants=20, pinhead=2)
    days = Given(first_square=(after(25), after(25)))
    clock = read_clock(steady(18.0), on=after(40), given=days, seen=[seen])
    assert clock.first_square == (after(25), after(25))
    assert [aside.by for aside in clock.set_aside] == [Sign.FIRST_SQUARE]


def test_what_was_seen_later_is_not_looked_at():
    later = Seen(after(40), plants=20, pinhead=0)
    assert read_clock(steady(18.0), on=after(39), seen=[later]).seen == ()


def test_the_call_takes_nine_in_ten_days_of_first_square():
    clock = read_clock(steady(18.0), on=after(30))
    first, last = clock.first_square
    odds = clock.odds[SQUARE]
    assert odds.by(first - timedelta(days=1)) < 0.05 <= odds.by(first)
    assert odds.by(last - timedelta(days=1)) < 0.95 <= odds.by(last)


def test_first_bloom_is_known_to_the_call_once_flowers_were_seen():
    clock = read_clock(steady(18.0), on=after(60), seen=[Seen(after(58), bloom=True)])
    dates = clock.dates((after(40),))
    assert dates.bloom is not None
    assert dates.bloom <= after(58)
    assert dates.treated == (after(40),)
    assert read_clock(steady(18.0), on=after(90)).dates().bloom is None


@given(st.data())
@settings(max_examples=60, deadline=None)
def test_dates_never_contradict_each_other_whatever_was_seen(data):
    day = data.draw(st.integers(1, 150))
    seen = [
        Seen(
            after(data.draw(st.integers(0, day))),
            nodes=data.draw(st.none() | st.floats(0, 20)),
            plants=20,
            pinhead=data.draw(st.integers(0, 20)),
            squaring_branches=data.draw(st.none() | st.floats(0, 15)),
            bloom=data.draw(st.none() | st.booleans()),
            nawf=data.draw(st.none() | st.floats(0, 12)),
        )
        for _ in range(data.draw(st.integers(0, 4)))
    ]
    a_day = data.draw(st.floats(2, 30))
    clock = read_clock(steady(a_day, known=day, spread=0.2), on=after(day), seen=seen)
    stage = clock.stage()
    assert stage.days[0] <= stage.days[1]
    for odds in clock.odds.values():
        assert np.isfinite(odds.chance).all()
        assert odds.chance.sum() + odds.beyond == pytest.approx(1)


def test_a_clock_reads_a_station_of_many_years():
    weather = station(5)
    clock = clock_for(weather, PLANTED, on=after(20))
    assert clock.heat.years == tuple(range(2025, 2013, -1))
    assert clock.heat.known_until == after(20)
    assert date(2026, 6, 1) < clock.odds[SQUARE].likely < date(2026, 7, 5)


def test_a_day_outside_the_season_is_refused():
    with pytest.raises(CropDateError, match="season of the planting on 2026-05-08"):
        clock_for(station(5), PLANTED, on=PLANTED - timedelta(days=1))


def test_a_season_without_its_weather_is_refused():
    weather = station(5)
    late = replace(
        weather,
        first=date(2026, 5, 20),
        **{
            name: getattr(weather, name)[weather.index_of(date(2026, 5, 20)) :]
            for name in ("tmin_f", "tmax_f", "marks")
        },
    )
    with pytest.raises(WeatherError, match="the first is 2026-05-08"):
        clock_for(late, PLANTED, on=after(40))


@pytest.mark.parametrize(("day", "nodes"), [(3, 15.0), (195, 0.0)])
def test_nodes_that_no_day_of_the_season_can_have_are_told(day, nodes):
    clock = read_clock(steady(18.0), on=after(day), seen=[Seen(after(day), nodes=nodes)])
    assert [told.sign for told in clock.disagreements] == [Sign.NODES]


@pytest.mark.parametrize(("share", "have"), [(0.3, 6), (0.5, 10), (0.8, 16)])
def test_another_share_of_plants_may_make_first_square(share, have):
    needs = load_needs().with_share(share)
    for plants, reached in ((have, 1.0), (have - 1, 0.0)):
        seen = Seen(after(30), plants=20, pinhead=plants)
        clock = read_clock(steady(18.0), on=after(30), seen=[seen], needs=needs)
        assert clock.odds[SQUARE].by(after(30)) == pytest.approx(reached, abs=1e-9)


def test_the_lower_the_share_the_earlier_first_square_was():
    seen = [Seen(after(32), plants=20, pinhead=18)]
    days = [
        likely(read_clock(steady(18.0), on=after(40), seen=seen, needs=load_needs().with_share(s)))
        for s in (0.2, 0.5, 0.8)
    ]
    assert days == sorted(days)
    assert days[0] < days[-1]


def test_a_share_of_all_or_of_none_is_refused():
    with pytest.raises(ValueError, match="between 0 and 1"):
        load_needs().with_share(1.0)


def test_a_count_on_the_day_of_planting_weighs_nothing():
    plain = read_clock(steady(18.0), on=after(40))
    clock = read_clock(steady(18.0), on=after(40), seen=[Seen(after(0), true_leaves=5)])
    assert [aside.by for aside in clock.set_aside] == [Sign.PLANTED]
    assert clock.odds[SQUARE].chance == pytest.approx(plain.odds[SQUARE].chance)


@pytest.mark.parametrize("a_day", [4.0, 5.0, 6.0])
def test_a_cool_season_squares_late_and_not_never(a_day):
    by_hand = middle_by_hand(a_day, Event.EMERGENCE, SQUARE)
    assert likely(read_clock(steady(a_day), on=after(10))) == pytest.approx(by_hand, abs=3)


def test_chances_of_a_cool_season_add_up_too():
    for odds in read_clock(steady(3.0, known=30, spread=0.3), on=after(29)).odds.values():
        assert odds.chance.sum() + odds.beyond == pytest.approx(1)


@given(day=st.integers(12, 40), leaves=st.floats(0, 9), a_day=st.floats(12, 24))
@settings(max_examples=40, deadline=None)
def test_the_fourth_leaf_agrees_with_the_leaves_counted(day, leaves, a_day):
    seen = [Seen(after(day), true_leaves=leaves)]
    clock = read_clock(steady(a_day), on=after(day), seen=seen)
    assert clock.four_leaves.by(after(day)) == pytest.approx(float(leaves >= 4), abs=1e-9)


def test_the_fourth_leaf_is_never_before_plants_can_be_up():
    clock = read_clock(steady(18.0), on=after(20), seen=[Seen(after(4), nodes=9)])
    assert clock.four_leaves.reached(0.01) >= after(3)


def test_the_fourth_leaf_is_never_after_first_square():
    """First square 7 days after planting, in a heat that has plants up after 4 only."""
    clock = read_clock(steady(18.0), on=after(30), given=Given((after(7), after(7))))
    assert clock.four_leaves.by(after(7)) == pytest.approx(1.0)
    assert clock.four_leaves.by(after(3)) == 0


def test_the_fourth_leaf_before_a_given_day_is_spread_by_the_heat_of_the_leaves():
    """137.5 ± 55 DD60 before a day that is known: no lumps, and no days without a chance."""
    clock = read_clock(steady(18.0), on=after(30), given=Given((after(30), after(30))))
    by_hand = NormalDist(30 - 137.5 / 18, 55 / 18)
    for day in (19, 22, 25, 28):
        assert clock.four_leaves.by(after(day)) == pytest.approx(by_hand.cdf(day), abs=1e-6)
    first, last = clock.four_leaves.within(0.8)
    assert (first, last) == (after(19), after(26))


def test_leaves_counted_leave_the_days_that_they_allow_as_they_were():
    bare = read_clock(steady(18.0), on=after(24)).four_leaves
    told = read_clock(steady(18.0), on=after(24), seen=[Seen(after(24), nodes=5)]).four_leaves
    assert told.by(after(24)) == pytest.approx(1.0)
    assert told.within(0.8)[0] < after(24)
    assert bare.by(after(24)) < 0.8


def test_how_unlikely_a_look_is_by_weather_is_told():
    near = read_clock(steady(18.0), on=after(40), seen=[Seen(after(24), plants=20, pinhead=15)])
    far = read_clock(steady(18.0), on=after(40), seen=[Seen(after(10), plants=20, pinhead=15)])
    assert 0.01 < near.disagreements[0].chance < 0.1
    assert far.disagreements[0].chance < 0.01
    assert not near.stage().worked_out.at_odds.hardly
    assert far.stage().worked_out.at_odds.hardly


def test_looks_that_are_left_out_are_named_by_their_days():
    seen = [Seen(after(0), plants=20, pinhead=20)]
    (left,) = read_clock(steady(18.0), on=after(5), seen=seen).stage().worked_out.left_out
    assert (left.sign, left.on, left.by) == (Sign.PINHEADS, after(0), Sign.PLANTED)


def test_a_sign_whose_days_meet_those_expected_does_not_disagree():
    """Cut out on the first of the days expected: unlikely so early, and no contradiction."""
    alone = read_clock(steady(18.0), on=after(100)).by_weather[Event.CUTOUT]
    first, _ = alone.within(0.8)
    assert alone.by(first) < 0.1
    told, sooner = (
        read_clock(steady(18.0), on=after(100), seen=[Seen(day, nawf=4.0)])
        for day in (first, first - timedelta(days=3))
    )
    assert all(each.event is not Event.CUTOUT for each in told.disagreements)
    assert any(each.event is Event.CUTOUT for each in sooner.disagreements)


def test_a_plant_with_a_square_has_four_true_leaves():
    clock = read_clock(steady(12.0), on=after(30), seen=[Seen(after(28), plants=20, pinhead=1)])
    assert clock.four_leaves.by(after(28)) == pytest.approx(1.0)


def test_a_bloom_that_was_seen_keeps_its_range():
    clock = read_clock(steady(18.0), on=after(60), seen=[Seen(after(56), bloom=True)])
    first, last = clock.bloom_days
    assert first < clock.bloom < last <= after(56)
    least, most = clock.stage().days_blooming
    assert (least, most) == ((after(60) - last).days, (after(60) - first).days)


def test_what_can_not_be_in_any_season_is_set_aside_and_not_let_through_by_rounding():
    clock = read_clock(steady(18.0), on=after(170), seen=[Seen(after(165), plants=20, pinhead=2)])
    assert clock.odds[Event.EMERGENCE].likely == after(4)
    assert [each.sign for each in clock.set_aside] == [Sign.PINHEADS]


def test_chances_add_up_to_one_and_no_more():
    for day in (5, 30, 60):
        weeks = read_clock(steady(18.0), on=after(day)).weeks
        assert max(weeks.before, weeks.blooming, *weeks.weeks, 0.0) <= 1.0


def test_squares_soon_after_planting_leave_days_that_may_be():
    """All plants had a square 24 days after planting: not five days after it, but late."""
    clock = read_clock(steady(18.0), on=after(24), seen=[Seen(after(24), plants=40, pinhead=40)])
    first, last = clock.odds[Event.FIRST_SQUARE].within(0.8)
    assert after(14) <= first <= last <= after(24)


def test_what_the_call_goes_by_tells_what_was_looked_at():
    looks = [
        Seen(after(28), plants=20, pinhead=4),
        Seen(after(45), bloom=False),
        Seen(after(47), squaring_branches=5.0),
    ]
    worked = read_clock(steady(18.0), on=after(47), seen=looks).stage().worked_out
    assert (worked.squares_seen, worked.no_flower) == (True, after(45))
    assert worked.branches_counted
    later = read_clock(steady(18.0), on=after(48), seen=looks).stage().worked_out
    assert not later.branches_counted


def test_exactly_four_leaves_are_four():
    clock = read_clock(steady(18.0), on=after(30), seen=[Seen(after(20), true_leaves=4.0)])
    assert clock.four_leaves.by(after(20)) == pytest.approx(1.0)


@pytest.mark.parametrize(("day", "hardly"), [(38, True), (39, False)])
def test_under_one_in_a_hundred_by_weather_the_call_is_in_doubt(day, hardly):
    """First bloom by day 38 has .0083 by heat alone, by day 39 .0129."""
    clock = read_clock(steady(18.0), on=after(60), seen=[Seen(after(day), bloom=True)])
    told = clock.stage().worked_out.at_odds
    assert (told.event, told.sign) == (Event.FIRST_BLOOM, Sign.FLOWERS)
    assert told.hardly == hardly
