"""What stands around a sketch: north, the scale in feet and metres, the key of the loops."""

from __future__ import annotations

from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.lettering import room
from quarterwalk.picture.scale import round_below
from quarterwalk.units import FOOT_M
from quarterwalk.words import phrase, phrase_as

STRIP = 46.0
"""Height of the strip below a sketch. [px]"""

_SMALL = 14.0
_SHORTEST = 20.0  # a scale bar has at least so much room [px]


def north(x: float, y: float) -> str:
    """Draw the arrow that points north, with its letter.

    Parameters
    ----------
    x, y : float
        The middle of its top. [px]

    Returns
    -------
    str
    """
    shape = f"{figure(x)},{figure(y)} {figure(x + 7)},{figure(y + 22)} {figure(x)},"
    shape += f"{figure(y + 18)} {figure(x - 7)},{figure(y + 22)}"
    return element("polygon", points=shape, cls="qw-ink") + words(
        x, y + 38, phrase_as("north on a sketch", "N"), "qw-words qw-bold qw-middle", 16
    )


def scale_bar(x: float, y: float, px_per_metre: float, widest: float) -> str:
    """Draw the scale: feet above, metres below, each a round number.

    Parameters
    ----------
    x, y : float
        The left end of the feet. [px]
    px_per_metre : float
        The scale. [px/m]
    widest : float
        Room for it with its words. [px]

    Returns
    -------
    str
    """
    px_per_foot = px_per_metre * float(FOOT_M)
    bar = max(widest - room(phrase("{number} feet", number="5,000"), _SMALL) - 8, _SHORTEST)
    feet, metres = round_below(bar / px_per_foot), round_below(bar / px_per_metre)
    rows = (
        (feet * px_per_foot, phrase("{number} feet", number=f"{feet:,g}")),
        (metres * px_per_metre, phrase("{number} m", number=f"{metres:,g}")),
    )
    parts = []
    for i, (long, text) in enumerate(rows):
        at = y + 19 * i
        rule = f"M{figure(x)},{figure(at - 4)}v8m0,-4h{figure(long)}m0,-4v8"
        parts.append(element("path", d=rule, cls="qw-measure"))
        parts.append(words(x + long + 8, at + 5, text, "qw-words", _SMALL))
    return "".join(parts)


def loops_key(right: float, y: float, count: int) -> tuple[str, float]:
    """Draw which loop is which, walked from the first on.

    Parameters
    ----------
    right : float
        Where the words end. [px]
    y : float
        The first row. [px]
    count : int
        How many loops there are. [count]

    Returns
    -------
    (str, float)
        The key and its width. [px]
    """
    later = phrase("second loop") if count == 2 else phrase("later loops")
    texts = [phrase("first loop"), later][:count]
    left = right - max((room(text, _SMALL) for text in texts), default=0)
    parts = []
    for i, text in enumerate(texts):
        at = y + 19 * i
        kind = i + 1
        line = f"M{figure(left - 48)},{figure(at)}H{figure(left - 8)}"
        parts.append(element("path", d=line, cls=f"qw-loop-{kind}"))
        parts.append(element("circle", cx=left - 28, cy=at, r=6, cls=f"qw-stop-{kind}"))
        parts.append(words(left, at + 5, text, "qw-words", _SMALL))
    return "".join(parts), right - left + 48
