"""Places written with seven decimals, about a centimetre, and still where they belong."""

from __future__ import annotations

from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon, Point, Polygon

from quarterwalk.field import Layout, Place, Stop

# A coordinate to seven decimals holds a centimetre; more claims what no receiver knows
# (RFC 7946, "The GeoJSON Format", 2016, section 11.2, on what more digits cost).
DECIMALS = 7

# How far a stop may be moved to stay inside its quarter. [units of the last decimal]
_FARTHEST = 3


def rounded(place: Place) -> Place:
    """Round a place to the decimals that are written.

    Parameters
    ----------
    place : (longitude, latitude)
        On WGS 84. [degrees]

    Returns
    -------
    (longitude, latitude)
        The same, within a centimetre. [degrees]
    """
    lon, lat = place
    # Adding nought turns a minus nought into nought.
    return round(lon, DECIMALS) + 0.0, round(lat, DECIMALS) + 0.0


def rounded_shape(shape: MultiPolygon) -> MultiPolygon:
    """Round a boundary so that it still is one: no edge crosses another.

    Parameters
    ----------
    shape : MultiPolygon
        On WGS 84. [degrees]

    Returns
    -------
    MultiPolygon
        Valid, outer rings counter-clockwise, holes clockwise. What is thinner than a
        centimetre may be gone. [degrees]
    """
    # A spike thinner than a hair, left by a cut, can't be rounded: it has to go first.
    sound = shapely.make_valid(shape, method="structure", keep_collapsed=False)
    snapped = shapely.set_precision(sound, 10.0**-DECIMALS)
    parts = [part for part in shapely.get_parts(snapped) if isinstance(part, Polygon)]
    return shapely.orient_polygons(shapely.transform(MultiPolygon(parts), _to_decimals))


def plain(shape: MultiPolygon) -> Polygon | MultiPolygon:
    """Take the one part out of a shape that has only one.

    Parameters
    ----------
    shape : MultiPolygon
        On WGS 84. [degrees]

    Returns
    -------
    Polygon or MultiPolygon
        The same, as it is written most plainly. [degrees]
    """
    return shape.geoms[0] if len(shape.geoms) == 1 else shape


def _to_decimals(points: NDArray[np.float64]) -> NDArray[np.float64]:
    return points.round(DECIMALS) + 0.0


def rounded_places(layout: Layout) -> dict[Place, Place]:
    """Round the places of a layout's stops, each kept inside its quarter.

    Parameters
    ----------
    layout : Layout
        The field laid out.

    Returns
    -------
    dict of Place to Place
        Each stop's place as it is in the layout, and as it is to be written. [degrees]
    """
    quarters = {name: rounded_shape(shape) for name, shape in layout.quadrants.items()}
    return {stop.place: _kept(stop, quarters[stop.quadrant]) for stop in layout.stops}


def _kept(stop: Stop, quarter: MultiPolygon) -> Place:
    """Take the nearest written place that lies in the quarter."""
    lon, lat = rounded(stop.place)
    reach = range(-_FARTHEST, _FARTHEST + 1)
    for east, north in sorted(product(reach, reach), key=lambda step: step[0] ** 2 + step[1] ** 2):
        near = rounded((lon + east * 10.0**-DECIMALS, lat + north * 10.0**-DECIMALS))
        if quarter.contains(Point(near)):
            return near
    return lon, lat
