"""Fields that lie on one another are found, and by how much."""

from __future__ import annotations

import numpy as np
import pytest
from shapely import MultiPolygon, Polygon

from quarterwalk.field import Field
from quarterwalk.field.area import acres_of
from quarterwalk.field.overlap import Overlap, overlaps

LON, LAT = -101.9, 33.4


def square(name: str, east: float, size: float = 0.01) -> Field:
    return Field(name, MultiPolygon([_box(LON + east, size)]))


def _box(west: float, size: float) -> Polygon:
    return Polygon([(west, LAT), (west + size, LAT), (west + size, LAT + size), (west, LAT + size)])


def circle(name: str, east: float, points: int) -> Field:
    turn = np.linspace(0, 2 * np.pi, points, endpoint=False)
    ring = np.column_stack([np.cos(turn), np.sin(turn)]) * 0.004 + [LON + east, LAT]
    return Field(name, MultiPolygon([Polygon(ring)]))


def pairs(*fields: Field) -> list[tuple[str, str, bool]]:
    return [(o.first.name, o.second.name, o.same) for o in overlaps(fields)]


def test_each_pair_is_told_once_in_the_order_of_the_fields() -> None:
    fields = square("A", 0), square("B", 0.005), square("C", 0.012), square("D", 0.5)
    assert pairs(*fields) == [("A", "B", False), ("B", "C", False)]


def test_the_acres_are_those_of_what_they_share() -> None:
    (found,) = overlaps([square("A", 0), square("B", 0.005)])
    strip = Polygon([(LON + x, LAT + y) for x, y in ((0.005, 0), (0.01, 0), (0.01, 0.01),
                                                     (0.005, 0.01))])  # fmt: skip
    assert isinstance(found, Overlap)
    assert found.acres == pytest.approx(acres_of(strip), rel=1e-6)


@pytest.mark.parametrize(("east", "told"), [(0.00985, True), (0.00995, False), (0.01, False)])
def test_a_strip_of_under_a_hundredth_is_not_told(east: float, told: bool) -> None:
    assert bool(pairs(square("A", 0), square("B", east))) is told


def test_a_small_field_inside_a_large_one_is_told() -> None:
    assert pairs(square("A", 0), square("B", 0.002, 0.0005)) == [("A", "B", False)]


def test_one_boundary_driven_twice_is_the_same() -> None:
    assert pairs(circle("A", 0, 900), circle("B", 0.00001, 700)) == [("A", "B", True)]


def test_finely_drawn_fields_are_compared_too() -> None:
    (found,) = overlaps([circle("A", 0, 3000), circle("B", 0.004, 3000)])
    # two circles whose middles are a radius apart share 2π/3 − √3/2 of the radius squared
    share = (2 * np.pi / 3 - np.sqrt(3) / 2) / np.pi
    assert found.acres == pytest.approx(share * acres_of(found.first.shape), rel=1e-4)
    assert not found.same
