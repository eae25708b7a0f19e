"""The largest part of a quadrant that no stop of a loop speaks for."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import shapely
from scipy.spatial.distance import cdist
from shapely import MultiPolygon, Polygon

from quarterwalk.field.frame import Frame
from quarterwalk.field.layout import Layout
from quarterwalk.walk import Quadrant

# The edge of a quadrant is looked at in so many steps, beside its corners. [count]
_STEPS = 400


def largest_empty_circles(layout: Layout, loop: int) -> Mapping[Quadrant, float]:
    """Give the largest circle in each quadrant that holds no stop of one loop.

    Parameters
    ----------
    layout : Layout
        A field laid out.
    loop : int
        Which loop. [from 1]

    Returns
    -------
    mapping of Quadrant to float
        Its radius, its middle lying in the quadrant: no plant of the quadrant stands
        farther than this from a stop. [m]

    Notes
    -----
    The middle lies at a corner of the Voronoi cells of the stops, where their borders meet
    the quadrant's edge, or on the edge itself; the edge is looked at in small steps.

    References
    ----------
    G. T. Toussaint, "Computing largest empty circles with location constraints",
    International Journal of Computer and Information Sciences 12(5), 347-358, 1983.
    """
    frame = Frame.around(layout.field.shape)
    radii = {}
    for quadrant, shape in layout.quadrants.items():
        here = [s.place for s in layout.stops if s.loop == loop and s.quadrant is quadrant]
        stops = frame.to_ground(shapely.MultiPoint(here))
        radii[quadrant] = _radius(frame.to_ground(shape), stops)
    return radii


def _radius(quadrant: MultiPolygon, stops: shapely.MultiPoint) -> float:
    edge = quadrant.segmentize(quadrant.length / _STEPS)
    # stepping along an edge may leave out a corner that stands very near to the next
    middles = [shapely.get_coordinates(edge), shapely.get_coordinates(quadrant)]
    if len(stops.geoms) > 1:
        cells = shapely.voronoi_polygons(stops, extend_to=quadrant)
        borders = shapely.intersection(_borders(cells), quadrant)
        middles.append(shapely.get_coordinates(borders))
    return float(cdist(np.vstack(middles), shapely.get_coordinates(stops)).min(axis=1).max())


def _borders(cells: shapely.GeometryCollection) -> shapely.Geometry:
    rings = [cell.exterior for cell in cells.geoms if isinstance(cell, Polygon)]
    return shapely.union_all(rings)
