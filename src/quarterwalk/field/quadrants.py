"""Four parts of equal area, named as a scout standing in them would."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import MultiPolygon

from quarterwalk.field.chord import PIECES_OF_A_CUT, chord_cuts
from quarterwalk.field.cut import Across, Halves, straight_cut
from quarterwalk.walk import QUADRANTS, Quadrant

Quarters = Mapping[Quadrant, MultiPolygon]
"""The parts of a field by their names."""

# Of two ways to cut, the one with the shorter borders between quadrants is taken, where so
# much of the border, in side lengths of a square field, weighs as much as all the plants'
# names (this project's rule). [fraction]
_BORDERS_WEIGH = 0.05

_OTHER = {Across.WEST_EAST: Across.NORTH_SOUTH, Across.NORTH_SOUTH: Across.WEST_EAST}


def quarter(shape: MultiPolygon) -> dict[Quadrant, MultiPolygon]:
    """Part a field into NW, NE, SW and SE, of equal area and in as few pieces as can be.

    The field is halved, and each half is halved the other way: by a straight line along
    the compass where that leaves every part in one piece, else along a chord that bends
    the parts to the field's shape. Of the ways that do, the one is taken whose names fit
    best what a scout would say in the field: north or south, west or east of its middle.

    Parameters
    ----------
    shape : MultiPolygon
        In a flat frame, north up. [m]

    Returns
    -------
    dict of Quadrant to MultiPolygon
        In the order NW, NE, SW, SE. [m]
    """
    middle = _middle(shape)
    best = min(_ways(shape), key=lambda parts: _cost(shape, parts, middle))
    return _named(best)


_Parts = tuple[MultiPolygon, MultiPolygon, MultiPolygon, MultiPolygon]


def _ways(shape: MultiPolygon) -> Iterator[_Parts]:
    """Give ways to part a shape; straight ones alone where they leave no scraps."""
    simple = [_both(straight_cut(shape, across), across) for across in Across]
    whole = [parts for parts in simple if _pieces(parts) == len(QUADRANTS)]
    if whole or len(shape.geoms) > 1:
        yield from whole or simple
        return
    yield from simple
    for across in Across:
        for halves in _cuts(shape, across):
            yield _both(halves, across)


def _both(halves: Halves, across: Across) -> _Parts:
    first, second = (next(_cuts(half, _OTHER[across])) for half in (halves.first, halves.second))
    return (first.first, first.second, second.first, second.second)


def _cuts(shape: MultiPolygon, across: Across) -> Iterator[Halves]:
    """Give cuts of a shape, a clean straight one alone, the straight one last where it is not."""
    straight = straight_cut(shape, across)
    if straight.pieces > PIECES_OF_A_CUT and len(shape.geoms) == 1:
        yield from chord_cuts(shape.geoms[0], across)
    yield straight


def _pieces(parts: _Parts) -> int:
    return sum(len(part.geoms) for part in parts)


def _cost(shape: MultiPolygon, parts: _Parts, middle: tuple[float, float]) -> tuple[int, float]:
    """Weigh a way to part: its pieces first, then names that do not fit and long borders."""
    side = np.sqrt(shape.area)
    borders = (sum(part.length for part in parts) - shape.length) / 2
    return _pieces(parts), _misfit(_named(parts), middle) + _BORDERS_WEIGH * borders / side


@dataclass(frozen=True, slots=True)
class _Sense:
    """Which way a name points: east and north are 1, west and south -1."""

    east: int
    north: int


_SENSES = {
    Quadrant.NW: _Sense(-1, 1),
    Quadrant.NE: _Sense(1, 1),
    Quadrant.SW: _Sense(-1, -1),
    Quadrant.SE: _Sense(1, -1),
}


def _named(parts: _Parts) -> dict[Quadrant, MultiPolygon]:
    """Give each part the name that its place asks for, all four names together."""
    places = np.array([[part.centroid.x, part.centroid.y] for part in parts])
    spread = np.maximum(np.ptp(places, axis=0), 1e-9)
    places = (places - places.mean(axis=0)) / spread
    senses = np.array([[_SENSES[q].east, _SENSES[q].north] for q in QUADRANTS])
    fits = places @ senses.T
    best = max(
        itertools.permutations(range(len(parts))),
        key=lambda order: sum(fits[part, name] for name, part in enumerate(order)),
    )
    return {quadrant: parts[part] for quadrant, part in zip(QUADRANTS, best, strict=True)}


def _middle(shape: MultiPolygon) -> tuple[float, float]:
    """Give the lines that halve a field from west to east and from north to south. [m]"""
    east = straight_cut(shape, Across.WEST_EAST).first.bounds[2]
    north = straight_cut(shape, Across.NORTH_SOUTH).first.bounds[1]
    return east, north


def _misfit(quarters: Quarters, middle: tuple[float, float]) -> float:
    """Give the share of a field whose quadrant is not what a scout there would call it."""
    total = sum(part.area for part in quarters.values())
    fitting = 0.0
    for quadrant, part in quarters.items():
        sense = _SENSES[quadrant]
        west, south, east, north = part.bounds
        sector = shapely.box(
            max(west, middle[0]) if sense.east > 0 else west,
            max(south, middle[1]) if sense.north > 0 else south,
            east if sense.east > 0 else min(east, middle[0]),
            north if sense.north > 0 else min(north, middle[1]),
        )
        fitting += shapely.intersection(part, sector).area
    return float(1.0 - fitting / total)
