"""Finds places for words and marks that keep clear of what stands there already."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from quarterwalk.picture.ground import Box
from quarterwalk.picture.lettering import CUT, cut, in_lines, room

RISE, FALL = 0.78, 0.24
"""Of letters above and below their line. [type size]"""

_FIGURE = re.compile(r"\d")


def width_of(text: str, size: float) -> float:
    """Give the width of a line of words whose figures are all as wide as a nought.

    Parameters
    ----------
    text : str
        The words.
    size : float
        Of the type. [px]

    Returns
    -------
    float
        [px]
    """
    return room(_FIGURE.sub("0", text), size)


def line_box(x: float, y: float, text: str, size: float, *, end: str = "") -> Box:
    """Give the room of a line of words.

    Parameters
    ----------
    x, y : float
        Where it stands. [px]
    text : str
        The words.
    size : float
        Of the type. [px]
    end : {"", "middle", "end"}
        Which part of the line stands at x; its beginning if empty.

    Returns
    -------
    Box
    """
    wide = width_of(text, size)
    left = x - wide * {"": 0.0, "middle": 0.5, "end": 1.0}[end]
    return Box(left, y - RISE * size, left + wide, y + FALL * size)


def meet(one: Box, other: Box) -> bool:
    """Whether two boxes share any room."""
    return (
        one.left < other.right
        and other.left < one.right
        and one.top < other.bottom
        and other.top < one.bottom
    )


def clearest(
    tried: Iterable[Box], taken: Sequence[Box], lines: NDArray[np.float64], canvas: Box
) -> tuple[Box, int] | None:
    """Choose the place that covers least of the lines.

    Parameters
    ----------
    tried : iterable of Box
        Places, the dearest first.
    taken : sequence of Box
        Words that may not be covered.
    lines : ndarray, shape (points, 2)
        What would better not be covered. [px]
    canvas : Box
        Where the place must lie.

    Returns
    -------
    (Box, int) or None
        The first of the clearest, and how many points it covers; None where there is none.
    """
    best: tuple[Box, int] | None = None
    for box in tried:
        off = box.left < canvas.left or box.right > canvas.right
        if off or box.top < canvas.top or box.bottom > canvas.bottom:
            continue
        if any(meet(box, other) for other in taken):
            continue
        points = covered(box, lines)
        if points == 0:
            return box, 0
        if best is None or points < best[1]:
            best = box, points
    return best


def covered(box: Box, lines: NDArray[np.float64]) -> int:
    """Count the points of lines that a box covers, as rows of x and y."""
    x, y = lines[:, 0], lines[:, 1]
    across = (x >= box.left) & (x <= box.right)
    return int(np.count_nonzero(across & (y >= box.top) & (y <= box.bottom)))


class Rows:
    """Rows of a lane; whatever is placed takes the first one where it touches nothing."""

    def __init__(self, apart: float) -> None:
        self._apart = apart
        self._rows: list[list[tuple[float, float]]] = []

    def __len__(self) -> int:
        return len(self._rows)

    def place(self, left: float, right: float) -> int:
        """Give the row of what runs from left to right, the first being 0. [px]"""
        for number, row in enumerate(self._rows):
            if all(right + self._apart <= a or b + self._apart <= left for a, b in row):
                row.append((left, right))
                return number
        self._rows.append([(left, right)])
        return len(self._rows) - 1


def broken(text: str, size: float, width: float) -> list[str]:
    """Break words into lines, and cut off what is too long for one.

    Parameters
    ----------
    text : str
        The words.
    size : float
        Of the type. [px]
    width : float
        Of a line. [px]

    Returns
    -------
    list of str
        None of them wider.
    """
    return [_shortened(line, size, width) for line in in_lines(text, size, width)]


def _shortened(line: str, size: float, width: float) -> str:
    for most in range(len(line), 0, -1):
        kept = cut(line, most)
        if width_of(kept, size) <= width:
            return kept
    return CUT
