"""What comes next is told by its days; what is over is left out or told in the past."""

from __future__ import annotations

from dataclasses import replace

import pytest

from quarterwalk.call.season import Outside, in_season
from quarterwalk.crop import CropClock, Event, Given, Seen
from quarterwalk.guideline import load_guideline
from quarterwalk.picture.season_drawn import SeasonWalk
from quarterwalk.report.season_ahead import what_comes_next
from quarterwalk.report.season_end import season_over
from quarterwalk.report.season_report import SeasonDone
from tests.report.made_seasons import clock, day

DONE = SeasonDone()
SQUARE = Given((day(6, 10), day(6, 10)))
BLOOM = Given((day(6, 10), day(6, 10)), day(7, 5))
WEEK_3, AT_BLOOM, WEEK_AFTER = "kansas", "southern-high-plains", "coastal-bend"


def told(on, given=SQUARE, *, guideline=None, done=DONE, seen=()) -> tuple[str, ...]:
    rule = None if guideline is None else load_guideline(guideline)
    return what_comes_next(clock(on, given=given, seen=seen), rule, done)


def start(told: tuple[str, ...], words: str) -> str:
    """Give the one sentence that begins so; empty where there is none."""
    found = [each for each in told if each.startswith(words)]
    assert len(found) <= 1
    return found[0] if found else ""


def test_before_four_leaves_walks_are_still_to_begin():
    said = start(told(day(5, 11), None), "Begin to walk")
    assert said.startswith("Begin to walk about ")
    assert said.endswith("June, at four true leaves, and walk every 7 days.")


def test_late_before_squaring_walks_should_begin_now():
    said = start(told(day(6, 13), Given((day(6, 14), day(6, 14)))), "Begin to walk")
    assert said.startswith("Begin to walk now, and walk every 7 days: the fourth true leaf came")


def test_with_four_true_leaves_seen_walks_begin_now():
    said = start(told(day(5, 27), None, seen=(Seen(day(5, 27), true_leaves=4),)), "Begin to walk")
    assert said.startswith("Begin to walk now, and walk every 7 days: the fourth true leaf came")


def test_with_three_true_leaves_seen_walks_are_still_to_begin():
    said = start(told(day(5, 24), None, seen=(Seen(day(5, 24), true_leaves=3),)), "Begin to walk")
    assert said.startswith("Begin to walk about ")


@pytest.mark.parametrize("done", [DONE, SeasonDone((SeasonWalk(day(6, 5), None),))])
def test_nobody_is_told_to_begin_once_squares_are_there(done):
    assert not start(told(day(6, 20), done=done), "Begin")


def test_nobody_is_told_to_begin_who_walked():
    walked = SeasonDone((SeasonWalk(day(5, 20), None),))
    assert start(told(day(5, 30), None), "Begin")
    assert not start(told(day(5, 30), None, done=walked), "Begin")
    seen = (Seen(day(5, 29), plants=20, pinhead=0, walked=True),)
    assert not start(told(day(5, 30), None, seen=seen), "Begin")


def test_host_weeds_may_be_cleared_until_the_day_before_first_square():
    assert start(told(day(5, 30)), "Clear host weeds") == (
        "Clear host weeds by 9 June at the latest: once there are squares, clearing them"
        " sends the insects into the cotton."
    )


def test_past_their_last_safe_day_host_weeds_stand_until_after_bloom():
    said = told(day(6, 20), BLOOM)
    assert start(said, "Leave host weeds") == (
        "Leave host weeds standing: 9 June was the last safe day to clear them, and"
        " clearing them now sends the insects into the cotton."
    )
    assert start(said, "Host weeds may") == (
        "Host weeds may be cleared again from 5 July, after bloom."
    )


def likely_in_bloom(chance: float, *, before: int = 0) -> CropClock:
    """Give a season in which nobody saw a flower, bloom so likely so many days before."""
    read = clock(day(7, 10), given=SQUARE)
    odds = read.odds[Event.FIRST_BLOOM]
    days = odds.chance * 0
    place = (read.on - odds.first).days - before
    days[place - 5] = chance
    days[place + 5] = 1 - chance
    return replace(read, odds={**read.odds, Event.FIRST_BLOOM: replace(odds, chance=days)})


@pytest.mark.parametrize(("chance", "may"), [(0.94, False), (0.96, True)])
def test_with_no_flower_seen_host_weeds_wait_for_nineteen_in_twenty(chance, may):
    said = what_comes_next(likely_in_bloom(chance), None, DONE)
    cleared = "The field most likely blooms by now, so host weeds around it may be cleared;"
    assert bool(start(said, cleared)) == may
    assert bool(start(said, "Leave host weeds standing")) != may
    later = "Host weeds may be cleared again once a white flower is seen, else from 15 July:"
    assert bool(start(said, later)) != may


def test_where_weather_hardly_allows_the_flowers_seen_host_weeds_stand():
    seen = (Seen(day(6, 12), bloom=True),)
    look = SeasonDone(next_look=(day(6, 16), day(6, 17)))
    said = told(day(6, 14), None, guideline=AT_BLOOM, done=look, seen=seen)
    assert start(said, "The next look is due")
    assert not start(said, "By your guideline this insect matters no more")
    assert start(said, "Leave host weeds standing for now: flowers were seen")
    assert not start(said, "The field blooms")


def test_in_bloom_host_weeds_may_be_cleared():
    said = told(day(7, 10), BLOOM)
    assert start(said, "The field blooms") == (
        "The field blooms, so host weeds around it may be cleared."
    )
    assert not start(said, "Leave host weeds")


@pytest.mark.parametrize(
    ("on", "said"),
    [
        (day(6, 1), "Watch closest 10 to 30 June, the first three weeks of squaring."),
        (
            day(6, 15),
            "Now is the time to watch closest, 10 to 30 June: the first three weeks of squaring.",
        ),
        (day(7, 1), "The closest watch, the first three weeks of squaring, ended 30 June."),
    ],
)
def test_the_closest_watch_is_three_weeks_from_first_square(on, said):
    assert said in told(on)


def test_the_first_flower_is_looked_for_from_day_25_at_the_latest():
    said = start(told(day(6, 15)), "Look for the first white flower from")
    assert said
    days = clock(day(6, 15), given=SQUARE).odds
    first = min(day(7, 5), next(iter(_bloom(days))))
    assert said == f"Look for the first white flower from {first.day} {first:%B} on."


def _bloom(odds):
    return odds["first_bloom"].within(0.8)


def test_from_then_on_it_is_looked_for_on_every_walk():
    said = "Look for the first white flower on every walk now, and note its day."
    assert said in told(day(7, 6))


def test_past_cutout_nobody_is_sent_to_look_for_the_first_flower():
    assert start(told(day(7, 10)), "Look for the first white flower on every walk now")
    assert not start(told(day(9, 20)), "Look for the first white flower")


def test_a_bloom_that_most_likely_came_is_told_where_the_field_stands():
    assert start(told(day(6, 20)), "First bloom is likely")
    assert not start(told(day(8, 5)), "First bloom")


def test_a_bloom_that_is_given_for_a_day_to_come_is_told_and_not_looked_for():
    said = told(day(7, 1), replace(SQUARE, bloom_to_come=day(7, 9)), guideline=AT_BLOOM)
    assert "First bloom is given as 9 July." in said
    assert "Host weeds may be cleared again from 9 July, after bloom." in said
    assert "By your guideline this insect stops mattering at first bloom, 9 July." in said
    assert not start(said, "Look for")


def test_a_known_bloom_is_waited_for_no_more():
    said = told(day(7, 10), BLOOM)
    assert not start(said, "First bloom")
    assert not start(said, "Look for")


@pytest.mark.parametrize(
    ("guideline", "on", "said"),
    [
        (None, day(6, 20), "After first bloom this insect seldom matters."),
        (None, day(7, 5), "This insect seldom matters now, after first bloom."),
        (
            WEEK_3,
            day(6, 30),
            "By your guideline this insect stops mattering after week 3 of squaring, about 30 June,"
            " or at first bloom.",
        ),
        (
            WEEK_3,
            day(7, 1),
            "By your guideline this insect matters no more:"
            " week 3 of squaring ended about 30 June.",
        ),
        (
            AT_BLOOM,
            day(7, 4),
            "By your guideline this insect stops mattering at first bloom, 5 July.",
        ),
        (
            AT_BLOOM,
            day(7, 5),
            "By your guideline this insect matters no more: first bloom was 5 July.",
        ),
        (
            WEEK_AFTER,
            day(7, 11),
            "By your guideline this insect stops mattering 7 days after first bloom, 12 July.",
        ),
        (
            WEEK_AFTER,
            day(7, 12),
            "By your guideline this insect matters no more: 7 days after first bloom were over"
            " 12 July.",
        ),
    ],
)
def test_when_the_insect_stops_mattering_is_said(guideline, on, said):
    assert said in told(on, BLOOM, guideline=guideline)


OVER = "this insect matters no more"


@pytest.mark.parametrize("guideline", [None, AT_BLOOM, WEEK_AFTER])
@pytest.mark.parametrize(("chance", "over"), [(0.8, False), (0.94, False), (0.96, True)])
def test_with_no_flower_seen_the_end_is_told_as_likely_from_nineteen_in_twenty(
    guideline, chance, over
):
    rule = None if guideline is None else load_guideline(guideline)
    read = likely_in_bloom(chance, before=7 if guideline == WEEK_AFTER else 0)
    said = " ".join(what_comes_next(read, rule, DONE))
    likely = ("The field most likely blooms by now, and then", "most likely was 7 days ago or more")
    assert any(each in said for each in likely) == over
    assert "first bloom was" not in said
    assert "were over" not in said
    ahead = "After first bloom this" if rule is None else "first bloom, most likely "
    assert (ahead in said) != over


def test_a_flower_seen_ends_it_for_sure():
    said = told(day(7, 24), None, guideline=AT_BLOOM, seen=(Seen(day(7, 8), bloom=True),))
    assert start(said, "By your guideline this insect matters no more: first bloom was ")


def test_a_season_is_over_on_the_day_from_which_a_walk_has_no_call():
    """A week after a bloom that was seen is a range of days, and the call waits for its last."""
    rule = load_guideline(WEEK_AFTER)
    seen = (Seen(day(6, 17), plants=20, pinhead=12), Seen(day(7, 9), bloom=True))
    for on in range(9, 26):
        read = clock(day(7, on), seen=seen)
        over = in_season(read.stage(), rule).outside is Outside.OVER
        assert season_over(read, rule) is over
        said = start(what_comes_next(read, rule, DONE), "By your guideline this insect")
        assert ("matters no more" in said) is over


def test_week_3_is_over_for_sure_only_where_first_square_is_known():
    said = told(day(7, 9), None, guideline=WEEK_3)
    assert start(said, "By your guideline this insect matters no more after week 3 of squaring,")
    said = told(day(7, 20), None, guideline=WEEK_3)
    assert start(said, "By your guideline this insect matters no more: week 3 of squaring ended")


def test_a_bloom_inside_week_3_ends_its_season():
    early = Given((day(6, 10), day(6, 10)), day(6, 28))
    assert "By your guideline this insect matters no more: first bloom was 28 June." in told(
        day(6, 29), early, guideline=WEEK_3
    )


@pytest.mark.parametrize(
    ("on", "said"),
    [
        (day(6, 20), "The next look is due 22 to 23 June."),
        (day(6, 25), "The next look was due 22 to 23 June."),
    ],
)
def test_the_next_look_is_told_with_its_days(on, said):
    assert said in told(on, done=SeasonDone(next_look=(day(6, 22), day(6, 23))))


def test_cutout_is_told_until_it_is_over():
    assert start(told(day(7, 10), BLOOM), "Cutout is likely")
    assert not start(told(day(9, 20), BLOOM), "Cutout")


def test_cutout_is_waited_for_no_more_once_it_was_seen():
    seen = (Seen(day(7, 24), nawf=4.0),)
    assert not start(told(day(7, 24), BLOOM, seen=seen), "Cutout")
