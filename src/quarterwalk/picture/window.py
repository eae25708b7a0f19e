"""A laid-out field brought onto the paper: north up, one scale, in px."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, MultiPolygon, Point
from shapely.geometry.base import BaseGeometry

from quarterwalk.field import Frame, Layout, Stop
from quarterwalk.picture.drawing import figure
from quarterwalk.picture.ground import Box
from quarterwalk.walk import Quadrant

Shape = TypeVar("Shape", bound=BaseGeometry)

_FINE = 0.25
"""Bends smaller than this are not seen. [px]"""


@dataclass(frozen=True, slots=True)
class Window:
    """A field on the paper. [px, y downwards]

    Parameters
    ----------
    field : MultiPolygon
        Its outline.
    quarters : mapping of Quadrant to MultiPolygon
        Its four parts.
    stops : tuple of (Stop, Point)
        In the order of walking.
    loops : tuple of LineString
        In the order of walking.
    entry : Point
        Where the loops begin and end.
    px_per_metre : float
        The scale. [px/m]
    """

    field: MultiPolygon
    quarters: Mapping[Quadrant, MultiPolygon]
    stops: tuple[tuple[Stop, Point], ...]
    loops: tuple[LineString, ...]
    entry: Point
    px_per_metre: float


def window_on(layout: Layout, box: Box, *, way: bool) -> Window:
    """Bring a field onto the paper as large as a box allows.

    Parameters
    ----------
    layout : Layout
        The field laid out for a walk.
    box : Box
        Where it may lie. [px]
    way : bool
        Whether its stops and loops must have room too.

    Returns
    -------
    Window
    """
    frame = Frame.around(layout.field.shape)
    ground = frame.to_ground(layout.field.shape)
    loops = tuple(frame.to_ground(LineString(loop.line)) for loop in layout.loops)
    shown: list[BaseGeometry] = [ground, *(loops if way else ())]
    west, south, east, north = shapely.union_all(
        [shapely.box(*each.bounds) for each in shown]
    ).bounds
    scale = min((box.right - box.left) / (east - west), (box.bottom - box.top) / (north - south))
    middle = (box.left + box.right) / 2, (box.top + box.bottom) / 2

    def onto(points: NDArray[np.float64]) -> NDArray[np.float64]:
        x = middle[0] + scale * (points[:, 0] - (west + east) / 2)
        y = middle[1] - scale * (points[:, 1] - (south + north) / 2)
        return np.column_stack([x, y])

    def brought(shape: Shape) -> Shape:
        moved: Shape = shapely.transform(frame.to_ground(shape), onto)
        return moved

    return Window(
        shapely.transform(ground, onto),
        {quadrant: brought(shape) for quadrant, shape in layout.quadrants.items()},
        tuple((stop, brought(Point(stop.place))) for stop in layout.stops),
        tuple(shapely.transform(loop, onto) for loop in loops),
        brought(Point(layout.entry)),
        scale,
    )


def outline(shape: BaseGeometry) -> str:
    """Write the rims of an area, its holes too, as the data of a path.

    Parameters
    ----------
    shape : geometry
        An area. [px]

    Returns
    -------
    str
    """
    data = []
    for part in shapely.get_parts(shapely.simplify(shape, _FINE)):
        if not isinstance(part, shapely.Polygon):
            continue
        for ring in (part.exterior, *part.interiors):
            data.append("M" + "L".join(_pairs(ring)[:-1]) + "Z")
    return "".join(data)


def track(line: LineString) -> str:
    """Write a way as the data of a path.

    Parameters
    ----------
    line : LineString
        [px]

    Returns
    -------
    str
    """
    return "M" + "L".join(_pairs(shapely.simplify(line, _FINE)))


def _pairs(line: BaseGeometry) -> list[str]:
    return [f"{figure(round(x, 1))},{figure(round(y, 1))}" for x, y in line.coords]
