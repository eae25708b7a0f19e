"""The textures that tell quarters apart without a word: plain, dots, dashes, plus signs."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from quarterwalk.picture.drawing import element, figure
from quarterwalk.walk import Quadrant

STEP = 15.0
"""From one mark to the next. [px]"""

_REACH = 4.0
"""Half the size of the largest mark; none is cut by an edge. [px]"""

# One mark, drawn from its middle; none is diagonal, since only the ground past a line is.
_MARKS = {
    Quadrant.NE: "h.01",
    Quadrant.SW: "m-4,0h8",
    Quadrant.SE: "m-3.5,0h7m-3.5,-3.5v7",
}


def texture(quadrant: Quadrant, shape: BaseGeometry, kept_clear: BaseGeometry) -> str:
    """Strew a quarter with its mark.

    Parameters
    ----------
    quadrant : Quadrant
        Whose mark; the north-west has none.
    shape : geometry
        The quarter. [px]
    kept_clear : geometry
        Where words, stops and ways lie. [px]

    Returns
    -------
    str
        One path; empty where there is no mark.
    """
    mark = _MARKS.get(quadrant)
    if mark is None or shape.is_empty:
        return ""
    free = shapely.difference(shapely.buffer(shape, -_REACH), kept_clear)
    spots = _spots(free, shifted=quadrant is not Quadrant.SE)
    data = "".join(f"M{figure(x)},{figure(y)}{mark}" for x, y in spots)
    cls = "qw-dots" if quadrant is Quadrant.NE else "qw-texture"
    return element("path", d=data, cls=cls) if data else ""


def _spots(free: BaseGeometry, *, shifted: bool) -> NDArray[np.float64]:
    """Give the places of a grid that lie free; every second row may be shifted by half."""
    if free.is_empty:
        return np.empty((0, 2))
    left, top, right, bottom = free.bounds
    across = np.arange(np.floor(left / STEP), np.ceil(right / STEP) + 1)
    down = np.arange(np.floor(top / STEP), np.ceil(bottom / STEP) + 1)
    columns, rows = np.meshgrid(across, down)
    x = (columns + (rows % 2) / 2 * shifted).ravel() * STEP
    y = rows.ravel() * STEP
    shapely.prepare(free)
    return np.column_stack([x, y])[shapely.contains_xy(free, x, y)]
