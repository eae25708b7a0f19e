"""A field too large for one walk, shared out into parts."""

from __future__ import annotations

import math
from dataclasses import replace

from shapely import MultiPolygon

from quarterwalk.field.area import acres_of
from quarterwalk.field.chord import PIECES_OF_A_CUT, chord_cuts
from quarterwalk.field.cut import Across, Halves, straight_cut
from quarterwalk.field.field import Field
from quarterwalk.field.frame import Frame
from quarterwalk.field.globe_cuts import from_cut, to_cut
from quarterwalk.guideline import load_routine
from quarterwalk.words import phrase


def parts_of(field: Field, *, language: str = "en") -> tuple[Field, ...]:
    """Propose parts of a large field, each to be walked and judged by itself.

    Parameters
    ----------
    field : Field
        Any field.
    language : str
        In which the parts are named.

    Returns
    -------
    tuple of Field
        Parts of equal area, numbered from the west or north; the field itself where it is
        small enough for one walk.
    """
    routine = load_routine()
    acres = acres_of(field.shape)
    if acres <= routine.largest_field:
        return (field,)
    frame = Frame.around(field.shape, straight=True)
    shapes = _shared(to_cut(field.shape, frame), math.ceil(acres / routine.largest_part))
    return tuple(
        replace(
            field,
            name=phrase("{field} part {number}", field=field.name, number=number),
            shape=from_cut(shape, frame),
            gate=None,
        )
        for number, shape in enumerate(shapes, start=1)
    )


def _shared(shape: MultiPolygon, count: int) -> list[MultiPolygon]:
    """Share a shape out into equal parts, each cut across the longer way."""
    if count == 1:
        return [shape]
    first = count // 2
    halves = _cut(shape, first / count)
    return [*_shared(halves.first, first), *_shared(halves.second, count - first)]


def _cut(shape: MultiPolygon, share: float) -> Halves:
    west, south, east, north = shape.bounds
    wide = east - west >= north - south
    across = Across.WEST_EAST if wide else Across.NORTH_SOUTH
    straight = straight_cut(shape, across, share)
    if straight.pieces > PIECES_OF_A_CUT and len(shape.geoms) == 1:
        return next(chord_cuts(shape.geoms[0], across, share), straight)
    return straight
