"""What must hold of the limits of any stop plan, whatever the counts."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from quarterwalk.plan import (
    LEAST_DIGITS,
    NOMINAL,
    Criterion,
    Look,
    Lost,
    Plan,
    Question,
    Row,
    Side,
    SquareBar,
    SquaresOn,
    Stopping,
    plan_from_json,
    plan_json,
    walked,
)
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.look import aims_for, room_at
from quarterwalk.plan.one_look import best_row
from quarterwalk.plan.outcome import follow, sides
from quarterwalk.plan.regions import Span
from tests.plan.simulate import says_treat

ROUNDING = 1e-9

bars = st.none() | st.builds(
    SquareBar, st.fractions("1/20", "3/10", max_denominator=40), st.sampled_from(Lost)
)
questions = st.builds(Question, st.fractions(5, 40, max_denominator=2), bars)
few = st.integers(-1, 30)
free_rows = st.builds(
    Row, st.just(120), few, few, few, st.none() | st.integers(0, 40), st.none() | st.integers(0, 40)
)
counts = st.integers(0, 60)


def within(span: Span | None) -> st.SearchStrategy[int | None]:
    if span is None:
        return st.none()
    first, last = min(span), max(span)
    return st.integers(first, last)


@st.composite
def lawful_rows(draw, question, plants=40, stopping=Stopping.EITHER_WAY, squares=None):
    """Limits from the room that a search may use, for one number of squares."""
    if question.bar is None:
        squares = 0
    elif squares is None:
        squares = draw(st.integers(20, 280))
    course = walked(question, (2, 3), SquaresOn.EVERY_PLANT, squares)
    room = room_at(course, 0, stopping)
    total = -1 if question.bar is None else draw(within(room.sum_low))
    high = draw(within(room.insects_high)), draw(within(room.lost_high))
    if draw(st.booleans()):
        high = None, None
    return Row(squares, draw(within(room.insects_low)), draw(within(room.lost_low)), total, *high)


@st.composite
def lawful_looks(draw):
    """A look with some rows from the room of a search."""
    question = draw(questions)
    rising = [0]
    if question.bar is not None:
        rising = sorted(draw(st.sets(st.integers(20, 280), min_size=1, max_size=4)))
    return question, Look(40, tuple(draw(lawful_rows(question, squares=n)) for n in rising))


@st.composite
def plans(draw):
    question, look = draw(lawful_looks())
    squares_on = SquaresOn.NONE if question.bar is None else draw(st.sampled_from(SquaresOn))
    return Plan(question, draw(st.sampled_from(Stopping)), squares_on, (2, 3), (look,))


RANK = {Side.HOLD: 0, Side.GO_ON: 1, Side.TREAT: 2}


@given(free_rows, counts, counts)
@settings(max_examples=300)
def test_more_insects_or_more_lost_never_turn_treat_into_going_on_nor_fewer_hold(
    row, insects, lost
):
    look = Look(40, (row,))
    here = RANK[look.side(insects, lost, 120)]
    assert RANK[look.side(insects + 1, lost, 120)] >= here
    assert RANK[look.side(insects, lost + 1, 120)] >= here


@given(lawful_looks(), counts, st.integers(0, 280), st.data())
@settings(max_examples=300)
def test_nothing_that_the_rule_calls_treat_can_hold_nor_the_other_way_round(
    found, insects, squares, data
):
    question, look = found
    lost = data.draw(st.integers(0, squares)) if question.bar else 0
    side = look.side(insects, lost, squares if question.bar else 0)
    assume(question.bar is None or squares)
    over = says_treat(question, insects, look.plants, lost, squares)
    assert side is not (Side.HOLD if over else Side.TREAT)


@given(st.data(), questions)
def test_regions_that_end_a_walk_never_overlap(data, question):
    row = data.draw(lawful_rows(question))
    for insects in range(0, 50, 3):
        for lost in range(0, 60, 3) if question.bar else (0,):
            assert not (row.holds(insects, lost) and row.treats(insects, lost))


@given(free_rows)
@settings(max_examples=30)
def test_all_counts_at_once_are_looked_up_as_one_by_one(row):
    course = walked(
        Question(Fraction(25), SquareBar(Fraction(3, 20))), (2, 3), SquaresOn.EVERY_PLANT, 120
    )
    hold, treat = sides(course, row)
    look = Look(40, (row,))
    assert not (hold & treat).any()
    for insects in range(0, course.cap_insects + 1, 5):
        for lost in range(0, course.cap_lost + 1, 5):
            side = look.side(insects, lost, 120)
            assert hold[insects, lost] == (side is Side.HOLD)
            assert treat[insects, lost] == (side is Side.TREAT)


@given(lawful_looks(), counts, counts, st.integers(0, 300))
def test_counts_are_on_the_side_of_the_row_for_their_squares(found, insects, lost, squares):
    _, look = found
    row = look.row_for(squares)
    side = look.side(insects, lost, squares)
    if row is None:
        assert side is Side.GO_ON
    else:
        assert (side is Side.HOLD) == row.holds(insects, lost)
        assert (side is Side.TREAT) == row.treats(insects, lost)


@given(lawful_looks())
def test_at_a_row_its_own_limits_stand(found):
    _, look = found
    for row in look.rows:
        assert look.row_for(row.squares) == row


@given(lawful_looks(), st.integers(1, 200))
def test_before_the_first_row_there_is_none_and_past_the_last_nothing_treats(found, step):
    _, look = found
    first, last = look.rows[0], look.rows[-1]
    assert look.row_for(first.squares - step) is None
    past = look.row_for(last.squares + step)
    assert past == replace(last, squares=past.squares, insects_high=None, lost_high=None)


LOW, HIGH = ("insects_low", "lost_low", "sum_low"), ("insects_high", "lost_high")


@given(st.lists(free_rows, min_size=2, max_size=2), st.integers(1, 60), st.data())
@settings(max_examples=300)
def test_between_two_rows_limits_are_those_on_the_line_to_the_stricter_side(ends, span, data):
    low, high = ends[0], replace(ends[1], squares=ends[0].squares + span)
    step = data.draw(st.integers(1, span))
    row = Look(40, (low, high)).row_for(low.squares + step)
    if step < span and (low.lost_high is None) != (high.lost_high is None):
        assert row == replace(low, squares=row.squares, insects_high=None, lost_high=None)
        return
    for name in LOW + HIGH:
        first, last, found = (getattr(each, name) for each in (low, high, row))
        if first is None or last is None:
            assert found is None or step == span
            continue
        line = first + Fraction((last - first) * step, span)
        off = line - found if name in LOW else found - line
        assert 0 <= off < 1


@given(st.data(), questions)
@settings(max_examples=200)
def test_at_no_number_of_squares_a_row_speaks_against_the_rule(data, question):
    assume(question.bar is not None)
    numbers = sorted(data.draw(st.sets(st.integers(20, 280), min_size=2, max_size=2)))
    look = Look(40, tuple(data.draw(lawful_rows(question, squares=n)) for n in numbers))
    line = question.least_insects(look.plants)
    for squares in range(numbers[0], numbers[1] + 3):
        row, bar = look.row_for(squares), question.least_lost(squares)
        # the fewest that the rule calls treat, and the most of either that it does not
        assert not row.holds(line, bar)
        assert not row.treats(line - 1, 10_000)
        assert not row.treats(10_000, bar - 1)


@st.composite
def rising_looks(draw):
    """A look whose limits all rise, or stay, from row to row."""
    squares, rows, most = 40, [], dict.fromkeys(LOW + HIGH, -1)
    for _ in range(draw(st.integers(2, 4))):
        own = draw(free_rows)
        most = {name: max(most[name], getattr(own, name) or 0) for name in most}
        rows.append(Row(squares, **most))
        squares += draw(st.integers(1, 60))
    return Look(40, tuple(rows))


@given(rising_looks())
def test_limits_that_rise_from_row_to_row_never_fall_between_them(look):
    squares = range(look.rows[0].squares, look.rows[-1].squares + 1)
    between = [look.row_for(n) for n in squares]
    for name in LOW + HIGH:
        limits = [getattr(row, name) for row in between]
        assert limits == sorted(limits)


@given(rising_looks(), st.data())
@settings(max_examples=200)
def test_where_limits_rise_what_ends_a_walk_on_paper_ends_it_by_the_line(look, data):
    first, last = look.rows[0].squares, look.rows[-1].squares
    squares = data.draw(st.integers(first, last))
    row = look.row_for(squares)
    above = [each for each in look.rows if each.squares <= squares][-1]
    below = next(each for each in look.rows if each.squares >= squares)
    for insects in range(0, 45, 2):
        for lost in range(0, 45, 2):
            assert row.holds(insects, lost) or not above.holds(insects, lost)
            assert row.treats(insects, lost) or not below.treats(insects, lost)


@given(plans())
def test_a_plan_survives_being_written_and_read(plan):
    back = plan_from_json(json.loads(json.dumps(plan_json(plan))))
    assert back == plan
    assert back.hash == plan.hash


@given(plans(), st.data())
def test_any_other_content_has_another_hash(plan, data):
    row = plan.looks[0].rows[0]
    other = data.draw(
        st.sampled_from([
            replace(plan, question=replace(plan.question, line=plan.question.line + 1)),
            replace(plan, question=Question(plan.question.line, SquareBar(Fraction(1, 3)))),
            replace(plan, stopping=next(s for s in Stopping if s is not plan.stopping)),
            replace(plan, squares_on=next(s for s in SquaresOn if s is not plan.squares_on)),
            replace(plan, loops=(1, 4)),
            replace(plan, looks=(Look(40, (replace(row, squares=row.squares + 1),)),)),
            replace(plan, looks=(Look(40, (replace(row, insects_low=99),)),)),
            replace(plan, looks=(Look(40, (replace(row, lost_low=99),)),)),
            replace(plan, looks=(Look(40, (replace(row, sum_low=99),)),)),
            replace(plan, looks=(Look(40, (replace(row, insects_high=99),)),)),
            replace(plan, looks=(Look(40, (replace(row, lost_high=99),)),)),
            replace(plan, looks=(Look(41, plan.looks[0].rows),)),
        ])
    )  # fmt: skip
    assert other.hash != plan.hash


@given(plans(), st.integers(0, 64))
def test_eight_digits_or_more_name_a_plan(plan, digits):
    assert plan.named(plan.hash[:digits]) == (digits >= LEAST_DIGITS)
    assert plan.named(f" {plan.short.upper()} ")
    wrong = "0" if plan.hash[7] != "0" else "1"
    assert not plan.named(plan.hash[:7] + wrong)


# A walk small enough to be searched often.
SMALL = (1, 1)


@st.composite
def small_courses(draw):
    question = draw(questions)
    return walked(question, SMALL, SquaresOn.EVERY_PLANT, draw(st.integers(20, 50)))


@given(small_courses(), st.floats(0.2, 3.0), st.floats(1.0, 4.0), st.sampled_from(Stopping))
@settings(max_examples=15, deadline=None)
def test_a_looser_criterion_never_ends_fewer_walks(course, clear, times, stopping):
    aims = aims_for(course, (NOMINAL,), Criterion())
    ended = []
    for criterion in (
        Criterion(clear, 4.0 * clear),
        Criterion(times * clear, 4.0 * times * clear),
    ):
        row = best_row(course, stopping, worlds=(NOMINAL,), criterion=criterion)
        ended.append(float(follow(aims.fields, [row]).ends[0] @ aims.weight))
        worst_clear, worst_near = worst_errors(course, [row], NOMINAL)
        assert worst_clear <= criterion.clear + ROUNDING
        assert worst_near <= criterion.near + ROUNDING
    assert ended[0] <= ended[1] + ROUNDING


@given(small_courses())
@settings(max_examples=10, deadline=None)
def test_a_walk_that_may_only_hold_never_treats_early(course):
    row = best_row(course, Stopping.HOLD_ONLY, worlds=(NOMINAL,))
    assert row.insects_high is None
    assert row.lost_high is None
    aims = aims_for(course, (NOMINAL,), Criterion())
    assert not follow(aims.fields, [row]).treat[0].any()


@given(small_courses(), st.sampled_from(Stopping))
@settings(max_examples=15, deadline=None)
def test_what_a_search_finds_never_contradicts_the_rule(course, stopping):
    row = best_row(course, stopping, worlds=(NOMINAL,))
    plants, squares = course.plants[0], course.squares[0]
    for insects in range(course.cap_insects + 1):
        for lost in range(min(squares, course.cap_lost) + 1):
            over = says_treat(course.question, insects, plants, lost, squares)
            assert not (over and row.holds(insects, lost))
            assert over or not row.treats(insects, lost)
