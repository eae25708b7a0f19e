"""Acres are those of the ground, not of a map."""

from __future__ import annotations

import math

import pytest
from shapely import MultiPolygon, Polygon

from quarterwalk.field.area import acres_of, hectares_of, metres_from

# Closed form of the area of the WGS 84 ellipsoid, with a = 6378137 m and f = 1/298.257223563.
WHOLE_EARTH_M2 = 510_065_621_724_088
OCTANT = Polygon([(0, 0), (90, 0), (0, 90)])


def degree_of_latitude(lat: float) -> float:
    """Give the length of a degree along the meridian, by the formula of its curve. [m]"""
    squared = (2 - 1 / 298.257223563) / 298.257223563
    bend = 6_378_137 * (1 - squared) / (1 - squared * math.sin(math.radians(lat)) ** 2) ** 1.5
    return bend * math.pi / 180


def test_an_eighth_of_the_earth_is_an_eighth_of_its_area() -> None:
    assert hectares_of(OCTANT) == pytest.approx(WHOLE_EARTH_M2 / 8 / 10_000, rel=1e-9)


def test_an_acre_is_4046_86_square_metres() -> None:
    assert acres_of(OCTANT) * 4046.8564224 == pytest.approx(WHOLE_EARTH_M2 / 8, rel=1e-9)


def test_a_hole_is_taken_off_whichever_way_its_ring_runs() -> None:
    outer = [(0, 0), (0.01, 0), (0.01, 0.01), (0, 0.01)]
    hole = [(0.002, 0.002), (0.004, 0.002), (0.004, 0.004), (0.002, 0.004)]
    without = hectares_of(Polygon(outer)) - hectares_of(Polygon(hole))
    for rings in ((outer, hole), (outer, hole[::-1]), (outer[::-1], hole)):
        assert hectares_of(Polygon(rings[0], [rings[1]])) == pytest.approx(without, rel=1e-9)


def test_parts_add_up() -> None:
    parts = [Polygon([(x, 0), (x + 0.01, 0), (x, 0.01)]) for x in (0, 1)]
    assert hectares_of(MultiPolygon(parts)) == pytest.approx(2 * hectares_of(parts[0]), rel=1e-9)


def test_a_place_north_of_a_field_is_as_far_as_the_meridian_is_long() -> None:
    field = Polygon([(-101.9, 33.39), (-101.89, 33.39), (-101.89, 33.4), (-101.9, 33.4)])
    expected = degree_of_latitude(33.41) * 0.02
    assert metres_from(field, (-101.895, 33.42)) == pytest.approx(expected, rel=1e-5)


def test_a_place_inside_is_no_way_off() -> None:
    assert metres_from(OCTANT, (20, 20)) < 1e-6
