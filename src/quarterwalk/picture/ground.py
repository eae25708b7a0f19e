"""Posts, their flags, and the hatched ground between them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.lettering import room

HATCH_STEP = 11.0
"""From one line of the hatching to the next, across. [px]"""

POST = 4.0
"""How wide a post is. [px]"""

_NOTCH = 7.0  # how deep a flag is cut at its free end [px]
_FLAG_PAD = 9.0  # paper left and right of the number in a flag [px]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle upright on the paper. [px]"""

    left: float
    top: float
    right: float
    bottom: float


def hatched(box: Box) -> str:
    """Hatch the ground past a line, at 45 degrees; nothing else is ever hatched so.

    Parameters
    ----------
    box : Box
        The ground.

    Returns
    -------
    str
        One path; empty where the ground has no width.
    """
    lines = [
        f"M{figure(x1)},{figure(y1)}L{figure(x2)},{figure(y2)}"
        for x1, y1, x2, y2 in hatch_lines(box)
    ]
    return element("path", d="".join(lines), cls="qw-hatch") if lines else ""


def hatch_lines(box: Box) -> list[tuple[float, float, float, float]]:
    """Give the lines of the hatching, each from its lower left to its upper right end.

    Parameters
    ----------
    box : Box
        The ground.

    Returns
    -------
    list of (float, float, float, float)
        x and y of both ends. [px]
    """
    # Along x + y = sum; counted from 0, so that grounds side by side hatch through.
    first = math.floor((box.left + box.top) / HATCH_STEP) + 1
    last = math.ceil((box.right + box.bottom) / HATCH_STEP)
    lines = []
    for step in range(first, last):
        total = step * HATCH_STEP
        low, high = max(box.left, total - box.bottom), min(box.right, total - box.top)
        if high - low > 1:
            lines.append((low, total - low, high, total - high))
    return lines


def post(x: float, top: float, bottom: float, *, wide: float = POST) -> str:
    """Set up the post of a line.

    Parameters
    ----------
    x : float
        Its middle. [px]
    top, bottom : float
        [px]
    wide : float
        [px]

    Returns
    -------
    str
    """
    return element("rect", x=x - wide / 2, y=top, width=wide, height=bottom - top, cls="qw-ink")


def flag_width(text: str, size: float) -> float:
    """Give the width of a flag with its number, and with half its post.

    Parameters
    ----------
    text : str
        The number.
    size : float
        Of the type. [px]

    Returns
    -------
    float
        [px]
    """
    return room(text, size) + 2 * _FLAG_PAD + _NOTCH - 2


def flag(x: float, text: str, size: float, *, leftward: bool, top: float = 0) -> str:
    """Fly a flag with a number from a post, away from the hatched ground.

    Parameters
    ----------
    x : float
        Where its post stands. [px]
    text : str
        The number.
    size : float
        Of the type. [px]
    leftward : bool
        Which way it flies.
    top : float
        [px]

    Returns
    -------
    str
    """
    wide, tall = flag_width(text, size), size * 1.65
    way = -1 if leftward else 1
    near, far = x - way * POST / 2, x + way * wide
    corners = [
        (near, top),
        (far, top),
        (far - way * _NOTCH, top + tall / 2),
        (far, top + tall),
        (near, top + tall),
    ]
    shape = " ".join(f"{figure(px)},{figure(py)}" for px, py in corners)
    middle = (near + far - way * _NOTCH) / 2
    return element("polygon", points=shape, cls="qw-ink") + words(
        middle, top + tall / 2 + size * 0.35, text, "qw-words qw-bold qw-on-ink qw-middle", size
    )
