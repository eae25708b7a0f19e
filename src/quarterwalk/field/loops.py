"""The loops of a walk: from the entry through each loop's stops and back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon

from quarterwalk.field.tour import short_tour, tour_length
from quarterwalk.field.ways import Ways, find_ways

FloatArray = NDArray[np.float64]

# A loop may grow by so much to go along the rows (this project's rule). [share of the way]
_LONGER_FOR_ROWS = 0.10
# So often the weight of rows is halved before they are let go. [count]
_HALVINGS = 3


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of the crop.

    Parameters
    ----------
    heading : float
        Clockwise from north. [degrees]
    across : float
        How much harder a step across them is than one along. [times]
    """

    heading: float
    across: float


@dataclass(frozen=True, slots=True)
class Round:
    """One loop in a flat frame.

    Parameters
    ----------
    order : tuple of int
        The stops in the order in which they are passed.
    line : float array, shape (corners, 2)
        From the entry and back to it. [m]
    """

    order: tuple[int, ...]
    line: FloatArray


def entry_for(field: MultiPolygon, stops: FloatArray) -> FloatArray:
    """Choose where to enter a field whose gate nobody gave.

    Parameters
    ----------
    field : MultiPolygon
        In a flat frame. [m]
    stops : float array, shape (stops, 2)
        Those of the first loop. [m]

    Returns
    -------
    float array, shape (2,)
        The point of the boundary nearest to the stop that lies nearest to it, which
        becomes the first. [m]
    """
    points = shapely.points(stops)
    outer = shapely.MultiLineString([piece.exterior for piece in field.geoms])
    lines = np.asarray(shapely.shortest_line(outer, points))
    nearest = lines[int(np.argmin(shapely.length(lines)))]
    entry: FloatArray = np.asarray(nearest.coords)[0]
    return entry


def lay_loop(
    field: MultiPolygon,
    entry: FloatArray,
    stops: FloatArray,
    rows: Rows | None,
    rng: np.random.Generator,
) -> Round:
    """Lay a loop from the entry through stops and back, short and inside the field.

    Parameters
    ----------
    field : MultiPolygon
        In a flat frame. [m]
    entry : float array, shape (2,)
        Where it begins and ends. [m]
    stops : float array, shape (stops, 2)
        What it passes. [m]
    rows : Rows or None
        Along them is easier; the loop grows by a tenth at most to keep to them.
    rng : numpy.random.Generator
        For the search.

    Returns
    -------
    Round
    """
    places = np.vstack([entry, stops])
    plain = find_ways(field, places)
    order = short_tour(_between(plain), rng)
    if rows is not None:
        order = _along_rows(field, places, rows, order, plain, rng)
    order = _begun_near(_between(plain), order)
    closed = [*order, 0]
    legs = [plain.between(a, b) for a, b in zip(closed[:-1], closed[1:], strict=True)]
    line = np.vstack([legs[0][:1], *(leg[1:] for leg in legs)])
    return Round(tuple(place - 1 for place in order[1:]), line)


def _along_rows(
    field: MultiPolygon,
    places: FloatArray,
    rows: Rows,
    shortest: list[int],
    plain: Ways,
    rng: np.random.Generator,
) -> list[int]:
    """Find an order that goes more along the rows and is not much longer."""
    most = tour_length(_between(plain), shortest) * (1 + _LONGER_FOR_ROWS)
    across = rows.across
    for _ in range(_HALVINGS):
        weighed = find_ways(field, places, rows=rows.heading, across=across)
        order = short_tour(_between(weighed), rng)
        if tour_length(_between(plain), order) <= most:
            return order
        across = 1 + (across - 1) / 2
    return shortest


def _between(ways: Ways) -> FloatArray:
    places = len(ways.lengths)
    lengths: FloatArray = ways.lengths[:, :places]
    return lengths


def _begun_near(ways: FloatArray, order: Sequence[int]) -> list[int]:
    """Walk the loop the way round whose first stop is nearer to the entry."""
    if ways[0, order[-1]] < ways[0, order[1]]:
        return [order[0], *reversed(order[1:])]
    return list(order)
