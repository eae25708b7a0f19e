"""A leaf is one estimate: its tips the range, parted exactly at the line."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from shapely import Polygon

from quarterwalk.picture.leaf import Leaf
from tests.picture.drawn import spread

FloatArray = NDArray[np.float64]


def rim_points(path: str) -> FloatArray:
    """Walk a path of M, C, L and Z by the polynomial of each curve."""
    points: list[FloatArray] = []
    t = np.linspace(0, 1, 400)[:, None]
    for command, rest in re.findall(r"([MCL])([^MCLZ]*)", path):
        given_at = np.array([float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", rest)]).reshape(-1, 2)
        if command == "C":
            a, (b, c, d) = points[-1][-1], given_at
            curve = a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t**2 * (1 - t) + d * t**3
            points.append(curve)
        else:
            points.append(given_at)
    return np.vstack(points)


def area(path: str) -> float:
    return float(Polygon(rim_points(path)).area) if path else 0.0


@given(
    low=st.floats(0, 300),
    left=st.floats(1, 300),
    right=st.floats(1, 300),
    part=st.floats(0.01, 0.99),
)
def test_the_two_parts_meet_at_the_line_and_make_the_whole(
    low: float, left: float, right: float, part: float
) -> None:
    leaf = Leaf(low, low + left, low + left + right, 50, 27)
    line = low + part * (left + right)
    clear, past = leaf.split(line)
    assert spread(clear)[1] == pytest.approx(line, abs=0.006)
    assert spread(past)[0] == pytest.approx(line, abs=0.006)
    whole = area(leaf.path)
    assert area(clear) + area(past) == pytest.approx(whole, rel=0.01, abs=1)


def test_the_tips_are_the_range_and_it_is_widest_at_the_reading() -> None:
    points = rim_points(Leaf(100, 130, 200, 50, 27).path)
    assert points[:, 0].min() == 100
    assert points[:, 0].max() == 200
    assert points[:, 1].min() == pytest.approx(23)
    assert points[np.argmin(points[:, 1]), 0] == pytest.approx(130, abs=0.5)


def test_a_leaf_clear_of_the_line_has_no_part_past_it() -> None:
    leaf = Leaf(100, 130, 200, 50, 27)
    assert leaf.split(200) == (leaf.path, "")
    assert leaf.split(250) == (leaf.path, "")
    assert leaf.split(100) == ("", leaf.path)


def test_a_leaf_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(ValueError, match="low by its reading to high"):
        Leaf(10, 9, 20, 0, 5)
