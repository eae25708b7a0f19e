"""Fields of many shapes, in metres, and the same on the globe."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import MultiPolygon, Point, Polygon, box
from shapely.affinity import rotate, scale
from shapely.geometry.base import BaseGeometry

from quarterwalk.field import Field, Frame

SOMEWHERE = Frame(-101.9, 33.45)
"""Where the invented fields lie."""


def _comb() -> BaseGeometry:
    teeth = [box(220 * n, 0, 220 * n + 120, 800) for n in range(5)]
    return shapely.union_all([box(0, 0, 1000, 150), *teeth])


def _spiral() -> BaseGeometry:
    turn = np.linspace(0, 5 * np.pi, 200)
    far = 80 + 25 * turn
    return shapely.LineString(np.column_stack([far * np.cos(turn), far * np.sin(turn)])).buffer(40)


def _arms() -> BaseGeometry:
    arm = box(-60, 0, 60, 500)
    return shapely.union_all([rotate(arm, angle, origin=(0, 0)) for angle in (0, 120, 240)])


SHAPES: dict[str, BaseGeometry] = {
    "square": box(0, 0, 800, 800),
    "L": box(0, 0, 800, 800).difference(box(300, 300, 900, 900)),
    "circle with a corner cut": Point(400, 400).buffer(400).difference(box(500, 500, 900, 900)),
    "C": box(0, 0, 800, 800).difference(box(250, 250, 900, 550)),
    "U": box(0, 0, 800, 800).difference(box(250, 250, 550, 900)),
    "comb": _comb(),
    "comb on its side": rotate(_comb(), 90),
    "strip": box(0, 0, 1600, 50),
    "slanting strip": rotate(box(0, 0, 1500, 60), 45),
    "hole": box(0, 0, 800, 800).difference(Point(300, 500).buffer(150)),
    "ring": Point(0, 0).buffer(500).difference(Point(60, 30).buffer(350)),
    "turned": rotate(box(0, 0, 800, 500), 20),
    "spiral": _spiral(),
    "arms": _arms(),
    "T": shapely.union_all([box(0, 600, 900, 800), box(350, 0, 550, 800)]),
    "garden": box(0, 0, 40, 30),
}
"""Shapes in one piece. [m]"""

PIECES: dict[str, BaseGeometry] = {
    "two": shapely.union_all([box(0, 0, 400, 800), box(420, 0, 800, 500)]),
    "three": shapely.union_all(
        [box(0, 0, 400, 800), box(420, 0, 800, 500), box(0, 830, 300, 1000)]
    ),
    "islands": shapely.union_all([Point(500 * n, 300 * (n % 2)).buffer(120) for n in range(5)]),
}
"""Shapes in several pieces. [m]"""


def pieces(shape: BaseGeometry) -> MultiPolygon:
    """Make one kind of shape of polygons and multipolygons."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, Polygon)]
    return shapely.orient_polygons(MultiPolygon(parts))


def field_of(shape: BaseGeometry, name: str = "Windmill 80", **facts: object) -> Field:
    """Put a shape on the globe."""
    return Field(name, SOMEWHERE.to_globe(pieces(shape)), **facts)  # type: ignore[arg-type]


def sized(shape: BaseGeometry, acres: float) -> BaseGeometry:
    """Scale a shape to an area."""
    times = np.sqrt(acres * 4046.8564224 / shape.area)
    return scale(shape, times, times)
