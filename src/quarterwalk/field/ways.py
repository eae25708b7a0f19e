"""The shortest ways between places of a field that stay inside it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse.csgraph import shortest_path
from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

# A way may leave the field by so much, where it cuts a corner of the drawn line. [m]
_LENIENT = 1.0
# A ragged boundary is drawn more roughly until a way has at most so many corners of it to
# bend around; the way may then leave the field by as much as was smoothed. [count]
_MOST_CORNERS = 140
# No step counts as less, since a graph takes nothing for no way at all. [m]
_STEP = 1e-3
# A gap between two pieces is narrow up to so many times its narrowest. [times]
_NARROW = 1.5


@dataclass(frozen=True, slots=True)
class Ways:
    """Ways between places of one field.

    Parameters
    ----------
    nodes : float array, shape (nodes, 2)
        The places first, then corners of the field to walk around. [m]
    lengths : float array, shape (places, nodes)
        Length of the shortest way inside. [m]
    before : int array, shape (places, nodes)
        The node before the last on that way.
    """

    nodes: FloatArray
    lengths: FloatArray
    before: NDArray[np.int32]

    def between(self, start: int, end: int) -> FloatArray:
        """Give the way from one place to another.

        Parameters
        ----------
        start, end : int
            Which places.

        Returns
        -------
        float array, shape (corners, 2)
            Both ends included. [m]
        """
        way = [end]
        while way[-1] != start:
            way.append(int(self.before[start, way[-1]]))
        nodes: FloatArray = self.nodes[way[::-1]]
        return nodes


def find_ways(
    field: MultiPolygon, places: FloatArray, *, rows: float | None = None, across: float = 1.0
) -> Ways:
    """Find the shortest ways between places that stay inside a field.

    From one piece of a field to the next the way crosses the gap where it is narrow; from a
    gate outside it goes straight to the nearest edge.

    Parameters
    ----------
    field : MultiPolygon
        In a flat frame. [m]
    places : float array, shape (places, 2)
        Where the ways begin and end. [m]
    rows : float or None
        Direction of the rows, clockwise from north. [degrees]
    across : float
        How much harder a step across the rows is than one along them. [times]

    Returns
    -------
    Ways
        Lengths count steps across the rows as so much longer.
    """
    weight = _Weight(rows, across)
    straight = _seen(_allowed(field, _LENIENT), places)
    if straight.all():
        return _shortest(places, len(places), straight, [], weight)
    bridges = _bridges(field, places)
    field = _joined(field, bridges)
    corners, smoothed = _corners(field)
    nodes = np.vstack([places, corners, *bridges])
    seen = _seen(_allowed(field, smoothed), nodes)
    return _closed_up(_shortest(nodes, len(places), seen, bridges, weight), weight)


def _allowed(field: MultiPolygon, beyond: float) -> BaseGeometry:
    allowed = shapely.buffer(field, beyond, join_style="mitre")
    shapely.prepare(allowed)
    return allowed


@dataclass(frozen=True, slots=True)
class _Weight:
    """What makes one step harder than another: rows, and how much harder they are to cross."""

    rows: float | None
    across: float

    def costs(self, nodes: FloatArray) -> FloatArray:
        """Give what straight ways cost: their length, or more where they cross rows. [m]"""
        steps = nodes[:, None, :] - nodes[None, :, :]
        heading = np.radians(self.rows or 0.0)
        along = steps @ np.array([np.sin(heading), np.cos(heading)])
        beside = steps @ np.array([np.cos(heading), -np.sin(heading)])
        harder = 1.0 if self.rows is None else self.across
        costs: FloatArray = np.hypot(along, harder * beside)
        return costs


def _shortest(
    nodes: FloatArray,
    places: int,
    straight: BoolArray,
    bridges: list[FloatArray],
    weight: _Weight,
) -> Ways:
    """Find the ways along what can be walked straight; the bridges are the last nodes, in pairs."""
    cost = weight.costs(nodes)
    graph = np.where(straight, np.maximum(cost, _STEP), 0.0)
    first = len(nodes) - 2 * len(bridges)
    for start in range(first, len(nodes), 2):
        graph[start, start + 1] = graph[start + 1, start] = max(cost[start, start + 1], _STEP)
    lengths, before = shortest_path(
        graph, method="D", directed=False, indices=range(places), return_predecessors=True
    )
    return Ways(nodes, lengths, before)


def _closed_up(ways: Ways, weight: _Weight) -> Ways:
    """Go straight where no way inside was found at all."""
    lost = np.isinf(ways.lengths)
    start = np.broadcast_to(np.arange(len(ways.lengths))[:, None], lost.shape)
    straight = weight.costs(ways.nodes)[: len(ways.lengths)]
    return Ways(
        ways.nodes,
        np.where(lost, straight, ways.lengths),
        np.where(lost, start, ways.before).astype(np.int32),
    )


def _seen(inside: BaseGeometry, nodes: FloatArray) -> BoolArray:
    """Tell between which nodes one can walk straight."""
    first, last = np.triu_indices(len(nodes), k=1)
    lines = shapely.linestrings(np.stack([nodes[first], nodes[last]], axis=1))
    seen = np.eye(len(nodes), dtype=bool)
    seen[first, last] = seen[last, first] = shapely.covers(inside, lines)
    return seen


def _corners(field: MultiPolygon) -> tuple[FloatArray, float]:
    """Give the corners that a way may have to bend around, and by how much they are smoothed."""
    rings = [ring for piece in field.geoms for ring in (piece.exterior, *piece.interiors)]
    smoothed = _LENIENT
    while True:
        corners = np.vstack([_bends(ring.simplify(smoothed / 2).coords) for ring in rings])
        if len(corners) <= _MOST_CORNERS:
            return corners, smoothed
        smoothed *= 2


def _bends(ring: Sequence[tuple[float, float]]) -> FloatArray:
    """Give the corners of a ring at which the field lies around more than half a turn."""
    points = np.asarray(ring)[:-1, :2]
    before, after = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    bends: FloatArray = points[turn < 0]
    return bends


def _bridges(field: MultiPolygon, places: FloatArray) -> list[FloatArray]:
    """Give straight ways from piece to piece, and to places outside: the shortest that join all."""
    pieces = list(field.geoms)
    bridges = [
        np.array([place, _nearest(field, place)])
        for place in places
        if not shapely.intersects(field, shapely.Point(place))
    ]
    joined, left = [pieces[0]], pieces[1:]
    while left:
        lines = [shapely.shortest_line(shapely.union_all(joined), piece) for piece in left]
        nearest = int(np.argmin(shapely.length(lines)))
        bridges.append(np.asarray(lines[nearest].coords))
        joined.append(left.pop(nearest))
    return bridges


def _joined(field: MultiPolygon, bridges: list[FloatArray]) -> MultiPolygon:
    """Add the narrow parts of the gaps between pieces, such as the road that parts them."""
    gaps = []
    for one, other in itertools.combinations(field.geoms, 2):
        if any(_joins(bridge, one, other) for bridge in bridges):
            reach = _NARROW * one.distance(other) + _LENIENT
            sides = (one & other.buffer(reach), other & one.buffer(reach))
            gaps.append(shapely.convex_hull(shapely.union_all(sides)))
    whole = shapely.union_all([field, *gaps])
    return MultiPolygon([part for part in shapely.get_parts(whole) if isinstance(part, Polygon)])


def _joins(bridge: FloatArray, one: Polygon, other: Polygon) -> bool:
    ends = shapely.points(bridge)
    return bool(
        (shapely.distance(ends, [one, other]) < _STEP).all()
        or (shapely.distance(ends, [other, one]) < _STEP).all()
    )


def _nearest(field: MultiPolygon, place: FloatArray) -> FloatArray:
    """Give the point of a field nearest to a place outside. [m]"""
    line = shapely.shortest_line(field, shapely.Point(place))
    nearest: FloatArray = np.asarray(line.coords)[0]
    return nearest
