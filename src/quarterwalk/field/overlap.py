"""Fields that lie on one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from quarterwalk.field.area import acres_of
from quarterwalk.field.field import Field
from quarterwalk.field.rings import Ring
from quarterwalk.field.tangle import tangled

LEAST_OVERLAP = 0.01
"""Share of the smaller field from which an overlap is worth a word; boundaries driven
twice differ by about that (this project's rule). [fraction]"""

SAME_FIELD = 0.99
"""Share of both fields from which two boundaries are one (this project's rule).
[fraction]"""

MOST_PAIRS = 10_000
"""Pairs of neighbours that are compared; a district has a few thousand (this project's
rule). [count]"""

_PLAIN_POINTS = 400  # Two boundaries of fewer points are quick however they cross. [count]


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two fields that lie on one another.

    Parameters
    ----------
    first, second : Field
        In their order.
    acres : float
        What they share. [acre]
    same : bool
        Whether they are one boundary, given twice.
    """

    first: Field
    second: Field
    acres: float
    same: bool


def overlaps(fields: Sequence[Field]) -> Iterator[Overlap]:
    """Find the fields that share more than a strip along their edge.

    Parameters
    ----------
    fields : sequence of Field
        In any order; of very many, only `MOST_PAIRS` pairs of neighbours are compared.

    Yields
    ------
    Overlap
        Each pair once, in the order of the fields.
    """
    shapes = [field.shape for field in fields]
    tree = shapely.STRtree(shapes)
    left = MOST_PAIRS
    for place, shape in enumerate(shapes):
        others = sorted(int(i) for i in tree.query(shape) if i > place)[:left]
        left -= len(others)
        for other in others:
            shared = _shared(shape, shapes[other])
            sizes = shape.area, shapes[other].area
            if shared is not None and shared.area > LEAST_OVERLAP * min(sizes):
                same = shared.area > SAME_FIELD * max(sizes)
                yield Overlap(fields[place], fields[other], acres_of(shared), same)


def _shared(
    first: shapely.MultiPolygon, second: shapely.MultiPolygon
) -> shapely.MultiPolygon | None:
    """Give the land that two fields share; None where they share none, or can't be compared."""
    rings = [*_rings(first), *_rings(second)]
    if sum(map(len, rings)) > _PLAIN_POINTS and tangled(rings):
        return None
    pieces = shapely.get_parts(shapely.get_parts(first.intersection(second)))
    return shapely.MultiPolygon([p for p in pieces if p.geom_type == "Polygon"])


def _rings(shape: shapely.MultiPolygon) -> list[Ring]:
    lines = (ring for piece in shape.geoms for ring in (piece.exterior, *piece.interiors))
    return [shapely.get_coordinates(line) for line in lines]
