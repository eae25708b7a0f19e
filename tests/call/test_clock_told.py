"""What a call says, and decides, where first square comes from the crop's clock."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from quarterwalk.call import Verdict, make_call
from quarterwalk.crop import CropDates, Event, SetAside, Sign, WeekOdds, WorkedOut, stage_on
from quarterwalk.crop.stage import AtOdds
from quarterwalk.guideline import load_guideline
from tests.call.made import reading

SQUARE = date(2026, 6, 10)
FIRST = "first-square-worked-out"
HIGH_PLAINS = load_guideline("southern-high-plains")
PAST_BOTH = {"insects": 60, "healthy": 140, "missing": 60}


def odds(*weeks, before=0.0, blooming=0.0):
    return WeekOdds(before, weeks, blooming)


def called(day, *, first=0, last=0, rule=HIGH_PLAINS, found=PAST_BOTH, bloom=None, **worked):
    """Call a walk so many days after 10 June; first square so many days about that day."""
    days = SQUARE + timedelta(days=first), SQUARE + timedelta(days=last)
    weeks, seen = worked.pop("weeks", odds(1.0)), worked.pop("seen_bloom", None)
    told = WorkedOut(*days, SQUARE, weeks, bloom=seen, **worked)
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
    assert "By the weather of Gin yard, 5.0 miles away, and what was seen" in said
    assert "Wednesday 10 June, and very likely between Monday 8 June and Friday 12 June" in said
    assert "in 10" not in said


def test_a_first_square_of_one_day_has_no_range():
    said = text_of(called(10), "first-square-worked-out")
    assert "it was Wednesday 10 June." in said
    assert "between" not in said


def test_the_chance_of_each_week_is_told_and_small_ones_are_not():
    said = text_of(called(10, weeks=odds(0.02, 0.6, 0.4)), "week-chances")
    assert said == "Where the field stands: week 2, about 6 in 10; week 3, about 4 in 10."
    assert "week 1" not in said


def test_how_likely_the_range_is_stands_with_the_odds_that_growers_are_not_told():
    said = text_of(called(10, first=-2, last=2), "week-chances")
    assert said.startswith("That range of days holds first square 9 times in 10. Where the field")


@pytest.mark.parametrize(
    ("km", "said"),
    [(1.9, "1.2 miles"), (5.7, "3.5 miles"), (16.05, "10 miles"), (40.0, "25 miles")],
)
def test_how_far_the_station_is_reads_as_on_the_page_of_the_season(km, said):
    told = text_of(called(10, first=-2, last=2, station="Gin yard", distance_km=km), FIRST)
    assert f"the weather of Gin yard, {said} away," in told


def test_weather_that_ends_before_the_walk_is_told():
    said = text_of(called(10, known_until=date(2026, 6, 5)), "first-square-worked-out")
    assert "known until Friday 5 June only" in said


def test_a_look_against_the_weather_is_told_and_the_call_stands():
    far = AtOdds(date(2026, 6, 12), (date(2026, 6, 20), date(2026, 6, 26)), hardly=False)
    call = called(10, at_odds=far)
    assert "between Saturday 20 June and Friday 26 June" in text_of(call, "weather-disagrees")
    assert (call.verdict, call.provisional) == (Verdict.TREAT, False)


JUNE_12, LATE = date(2026, 6, 12), (date(2026, 6, 20), date(2026, 6, 26))


@pytest.mark.parametrize(
    ("sign", "event", "said"),
    [
        (Sign.PINHEADS, Event.FIRST_SQUARE, "plants with a pinhead square"),
        (Sign.NODES, Event.FIRST_SQUARE, "nodes"),
        (Sign.ABOVE_FLOWER, Event.FIRST_BLOOM, "nodes above white flower"),
    ],
)
def test_what_was_seen_against_the_weather_is_named(sign, event, said):
    far = AtOdds(JUNE_12, LATE, hardly=False, event=event, sign=sign)
    name = event.replace("_", " ")
    assert text_of(called(10, at_odds=far), "weather-disagrees") == (
        f"The count of {said} of Friday 12 June does not fit the weather, which alone puts {name}"
        " between Saturday 20 June and Friday 26 June. What was seen holds."
    )


def test_a_look_on_the_likely_day_does_not_name_it_again():
    far = AtOdds(SQUARE, LATE, hardly=False)
    said = text_of(called(10, at_odds=far), "weather-disagrees")
    assert said.startswith("The count of plants with a pinhead square of the same day does not")


@pytest.mark.parametrize("day", [10, -5])
def test_that_first_square_was_worked_out_comes_before_what_is_against_it(day):
    far = AtOdds(JUNE_12, LATE, hardly=False)
    told = [reason.code for reason in called(day, at_odds=far).reasons]
    place = told.index(FIRST)
    assert told[place : place + 3] == [FIRST, "weather-disagrees", "week-chances"]
    assert told.count("weather-disagrees") == 1


def test_a_look_that_the_weather_hardly_allows_makes_the_call_provisional():
    far = AtOdds(date(2026, 6, 12), (date(2026, 7, 20), date(2026, 7, 26)), hardly=True)
    call = called(10, at_odds=far)
    assert "the day of planting, the station or the count" in text_of(call, "weather-disagrees")
    assert call.provisional


def test_a_look_that_was_left_out_is_told():
    aside = SetAside(Sign.NODES, date(2026, 6, 1), Sign.PLANTED, date(2026, 6, 3))
    assert text_of(called(10, left_out=(aside,)), "seen-left-out") == (
        "The count of nodes of Monday 1 June can't be true beside planting on Wednesday 3 June,"
        " and is left out."
    )


def test_of_many_that_are_left_out_the_last_are_named_and_the_others_counted():
    aside = [
        SetAside(Sign.NODES, date(2026, 6, day), Sign.PLANTED, date(2026, 6, 9))
        for day in (1, 2, 3, 4)
    ]
    said = text_of(called(10, left_out=tuple(aside)), "seen-left-out")
    assert said.startswith("2 earlier looks are left out")
    assert "3 June" in said
    assert "4 June" in said
    assert "2 June" not in said


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


def test_where_nothing_was_seen_the_weather_alone_is_named():
    said = text_of(called(10, first=-2, last=2, looked=False), FIRST)
    assert "By the weather alone it is most likely" in said
    assert "what was seen" not in said


@pytest.mark.parametrize(
    ("worked", "said"),
    [
        ({"years": 12}, "from there on other years stand in"),
        ({"years": 0}, "from there on the last 14 days are carried on"),
        ({"nothing_known": True}, "No day since planting is known"),
    ],
)
def test_what_stands_in_for_days_that_are_not_known_is_told(worked, said):
    told = text_of(called(10, known_until=SQUARE, **worked), FIRST)
    assert said in told


def test_the_days_of_a_bloom_that_was_seen_are_told():
    bloom = date(2026, 7, 3), date(2026, 7, 12)
    said = text_of(called(35, bloom=SQUARE + timedelta(days=30), seen_bloom=bloom), FIRST)
    assert said.endswith("first bloom was very likely between Friday 3 July and Sunday 12 July.")


def test_the_season_a_week_after_bloom_may_be_over_where_bloom_is_a_range():
    """Seen, not given: 3 to 9 days ago, of which 7 and more lie outside."""
    rule, bloom = load_guideline("coastal-bend"), SQUARE + timedelta(days=24)

    def blooming(*days):
        stage = stage_on(SQUARE + timedelta(days=30), CropDates(SQUARE, bloom=bloom))
        stage = replace(stage, days_blooming=days)
        return make_call(reading(**PAST_BOTH), stage, rule, on=SQUARE + timedelta(days=30))

    inside, edge, out = blooming(3, 6), blooming(3, 9), blooming(7, 9)
    assert (inside.verdict, inside.provisional) == (Verdict.TREAT, False)
    assert (edge.verdict, edge.provisional) == (Verdict.LOOK_SOONER, True)
    assert "season-edge" in codes(edge)
    assert out.verdict is Verdict.NONE


@pytest.mark.parametrize(("chance", "treats"), [(0.5, True), (0.51, False)])
def test_a_week_after_bloom_that_is_likely_over_by_weather_is_not_to_treat(chance, treats):
    rule = load_guideline("coastal-bend")
    call = called(28, rule=rule, weeks=odds(0.1, blooming=0.9), bloomed_a_week=chance)
    assert (call.verdict is Verdict.TREAT) is treats
    assert ("season-edge" in codes(call)) is not treats
    assert call.provisional is not treats


@pytest.mark.parametrize(
    ("either_way", "said"),
    [(0, "First square was 25 days ago or more"), (3, "First square may have been 25 days ago")],
)
def test_how_long_ago_first_square_was_is_no_more_certain_than_the_dates(either_way, said):
    call = called(26, first=-either_way, last=either_way)
    assert text_of(call, "look-for-bloom").startswith(said)


def test_that_first_square_may_have_been_30_days_ago_is_no_fact():
    sure, unsure = called(35), called(35, first=-2, last=10)
    assert text_of(sure, "bloom-date").startswith("First square was more than 30 days ago")
    assert text_of(unsure, "bloom-date").startswith("First square may have been more than 30")


def test_a_week_at_its_border_is_settled_by_waiting_where_first_square_is_well_known():
    """First square 9 to 11 June, walked on the 17th: week 1 or 2, and branches tell no more."""
    between = {"insects": 60, "healthy": 174, "missing": 26}
    near = called(7, first=-1, last=1, found=between)
    far = called(7, first=-4, last=4, found=between)
    assert near.settle.text.endswith("From Thursday 18 June on it is week 2.")
    assert "count the fruiting branches" in far.settle.text


def test_squares_seen_on_an_earlier_look_leave_host_weeds_standing():
    bare = {"insects": 5, "healthy": 0, "missing": 0}
    before = called(-3, last=3, found=bare, weeks=odds(before=1.0), squares_seen=True)
    none = called(-3, last=3, found=bare, weeks=odds(before=1.0))
    assert before.host_weeds.text.startswith("The first squares are there: leave host weeds")
    assert none.host_weeds.text.startswith("Clear host weeds now")


def test_weeds_may_be_cleared_once_the_weather_is_sure_of_bloom_as_in_a_season():
    sure = called(30, weeks=odds(0.0, 0.0, 0.0, 0.0, 0.04, blooming=0.96))
    unsure = called(30, weeks=odds(0.0, 0.0, 0.0, 0.0, 0.06, blooming=0.94))
    assert "may be cleared; look for a white flower first" in sure.host_weeds.text
    assert unsure.host_weeds.text.startswith("Leave host weeds standing")


@pytest.mark.parametrize(("km", "said"), [(39.9, False), (40.0, True)])
def test_a_station_far_off_is_told(km, said):
    text = text_of(called(10, station="Gin yard", distance_km=km), FIRST)
    assert ("The station is 25 miles off, so days may lie further off" in text) is said


def test_a_bloom_that_the_weather_hardly_leaves_is_not_acted_on():
    odd = AtOdds(
        SQUARE + timedelta(days=6),
        (SQUARE + timedelta(days=20), SQUARE + timedelta(days=34)),
        hardly=True,
        event=Event.FIRST_BLOOM,
        sign=Sign.FLOWERS,
    )
    call = called(8, bloom=SQUARE + timedelta(days=6), at_odds=odd)
    assert (call.verdict, call.provisional) == (Verdict.NONE, True)
    assert call.host_weeds.text.startswith("Leave host weeds standing for now: flowers were seen")


@pytest.mark.parametrize(("day", "code"), [(38, "bloom-date"), (50, "bloom-date")])
def test_where_somebody_looked_for_a_flower_no_date_is_asked_for_as_if_nobody_had(day, code):
    looked = called(day, no_flower=SQUARE + timedelta(days=day), weeks=odds(*[0.0] * 5, 1.0))
    assert "no white flower was seen by" in text_of(looked, code)
    assert "Make sure of the day of first square" in text_of(looked, code)


def test_where_nothing_more_can_be_found_out_nobody_is_asked_to_find_it_out():
    between = {"insects": 60, "healthy": 174, "missing": 26}
    near, far = (called(7, first=-n, last=n, found=between) for n in (1, 4))
    counted = called(7, first=-4, last=4, found=between, branches_counted=True)
    assert "Find out the day" not in text_of(near, "weeks-differ")
    assert "Find out the day" in text_of(far, "weeks-differ")
    assert near.settle.text.endswith("From Thursday 18 June on it is week 2.")
    assert counted.settle.text == (
        "Branches were counted on this walk's day and leave week 1 or 2 open. Count them again on"
        " the next look."
    )


def test_a_flower_is_asked_for_once():
    told = codes(called(26, weeks=odds(0.0, 0.0, 0.0, 0.4, blooming=0.6)))
    assert "bloom-likely" in told
    assert "look-for-bloom" not in told
