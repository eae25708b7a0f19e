"""How large a shape is, and how far a place lies from it, on the ellipsoid."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from pyproj import Geod
from shapely.geometry.base import BaseGeometry

from quarterwalk.field.field import Place
from quarterwalk.units import HECTARE_M2, HECTARES_PER_ACRE

_EARTH = Geod(ellps="WGS84")
_ACRES_PER_HECTARE = float(1 / HECTARES_PER_ACRE)


def hectares_of(shape: BaseGeometry) -> float:
    """Give the hectares inside a boundary.

    Parameters
    ----------
    shape : Polygon or MultiPolygon
        On WGS 84, rings in either direction. [degrees]

    Returns
    -------
    float
        Area on the ellipsoid, its edges geodesics, holes taken off. [ha]

    References
    ----------
    C. F. F. Karney, "Algorithms for geodesics", Journal of Geodesy 87, 2013, pages 43-55.
    """
    # the rings of holes count as negative, so they have to run against the outer ring
    turned = shapely.orient_polygons(shape)
    square_metres, _ = _EARTH.geometry_area_perimeter(turned)
    return abs(float(square_metres)) / HECTARE_M2


def acres_of(shape: BaseGeometry) -> float:
    """Give the acres inside a boundary.

    Parameters
    ----------
    shape : Polygon or MultiPolygon
        On WGS 84, rings in either direction. [degrees]

    Returns
    -------
    float
        Area on the ellipsoid, its edges geodesics, holes taken off. [acre]

    References
    ----------
    C. F. F. Karney, "Algorithms for geodesics", Journal of Geodesy 87, 2013, pages 43-55.
    """
    return hectares_of(shape) * _ACRES_PER_HECTARE


def metres_from(shape: BaseGeometry, place: Place) -> float:
    """Give how far a place lies outside a field, along the shortest way.

    Parameters
    ----------
    shape : Polygon or MultiPolygon
        On WGS 84. [degrees]
    place : tuple of float
        Longitude and latitude. [degrees]

    Returns
    -------
    float
        0 inside the field. [m]

    Notes
    -----
    The nearest point of the boundary is found on a map whose east is drawn to the scale
    of the place's latitude; the distance to it is the geodesic. Near the field, where it
    matters, this is exact to well under a metre.

    References
    ----------
    C. F. F. Karney, "Algorithms for geodesics", Journal of Geodesy 87, 2013, pages 43-55.
    """
    scale = np.array([max(math.cos(math.radians(place[1])), 1e-9), 1.0])

    def to_scale(points: NDArray[np.float64]) -> NDArray[np.float64]:
        scaled: NDArray[np.float64] = points * scale
        return scaled

    spot = shapely.points(place[0] * scale[0], place[1])
    way = shapely.shortest_line(shapely.transform(shape, to_scale), spot)
    (east, north), _ = shapely.get_coordinates(way)
    _, _, metres = _EARTH.inv(east / scale[0], north, *place)
    return float(metres)


def metres_along(line: Sequence[Place]) -> float:
    """Give how long a way is.

    Parameters
    ----------
    line : sequence of (longitude, latitude)
        On WGS 84. [degrees]

    Returns
    -------
    float
        Sum of the geodesics from place to place. [m]

    References
    ----------
    C. F. F. Karney, "Algorithms for geodesics", Journal of Geodesy 87, 2013, pages 43-55.
    """
    lon, lat = np.asarray(line, dtype=np.float64).T
    return float(_EARTH.line_length(lon, lat))
