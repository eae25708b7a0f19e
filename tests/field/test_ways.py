"""Ways stay inside the field, and no way inside is shorter."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely import box

from quarterwalk.field.ways import find_ways
from tests.field.shapes import PIECES, SHAPES, pieces

SQUARE = pieces(SHAPES["square"])


def test_in_a_square_the_way_is_straight():
    ways = find_ways(SQUARE, np.array([[100.0, 100.0], [400.0, 500.0]]))
    assert ways.lengths[0, 1] == pytest.approx(500)
    assert len(ways.between(0, 1)) == 2


def test_the_way_bends_around_the_inner_corner_of_an_l():
    ways = find_ways(pieces(SHAPES["L"]), np.array([[100.0, 700.0], [700.0, 100.0]]))
    by_hand = np.hypot(200, 400) + np.hypot(400, 200)
    assert ways.lengths[0, 1] == pytest.approx(by_hand, abs=3)
    assert ways.between(0, 1)[1] == pytest.approx([300, 300])


def test_the_way_goes_around_a_hole():
    holed = pieces(box(0, 0, 800, 800).difference(box(300, 300, 500, 500)))
    ways = find_ways(holed, np.array([[200.0, 400.0], [600.0, 400.0]]))
    by_hand = 2 * np.hypot(100, 100) + 200
    assert ways.lengths[0, 1] == pytest.approx(by_hand, abs=3)


def test_from_one_piece_to_the_next_the_way_is_straight_and_shortest():
    ways = find_ways(pieces(PIECES["two"]), np.array([[200.0, 250.0], [600.0, 250.0]]))
    assert ways.lengths[0, 1] == pytest.approx(400, abs=40)


def test_a_gate_outside_is_joined_to_the_nearest_edge():
    ways = find_ways(SQUARE, np.array([[-50.0, 400.0], [100.0, 400.0]]))
    assert ways.lengths[0, 1] == pytest.approx(150)


@pytest.mark.parametrize("name", ["L", "C", "comb", "ring", "spiral", "arms", "hole"])
def test_no_way_leaves_the_field(name):
    field = pieces(SHAPES[name])
    rng = np.random.default_rng(1)
    west, south, east, north = field.bounds
    drawn = rng.uniform([west, south], [east, north], (400, 2))
    inside = drawn[shapely.contains_xy(field.buffer(-5), *drawn.T)][:8]
    ways = find_ways(field, inside)
    for start in range(len(inside)):
        for end in range(start):
            line = shapely.LineString(ways.between(start, end))
            assert field.buffer(2.5).covers(line)
            assert line.length == pytest.approx(ways.lengths[start, end], abs=0.1)


def test_steps_across_the_rows_count_more():
    places = np.array([[100.0, 100.0], [100.0, 300.0], [300.0, 100.0]])
    ways = find_ways(SQUARE, places, rows=0.0, across=2.0)
    assert ways.lengths[0, 1] == pytest.approx(200)
    assert ways.lengths[0, 2] == pytest.approx(400)
    turned = find_ways(SQUARE, places, rows=90.0, across=2.0)
    assert turned.lengths[0, 1] == pytest.approx(400)
    assert turned.lengths[0, 2] == pytest.approx(200)
