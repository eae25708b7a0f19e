"""Where the fields of the demo district lie: invented outlines on roads a mile apart."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from shapely import MultiPolygon, Point, Polygon, orient_polygons, union_all
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from quarterwalk.demo.district import load_district
from quarterwalk.field import Field, Frame

# A circle is drawn with so many corners to a quarter turn.
_CORNERS = 16


@cache
def demo_fields() -> tuple[Field, ...]:
    """Take the boundaries of the demo district from the package's own data.

    Returns
    -------
    tuple of Field
        In the order of `load_district`, with its names and growers; the same every time.
    """
    content = _content()
    outlines = {outline["name"]: outline for outline in content["fields"]}
    grid = content["grid"]
    return tuple(_field(outlines[each.name], each.grower, grid) for each in load_district().fields)


def demo_middle() -> tuple[float, float]:
    """Give the middle of the demo district.

    Returns
    -------
    (float, float)
        Longitude and latitude. [degrees]
    """
    east, north = _content()["grid"]["middle"]
    return float(east), float(north)


@cache
def _content() -> Mapping[str, Any]:
    text = (files("quarterwalk.demo") / "boundaries.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _field(outline: Mapping[str, Any], grower: str, grid: Mapping[str, Any]) -> Field:
    frame = Frame(*grid["middle"])
    land = _union(outline["land"])
    planted = land.difference(_union(outline.get("without", ())))

    def placed(what: BaseGeometry) -> BaseGeometry:
        turned = rotate(what, -outline.get("turned", 0), origin=land.centroid)
        return frame.to_globe(translate(turned, *_corner(outline["section"], grid)))

    east, north = placed(Point(outline["gate"])).coords[0]
    return Field(
        name=outline["name"],
        shape=_boundary(placed(planted)),
        gate=(east, north),
        rows=outline.get("rows"),
        grower=grower,
        farm=outline["farm"],
    )


def _union(shapes: Iterable[Mapping[str, Any]]) -> BaseGeometry:
    return union_all([_shape(shape) for shape in shapes])


def _shape(told: Mapping[str, Any]) -> Polygon:
    if "circle" in told:
        east, north, radius = told["circle"]
        return Point(east, north).buffer(radius, quad_segs=_CORNERS)
    return Polygon(told["ring"])


def _corner(section: Iterable[int], grid: Mapping[str, Any]) -> list[float]:
    """Give a section's south-western corner, from the middle of the district. [m]"""
    counts = zip(section, grid["sections"], strict=True)
    return [(place - of / 2) * grid["mile"] for place, of in counts]


def _boundary(shape: BaseGeometry) -> MultiPolygon:
    parts = [part for part in getattr(shape, "geoms", [shape]) if isinstance(part, Polygon)]
    return orient_polygons(MultiPolygon(parts))
