"""Cuts a shape in two by a straight line, at the share of its area that is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.optimize import brentq
from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

FloatArray = NDArray[np.float64]

# A cut is placed to this share of the area, far inside the promised thousandth.
_CLOSE_ENOUGH = 1e-9
# What is smaller than this share of the whole is a crumb of rounding, not a piece.
CRUMB = 1e-7
FINEST = 1e-4
"""Corners of parts lie on a net so fine, so that no neck is thinner than its step. [m]"""

# Beyond the shape on every side. [m]
_BEYOND = 10.0


class Across(Enum):
    """Which way a straight cut parts a shape."""

    WEST_EAST = "west-east"
    """By a line from north to south: the first part is the western one."""

    NORTH_SOUTH = "north-south"
    """By a line from west to east: the first part is the northern one."""


@dataclass(frozen=True, slots=True)
class Halves:
    """The two parts of a cut shape: the western before the eastern, the northern before."""

    first: MultiPolygon
    second: MultiPolygon

    @property
    def pieces(self) -> int:
        """In how many pieces the two parts lie. [count]"""
        return len(self.first.geoms) + len(self.second.geoms)


def areas_of(shape: BaseGeometry, *, whole: float) -> MultiPolygon:
    """Keep what is an area, and no crumbs.

    Parameters
    ----------
    shape : geometry
        What a cut left, lines and points among it. [m]
    whole : float
        Area of what was cut. [m²]

    Returns
    -------
    MultiPolygon
        Its pieces. [m]
    """
    parts = shapely.get_parts(shape)
    kept = [part for part in parts if isinstance(part, Polygon) and part.area > CRUMB * whole]
    return MultiPolygon(kept)


def straight_cut(shape: MultiPolygon, across: Across, share: float = 0.5) -> Halves:
    """Cut a shape by a straight line.

    Parameters
    ----------
    shape : MultiPolygon
        In a flat frame. [m]
    across : Across
        Which way.
    share : float
        Area of the first part, of the whole. [fraction]

    Returns
    -------
    Halves
        The shares hold to one part in a million or better.
    """
    west, south, east, north = shape.bounds
    wanted = share * shape.area
    low, high = (west, east) if across is Across.WEST_EAST else (-north, -south)
    edges = _edges(shape, across)
    close = _CLOSE_ENOUGH * max(high - low, 1.0)
    at = brentq(lambda at: _area_before(edges, at) - wanted, low, high, xtol=close)
    side = shapely.box(*_first_side(shape, across, at))
    return Halves(
        areas_of(shapely.intersection(shape, side, grid_size=FINEST), whole=shape.area),
        areas_of(shapely.difference(shape, side, grid_size=FINEST), whole=shape.area),
    )


def _edges(shape: MultiPolygon, across: Across) -> FloatArray:
    """Give every edge of a shape: where it begins and ends on the way across, and its rise."""
    rings = [
        np.asarray(ring.coords)
        for piece in shapely.orient_polygons(shape).geoms
        for ring in (piece.exterior, *piece.interiors)
    ]
    if across is Across.NORTH_SOUTH:
        # a quarter turn, so that the way across goes from left to right
        rings = [np.column_stack([-ring[:, 1], ring[:, 0]]) for ring in rings]
    return np.vstack(
        [np.column_stack([ring[:-1, 0], ring[1:, 0], np.diff(ring[:, 1])]) for ring in rings]
    )


def _area_before(edges: FloatArray, at: float) -> float:
    """Give the area before a place on the way across. [m²]

    By Green's theorem it is the sum, over the edges, of the rise times the mean distance,
    the distance counting as `at` where it is more.
    """
    near, far = np.minimum(edges[:, 0], edges[:, 1]), np.maximum(edges[:, 0], edges[:, 1])
    crossed = np.where(far > near, far - near, 1.0)
    mean = np.where(
        at >= far,
        (near + far) / 2,
        at - np.maximum(at - near, 0.0) ** 2 / (2 * crossed),
    )
    return float((edges[:, 2] * mean).sum())


def _first_side(
    shape: MultiPolygon, across: Across, at: float
) -> tuple[float, float, float, float]:
    """Give the window of the first part: `at` grows from west to east, or from north to south."""
    west, south, east, north = shape.bounds
    if across is Across.WEST_EAST:
        return (west - _BEYOND, south - _BEYOND, at, north + _BEYOND)
    return (west - _BEYOND, -at, east + _BEYOND, north + _BEYOND)
