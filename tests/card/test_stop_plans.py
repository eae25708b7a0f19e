"""Where walks may end early, the card holds each week's stop plan; else it says nothing of it."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import pytest

from quarterwalk.card import make_card
from quarterwalk.crop import CropDates
from quarterwalk.demo import demo_fields
from quarterwalk.field import Layout, Plan, lay_out
from quarterwalk.guideline import HalfLine, load_guideline
from quarterwalk.plan import (
    SquaresOn,
    Stopping,
    plan_json,
    question_for,
    shelved_for,
    shelved_named,
)
from tests.card.ground import FIRST_SQUARE, ON, about, card, content

Json = dict[str, Any]
HOLD_ONLY, EITHER_WAY = Stopping.HOLD_ONLY, Stopping.EITHER_WAY


def in_loops(*split: int, plants: int = 5) -> Layout:
    """Lay a demo field out in other loops."""
    return lay_out(demo_fields()[0], ON, plan=Plan(split, plants))


THREE = in_loops(1, 2, 2)


def plans(guideline: str = "southern-high-plains", **choices: Any) -> dict[int | None, Json]:
    """Give the plans of a card by their weeks."""
    read = content(guideline, **{"stopping": HOLD_ONLY, **choices})
    return {told["week"]: told for told in read.get("plans", [])}


def rows(told: Json) -> list[list[list[int | None]]]:
    return [look["rows"] for look in told["looks"]]


def test_without_a_choice_no_walk_ends_early() -> None:
    assert "plans" not in content()
    assert card(stopping=None).bytes == card().bytes
    assert card(stopping=HOLD_ONLY).hash != card().hash


@pytest.mark.parametrize("stopping", Stopping)
@pytest.mark.parametrize("name", ["southern-high-plains", "kansas", "blacklands", "oklahoma"])
def test_each_week_has_the_plan_of_the_package_that_answers_it(
    name: str, stopping: Stopping
) -> None:
    read = content(name, stopping=stopping)
    assert [told["week"] for told in read["plans"]] == [week["week"] for week in read["weeks"]]
    for told in read["plans"]:
        named = shelved_named(told["hash"])
        assert named is not None
        plan = named.plan
        week = told["week"]
        assert plan.question == question_for(load_guideline(name), week)
        assert (plan.stopping, plan.loops) == (stopping, (2, 3))
        counted = SquaresOn.EVERY_PLANT if week == 1 else SquaresOn.FIRST_LOOP
        assert plan.squares_on == (counted if told["squares"] else SquaresOn.NONE)
        assert rows(told) == [look["rows"] for look in plan_json(plan)["looks"]]
        assert [(look["plants"], look["a_quarter"], look["loop"]) for look in told["looks"]] == [
            (40, 10, 1)
        ]


def test_the_card_says_which_squares_are_counted() -> None:
    said = {
        name: {(told["squares"], told["bar"]) for told in plans(name).values()}
        for name in ("southern-high-plains", "kansas", "oklahoma")
    }
    assert said == {
        "southern-high-plains": {(True, "lost")},
        "kansas": {(True, "blasted")},
        "oklahoma": {(False, None)},
    }


@pytest.mark.parametrize("name", ["southern-high-plains", "kansas", "oklahoma"])
def test_only_a_walk_that_may_end_either_way_has_limits_to_treat(name: str) -> None:
    (hold,), (either,) = (rows(plans(name, stopping=way)[1]) for way in Stopping)
    assert {tuple(row[4:]) for row in hold} == {(None, None)}
    # nor are there any where the squares that are asked for are too few to be read
    thin = content()["limits"]["thin_squares"]
    for squares, *_, insects_high, lost_high in either:
        few = name != "oklahoma" and squares < thin
        assert (insects_high is None, lost_high is None) == (few, few)


def test_in_three_loops_there_are_two_looks_where_the_package_has_such_a_plan() -> None:
    lost = plans(layout=THREE)
    assert list(lost) == [1]  # later the first loop has too few squares
    assert [look["plants"] for look in lost[1]["looks"]] == [20, 60]
    alone = plans("oklahoma", layout=THREE)
    assert list(alone) == [1, 2, 3]
    assert [look["a_quarter"] for look in alone[2]["looks"]] == [5, 15]


@pytest.mark.parametrize(
    "layout",
    [in_loops(5), in_loops(3, 2), in_loops(2, 3, plants=4), in_loops(2, 3, plants=12)],
    ids=["one tour", "the larger loop first", "4 plants a stop", "12 plants a stop"],
)
def test_in_loops_that_no_plan_is_made_for_there_is_none(layout: Layout) -> None:
    assert plans(layout=layout) == {}


def test_stops_that_are_not_shared_out_alike_have_no_plan() -> None:
    whole = in_loops(2, 3)
    assert plans(layout=replace(whole, stops=whole.stops[:-1])) == {}


def test_a_line_that_no_plan_answers_has_none() -> None:
    assert plans(line=Fraction(26)) == {}
    assert plans(line=Fraction(25)) == plans()


def test_a_rule_that_no_plan_can_follow_has_none() -> None:
    assert plans("tennessee-sweep") == {}
    assert "plans" not in content(None, stopping=HOLD_ONLY)
    assert plans(dates=None) == {}
    rule = load_guideline("oklahoma")
    half = replace(rule, half_line=HalfLine(Fraction(8, 10), rule.sources[0]))
    made = make_card(replace(about(stopping=HOLD_ONLY), guideline=half))
    assert "plans" not in json.loads(made.bytes)


def test_in_bloom_the_plan_holds_as_long_as_the_line() -> None:
    dates = CropDates(FIRST_SQUARE, bloom=FIRST_SQUARE + timedelta(days=25))
    told = plans("coastal-bend", dates=dates)
    assert told[None]["hash"] == told[3]["hash"]


def test_what_is_ahead_of_the_second_loop_is_its_way_and_its_counting() -> None:
    walked = content()["loops"][1]["minutes"]
    told = plans()
    # on paper: 60 plants by 12 seconds with squares, by 8 without
    for week, counted in ((1, 12), (2, 8)):
        (look,) = told[week]["looks"]
        assert len(look["more"]) == len(look["rows"])
        for plants, minutes in look["more"]:
            assert plants == 60
            assert minutes == pytest.approx(walked + counted, abs=0.56)


def test_before_two_loops_it_is_what_the_walks_that_go_on_take_on_average() -> None:
    loops = content("oklahoma", layout=THREE)["loops"]
    told = plans("oklahoma", layout=THREE)[1]
    (first,), (last,) = (look["more"] for look in told["looks"])
    assert last == [40, round(loops[2]["minutes"] + 40 * 8 / 60)]
    (shelved,) = (
        each
        for each in shelved_for(
            question_for(load_guideline("oklahoma"), 1), HOLD_ONLY, SquaresOn.NONE
        )
        if each.plan.hash == told["hash"]
    )
    _, second, full = shelved.figures[0].ends
    assert first[0] == round((40 * second + 80 * full) / (second + full))
    minutes = [loops[1]["minutes"] + 40 * 8 / 60, loops[2]["minutes"] + 40 * 8 / 60]
    mean = minutes[0] + minutes[1] * full / (second + full)
    assert first[1] == pytest.approx(mean, abs=0.65)


def test_plans_leave_a_card_small() -> None:
    wide = CropDates(date(2026, 6, 20), date(2026, 6, 24))
    with_plans = card(dates=wide, stopping=EITHER_WAY)
    assert 0 < len(with_plans.bytes) - len(card(dates=wide).bytes) < 8_000
