"""The plans of the package: all there, found by question or hash, and as good as they say."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from quarterwalk.guideline import load_routine
from quarterwalk.plan import (
    CRITERION,
    NOMINAL,
    THREE_LOOPS,
    TWO_LOOPS,
    WORLDS,
    Question,
    Row,
    SquareBar,
    SquaresOn,
    Stopping,
    Wanted,
    course_of,
    make_plan,
    shelved_for,
    shelved_from_json,
    shelved_json,
    shelved_named,
    shelved_plans,
    walked,
)
from quarterwalk.plan.figures import row_figures, worst_errors
from quarterwalk.plan.make import first_squares
from quarterwalk.plan.wanted import packaged_plans
from tests.plan.made import ALONE_15, BLASTED_10, FLOOR_85

# Stored figures have three digits after the point.
STORED = 0.0005

# Between two rows errors may lie this far above the limits. [percentage points]
BETWEEN_CLEAR, BETWEEN_NEAR = 0.06, 0.05

FLOOR_90, FLOOR_75 = (Question(Fraction(25), SquareBar(Fraction(1, n))) for n in (10, 4))

PLANS = pytest.mark.parametrize("shelved", shelved_plans(), ids=lambda each: each.plan.short)


def one(question, stopping, squares_on, loops=TWO_LOOPS):
    return next(
        each for each in shelved_for(question, stopping, squares_on) if each.plan.loops == loops
    )


def test_the_package_has_every_plan_that_it_should_have():
    has = [
        Wanted(each.plan.question, each.plan.stopping, each.plan.squares_on, each.plan.loops)
        for each in shelved_plans()
    ]
    assert has == list(packaged_plans())


def test_no_two_plans_share_their_first_digits():
    short = [each.plan.short for each in shelved_plans()]
    assert len(set(short)) == len(short)


@PLANS
def test_stored_errors_keep_the_limits(shelved):
    for row in shelved.figures:
        assert row.worst_clear <= CRITERION.clear + STORED
        assert row.worst_near <= CRITERION.near + STORED


@PLANS
def test_stored_figures_hang_together(shelved):
    plan = shelved.plan
    wanted = Wanted(plan.question, plan.stopping, plan.squares_on, plan.loops)
    assert tuple(row.squares for row in plan.looks[0].rows) == first_squares(wanted)
    assert [each.squares for each in shelved.figures] == list(first_squares(wanted))
    for number, row in enumerate(shelved.figures):
        course = course_of(plan, number)
        assert tuple(look.plants for look in plan.looks) == course.plants[:-1]
        assert tuple(look.rows[number].squares for look in plan.looks) == course.squares[:-1]
        for ends, plants in ((row.ends, row.plants), (row.clear_ends, row.clear_plants)):
            assert sum(ends) == pytest.approx(1.0, abs=3e-4)
            mean = sum(n * share for n, share in zip(course.plants, ends, strict=True))
            assert mean == pytest.approx(plants, abs=0.02)


@PLANS
def test_every_row_saves_plants_and_keeps_its_manner(shelved):
    hold_only = shelved.plan.stopping is Stopping.HOLD_ONLY
    assert all(each.plants < 100.0 for each in shelved.figures)
    for look in shelved.plan.looks:
        for row in look.rows:
            assert not (hold_only and (row.insects_high, row.lost_high) != (None, None))


@pytest.mark.parametrize(
    ("question", "stopping", "squares_on", "loops", "number"),
    [
        (FLOOR_85, Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP, TWO_LOOPS, 0),
        (FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, TWO_LOOPS, 8),
        (FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, THREE_LOOPS, 3),
        (BLASTED_10, Stopping.EITHER_WAY, SquaresOn.FIRST_LOOP, TWO_LOOPS, 12),
        (ALONE_15, Stopping.EITHER_WAY, SquaresOn.NONE, THREE_LOOPS, 0),
    ],
)
def test_some_rows_worked_out_afresh(question, stopping, squares_on, loops, number):
    shelved = one(question, stopping, squares_on, loops)
    rows = [look.rows[number] for look in shelved.plan.looks]
    afresh = row_figures(course_of(shelved.plan, number), rows)
    stored = shelved.figures[number]
    assert afresh.worst_clear <= CRITERION.clear + 1e-9
    assert afresh.worst_near <= CRITERION.near + 1e-9
    assert stored.ends == pytest.approx(afresh.ends, abs=6e-5)
    assert stored.clear_ends == pytest.approx(afresh.clear_ends, abs=6e-5)
    for name, give in (
        ("plants", 0.006),
        ("plants_spread", 0.006),
        ("clear_plants", 0.006),
        ("worst_clear", 0.0006),
        ("worst_near", 0.0006),
    ):
        assert getattr(stored, name) == pytest.approx(getattr(afresh, name), abs=give)


@pytest.mark.parametrize(("stopping", "number"), [("hold-only", 1), ("either-way", 6)])
def test_limits_made_for_squares_on_24_plants_do_for_the_40_of_week_two(stopping, number):
    plan = one(FLOOR_75, Stopping(stopping), SquaresOn.FIRST_LOOP).plan
    course = course_of(plan, number)
    first, second = course.stretches
    assert first.square_plants == 24
    week_two = replace(course, stretches=(replace(first, square_plants=40), second))
    for world in WORLDS:
        clear, near = worst_errors(week_two, [plan.looks[0].rows[number]], world)
        assert clear <= CRITERION.clear + 0.01
        assert near <= CRITERION.near + 0.01


def test_a_plan_made_again_is_the_same_to_the_last_digit():
    shelved = one(FLOOR_85, Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP)
    told = []
    plan = make_plan(
        Wanted(FLOOR_85, Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP),
        lambda done, rows: told.append((done, rows)),
    )
    assert plan.hash == shelved.plan.hash
    assert told == [(n, 17) for n in range(1, 18)]


def between(shelved, squares):
    """Give the course of so many squares, and the limits that are looked up for them."""
    plan = shelved.plan
    course = walked(plan.question, plan.loops, plan.squares_on, squares)
    looks = zip(plan.looks, course.squares, strict=False)
    return course, [look.row_for(checked) for look, checked in looks]


def kept_between(shelved, squares) -> None:
    course, limits = between(shelved, squares)
    for world in WORLDS:
        clear, near = worst_errors(course, limits, world)
        assert clear <= CRITERION.clear + BETWEEN_CLEAR, (squares, world.name)
        assert near <= CRITERION.near + BETWEEN_NEAR, (squares, world.name)


@PLANS
def test_at_no_number_of_squares_a_plan_speaks_against_the_rule(shelved):
    question = shelved.plan.question
    for look in shelved.plan.looks:
        line = question.least_insects(look.plants)
        for squares in range(look.rows[0].squares, look.rows[-1].squares + 2):
            row, bar = look.row_for(squares), question.least_lost(squares)
            # the fewest that the rule calls treat, and the most of either that it does not
            assert not row.holds(line, bar)
            assert not row.treats(line - 1, 1_000)
            assert bar == 0 or not row.treats(1_000, bar - 1)


def falls(loops):
    """Name the limits that fall from a row to the next, in all plans of one design."""
    names = ("insects_low", "lost_low", "sum_low", "insects_high", "lost_high")
    plans = (each.plan for each in shelved_plans() if each.plan.loops == loops)
    for look in (look for plan in plans for look in plan.looks):
        for before, after in pairwise(look.rows):
            limits = ((name, getattr(before, name), getattr(after, name)) for name in names)
            yield from (name for name, first, last in limits if first is not None and last < first)


def test_limits_of_two_loops_rise_from_row_to_row_but_for_one_sum():
    assert list(falls(TWO_LOOPS)) == ["sum_low"]


def test_limits_on_lost_squares_of_three_loops_rise_but_for_one_sum():
    assert [name for name in falls(THREE_LOOPS) if "insects" not in name] == ["sum_low"]


@PLANS
def test_with_squares_too_few_to_be_read_no_plan_treats(shelved):
    plan, least = shelved.plan, load_routine().thin_sites
    if plan.question.bar is not None:
        for row in (row for look in plan.looks for row in look.rows):
            assert row.squares >= least or (row.insects_high, row.lost_high) == (None, None)


@pytest.mark.parametrize(
    ("question", "stopping", "squares_on", "loops", "squares"),
    [
        (FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, TWO_LOOPS, (41, 141, 241)),
        (FLOOR_85, Stopping.HOLD_ONLY, SquaresOn.FIRST_LOOP, TWO_LOOPS, (95, 181)),
        (FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, THREE_LOOPS, (21, 111)),
        (FLOOR_90, Stopping.EITHER_WAY, SquaresOn.FIRST_LOOP, TWO_LOOPS, (45, 61)),
        (FLOOR_75, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, TWO_LOOPS, (230,)),
        (BLASTED_10, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, THREE_LOOPS, (69, 89, 139)),
        (FLOOR_75, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT, THREE_LOOPS, (111,)),
    ],
)
def test_between_rows_errors_rise_by_little_more(question, stopping, squares_on, loops, squares):
    shelved = one(question, stopping, squares_on, loops)
    for number in squares:
        kept_between(shelved, number)


@pytest.mark.slow
@PLANS
def test_between_all_rows_errors_rise_by_little_more(shelved):
    numbers = [row.squares for row in shelved.plan.looks[0].rows]
    for squares in sorted(set(range(numbers[0], numbers[-1], 7)) - set(numbers)):
        kept_between(shelved, squares)


def test_a_plan_is_found_by_its_hash_or_eight_digits_of_it():
    shelved = shelved_plans()[3]
    assert shelved_named(shelved.plan.hash) is shelved
    assert shelved_named(f" {shelved.plan.short.upper()}") is shelved
    assert shelved_named(shelved.plan.hash[:7]) is None
    assert shelved_named("") is None
    assert shelved_named("f" * 64) is None


def test_plans_of_one_manner_come_with_the_fewest_loops_first():
    found = shelved_for(FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT)
    assert [each.plan.loops for each in found] == [TWO_LOOPS, THREE_LOOPS]
    first_loop = shelved_for(FLOOR_85, Stopping.EITHER_WAY, SquaresOn.FIRST_LOOP)
    assert [each.plan.loops for each in first_loop] == [TWO_LOOPS]


def test_where_insects_decide_alone_it_does_not_matter_where_squares_are_counted():
    found = [shelved_for(ALONE_15, Stopping.HOLD_ONLY, on) for on in SquaresOn]
    assert len(found[0]) == 2
    assert found[0] == found[1] == found[2]


def test_no_plan_answers_what_is_not_asked():
    assert shelved_for(None, Stopping.HOLD_ONLY, SquaresOn.NONE) == ()
    assert shelved_for(Question(ALONE_15.line + 2), Stopping.HOLD_ONLY, SquaresOn.NONE) == ()


@PLANS
def test_a_shelved_plan_survives_being_written_and_read(shelved):
    assert shelved_from_json(json.loads(json.dumps(shelved_json(shelved)))) == shelved


def test_a_row_too_many_would_be_seen():
    shelved = one(FLOOR_85, Stopping.EITHER_WAY, SquaresOn.EVERY_PLANT)
    row: Row = shelved.plan.looks[0].rows[8]
    looser = replace(row, insects_low=row.insects_low + 2)
    clear, near = worst_errors(course_of(shelved.plan, 8), [looser], NOMINAL)
    assert clear > CRITERION.clear or near > CRITERION.near
