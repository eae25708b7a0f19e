"""What must hold of the chances that stop plans are worked out from."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.plan import WORLDS, Lost, Question, Row, SquareBar, SquaresOn, World, walked
from quarterwalk.plan.columns import columns
from quarterwalk.plan.laws import insects_law, lost_law, transition
from quarterwalk.plan.outcome import follow

ROUNDING = 1e-9

worlds = st.sampled_from(WORLDS) | st.builds(
    World,
    st.just("any"),
    st.floats(0.2, 20.0) | st.floats(20.0, 1e12) | st.just(np.inf),
    st.just(0.0) | st.floats(0.001, 0.6),
    st.just(0.0) | st.floats(1e-7, 0.8),
)
densities = st.floats(0.0, 3.0)
shares = st.floats(0.0, 1.0)
caps = st.integers(1, 90)
low = st.integers(-1, 50)
high = st.none() | st.integers(0, 60)
rows = st.builds(Row, st.just(0), low, low, low, high, high)


@given(worlds, densities, st.integers(1, 20), caps)
@settings(max_examples=60, deadline=None)
def test_a_law_of_insects_sums_to_one(world, density, stops, cap):
    law = insects_law(world, density, stops, cap)
    assert law.shape == (cap + 1,)
    assert law.min() >= 0.0
    assert law.sum() == pytest.approx(1.0, abs=ROUNDING)


@given(worlds, shares, st.integers(1, 60), st.integers(0, 300), caps)
@settings(max_examples=60, deadline=None)
def test_a_law_of_lost_squares_sums_to_one(world, share, plants, squares, cap):
    law = lost_law(world, share, plants, squares, cap)
    assert law.shape == (cap + 1,)
    assert law.min() >= 0.0
    assert law.sum() == pytest.approx(1.0, abs=ROUNDING)


@given(worlds, densities, st.integers(1, 8), caps)
@settings(max_examples=40, deadline=None)
def test_transitions_sum_to_one_and_never_go_down(world, density, stops, cap):
    moves = transition(insects_law(world, density, stops, cap))
    assert moves.sum(axis=1) == pytest.approx(np.ones(cap + 1), abs=ROUNDING)
    assert not np.tril(moves, -1).any()
    assert moves[-1, -1] == 1.0


@given(worlds, densities, st.integers(1, 10), st.integers(1, 10), caps)
@settings(max_examples=40, deadline=None)
def test_stops_add_up(world, density, some, others, cap):
    whole = insects_law(world, density, some + others, cap)
    parts = np.convolve(
        insects_law(world, density, some, cap), insects_law(world, density, others, cap)
    )
    assert whole[:-1] == pytest.approx(parts[:cap], abs=1e-9)


@given(worlds, densities, st.integers(1, 12))
@settings(max_examples=40, deadline=None)
def test_the_mean_of_the_insects_is_the_density(world, density, stops):
    law = insects_law(world, min(density, 1.0), stops, 3000)
    assert np.arange(3001) @ law == pytest.approx(5 * stops * min(density, 1.0), rel=1e-6, abs=1e-9)


@given(shares, st.integers(1, 40), st.integers(1, 200), caps)
@settings(max_examples=40, deadline=None)
def test_squares_hardly_alike_are_as_squares_that_are_not_alike(share, plants, squares, cap):
    apart = lost_law(World("apart", 1.0), share, plants, squares, cap)
    hardly = lost_law(World("hardly", 1.0, rho=1e-7), share, plants, squares, cap)
    assert hardly == pytest.approx(apart, abs=2e-5)


@given(worlds, shares, st.integers(1, 30), st.integers(1, 150))
@settings(max_examples=40, deadline=None)
def test_the_mean_of_the_lost_squares_is_their_share(world, share, plants, squares):
    law = lost_law(world, share, plants, squares, squares)
    assert np.arange(squares + 1) @ law == pytest.approx(squares * share, rel=1e-7, abs=1e-7)


@st.composite
def courses(draw):
    bar = draw(
        st.none()
        | st.builds(SquareBar, st.fractions("1/20", "3/10", max_denominator=20), st.just(Lost.ANY))
    )
    question = Question(Fraction(draw(st.integers(5, 30))), bar)
    loops = draw(st.sampled_from([(2, 3), (1, 2, 2), (1, 1, 1, 2)]))
    squares_on = draw(st.sampled_from([SquaresOn.EVERY_PLANT, SquaresOn.FIRST_LOOP]))
    return walked(question, loops, squares_on, draw(st.integers(20, 140)))


@given(courses(), worlds, st.lists(st.tuples(densities, shares), min_size=1, max_size=4), st.data())
@settings(max_examples=40, deadline=None)
def test_every_walk_ends_somewhere(course, world, fields, data):
    limits = [data.draw(rows) for _ in course.stretches[1:]]
    density, share = (np.array(each) for each in zip(*fields, strict=True))
    ends = follow(columns(course, (world,), density, share), limits)
    assert ends.hold.min() >= -ROUNDING
    assert ends.treat.min() >= -ROUNDING
    assert ends.ends.sum(axis=0) == pytest.approx(np.ones(len(density)), abs=1e-9)
    assert ends.mean(ends.plants).max() <= course.plants[-1] + 1e-6
    assert ends.mean(ends.plants).min() >= course.plants[0] - 1e-6


@given(courses(), worlds, densities, shares)
@settings(max_examples=30, deadline=None)
def test_a_walk_that_never_ends_early_says_what_the_full_walk_says(course, world, density, share):
    fields = columns(course, (world,), np.array([density]), np.array([share]))
    never = follow(fields, [Row(0)] * (len(course.stretches) - 1))
    assert never.says_treat == pytest.approx(fields.full_walk(), abs=1e-9)
    assert never.ends[-1] == pytest.approx([1.0], abs=1e-9)
