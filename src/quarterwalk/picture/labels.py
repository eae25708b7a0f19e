"""Where words may stand on a sketch: in their quarter, clear of stops and ways."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Point
from shapely.geometry.base import BaseGeometry

from quarterwalk.picture.ground import Box

FloatArray = NDArray[np.float64]

_STEP = 6.0  # from one place that is tried to the next [px]
_MOST_TRIED = 30  # places tried across, and down [count]
_MARGIN = 4.0  # from words to the edge of their quarter [px]
_CLEAR = 5.0  # from words beside an area to its edge [px]
_NEAR = 9.0  # from words beside a mark to its middle [px]

# What is weighed when a place is chosen, each in pixels of distance: a mark under the
# words, a pixel of a way under them, words beside a quarter that is not theirs.
_MARK, _WAY, _WRONG = 1000.0, 3.0, 500.0


@dataclass(frozen=True, slots=True)
class Taken:
    """What lies on the sketch already.

    Parameters
    ----------
    marks : geometry
        Stops, and words placed before. [px]
    ways : geometry
        Loops. [px]
    """

    marks: BaseGeometry
    ways: BaseGeometry

    def with_box(self, box: Box) -> Taken:
        """Add words that have found their place."""
        area = shapely.box(box.left, box.top, box.right, box.bottom)
        return Taken(shapely.union(self.marks, area), self.ways)

    def harm(self, boxes: NDArray[np.object_]) -> FloatArray:
        """Weigh what boxes would cover. [px]"""
        shapely.prepare(self.marks)
        crossed = shapely.length(shapely.intersection(boxes, self.ways))
        weighed: FloatArray = _MARK * shapely.intersects(boxes, self.marks) + _WAY * crossed
        return weighed


def inside(
    shape: BaseGeometry, heart: Point, size: tuple[float, float], taken: Taken
) -> Box | None:
    """Find the best place for words wholly inside an area.

    Parameters
    ----------
    shape : geometry
        The area. [px]
    heart : Point
        Where they would stand best. [px]
    size : (float, float)
        Width and height of the words. [px]
    taken : Taken
        What lies there already.

    Returns
    -------
    Box or None
        None where they would run over an edge or cover a mark.
    """
    tried = np.vstack([_places(shape.bounds, size), _around(heart, size)])
    shapely.prepare(shape)
    grown = shapely.box(*(tried + np.array([-1, -1, 1, 1]) * _MARGIN).T)
    tried = tried[shapely.contains(shape, grown)]
    if not len(tried):
        return None
    harm = taken.harm(_areas(tried)) + _away(tried, heart)
    best = int(np.argmin(harm))
    return Box(*map(float, tried[best])) if harm[best] < _MARK else None


def outside(
    shape: BaseGeometry, others: BaseGeometry, size: tuple[float, float], taken: Taken, canvas: Box
) -> Box:
    """Find the best place for words that do not fit into their area: close beside it.

    Parameters
    ----------
    shape : geometry
        The area. [px]
    others : geometry
        The rest of the field; words nearer to it would seem to belong there. [px]
    size : (float, float)
        Width and height of the words. [px]
    taken : Taken
        What lies there already.
    canvas : Box
        Where they must lie. [px]

    Returns
    -------
    Box
    """
    left, top, right, bottom = shape.bounds
    wide, tall = size
    wide, tall = wide + _CLEAR, tall + _CLEAR
    reach = (left - wide, top - tall, right + wide, bottom + tall)
    tried = _in_canvas(_places(reach, size), canvas)
    boxes = _areas(tried)
    clear = _areas(tried + np.array([-1, -1, 1, 1]) * _CLEAR)
    own, other = shapely.distance(boxes, shape), shapely.distance(boxes, others)
    covered = shapely.area(shapely.intersection(clear, shapely.union(shape, others)))
    harm = (
        taken.harm(boxes)
        + covered
        + _WRONG * (other <= own)
        + 3 * own
        + 0.5 * _away(tried, shape.centroid)
    )
    return Box(*map(float, tried[int(np.argmin(harm))]))


def beside(spot: Point, size: tuple[float, float], taken: Taken, canvas: Box) -> tuple[Box, float]:
    """Find the place for words beside a mark.

    Parameters
    ----------
    spot : Point
        The mark. [px]
    size : (float, float)
        Width and height of the words. [px]
    taken : Taken
        What they should not cover.
    canvas : Box
        Where they must lie. [px]

    Returns
    -------
    (Box, float)
        The place, and the harm it does, in pixels of distance.
    """
    wide, tall = size
    reach = (spot.x - wide - 20, spot.y - 3 * tall, spot.x + wide + 20, spot.y + 3 * tall)
    tried = _in_canvas(_places(reach, size), canvas)
    boxes = _areas(tried)
    harm = taken.harm(boxes) + np.abs(shapely.distance(boxes, spot) - _NEAR)
    best = int(np.argmin(harm))
    return Box(*map(float, tried[best])), float(harm[best])


def heart_of(shape: BaseGeometry) -> Point:
    """Give the place in an area where words stand best.

    Parameters
    ----------
    shape : geometry
        The area. [px]

    Returns
    -------
    Point
        The middle of its largest part, or where that lies near an edge, the place that
        is deepest inside.
    """
    parts = shapely.get_parts(shape)
    largest = parts[int(np.argmax(shapely.area(parts)))]
    deepest = shapely.maximum_inscribed_circle(largest, tolerance=1.0)
    middle: Point = largest.centroid
    depth = middle.distance(largest.boundary) if largest.contains(middle) else 0.0
    return middle if depth > deepest.length / 2 else Point(deepest.coords[0])


def _away(tried: FloatArray, wanted: Point) -> FloatArray:
    x, y = (tried[:, 0] + tried[:, 2]) / 2, (tried[:, 1] + tried[:, 3]) / 2
    return np.hypot(x - wanted.x, y - wanted.y)


def _in_canvas(tried: FloatArray, canvas: Box) -> FloatArray:
    """Keep the boxes that lie on the paper; all of them where none does."""
    fits = (tried[:, 0] >= canvas.left) & (tried[:, 2] <= canvas.right)
    fits &= (tried[:, 1] >= canvas.top) & (tried[:, 3] <= canvas.bottom)
    return tried[fits] if fits.any() else tried


def _places(bounds: tuple[float, float, float, float], size: tuple[float, float]) -> FloatArray:
    """Give boxes of one size whose middles stand on a grid over some bounds."""
    left, top, right, bottom = bounds
    across = np.linspace(left, right, _many(right - left))
    down = np.linspace(top, bottom, _many(bottom - top))
    x, y = (each.ravel() for each in np.meshgrid(across, down))
    return _boxes(x, y, size)


def _around(heart: Point, size: tuple[float, float]) -> FloatArray:
    return _boxes(np.array([heart.x]), np.array([heart.y]), size)


def _boxes(x: FloatArray, y: FloatArray, size: tuple[float, float]) -> FloatArray:
    half = size[0] / 2, size[1] / 2
    return np.column_stack([x - half[0], y - half[1], x + half[0], y + half[1]])


def _areas(tried: FloatArray) -> NDArray[np.object_]:
    return np.asarray(shapely.box(*tried.T), dtype=np.object_)


def _many(length: float) -> int:
    return int(min(max(length / _STEP, 2), _MOST_TRIED)) + 1
