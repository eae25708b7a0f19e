"""What must hold of every walk, whatever was found."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.call import Verdict
from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.reading import take_reading
from quarterwalk.walk import (
    QUADRANTS,
    InsectCount,
    Method,
    PlantCheck,
    SquareCount,
    Walk,
)
from tests.call.made import FIRST_SQUARE, call

counts = st.integers(0, 4)
squares = st.none() | st.builds(SquareCount, st.integers(0, 7), counts, counts, counts)
insects = st.none() | st.builds(InsectCount, st.sampled_from([0, 0, 0, 0, 1, 2, 5]), counts)


@st.composite
def walks(draw, *, method=Method.TERMINAL):
    """Walks of any size, with and without stops, squares and skipped plants."""
    with_stops = draw(st.booleans())
    checks = []
    for quadrant in QUADRANTS:
        for i in range(draw(st.integers(0, 30))):
            checks.append(
                PlantCheck(
                    quadrant,
                    i % 5 + 1 if with_stops else i + 1,
                    stop=i // 5 + 1 if with_stops else None,
                    insects=draw(insects),
                    squares=draw(squares),
                    sweeps=draw(st.integers(1, 50)) if method is Method.SWEEP else None,
                    skipped=draw(st.sampled_from([False] * 9 + [True])),
                )
            )
    if not checks:
        checks.append(PlantCheck(QUADRANTS[0], 1))
    return Walk("Home 40", FIRST_SQUARE, tuple(checks), method=method)


def method_of(name: str) -> Method:
    return load_guideline(name).method


@given(walks(), st.randoms(use_true_random=False))
@settings(max_examples=60, deadline=None)
def test_the_order_of_the_plants_never_changes_a_reading(walk, dice):
    checks = list(walk.checks)
    dice.shuffle(checks)
    assert take_reading(replace(walk, checks=tuple(checks))) == take_reading(walk)


@given(st.data(), st.sampled_from(guideline_names()), st.integers(0, 24), st.integers(0, 9))
@settings(max_examples=150, deadline=None)
def test_one_more_insect_never_turns_treat_into_anything_milder(data, name, day, latest):
    walk = data.draw(walks(method=method_of(name)))
    looked = [i for i, c in enumerate(walk.checks) if c.insects and not c.skipped]
    if not looked:
        return
    where = data.draw(st.sampled_from(looked))
    before, after = take_reading(walk), take_reading(with_insect(walk, where))
    rank = {Verdict.HOLD: 0, Verdict.LOOK_SOONER: 1, Verdict.TREAT: 2}
    calls = [call(read, name, day=day, latest=latest).verdict for read in (before, after)]
    if Verdict.NONE not in calls:
        assert rank[calls[0]] <= rank[calls[1]]


def with_insect(walk: Walk, where: int) -> Walk:
    check = walk.checks[where]
    more = replace(check, insects=InsectCount(check.insects.adults + 1, check.insects.nymphs))
    return replace(walk, checks=(*walk.checks[:where], more, *walk.checks[where + 1 :]))


@given(st.data(), st.sampled_from(guideline_names()), st.integers(0, 24), st.integers(0, 9))
@settings(max_examples=150, deadline=None)
def test_one_more_healthy_square_never_turns_hold_into_treat(data, name, day, latest):
    walk = data.draw(walks(method=method_of(name)))
    looked = [i for i, c in enumerate(walk.checks) if c.squares and not c.skipped]
    if not looked:
        return
    where = data.draw(st.sampled_from(looked))
    before, after = take_reading(walk), take_reading(with_square(walk, where))
    if before.set_readable is not after.set_readable:
        return
    first, second = (call(read, name, day=day, latest=latest).verdict for read in (before, after))
    assert not (first is Verdict.HOLD and second is Verdict.TREAT)
    assert not (first is not Verdict.TREAT and second is Verdict.TREAT)


def with_square(walk: Walk, where: int) -> Walk:
    check = walk.checks[where]
    more = replace(check, squares=replace(check.squares, healthy=check.squares.healthy + 1))
    return replace(walk, checks=(*walk.checks[:where], more, *walk.checks[where + 1 :]))


@given(walks(), st.sampled_from([0.5, 0.8, 0.9, 0.95]), st.floats(0.5, 60))
@settings(max_examples=100, deadline=None)
def test_range_and_chance_agree(walk, level, line):
    read = take_reading(walk)
    if read.density_odds is not None:
        low, high = read.per_100_interval(level)
        over = read.density_odds.at_least(line / 100)
        assert (low >= line) == (over >= (1 + level) / 2) or abs(low - line) < 1e-9 * line
        assert (high <= line) == (over <= (1 - level) / 2) or abs(high - line) < 1e-9 * line
        assert 0 <= low < high
    if read.set_odds is not None:
        low, high = read.set_interval(level)
        assert 0 <= low <= high <= 1
        floor = line / 60
        under = read.set_odds.below(floor)
        assert (high < floor) == (under > (1 + level) / 2) or abs(high - floor) < 1e-9


@given(walks(), st.sampled_from(guideline_names()), st.integers(-3, 50), st.integers(0, 20))
@settings(max_examples=150, deadline=None)
def test_a_call_holds_together(walk, name, day, latest):
    read = take_reading(walk)
    made = call(read, name, day=day, latest=latest, bloom=40)
    assert made.reasons
    assert all(r.text.endswith(".") and r.text[0].isupper() or r.text[0].isdigit() or
               r.text.startswith(name) for r in made.reasons)  # fmt: skip
    assert (made.sure is None) == (made.verdict is Verdict.NONE)
    for chance in (made.chances.over, made.chances.under, made.chances.treat):
        assert chance is None or 0 <= chance <= 1
    if made.next_look is not None:
        assert FIRST_SQUARE + timedelta(days=day) <= made.next_look.soonest <= made.next_look.latest
    if made.verdict is Verdict.TREAT:
        assert {"label", "bees", "drift", "re-entry"} <= {c.code for c in made.cautions}


@given(walks())
@settings(max_examples=60, deadline=None)
def test_equal_numbers_in_the_quarters_give_the_plain_mean(walk):
    read = take_reading(walk)
    numbers = {q.plants for q in read.quadrants}
    if len(numbers) == 1 and read.plants:
        assert read.per_100 == Fraction(100 * read.insects, read.plants)
