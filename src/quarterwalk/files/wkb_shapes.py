"""Shapes in well-known binary, with every count checked before it is believed."""

from __future__ import annotations

import struct
from dataclasses import dataclass

import numpy as np

from quarterwalk.field.rings import Part, Ring
from quarterwalk.files.boundary_limits import DEEPEST
from quarterwalk.files.drawn import Budget, counter_clockwise

_POLYGON, _MULTIPOLYGON, _COLLECTION = 3, 6, 7
# ISO adds a thousand to a kind with heights, two with measures, three with both.
_WIDTHS = {0: 2, 1: 3, 2: 3, 3: 4}
_MOST_KINDS = 17


class Miscounted(ValueError):
    """A shape that is cut off, or says it has more than there is."""


@dataclass(slots=True)
class _Bytes:
    """Bytes that are taken from the front, never beyond the end."""

    data: bytes
    at: int = 0

    def take(self, form: str) -> int:
        size = struct.calcsize(form)
        if self.at + size > len(self.data):
            raise Miscounted("a shape that is cut off")
        (value,) = struct.unpack_from(form, self.data, self.at)
        self.at += size
        return int(value)

    def count(self, order: str, least: int) -> int:
        """Take a count of things that are at least so long; refuse one that can't be."""
        count = self.take(f"{order}I")
        if count * least > len(self.data) - self.at:
            raise Miscounted(f"a shape that says it has {count:,} of what there is not room for")
        return count

    def ring(self, order: str, width: int, budget: Budget) -> Ring:
        count = self.count(order, 8 * width)
        budget.ring(count)
        flat = np.frombuffer(self.data, f"{order}f8", count * width, self.at)
        self.at += 8 * count * width
        return flat.reshape(-1, width)[:, :2].astype(np.float64)


def parts_in_wkb(data: bytes, budget: Budget) -> list[Part] | None:
    """Read a shape.

    Parameters
    ----------
    data : bytes
        One shape in ISO well-known binary.
    budget : Budget
        What may still be taken.

    Returns
    -------
    list of Part or None
        The rings of an area; None for a shape that is none.

    Raises
    ------
    Miscounted
        If it is cut off, has bytes to spare, or says it has more than there is.

    References
    ----------
    "Simple feature access, part 1", Open Geospatial Consortium 06-103r4, 2011, chapter 8.
    """
    source = _Bytes(data)
    parts = _shape(source, budget, 0)
    if parts is not None and source.at != len(data):
        raise Miscounted(f"a shape with {len(data) - source.at:,} bytes too many")
    return parts


def _shape(source: _Bytes, budget: Budget, depth: int) -> list[Part] | None:
    if depth > DEEPEST:
        raise Miscounted("a shape of too many shapes, one inside the other")
    order = {0: ">", 1: "<"}.get(source.take("B"))
    if order is None:
        raise Miscounted("a shape in no known order of bytes")
    dimensions, kind = divmod(source.take(f"{order}I"), 1000)
    if dimensions not in _WIDTHS or not 1 <= kind <= _MOST_KINDS:
        raise Miscounted("a shape of no known kind")
    if kind == _POLYGON:
        return _polygon(source, order, _WIDTHS[dimensions], budget)
    if kind in (_MULTIPOLYGON, _COLLECTION):
        return _collection(source, order, budget, depth)
    if depth:  # its length is not known, so what stands behind it can't be found
        raise Miscounted("an area with points or lines in it")
    return None


def _polygon(source: _Bytes, order: str, width: int, budget: Budget) -> list[Part]:
    rings = source.count(order, 4)
    part = tuple(source.ring(order, width, budget) for _ in range(rings))
    return [counter_clockwise(part)] if part else []


def _collection(source: _Bytes, order: str, budget: Budget, depth: int) -> list[Part]:
    found: list[Part] = []
    for _ in range(source.count(order, 9)):
        found += _shape(source, budget, depth + 1) or []
    return found
