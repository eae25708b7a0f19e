"""What must hold of every field, whatever its shape."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, note, settings
from hypothesis import strategies as st
from scipy.spatial.distance import cdist
from shapely import MultiPoint, Polygon, box
from shapely.affinity import rotate

from quarterwalk.field import Frame, acres_of, lay_out
from quarterwalk.field.emptiest import largest_empty_circles
from quarterwalk.field.ways import find_ways
from quarterwalk.walk import QUADRANTS
from tests.field.best_way import best_closed_way
from tests.field.shapes import field_of, pieces, sized

DAY = date(2026, 7, 1)

rooms = st.tuples(st.integers(0, 8), st.integers(0, 8), st.integers(1, 6), st.integers(1, 6)).map(
    lambda r: box(100 * r[0], 100 * r[1], 100 * (r[0] + r[2]), 100 * (r[1] + r[3]))
)


@st.composite
def stars(draw):
    """Shapes around a middle: round, spiky, lopsided."""
    count = draw(st.integers(3, 24))
    far = np.array(draw(st.lists(st.integers(60, 600), min_size=count, max_size=count)))
    turn = np.linspace(0, 2 * np.pi, count, endpoint=False)
    return Polygon(np.column_stack([far * np.cos(turn), far * np.sin(turn)]))


@st.composite
def houses(draw):
    """Shapes of rooms put together, and of rooms taken out: Ls, Cs, combs, holes, pieces."""
    built = shapely.union_all(draw(st.lists(rooms, min_size=1, max_size=5)))
    taken = shapely.union_all(draw(st.lists(rooms, max_size=3)))
    return shapely.difference(built, shapely.buffer(taken, -10))


@st.composite
def shapes(draw):
    shape = rotate(draw(stars() | houses()), draw(st.sampled_from([0, 0, 10, 45, 77])))
    whole = pieces(shape)
    # a field has some width everywhere; a needle of a metre is a drawing fault
    assume(not whole.is_empty and min(part.area for part in whole.geoms) > 4000)
    assume(not shapely.buffer(whole, -6).is_empty)
    return sized(shape, draw(st.sampled_from([3.0, 40.0, 120.0])))


@given(shapes())
@settings(max_examples=60, deadline=None)
def test_quadrants_part_the_field_equally(shape):
    layout = lay_out(field_of(shape), DAY)
    whole = layout.field.shape
    parts = list(layout.quadrants.values())
    assert shapely.union_all(parts).symmetric_difference(whole).area < 1e-5 * whole.area
    for part in parts:
        assert acres_of(part) == pytest.approx(layout.acres / 4, rel=1e-3)
        assert part.is_valid


@given(shapes())
@settings(max_examples=60, deadline=None)
def test_a_field_in_one_piece_without_holes_has_quadrants_in_one_piece(shape):
    field = field_of(shape)
    assume(len(field.shape.geoms) == 1 and not field.shape.geoms[0].interiors)
    layout = lay_out(field, DAY)
    assert [len(part.geoms) for part in layout.quadrants.values()] == [1, 1, 1, 1]


@given(shapes())
@settings(max_examples=60, deadline=None)
def test_stops_stand_inside_their_quadrant_25_plants_each(shape):
    layout = lay_out(field_of(shape), DAY)
    frame = Frame.around(layout.field.shape)
    edge = frame.to_ground(layout.field.shape).boundary
    for quadrant in QUADRANTS:
        here = [stop for stop in layout.stops if stop.quadrant is quadrant]
        assert sum(stop.plants for stop in here) == 25
        part = frame.to_ground(layout.quadrants[quadrant])
        circle = shapely.maximum_inscribed_circle(part, tolerance=0.01).length
        points = [frame.to_ground(shapely.Point(stop.place)) for stop in here]
        assert shapely.contains_properly(part, points).all()
        assert shapely.distance(edge, points).min() >= min(15.0, circle / 2) - 1e-3


@given(shapes(), st.none() | st.integers(0, 179))
@settings(max_examples=12, deadline=None)
def test_loops_are_at_most_15_percent_longer_than_the_best(shape, rows):
    layout = lay_out(field_of(shape, rows=rows), DAY)
    frame = Frame.around(layout.field.shape)
    ground = frame.to_ground(layout.field.shape)
    for loop in layout.loops:
        stops = [stop.place for stop in layout.stops if stop.loop == loop.number]
        places = shapely.get_coordinates(frame.to_ground(MultiPoint([layout.entry, *stops])))
        ways = find_ways(ground, places).lengths[:, : len(places)]
        assert loop.metres <= 1.15 * best_closed_way(ways)
        # inside the field no way is shorter than as the crow flies
        assert (ways >= cdist(places, places) - 1e-6).all()


@given(shapes())
@settings(max_examples=25, deadline=None)
def test_the_first_loop_by_itself_is_spread_evenly(shape):
    note(shape.wkt)
    layout = lay_out(field_of(shape), DAY)
    # two stops can't speak for scattered pieces, nor for arms hardly wider than the turnrows
    assume(layout.acres > 10 and all(len(q.geoms) == 1 for q in layout.quadrants.values()))
    frame = Frame.around(layout.field.shape)
    ground = frame.to_ground(layout.field.shape)
    rng = np.random.default_rng(1)
    for quadrant, radius in largest_empty_circles(layout, 1).items():
        part = frame.to_ground(layout.quadrants[quadrant])
        west, south, east, north = part.bounds
        drawn = rng.uniform([west, south], [east, north], (6000, 2))
        inside = drawn[shapely.contains_xy(part, *drawn.T)][:400]
        inside = np.vstack([inside, shapely.get_coordinates(part)[:400]])
        edge = shapely.distance(ground.boundary, shapely.points(inside))
        circle = shapely.maximum_inscribed_circle(part, tolerance=0.1).length
        allowed = inside[edge >= min(15.0, circle / 2)]
        ways = cdist(allowed, inside)
        pairs = rng.integers(len(allowed), size=(4000, 2))
        best = np.minimum(ways[pairs[:, 0]], ways[pairs[:, 1]]).max(axis=1).min()
        assert radius <= 3 * best
