"""Cuts a shape in two connected parts along a chord, where a straight cut leaves scraps.

A chord of a simple ring (a segment that stays inside and ends on the ring) always leaves
two connected parts. The area beside it changes smoothly as one end moves along the ring,
so among the chords from enough points of the ring there are some that leave any share
wanted, whatever the shape: a C, a comb, a spiral.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.optimize import brentq
from shapely import Polygon

from quarterwalk.field.cut import FINEST, Across, Halves, areas_of

FloatArray = NDArray[np.float64]

# So many points of the ring are tried as ends, beside its own corners. [count]
_ENDS = 240
# A chord may touch the ring; so much of it may lie outside by rounding. [share of the size]
_TOUCH = 1e-7
# Chords are alike where no end differs by more than this share of the ring.
_ALIKE = 0.02
# Where holes make the estimate rough, an end is sought this share of the ring around it.
_REACH = 0.05
# Place of an end. [m]
_CLOSE = 1e-7
# So few corners enclose nothing. [count]
_LINE = 2
PIECES_OF_A_CUT = 2
"""Two parts, each in one piece. [count]"""


class Ring:
    """The outer ring of a shape, by the way along it, counter-clockwise.

    Parameters
    ----------
    shape : Polygon
        With its holes. [m]
    """

    def __init__(self, shape: Polygon) -> None:
        self.shape = shape
        self.points = np.asarray(shapely.orient_polygons(shape).exterior.coords)
        self.along = _grown(np.hypot(*np.diff(self.points, axis=0).T))
        self.length = float(self.along[-1])
        self._swept = [_grown(sums) for sums in _swept(self.points[:-1], self.points[1:])]

    def place(self, at: FloatArray) -> FloatArray:
        """Give the places so far along the ring. [m]"""
        x = np.interp(at, self.along, self.points[:, 0])
        y = np.interp(at, self.along, self.points[:, 1])
        return np.stack([x, y], axis=-1)

    def beside(self, first: FloatArray, last: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Measure what lies right of chords, between them and the ring's way from end to end.

        Parameters
        ----------
        first, last : float array
            Ends along the ring, `first` the smaller. [m]

        Returns
        -------
        area : float array
            Holes included. [m²]
        middle : float array, one axis more
            Its centre. [m]
        """
        closing = _swept(self.place(last), self.place(first))
        area, x, y = (
            self._until(sums, last, which) - self._until(sums, first, which) + closing[which]
            for which, sums in enumerate(self._swept)
        )
        with np.errstate(invalid="ignore", divide="ignore"):
            middle: FloatArray = np.stack([x / area, y / area], axis=-1)
        return area, middle

    def part(self, first: float, last: float) -> Polygon:
        """Give the part between the ring's way from `first` to `last` and the chord back."""
        inner = (self.along > first) & (self.along < last)
        ends = self.place(np.array([first, last]))
        corners = np.vstack([ends[:1], self.points[inner], ends[1:]])
        return Polygon(corners) if len(np.unique(corners, axis=0)) > _LINE else Polygon()

    def _until(self, sums: FloatArray, at: FloatArray, which: int) -> FloatArray:
        edge = np.clip(np.searchsorted(self.along, at, side="right") - 1, 0, len(sums) - 2)
        until: FloatArray = sums[edge] + _swept(self.points[edge], self.place(at))[which]
        return until


def _grown(steps: FloatArray) -> FloatArray:
    return np.concatenate([[0.0], np.cumsum(steps)])


def _swept(start: FloatArray, end: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Give area and first moments swept from the origin along segments. [m², m³, m³]"""
    cross = start[..., 0] * end[..., 1] - end[..., 0] * start[..., 1]
    both = start + end
    return cross / 2, both[..., 0] * cross / 6, both[..., 1] * cross / 6


def chord_cuts(
    shape: Polygon, across: Across, share: float = 0.5, *, most: int = 3
) -> Iterator[Halves]:
    """Cut a shape along chords that leave the share wanted, the best parted first.

    Parameters
    ----------
    shape : Polygon
        In a flat frame. [m]
    across : Across
        Which way the parts should lie from each other.
    share : float
        Area of the first part, of the whole. [fraction]
    most : int
        How many cuts at most. [count]

    Yields
    ------
    Halves
        Each part in one piece; none where holes stand in the way of every chord.
    """
    ring = Ring(shape)
    for chord in itertools.islice(_chords(ring, across, share), most):
        placed = _placed(ring, chord)
        if placed is None:
            continue
        beside = shapely.make_valid(ring.part(chord.first, placed))
        right = areas_of(shapely.intersection(shape, beside, grid_size=FINEST), whole=shape.area)
        left = areas_of(shapely.difference(shape, beside, grid_size=FINEST), whole=shape.area)
        halves = Halves(right, left) if chord.right_is_first else Halves(left, right)
        if halves.pieces == PIECES_OF_A_CUT and not (right.is_empty or left.is_empty):
            yield halves


@dataclass(frozen=True, slots=True)
class _Chord:
    """Ends along the ring, the area wanted right of it, and which part that is."""

    first: float
    last: float
    wanted: float
    right_is_first: bool


def _chords(ring: Ring, across: Across, share: float) -> Iterator[_Chord]:
    """Find chords that leave about the share wanted, the best parted first, unlike each other."""
    ends = _ends(ring)
    first, last = np.meshgrid(ends, ends, indexing="ij")
    beside = np.where(last > first, ring.beside(first, last)[0], np.nan)
    beside -= _holes_beside(ring, first, last)
    found: list[tuple[float, _Chord]] = []
    for right_is_first in (True, False):
        wanted = (share if right_is_first else 1 - share) * ring.shape.area
        near = _crossings(ends, beside - wanted)
        inside = near[_inside(ring, near)]
        area, middle = ring.beside(inside[:, 0], inside[:, 1])
        apart = _apart(ring, across, area, middle) * (1 if right_is_first else -1)
        chords = [_Chord(a, b, wanted, right_is_first) for a, b in inside.tolist()]
        found += [pair for pair in zip(apart.tolist(), chords, strict=True) if pair[0] > 0]
    taken: list[_Chord] = []
    for _, chord in sorted(found, key=lambda pair: -pair[0]):
        if all(_unlike(ring, chord, other) for other in taken):
            taken.append(chord)
            yield chord


def _crossings(ends: FloatArray, over: FloatArray) -> FloatArray:
    """Find where the area beside a chord passes what is wanted, as its far end moves on."""
    with np.errstate(invalid="ignore"):
        rows, columns = np.nonzero(over[:, :-1] * over[:, 1:] <= 0)
    low, high = over[rows, columns], over[rows, columns + 1]
    with np.errstate(invalid="ignore", divide="ignore"):
        part = np.where(high == low, 0.0, -low / (high - low))
    at = ends[columns] + part * (ends[columns + 1] - ends[columns])
    return np.column_stack([ends[rows], at])


def _apart(ring: Ring, across: Across, area: FloatArray, middle: FloatArray) -> FloatArray:
    """Tell how far the right part lies to the first side of the rest. [m]"""
    total, whole = ring.beside(np.array(0.0), np.array(ring.length))
    rest = (whole * total - middle * area[:, None]) / (total - area)[:, None]
    if across is Across.WEST_EAST:
        return np.asarray(rest[:, 0] - middle[:, 0])
    return np.asarray(middle[:, 1] - rest[:, 1])


def _unlike(ring: Ring, one: _Chord, other: _Chord) -> bool:
    shift = max(abs(one.first - other.first), abs(one.last - other.last))
    return shift > _ALIKE * ring.length


def _ends(ring: Ring) -> FloatArray:
    """Choose the ends to try: evenly along the ring, and its corners."""
    even = np.linspace(0.0, ring.length, _ENDS, endpoint=False)
    size = np.sqrt(ring.shape.area)
    corners = np.asarray(ring.shape.exterior.simplify(size / 100).coords)[:-1]
    nearest = [
        ring.along[np.argmin(np.hypot(*(ring.points - corner).T))] for corner in corners[:_ENDS]
    ]
    return np.unique(np.concatenate([even, nearest]))


def _holes_beside(ring: Ring, first: FloatArray, last: FloatArray) -> FloatArray:
    """Estimate what of the holes lies right of chords; a later step makes it exact."""
    total = np.zeros_like(first)
    start, end = ring.place(first), ring.place(last)
    way = end - start
    for hole in ring.shape.interiors:
        corners = np.asarray(hole.coords)[:-1]
        middle = corners.mean(axis=0)
        off = way[..., 0] * (middle[1] - start[..., 1]) - way[..., 1] * (middle[0] - start[..., 0])
        total += np.where(off < 0, Polygon(hole).area, 0.0)
    return total


def _inside(ring: Ring, chords: FloatArray) -> NDArray[np.bool_]:
    """Tell which chords stay inside the outer ring."""
    outer = Polygon(ring.points)
    allowed = shapely.buffer(outer, _TOUCH * np.sqrt(outer.area), join_style="mitre")
    shapely.prepare(allowed)
    lines = shapely.linestrings(ring.place(chords))
    return np.asarray(shapely.covers(allowed, lines) & (shapely.length(lines) > 0))


def _placed(ring: Ring, chord: _Chord) -> float | None:
    """Move the far end of a chord until the area right of it is exact; None where it can't be."""

    def lacking(at: float) -> float:
        if not ring.shape.interiors:
            return float(ring.beside(np.array(chord.first), np.array(at))[0]) - chord.wanted
        part = shapely.make_valid(ring.part(chord.first, at))
        inside: float = shapely.intersection(ring.shape, part).area
        return inside - chord.wanted

    reach = ring.length * (_REACH if ring.shape.interiors else 2 / _ENDS)
    low = max(chord.first, chord.last - reach)
    high = min(ring.length, chord.last + reach)
    if lacking(low) * lacking(high) > 0:
        return None
    return float(brentq(lacking, low, high, xtol=_CLOSE))
