"""A field laid out for a walk: numbers, places, loops and minutes."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

import numpy as np
import pytest
import shapely
from scipy.spatial.distance import cdist
from shapely import MultiPoint, Point, box

from quarterwalk.errors import UsageError
from quarterwalk.field import Field, Frame, Plan, acres_of, lay_out, metres_along
from quarterwalk.field.emptiest import largest_empty_circles
from quarterwalk.field.parts import parts_of
from quarterwalk.walk import QUADRANTS
from tests.field.shapes import PIECES, SHAPES, SOMEWHERE, field_of, pieces, sized

DAY = date(2026, 7, 1)
ALL = SHAPES | PIECES


@pytest.mark.parametrize("name", ALL)
def test_each_quadrant_has_two_stops_then_three_of_five_plants(name):
    layout = lay_out(field_of(ALL[name]), DAY)
    assert [stop.number for stop in layout.stops] == list(range(1, 21))
    there = Counter((stop.quadrant, stop.loop) for stop in layout.stops)
    assert there == {(q, loop): loop + 1 for q in QUADRANTS for loop in (1, 2)}
    assert {stop.plants for stop in layout.stops} == {5}


@pytest.mark.parametrize("name", ALL)
def test_loops_are_closed_and_pass_their_stops_in_order(name):
    layout = lay_out(field_of(ALL[name]), DAY)
    for loop in layout.loops:
        assert loop.line[0] == loop.line[-1] == layout.entry
        places = [stop.place for stop in layout.stops if stop.loop == loop.number]
        where = [loop.line.index(place) for place in places]
        assert where == sorted(where)
        assert loop.metres == pytest.approx(metres_along(loop.line))
        assert loop.minutes == pytest.approx(loop.metres / 75)


def test_the_same_field_and_day_give_the_same_layout():
    field = field_of(SHAPES["C"])
    assert lay_out(field, DAY).stops == lay_out(field, DAY).stops
    assert lay_out(field, DAY).stops != lay_out(field, DAY + timedelta(days=1)).stops


def test_the_quadrants_are_the_same_every_day():
    field = field_of(SHAPES["comb"])
    one, other = lay_out(field, DAY), lay_out(field, DAY + timedelta(days=7))
    assert one.quadrants == other.quadrants


def test_loops_begin_at_the_gate():
    gate = SOMEWHERE.to_globe(Point(-20, 30))
    layout = lay_out(field_of(SHAPES["square"], gate=(gate.x, gate.y)), DAY)
    assert layout.entry == pytest.approx((gate.x, gate.y))
    assert all(loop.line[0] == loop.line[-1] == layout.entry for loop in layout.loops)


def test_without_a_gate_the_entry_is_the_edge_nearest_to_the_first_stop():
    layout = lay_out(field_of(SHAPES["square"]), DAY)
    frame = Frame.around(layout.field.shape)
    edge = frame.to_ground(layout.field.shape).boundary
    entry, first = (frame.to_ground(Point(at)) for at in (layout.entry, layout.stops[0].place))
    assert edge.distance(entry) < 0.01
    assert first.distance(entry) == pytest.approx(edge.distance(first), abs=0.01)


def test_rows_draw_the_loops_along_them_and_cost_a_tenth_at_most():
    def across(layout):
        frame = Frame.around(layout.field.shape)
        lines = [np.asarray(frame.to_ground(MultiPoint(loop.line)).geoms) for loop in layout.loops]
        return sum(abs(np.diff([p.x for p in line])).sum() for line in lines)

    saved = 0.0
    for day in range(8):
        on = DAY + timedelta(days=day)
        plain = lay_out(field_of(SHAPES["square"], gate=(-101.9, 33.45)), on)
        rows = lay_out(field_of(SHAPES["square"], gate=(-101.9, 33.45), rows=0.0), on)
        assert {s.place for s in rows.stops} == {s.place for s in plain.stops}
        for one, other in zip(rows.loops, plain.loops, strict=True):
            assert one.metres <= 1.1001 * other.metres
        saved += across(plain) - across(rows)
    assert saved > 0


def test_a_line_walked_in_the_open_does_not_cross_itself():
    for day in range(5):
        layout = lay_out(field_of(SHAPES["square"]), DAY + timedelta(days=day))
        for loop in layout.loops:
            assert shapely.LineString(loop.line).is_simple


@pytest.mark.parametrize("split", [(5,), (1, 2, 2), (2, 3)])
def test_other_splits_make_100_plants_too(split):
    layout = lay_out(field_of(SHAPES["L"]), DAY, plan=Plan(split))
    assert sum(stop.plants for stop in layout.stops) == 100
    assert [loop.number for loop in layout.loops] == list(range(1, len(split) + 1))


@pytest.mark.parametrize("split", [(), (0, 5), (2, -1), (6, 6)])
def test_a_split_that_cannot_be_walked_is_refused(split):
    with pytest.raises(UsageError, match="must have 1 stop a quadrant or more"):
        Plan(split)


@pytest.mark.parametrize("name", ALL)
def test_the_largest_empty_circle_is_what_a_fine_net_finds(name):
    layout = lay_out(field_of(ALL[name]), DAY)
    frame = Frame.around(layout.field.shape)
    for quadrant, radius in largest_empty_circles(layout, 1).items():
        shape = frame.to_ground(layout.quadrants[quadrant])
        west, south, east, north = shape.bounds
        net = np.stack(np.meshgrid(np.linspace(west, east, 80), np.linspace(south, north, 80)), -1)
        net = net.reshape(-1, 2)
        net = net[shapely.contains_xy(shape, *net.T)]
        net = np.vstack([net, shapely.get_coordinates(shape)])
        stops = [s.place for s in layout.stops if s.loop == 1 and s.quadrant is quadrant]
        places = shapely.get_coordinates(frame.to_ground(MultiPoint(stops)))
        found = cdist(net, places).min(axis=1).max()
        step = np.hypot(east - west, north - south) / 79
        assert found - 1e-6 <= radius <= found + 2 * step


def test_a_large_field_is_shared_out_into_parts_of_125_acres_at_most():
    field = field_of(sized(SHAPES["C"], 400), "Home 400")
    parts = parts_of(field)
    assert [part.name for part in parts] == [f"Home 400 part {n}" for n in (1, 2, 3, 4)]
    assert [acres_of(part.shape) for part in parts] == pytest.approx([100] * 4, rel=1e-3)
    whole = shapely.union_all([part.shape for part in parts])
    assert whole.symmetric_difference(field.shape).area < 1e-4 * field.shape.area
    assert all(len(part.shape.geoms) == 1 for part in parts)


def test_a_field_of_160_acres_is_walked_whole():
    field = field_of(sized(SHAPES["square"], 159.9))
    assert parts_of(field) == (field,)
    assert len(parts_of(field_of(sized(SHAPES["square"], 160.5)))) == 2


@pytest.mark.parametrize("place", [(179.9, -16.5), (18.0, 69.5), (-58.4, -34.6), (0.0, 0.0)])
def test_fields_are_laid_out_alike_all_over_the_world(place):
    shape = Frame(*place).to_globe(pieces(SHAPES["L"]))
    layout = lay_out(Field("Depot", shape), DAY)
    areas = [acres_of(part) for part in layout.quadrants.values()]
    assert areas == pytest.approx([layout.acres / 4] * 4, rel=1e-4)


@pytest.mark.parametrize(("length", "width", "lat"), [(2400, 30, 45), (4800, 100, 52)])
def test_a_long_strip_is_quartered_equally_on_a_map_of_degrees_too(length, width, lat):
    frame = Frame(12.0, lat)
    layout = lay_out(Field("Old Airstrip", frame.to_globe(pieces(box(0, 0, length, width)))), DAY)
    for part in layout.quadrants.values():
        assert part.area == pytest.approx(layout.field.shape.area / 4, rel=1e-4)
        assert acres_of(part) == pytest.approx(layout.acres / 4, rel=1e-4)
