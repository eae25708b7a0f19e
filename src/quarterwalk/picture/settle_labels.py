"""Finds one wording and size for all four quarters, so that they read alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import shapely
from shapely.geometry.base import BaseGeometry

from quarterwalk.picture.ground import Box
from quarterwalk.picture.labels import Taken, heart_of, inside, outside
from quarterwalk.picture.quarter_label import Label
from quarterwalk.walk import Quadrant

Placed = tuple[Label, Box]


def settle(
    quarters: Mapping[Quadrant, BaseGeometry],
    wanted: Mapping[Quadrant, Sequence[Label]],
    taken: Taken,
    canvas: Box,
) -> list[Placed]:
    """Place the labels of all quarters, in the fullest wording that fits every one.

    Parameters
    ----------
    quarters : mapping of Quadrant to geometry
        Where each may stand. [px]
    wanted : mapping of Quadrant to sequence of Label
        Wordings of each, the fullest first.
    taken : Taken
        What lies on the sketch already.
    canvas : Box
        Where they must lie. [px]

    Returns
    -------
    list of (Label, Box)
        In the order of the quarters; where even the briefest wording does not fit, it
        stands beside its quarter.
    """
    hearts = {quadrant: heart_of(quarters[quadrant]) for quadrant in wanted}
    for step in range(max(len(labels) for labels in wanted.values())):
        free, placed = taken, []
        for quadrant, labels in wanted.items():
            label = labels[min(step, len(labels) - 1)]
            box = inside(quarters[quadrant], hearts[quadrant], label.size, free)
            if box is None:
                break
            free = free.with_box(box)
            placed.append((label, box))
        if len(placed) == len(wanted):
            return placed
    return _one_by_one(quarters, wanted, taken, canvas)


def _one_by_one(
    quarters: Mapping[Quadrant, BaseGeometry],
    wanted: Mapping[Quadrant, Sequence[Label]],
    taken: Taken,
    canvas: Box,
) -> list[Placed]:
    placed = []
    for quadrant, labels in wanted.items():
        shape, label = quarters[quadrant], labels[-1]
        box = inside(shape, heart_of(shape), label.size, taken)
        if box is None:
            others = shapely.union_all([q for name, q in quarters.items() if name != quadrant])
            box = outside(shape, others, label.size, taken, canvas)
        taken = taken.with_box(box)
        placed.append((label, box))
    return placed
