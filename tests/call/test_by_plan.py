"""A walk that ended by a stop plan is judged as one that was finished, if it kept the plan."""

from __future__ import annotations

from fractions import Fraction

import pytest

from quarterwalk.call import CallOptions, Verdict
from quarterwalk.plan import (
    THREE_LOOPS,
    TWO_LOOPS,
    Look,
    Plan,
    Question,
    Row,
    SquareBar,
    SquaresOn,
    Stopping,
    shelved_for,
)
from quarterwalk.walk import Method
from tests.call.made import call, codes, reading

FORTY, TWENTY = (10,) * 4, (5,) * 4


def floor(share: str) -> Question:
    return Question(Fraction(25), SquareBar(Fraction(share)))


def shelved(question, stopping, squares_on, loops=TWO_LOOPS) -> Plan:
    found = shelved_for(question, stopping, squares_on)
    return next(each.plan for each in found if each.plan.loops == loops)


# the second week of squaring, with a floor of 85
HOLDS = shelved(floor("3/20"), Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP)
TREATS = shelved(floor("3/20"), Stopping.EITHER_WAY, SquaresOn.FIRST_LOOP)
LOOPS = shelved(floor("3/20"), Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, THREE_LOOPS)

OWN = Plan(
    floor("3/20"), Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP, TWO_LOOPS,
    (Look(40, (Row(100, 6, 6, 6),)),),
)  # fmt: skip


def ended(plan: str, insects=3, lost=6, plants=FORTY, squares=120, **choices):
    read = reading(insects, plants=plants, healthy=squares - lost, missing=lost, plan=plan)
    return call(read, **choices)


def text(made, code) -> str:
    return next(str(reason.text) for reason in made.reasons if reason.code == code)


def test_without_a_plan_forty_plants_stay_provisional():
    made = ended("")
    assert made.provisional
    assert "few-plants" in codes(made)
    assert codes(made).isdisjoint({"ended-by-plan", "unknown-plan", "plan-not-kept"})


def test_a_walk_that_ended_by_a_plan_is_as_good_as_finished():
    made = ended(HOLDS.hash)
    assert made.verdict is Verdict.HOLD
    assert not made.provisional
    assert "few-plants" not in codes(made)
    told = text(made, "ended-by-plan")
    assert "after 40 plants" in told
    assert HOLDS.short in told
    assert "allows with so few insects." in told


def test_a_walk_that_ended_to_treat_says_that_much_was_found():
    made = ended(TREATS.hash, insects=22, lost=40)
    assert made.verdict is Verdict.TREAT
    assert not made.provisional
    assert "with so many insects and lost squares." in text(made, "ended-by-plan")


def test_a_plan_that_may_only_hold_does_not_end_a_walk_to_treat():
    made = ended(HOLDS.hash, insects=22, lost=40)
    assert made.verdict is Verdict.TREAT
    assert made.provisional
    assert "plan-not-kept" in codes(made)


@pytest.mark.parametrize(("insects", "lost"), [(0, 3), (16, 40)])
def test_twenty_plants_are_enough_where_a_plan_of_three_loops_says_so(insects, lost):
    made = ended(LOOPS.hash, insects, lost, TWENTY, 100)
    assert made.verdict is (Verdict.TREAT if insects else Verdict.HOLD)
    assert not made.provisional
    assert codes(made).isdisjoint({"finish-walk", "few-plants"})
    assert "after 20 plants" in text(made, "ended-by-plan")


def test_twenty_plants_are_not_enough_otherwise():
    for plan in ("", HOLDS.hash, "f" * 64):
        made = ended(plan, 0, 3, TWENTY, 100)
        assert made.provisional
        assert "finish-walk" in codes(made)
        assert "ended-by-plan" not in codes(made)


def test_few_squares_keep_a_call_provisional_whatever_the_plan():
    made = ended(LOOPS.hash, 0, 2, TWENTY, 60)
    assert "finish-walk" not in codes(made)
    assert "few-squares" in codes(made)
    assert made.provisional


@pytest.mark.parametrize("name", ["f" * 64, "spring", HOLDS.hash[:7], OWN.hash])
def test_an_unknown_plan_lifts_nothing(name):
    made = ended(name)
    assert made.provisional
    assert {"few-plants", "unknown-plan"} <= codes(made)
    assert codes(made).isdisjoint({"ended-by-plan", "plan-not-kept"})


@pytest.mark.parametrize("digits", [8, 12, 64])
def test_eight_digits_or_more_name_a_plan(digits):
    made = ended(HOLDS.hash[:digits].upper())
    assert "ended-by-plan" in codes(made)
    assert not made.provisional


def test_a_plan_of_ones_own_is_known_where_it_is_given():
    options = CallOptions(plans=(OWN,))
    assert "ended-by-plan" in codes(ended(OWN.short, options=options))
    assert "plan-not-kept" in codes(ended(OWN.short, insects=7, lost=7, options=options))


def test_a_plan_is_for_its_own_line():
    made = ended(HOLDS.hash, options=CallOptions(line=Fraction(30)))
    assert made.provisional
    assert {"few-plants", "plan-not-kept"} <= codes(made)
    assert "another line or floor" in text(made, "plan-not-kept")


@pytest.mark.parametrize("guideline", ["kansas", "mid-coast"])
def test_a_plan_is_for_its_own_rule(guideline):
    made = ended(HOLDS.hash, guideline=guideline)
    assert made.provisional
    assert "another line or floor" in text(made, "plan-not-kept")


@pytest.mark.parametrize("plants", [(10, 10, 10, 13), (9, 10, 10, 11), (15, 15, 15, 15)])
def test_a_plan_is_for_its_own_plants(plants):
    made = ended(HOLDS.hash, plants=plants)
    assert made.provisional
    assert "after 40 plants" in text(made, "plan-not-kept")


def test_a_plan_of_three_loops_names_both_numbers_of_plants():
    made = ended(LOOPS.hash)
    assert "after 20 or 60 plants" in text(made, "plan-not-kept")


def test_counts_that_say_go_on_keep_a_call_provisional():
    made = ended(HOLDS.hash, insects=9, lost=21)
    assert made.provisional
    assert {"few-plants", "plan-not-kept"} <= codes(made)
    assert "did not end the walk" in text(made, "plan-not-kept")


def test_a_plan_of_one_floor_does_not_do_where_the_week_may_have_another():
    made = ended(HOLDS.hash, latest=5)
    assert made.provisional
    assert {"few-plants", "plan-not-kept"} <= codes(made)
    assert "another line or floor" in text(made, "plan-not-kept")


def test_a_plan_does_where_all_weeks_have_its_floor():
    third = shelved(floor("1/4"), Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP)
    made = ended(third.hash, day=24, latest=5)
    assert "weeks-agree" in codes(made)
    assert "ended-by-plan" in codes(made)
    assert "few-plants" not in codes(made)


def test_nothing_is_said_of_a_plan_after_a_full_walk():
    made = ended(HOLDS.hash, insects=9, lost=20, plants=(25,) * 4, squares=150)
    assert not made.provisional
    assert codes(made).isdisjoint({"ended-by-plan", "unknown-plan", "plan-not-kept"})


def test_a_plan_ends_no_walk_with_the_net():
    read = reading(2, plants=(25,) * 4, method=Method.SWEEP, sweeps=1, plan=HOLDS.hash)
    assert "ended-by-plan" not in codes(call(read, "tennessee-sweep"))


def test_by_insects_alone_squares_are_not_asked():
    plan = shelved(Question(Fraction(15)), Stopping.EITHER_WAY, SquaresOn.NONE)
    quiet = call(reading(0, plants=FORTY, plan=plan.hash), "mid-coast")
    assert (quiet.verdict, quiet.provisional) == (Verdict.HOLD, False)
    many = call(reading(40, plants=FORTY, plan=plan.hash), "mid-coast")
    assert (many.verdict, many.provisional) == (Verdict.TREAT, False)
