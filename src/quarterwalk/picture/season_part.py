"""A part of a season's drawing, and upright lines that break where its words stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quarterwalk.picture.drawing import element
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_room import upright

_PAPER = 3.0  # kept free left and right of words that a line would run through [px]
_SHORT = 3.0  # a piece of a line between two words is left out below this [px]


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the drawing.

    Parameters
    ----------
    drawn : str
        SVG.
    bottom : float
        Where it ends. [px]
    held : tuple of Box
        Where its words and the marks of its walks stand; no upright line runs through.
    """

    drawn: str
    bottom: float
    held: tuple[Box, ...] = ()


def uprights_drawn(
    falls: Iterable[tuple[float, float]], bottom: float, held: Sequence[Box], cls: str
) -> str:
    """Draw upright lines that break where words stand.

    Parameters
    ----------
    falls : iterable of (float, float)
        x and top of each. [px]
    bottom : float
        Where they end. [px]
    held : sequence of Box
        Where no line may run.
    cls : str
        Class of the lines.

    Returns
    -------
    str
        One path; nothing where there is no line.
    """
    data = "".join(
        upright(x, first, last)
        for x, top in falls
        for first, last in _pieces(top, bottom, [box for box in held if crosses(box, x)])
    )
    return element("path", d=data, cls=cls) if data else ""


def crosses(box: Box, x: float) -> bool:
    """Whether an upright line runs through a box, or close by it."""
    return box.left - _PAPER < x < box.right + _PAPER


def _pieces(top: float, bottom: float, gaps: list[Box]) -> list[tuple[float, float]]:
    pieces, at = [], top
    for gap in sorted(gaps, key=lambda each: each.top):
        if gap.bottom <= at or gap.top >= bottom:
            continue
        if gap.top - at >= _SHORT:
            pieces.append((at, gap.top))
        at = gap.bottom
    return [*pieces, (at, bottom)] if bottom - at >= _SHORT else pieces
