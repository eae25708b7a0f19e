"""Numbers stand where they belong, and scales are marked with round numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.picture.scale import Scale, round_below


@pytest.mark.parametrize(
    ("most", "nice"), [(730, 500), (500, 500), (499.9, 200), (1, 1), (0.3, 0.2), (99, 50), (19, 10)]
)
def test_a_scale_bar_is_as_long_as_the_next_round_number_allows(most: float, nice: float) -> None:
    assert round_below(most) == pytest.approx(nice)


@given(st.floats(1e-3, 1e6))
def test_a_scale_bar_takes_at_least_two_fifths_of_its_room(most: float) -> None:
    nice = round_below(most)
    assert 0.4 * most * (1 - 1e-9) <= nice <= most * (1 + 1e-9)
    digit = nice / 10 ** math.floor(math.log10(nice) + 1e-9)
    assert min(abs(digit - round_digit) for round_digit in (1, 2, 5)) < 1e-6


@pytest.mark.parametrize("most", [0.0, -1.0, math.inf])
def test_no_round_number_lies_below_nothing(most: float) -> None:
    with pytest.raises(ValueError, match="above 0"):
        round_below(most)


def test_square_set_runs_from_the_right_and_is_held_at_the_ends() -> None:
    squares = Scale(100, 70, 800, 400)
    assert squares(100) == 800
    assert squares(85) == 600
    assert squares(20) == 400
    assert squares.on(55) == 200


def test_a_scale_of_one_number_is_refused() -> None:
    with pytest.raises(ValueError, match="got 3 only"):
        Scale(3, 3, 0, 10)
