"""What stands above the verdict table: seasons, unsure weeks, unfinished walks, recent sprays."""

import re
from datetime import timedelta
from fractions import Fraction

import pytest

from quarterwalk.call import CallOptions, check_line
from quarterwalk.errors import LineOutsideRange
from quarterwalk.guideline import load_guideline
from quarterwalk.reading import take_reading
from quarterwalk.walk import Method, PlantCheck, Quadrant, SquareCount, Walk
from tests.call.made import FIRST_SQUARE, call, codes, days_to_next_look, reading

PAST = {"healthy": 200, "missing": 100}


def test_before_squaring_there_is_no_call_and_the_next_look_is_a_week_on():
    made = call(reading(30), day=-1)
    assert (made.verdict, made.sure, days_to_next_look(made, day=-1)) == ("none", None, 7)
    assert made.stage.squaring_weeks == ()
    assert codes(made) == {"before-squaring"}


@pytest.mark.parametrize("guideline", ["blacklands", "oklahoma", "kansas"])
def test_a_three_week_season_ends_on_day_21(guideline):
    assert call(reading(50, **PAST), guideline, day=20).verdict != "none"
    over = call(reading(50, **PAST), guideline, day=21)
    assert (over.verdict, over.next_look, codes(over)) == ("none", None, {"season-over"})


def test_a_three_week_season_ends_at_bloom_if_that_comes_sooner():
    assert call(reading(50), "oklahoma", day=18, bloom=18).verdict == "none"
    assert call(reading(50), "oklahoma", day=17, bloom=18).verdict == "treat"


def test_the_day_of_first_bloom_is_the_first_day_out():
    assert call(reading(50), "mid-coast", day=24, bloom=25).verdict == "treat"
    over = call(reading(50), "mid-coast", day=25, bloom=25)
    assert (over.verdict, over.stage.name) == ("none", "blooming")


def test_the_coastal_bend_goes_on_for_a_week_of_bloom():
    last = call(reading(50), "coastal-bend", day=31, bloom=25)
    assert (last.verdict, last.stage.name, last.guideline.line) == ("treat", "blooming", 10)
    assert last.stage.squaring_weeks == ()
    assert call(reading(50), "coastal-bend", day=32, bloom=25).verdict == "none"


@pytest.mark.parametrize(
    ("day", "verdict", "provisional"),
    [(30, "treat", False), (31, "treat", True), (45, "treat", True), (46, "none", False)],
)
def test_a_bloom_date_is_asked_for_from_day_31_and_needed_from_day_46(day, verdict, provisional):
    made = call(reading(50), "mid-coast", day=day)
    assert (made.verdict, made.provisional) == (verdict, provisional)
    assert ("bloom-date" in codes(made)) is (day > 30)
    assert (made.next_look is None) is (day > 45)


def test_with_a_bloom_date_a_late_field_is_judged_without_asking():
    made = call(reading(50, **PAST), day=50, bloom=60)
    assert (made.verdict, made.provisional, made.guideline.floor) == (
        "treat",
        False,
        Fraction(3, 4),
    )


def test_no_insect_check_and_no_line_for_the_method_are_due_at_once():
    square = PlantCheck(Quadrant.NW, 1, squares=SquareCount(3))
    nobody = call(take_reading(Walk("Home 40", FIRST_SQUARE, (square,))))
    assert (nobody.verdict, days_to_next_look(nobody)) == ("none", 0)
    assert codes(nobody) == {"no-insect-check"}
    swept = call(reading(9, method=Method.SWEEP, sweeps=25, plants=(1, 1, 1, 1)))
    assert (swept.verdict, days_to_next_look(swept)) == ("none", 0)
    assert codes(swept) == {"no-line-for-method"}


@pytest.mark.parametrize(
    ("plants", "finish", "provisional"),
    [((10, 10, 10, 10), False, True), ((10, 10, 10, 9), True, True), ((30, 30, 40, 0), True, True),
     ((25, 25, 25, 4), False, True), ((19, 20, 20, 20), False, True),
     ((20, 20, 20, 20), False, False), ((70, 5, 5, 5), False, False),
     ((70, 5, 5, 4), False, True)],
)  # fmt: skip
def test_walks_too_small_to_be_firm(plants, finish, provisional):
    made = call(reading(sum(plants), plants=plants, healthy=200, missing=200))
    assert ("finish-walk" in codes(made)) is finish
    assert made.verdict == ("look-sooner" if finish else "treat")
    assert made.provisional is provisional
    assert days_to_next_look(made) == (1 if finish else 3)


def test_an_unknown_plan_does_not_make_a_short_walk_firm():
    made = call(reading(0, plants=(15, 15, 15, 15), plan="abc"), "mid-coast")
    assert made.provisional
    assert "unknown-plan" in codes(made)


@pytest.mark.parametrize(("sweeps", "finish"), [(25, False), (24, True)])
def test_sweep_walks_need_25_sweeps_in_each_quarter(sweeps, finish):
    read = reading(4, method=Method.SWEEP, sweeps=sweeps, plants=(1, 1, 1, 1))
    made = call(read, "tennessee-sweep", day=3)
    assert ("finish-walk" in codes(made)) is finish
    assert made.provisional is finish


@pytest.mark.parametrize(
    ("insects", "day", "healthy", "verdict", "line"),
    [(16, 3, 300, "treat", 16), (15, 3, 300, "look-sooner", 16), (8, 3, 241, "hold", 16),
     (8, 3, 240, "treat", 8), (7, 13, 200, "look-sooner", 8), (29, 14, 300, "look-sooner", 30),
     (15, 14, 240, "treat", 15), (30, 14, 300, "treat", 30)],
)  # fmt: skip
def test_low_square_set_halves_the_sweep_line(insects, day, healthy, verdict, line):
    read = reading(insects, method=Method.SWEEP, sweeps=1, healthy=healthy, missing=300 - healthy)
    made = call(read, "tennessee-sweep", day=day)
    assert (made.verdict, made.guideline.line, made.guideline.floor) == (verdict, line, None)


@pytest.mark.parametrize(("days", "recent"), [(1, True), (7, True), (8, False), (0, False)])
def test_within_a_week_of_a_treatment_the_call_is_never_to_treat(days, recent):
    made = call(reading(40, **PAST), treated=days)
    assert made.verdict == ("look-sooner" if recent else "treat")
    assert ("recently-treated" in codes(made)) is recent
    assert days_to_next_look(made) == (4 if recent else 3)


def test_weeks_that_differ_make_the_call_provisional_and_print_all_floors():
    # 264 of 300 is 88 of 100: under 90 in week 1, not under 85 in week 2
    made = call(reading(30, healthy=264, missing=36), day=7, latest=3)
    assert (made.verdict, made.provisional) == ("look-sooner", True)
    assert made.stage.squaring_weeks == (1, 2)
    text = next(r.text for r in made.reasons if r.code == "weeks-differ")
    assert "90" in text
    assert "85" in text
    assert made.guideline.floor == Fraction(9, 10)
    assert "both-past" not in codes(made)  # so says week 1 alone


def test_weeks_that_agree_take_the_soonest_next_look():
    # few insects; 88 of 100 is under 90 by less than .05 in week 1 (5 days), fine in week 2
    made = call(reading(2, healthy=264, missing=36), day=7, latest=3)
    days = days_to_next_look(made, day=7)
    assert (made.verdict, made.provisional, days) == ("hold", False, 5)


@pytest.mark.parametrize(("day", "latest"), [(3, 5), (20, 0)])
def test_a_range_that_reaches_before_first_square_is_never_to_treat(day, latest):
    made = call(reading(40, **PAST), day=day, latest=latest)
    outside = latest > day
    assert made.verdict == ("look-sooner" if outside else "treat")
    assert made.provisional is outside
    assert ("season-edge" in codes(made)) is outside


@pytest.mark.parametrize(("day", "latest"), [(46, 2), (45, 0)])
def test_a_range_that_reaches_past_day_45_is_never_to_treat(day, latest):
    made = call(reading(40, **PAST), day=day, latest=latest)
    assert made.verdict == ("look-sooner" if latest else "treat")
    assert made.provisional
    assert "bloom-date" in codes(made)
    told = [each.text for each in made.reasons if each.code == "season-edge"]
    assert told == (
        [
            "First square may even have been more than 45 days ago, and past that there is no call"
            " without a bloom date. The call is for the days before, and not to treat."
        ]
        if latest
        else []
    )


def test_a_range_that_reaches_past_week_three_is_judged_on_its_days_inside():
    made = call(reading(40), "oklahoma", day=22, latest=4)
    assert (made.verdict, made.provisional) == ("look-sooner", True)
    assert made.stage.squaring_weeks == (3, 4)
    assert call(reading(5), "oklahoma", day=22, latest=4).verdict == "hold"
    assert call(reading(5), "oklahoma", day=25, latest=4).verdict == "none"


@pytest.mark.parametrize(("insects", "within"), [(24, False), (25, True), (29, True), (30, False)])
def test_between_the_ends_of_a_published_range_both_are_told(insects, within):
    made = call(reading(insects, **PAST))
    assert ("within-range" in codes(made)) is within
    if within:
        text = next(r.text for r in made.reasons if r.code == "within-range")
        assert "at 25 treat, at 30 not yet" in text


def test_a_line_may_be_chosen_inside_the_range_only():
    made = call(reading(27, **PAST), options=CallOptions(Fraction(28)))
    assert (made.verdict, made.guideline.line) == ("look-sooner", 28)
    rule = load_guideline("southern-high-plains")
    for line in (Fraction(25), Fraction(55, 2), Fraction(30)):
        check_line(rule, line)
    for line in (Fraction(249, 10), Fraction(31)):
        with pytest.raises(LineOutsideRange, match="from 25 to 30"):
            check_line(rule, line)
    for line in ("24.9999999", "30.00001"):
        with pytest.raises(LineOutsideRange, match=f"from 25 to 30 .*, got {re.escape(line)}"):
            check_line(rule, Fraction(line))
    with pytest.raises(LineOutsideRange, match="must be 15"):
        check_line(load_guideline("mid-coast"), Fraction(16))
    with pytest.raises(LineOutsideRange, match="by week"):
        check_line(load_guideline("tennessee-sweep"), Fraction(16))


@pytest.mark.parametrize(("squares", "provisional"), [(99, True), (100, False)])
def test_fifty_to_99_first_positions_are_read_but_not_firm(squares, provisional):
    made = call(reading(0, healthy=squares))
    assert (made.provisional, "few-squares" in codes(made)) == (provisional, provisional)
    assert not call(reading(0, healthy=squares), "mid-coast").provisional


def test_squares_are_not_read_where_fewer_than_half_of_the_plants_square():
    assert reading(0, healthy=50).set_readable
    assert not reading(0, healthy=49).set_readable
    assert not reading(0, healthy=59, plants=(30, 30, 30, 30)).set_readable


def test_the_guideline_used_can_be_found_again():
    made = call(reading(0))
    rule = load_guideline("southern-high-plains")
    assert (made.guideline.hash, made.guideline.edition) == (rule.hash, rule.edition)


def test_next_look_is_a_day_range_whose_last_day_counts():
    made = call(reading(20))
    assert made.next_look is not None
    assert made.next_look.soonest == FIRST_SQUARE + timedelta(days=13)
    assert made.next_look.latest == FIRST_SQUARE + timedelta(days=14)
