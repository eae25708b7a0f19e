"""The shapes of a ``.shp`` file, with every length checked against what is really there."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from quarterwalk.field.rings import Part, Ring
from quarterwalk.files.drawn import Budget
from quarterwalk.files.refusal import refuse

SHP_MAGIC = b"\x00\x00\x27\x0a"
"""How a ``.shp`` file begins."""

NULL_SHAPE = 0
AREAS = (5, 15, 25)
"""Kinds of shape that are areas: plain, with heights, with measures."""

_HEADER, _RECORD = 100, 8
_WHOLE = "a .shp file that is whole"
# Where the counts of a polygon's record stand, and how long one point is. [bytes]
_COUNTS, _POINT = 36, 16


@dataclass(frozen=True, slots=True)
class Record:
    """One record: the kind of its shape, and its rings where it is an area."""

    kind: int
    parts: tuple[Part, ...]


def shp_records(data: bytes, budget: Budget) -> Iterator[Record]:
    """Go through the records of a ``.shp`` file.

    Parameters
    ----------
    data : bytes
        The file.
    budget : Budget
        What may still be taken; it knows the file's name.

    Yields
    ------
    Record
        In the order of the file.

    Raises
    ------
    RefusedInput
        If a length in the file is not true, or a limit is passed.

    References
    ----------
    "ESRI Shapefile Technical Description", white paper J-7855, 1998.
    """
    file = budget.file
    if len(data) < _HEADER or not data.startswith(SHP_MAGIC):
        refuse(file, "a shorter one" if data else "an empty one", _WHOLE)
    (words,) = struct.unpack_from(">i", data, 24)
    if words * 2 != len(data):
        refuse(file, f"{len(data):,} bytes where it says {words * 2:,}", _WHOLE)
    at = _HEADER
    while at < len(data):
        row = budget.feature()
        if at + _RECORD + 4 > len(data):
            refuse(file, "the end of the file", _WHOLE, row=row)
        _, words = struct.unpack_from(">ii", data, at)
        start, at = at + _RECORD, at + _RECORD + 2 * words
        if words < 2 or at > len(data):
            refuse(file, f"a record that says it has {words * 2:,} bytes", _WHOLE, row=row)
        yield _record(data[start:at], budget)


def _record(content: bytes, budget: Budget) -> Record:
    (kind,) = struct.unpack_from("<i", content)
    if kind not in AREAS:
        return Record(kind, ())
    if len(content) < _COUNTS + 8:
        refuse(budget.file, "a record that ends early", _WHOLE, row=budget.features)
    rings, points = struct.unpack_from("<ii", content, _COUNTS)
    body = _COUNTS + 8
    if min(rings, points) < 0 or body + 4 * rings + _POINT * points > len(content):
        refuse(
            budget.file,
            f"a record that says it has {rings:,} rings and {points:,} points",
            _WHOLE,
            row=budget.features,
        )
    starts = np.frombuffer(content, "<i4", rings, body).astype(np.int64)
    ends = np.append(starts[1:], points)
    if rings and (starts[0] != 0 or (ends < starts).any() or points < starts[-1]):
        refuse(budget.file, "rings out of order", _WHOLE, row=budget.features)
    for count in ends - starts:
        budget.ring(int(count))
    xy = np.frombuffer(content, "<f8", 2 * points, body + 4 * rings).reshape(-1, 2)
    pieces = [xy[a:b].astype(np.float64) for a, b in zip(starts, ends, strict=True)]
    return Record(kind, tuple(parts_of([piece for piece in pieces if len(piece)])))


def parts_of(rings: list[Ring]) -> list[Part]:
    """Tell outer rings from holes by what lies inside what; their direction is not trusted.

    Parameters
    ----------
    rings : list of arrays, each of shape (points, 2)
        All rings of one shape, in any order.

    Returns
    -------
    list of Part
        Each outer ring with its holes; a ring inside a hole is a part of its own.
    """
    if len(rings) < 2 or any(len(ring) < 4 or not np.isfinite(ring).all() for ring in rings):
        return [(ring,) for ring in rings]
    with np.errstate(all="ignore"):  # points far off any globe are told later
        inside = _inside(rings)
    depth = inside.sum(axis=1)
    parts = []
    for place in np.flatnonzero(depth % 2 == 0):
        holes = np.flatnonzero(inside[:, place] & (depth == depth[place] + 1))
        parts.append((rings[place], *(rings[hole] for hole in holes)))
    return parts


def _inside(rings: list[Ring]) -> NDArray[np.bool_]:
    """Tell for each ring (row) in which others (columns) it lies, shape (rings, rings)."""
    areas = np.array([shapely.Polygon(ring) for ring in rings])
    spots = np.array([area.point_on_surface() for area in areas])
    shapely.prepare(areas)
    found: NDArray[np.bool_] = shapely.contains(areas[None, :], spots[:, None])
    size = shapely.area(areas)
    smaller: NDArray[np.bool_] = size[:, None] < size[None, :]
    return found & smaller
