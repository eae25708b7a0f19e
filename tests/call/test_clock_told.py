"""What a call says, and decides, where first square comes from the crop's clock."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from quarterwalk.call import Verdict, make_call
from quarterwalk.crop import CropDates, WeekOdds, WorkedOut, stage_on
from quarterwalk.crop.stage import AtOdds
from quarterwalk.guideline import load_guideline
from tests.call.made import reading

SQUARE = date(2026, 6, 10)
HIGH_PLAINS = load_guideline("southern-high-plains")
PAST_BOTH = {"insects": 60, "healthy": 140, "missing": 60}


def odds(*weeks, before=0.0, blooming=0.0):
    return WeekOdds(before, weeks, blooming)


def called(day, *, first=0, last=0, rule=HIGH_PLAINS, found=PAST_BOTH, bloom=None, **worked):
    """Call a walk so many days after 10 June; first square so many days about that day."""
    days = SQUARE + timedelta(days=first), SQUARE + timedelta(days=last)
    told = WorkedOut(*days, SQUARE, worked.pop("weeks", odds(1.0)), **worked)
    on = SQUARE + timedelta(days=day)
    stage = stage_on(on, CropDates(*days, bloom=bloom))
    return make_call(reading(**found), replace(stage, worked_out=told), rule, on=on)


def codes(call):
    return {reason.code for reason in call.reasons}


def text_of(call, code):
    return next(reason.text for reason in call.reasons if reason.code == code)


def test_it_says_that_first_square_was_worked_out_and_from_what():
    call = called(10, first=-2, last=2, station="Gin yard", distance_km=8.0)
    said = text_of(call, "first-square-worked-out")
    assert "By the weather of Gin yard, 5 miles away, and what was seen" in said
    assert "Wednesday 10 June, between Monday 8 June and Friday 12 June" in said


def test_a_first_square_of_one_day_has_no_range():
    said = text_of(called(10), "first-square-worked-out")
    assert "it was Wednesday 10 June." in said
    assert "between" not in said


def test_the_chance_of_each_week_is_told_and_small_ones_are_not():
    said = text_of(called(10, weeks=odds(0.02, 0.6, 0.4)), "week-chances")
    assert "week 2, about 6 in 10; week 3, about 4 in 10." in said
    assert "week 1" not in said


def test_weather_that_ends_before_the_walk_is_told():
    said = text_of(called(10, known_until=date(2026, 6, 5)), "first-square-worked-out")
    assert "known until Friday 5 June only" in said


def test_a_look_against_the_weather_is_told_and_the_call_stands():
    far = AtOdds(date(2026, 6, 12), (date(2026, 6, 20), date(2026, 6, 26)), hardly=False)
    call = called(10, at_odds=far)
    assert "between Saturday 20 June and Friday 26 June" in text_of(call, "weather-disagrees")
    assert (call.verdict, call.provisional) == (Verdict.TREAT, False)


def test_a_look_that_the_weather_hardly_allows_makes_the_call_provisional():
    far = AtOdds(date(2026, 6, 12), (date(2026, 7, 20), date(2026, 7, 26)), hardly=True)
    call = called(10, at_odds=far)
    assert "the day of planting, the station or the count" in text_of(call, "weather-disagrees")
    assert call.provisional


def test_a_look_that_was_left_out_is_told():
    call = called(10, left_out=(date(2026, 6, 1),))
    assert "Monday 1 June" in text_of(call, "seen-left-out")


@pytest.mark.parametrize(("blooming", "verdict"), [(0.4, "treat"), (0.6, "look-sooner")])
def test_a_field_that_likely_blooms_is_not_treated_before_someone_has_looked(blooming, verdict):
    call = called(24, weeks=odds(0.0, 0.0, 0.0, 1 - blooming, blooming=blooming))
    assert call.verdict.value == verdict
    assert ("bloom-likely" in codes(call)) == call.provisional == (verdict != "treat")


def test_a_rule_that_goes_on_after_bloom_does_not_mind_that_it_likely_blooms():
    call = called(24, rule=load_guideline("coastal-bend"), weeks=odds(0.3, blooming=0.7))
    assert call.verdict is Verdict.TREAT
    assert not call.provisional


def test_before_squaring_it_says_when_squares_are_to_come():
    call = called(-5, weeks=odds(before=1.0), found={"insects": 2})
    assert call.verdict is Verdict.NONE
    assert "not squaring yet, better than 99 in 100" in text_of(call, "week-chances")


@pytest.mark.parametrize(("day", "asked"), [(24, False), (25, True), (30, True), (31, False)])
def test_from_day_25_the_first_flower_is_looked_for(day, asked):
    stage = stage_on(SQUARE + timedelta(days=day), CropDates(SQUARE))
    on = SQUARE + timedelta(days=day)
    call = make_call(reading(**PAST_BOTH), stage, HIGH_PLAINS, on=on)
    assert ("look-for-bloom" in codes(call)) == asked
    assert call.provisional == (day > 30)


def test_weeks_that_decide_say_what_to_count():
    on = SQUARE + timedelta(days=8)
    stage = stage_on(on, CropDates(SQUARE, SQUARE + timedelta(days=4)))
    call = make_call(reading(insects=60, healthy=175, missing=25), stage, HIGH_PLAINS, on=on)
    assert "weeks-differ" in codes(call)
    assert "five plants in each quarter" in call.settle.text
    assert "week 1 or 2" in call.settle.text


def test_host_weeds_are_left_alone_once_any_plant_has_a_square():
    stage = stage_on(SQUARE - timedelta(days=2), CropDates(SQUARE))
    on = SQUARE - timedelta(days=2)
    none = make_call(reading(insects=2), stage, HIGH_PLAINS, on=on)
    some = make_call(reading(insects=2, healthy=10), stage, HIGH_PLAINS, on=on)
    assert none.host_weeds.text.startswith("Clear host weeds now")
    assert "leave host weeds standing" in some.host_weeds.text
