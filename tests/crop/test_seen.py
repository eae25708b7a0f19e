"""What was seen of a crop, and how each sign moves the days of its events."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.crop import (
    CropDateError,
    Event,
    Given,
    Seen,
    Sign,
    StageName,
    given_by,
    load_needs,
    of_stand,
    read_clock,
)
from quarterwalk.crop.seen import by_day
from tests.crop.seasons import PLANTED, after, steady

SQUARE, BLOOM, CUTOUT = Event.FIRST_SQUARE, Event.FIRST_BLOOM, Event.CUTOUT


def read(*seen, on=60, a_day=18.0, given_days=None):
    return read_clock(steady(a_day), on=after(on), seen=seen, given=given_days)


def test_a_share_is_of_the_plants_looked_at():
    assert Seen(after(30), plants=20, pinhead=14).share == 0.7
    assert Seen(after(30), plants=20, pinhead=0).share == 0


def test_where_nobody_looked_there_is_no_share():
    assert Seen(after(30)).share is None
    assert Seen(after(30), plants=0, pinhead=0).share is None


@pytest.mark.parametrize("have", [-1, 21])
def test_more_plants_with_a_pinhead_than_looked_at_are_refused(have):
    with pytest.raises(CropDateError, match="from 0 to the 20 looked at on 2026-06-07"):
        Seen(after(30), plants=20, pinhead=have)


@pytest.mark.parametrize("half", [{"plants": 20}, {"pinhead": 4}])
def test_plants_looked_at_and_plants_with_a_pinhead_go_together(half):
    with pytest.raises(CropDateError, match="go together on 2026-06-07"):
        Seen(after(30), **half)


def test_every_sign_has_a_name_of_its_own():
    assert len({sign.value for sign in Sign}) == len(Sign)


def test_nothing_seen_changes_nothing():
    alone, empty = read(), read(Seen(after(30)))
    for event in Event:
        assert alone.odds[event].chance == pytest.approx(empty.odds[event].chance)


def middle(clock, event=SQUARE):
    odds = clock.odds[event]
    return sum(day * chance for day, chance in enumerate(odds.chance)) / odds.chance.sum()


def test_more_plants_with_a_pinhead_make_first_square_earlier():
    middles = [middle(read(Seen(after(30), plants=20, pinhead=have))) for have in range(21)]
    assert middles == sorted(middles, reverse=True)


def test_of_hundred_plants_a_share_tells_no_more_than_of_twelve():
    few = read(Seen(after(30), plants=12, pinhead=9)).odds[SQUARE].chance
    assert read(Seen(after(30), plants=100, pinhead=75)).odds[SQUARE].chance == pytest.approx(few)


def test_two_plants_tell_less_than_twenty():
    few, many = (read(Seen(after(31), plants=n, pinhead=n // 2)) for n in (2, 20))
    widths = [clock.odds[SQUARE].within(0.9) for clock in (few, many)]
    assert widths[0][1] - widths[0][0] > widths[1][1] - widths[1][0]


def test_nodes_count_where_leaves_were_counted_too():
    both = read(Seen(after(20), nodes=5, true_leaves=1)).odds[SQUARE].chance
    assert both == pytest.approx(read(Seen(after(20), nodes=5)).odds[SQUARE].chance)


def test_as_many_nodes_as_the_first_branch_stands_on_make_first_square_now():
    clock = read(Seen(after(30), nodes=load_needs().value("first_branch_node")))
    assert middle(clock) == pytest.approx(30, abs=1)


@given(nodes=st.floats(0, 24), more=st.floats(0.5, 6), day=st.integers(8, 40))
@settings(max_examples=40, deadline=None)
def test_more_nodes_never_make_first_square_later(nodes, more, day):
    fewer, many = (read(Seen(after(day), nodes=count)) for count in (nodes, nodes + more))
    assert middle(many) <= middle(fewer) + 0.01


def test_a_count_of_nodes_that_no_day_fits_is_told():
    clock = read(Seen(after(10), nodes=20))
    assert [told.sign for told in clock.disagreements] == [Sign.NODES]
    assert clock.odds[SQUARE].likely < clock.by_weather[SQUARE].likely


def test_more_nodes_above_white_flower_make_cutout_later():
    middles = [middle(read(Seen(after(60), nawf=nawf)), CUTOUT) for nawf in (5.5, 6, 7, 8, 9)]
    assert middles == sorted(middles)


def test_flowers_make_first_square_surer_too():
    day = (read().odds[BLOOM].likely - after(0)).days - 12
    early = read(Seen(after(day), bloom=True), on=day)
    assert middle(early) < middle(read(on=day))


def test_flowers_that_weather_hardly_allows_give_way_to_a_later_look_that_found_none():
    clock = read(Seen(after(36), bloom=True), Seen(after(55), bloom=False))
    assert [aside.sign for aside in clock.set_aside] == [Sign.FLOWERS]
    assert clock.bloom is None
    assert clock.stage().name is StageName.SQUARING


def test_flowers_that_were_seen_hold_before_a_later_look_that_found_none():
    seen = Seen(after(50), bloom=True), Seen(after(55), bloom=False)
    assert read(*seen).set_aside == ()
    assert read(*seen).odds[BLOOM].chance == pytest.approx(read(seen[0]).odds[BLOOM].chance)


def test_a_field_that_has_cut_out_has_no_flower_and_stays_so():
    looks = (
        Seen(after(40), plants=20, pinhead=15),
        Seen(after(65), bloom=True),
        Seen(after(94), nawf=4.0),
        Seen(after(120), bloom=False),
    )
    clock = read(*looks, on=121)
    assert clock.set_aside == ()
    assert clock.weeks.blooming == pytest.approx(1.0)


def test_a_look_that_a_season_can_hold_is_not_left_out_beside_one_that_it_can_not():
    looks = Seen(after(14), true_leaves=2.0), Seen(after(165), plants=20, pinhead=2)
    clock = read(*looks, on=170)
    assert [(each.sign, each.on) for each in clock.set_aside] == [(Sign.PINHEADS, after(165))]


def test_a_few_branches_weigh_days_as_a_share_of_plants_does():
    """A mean just under a half lies near first square, as 9 of 20 plants do."""
    branches, plants = (
        read(each, on=47).odds[SQUARE].within(0.8)
        for each in (
            Seen(after(38), squaring_branches=0.45),
            Seen(after(38), plants=20, pinhead=9),
        )
    )
    assert branches[0] == plants[0]
    assert 0 <= (branches[1] - plants[1]).days <= 2


def test_flowers_before_a_first_square_that_was_given_make_no_bloom_known():
    days = Given(first_square=(after(42), after(42)))
    clock = read(Seen(after(40), bloom=True), on=45, given_days=days)
    assert clock.bloom is None


def test_the_order_in_which_things_are_told_does_not_matter():
    seen = [
        Seen(after(22), nodes=4.5),
        Seen(after(30), plants=20, pinhead=12),
        Seen(after(40), squaring_branches=3.4),
    ]
    forth, back = read(*seen), read(*reversed(seen))
    assert forth.odds[SQUARE].chance == pytest.approx(back.odds[SQUARE].chance)
    assert forth.seen == back.seen


def test_looks_of_one_day_are_taken_together():
    note = Seen(after(30), plants=20, pinhead=16, squaring_branches=2.0, bloom=False)
    walk = Seen(after(30), plants=40, pinhead=5, squaring_branches=1.0, walked=True)
    other = Seen(after(31), nodes=8.0)
    first, second = by_day([other, walk, note])
    assert first == Seen(after(30), plants=60, pinhead=21, squaring_branches=1.5, bloom=False)
    assert second == other


def test_a_note_and_a_walk_of_one_day_do_not_set_each_other_aside():
    note, walk = Seen(after(30), plants=20, pinhead=16), Seen(after(30), plants=40, pinhead=5)
    clock = read_clock(steady(18.0), on=after(30), seen=[note, walk])
    assert clock.set_aside == ()
    assert clock.odds[Event.FIRST_SQUARE].by(after(30)) == 0.0


def test_looks_shortly_before_planting_stay_and_are_told_to_clash_with_it():
    early, last_year = Seen(after(-10), true_leaves=3), Seen(after(-300), true_leaves=3)
    looks = of_stand([last_year, early], PLANTED, again=False)
    assert looks == (early,)
    (aside,) = read_clock(steady(18.0), on=after(20), seen=looks).set_aside
    assert (aside.sign, aside.on, aside.by) == (Sign.LEAVES, after(-10), Sign.PLANTED)


def test_looks_at_a_stand_that_was_planted_over_tell_nothing():
    assert of_stand([Seen(after(-10), true_leaves=3)], PLANTED, again=True) == ()
    assert of_stand([Seen(after(0), true_leaves=3)], PLANTED, again=True) == ()
    assert len(of_stand([Seen(after(1), true_leaves=3)], PLANTED, again=True)) == 1


def test_a_bloom_given_for_a_later_day_is_known_and_tells_nothing():
    told = given_by(after(45), None, after(60))
    clock = read_clock(steady(18.0), on=after(45), given=told)
    alone = read_clock(steady(18.0), on=after(45))
    assert clock.first_square == alone.first_square
    assert clock.weeks == alone.weeks
    assert clock.stage().bloom_known
    assert not alone.stage().bloom_known
    assert given_by(after(60), None, after(60)).bloom == after(60)


def test_a_bloom_that_planting_rules_out_is_set_aside():
    clock = read_clock(steady(18.0), on=after(40), given=Given(bloom=after(1)))
    assert [each.sign for each in clock.set_aside] == [Sign.FIRST_BLOOM]
    assert clock.bloom is None
    assert clock.dates().bloom is None
