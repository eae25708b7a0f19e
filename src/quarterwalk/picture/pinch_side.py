"""One side of the pinch: its axis, and its leaf parted at the line."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.picture.drawing import element, figure
from quarterwalk.picture.leaf import Leaf
from quarterwalk.picture.measure import Measure
from quarterwalk.picture.scale import Scale

_TICK = 7.0  # half the stroke at the good end of an axis [px]
_DOT = 7.0  # radius of the dot at the reading [px]
_ARROW = 13.0  # length of the arrow where a leaf runs on past the axis [px]
_BARB = 17.0  # half its height [px]
_NARROW = 8.0  # a leaf is drawn at least so wide [px]
_SLIM = 14.0  # half the height of the narrowest leaf [px]


@dataclass(frozen=True, slots=True)
class Side:
    """One measure laid out along its axis.

    Parameters
    ----------
    measure : Measure
        What was found, beside its line.
    scale : Scale
        From its good end inwards.
    leftward : bool
        Whether its good end is the left one.
    y : float
        Where the axis lies. [px]
    half : float
        Half the height of a broad leaf. [px]
    """

    measure: Measure
    scale: Scale
    leftward: bool
    y: float
    half: float

    @property
    def post_x(self) -> float:
        """Where the post of the line stands. [px]"""
        return self.scale(float(self.measure.limit or 0))


def axis(side: Side) -> str:
    """Draw the axis from its good end to the post.

    Parameters
    ----------
    side : Side
        Its measure; where nobody looked, the axis is dotted.

    Returns
    -------
    str
    """
    start, y = side.scale.start, side.y
    seen = side.measure.value is not None
    line = f"M{figure(start)},{figure(y)}H{figure(side.post_x)}"
    tick = f"M{figure(start)},{figure(y - _TICK)}V{figure(y + _TICK)}"
    return element("path", d=line, cls="qw-axis" if seen else "qw-unseen") + element(
        "path", d=tick, cls="qw-axis"
    )


def estimate(side: Side) -> str:
    """Draw the leaf: clear of the line in one colour, past it in another.

    Parameters
    ----------
    side : Side
        Its measure; nothing is drawn where nobody looked.

    Returns
    -------
    str
    """
    measure = side.measure
    if measure.value is None or measure.span is None:
        return ""
    leaf = _leaf(side, measure.span)
    stop, way = side.scale.stop, 1 if side.leftward else -1
    runs_on = way * ((leaf.high if side.leftward else leaf.low) - stop) > 0
    first, last = leaf.low, leaf.high
    if runs_on and side.leftward:
        last = stop - _ARROW
    elif runs_on:
        first = stop + _ARROW
    return _body(side, leaf, first, last) + (_arrow(side) if runs_on else "")


def dot(side: Side) -> str:
    """Draw the dot at the reading.

    Parameters
    ----------
    side : Side
        Its measure; nothing is drawn where nobody looked, or past the end of the axis.

    Returns
    -------
    str
    """
    if side.measure.value is None:
        return ""
    x = side.scale.on(float(side.measure.value))
    if (x > side.scale.stop - _DOT) if side.leftward else (x < side.scale.stop + _DOT):
        return ""
    return element("circle", cx=x, cy=side.y, r=_DOT, cls="qw-reading")


def _leaf(side: Side, span: tuple[float, float]) -> Leaf:
    """Place the leaf, at least wide enough to be seen."""
    at = side.scale.on
    low, high = sorted((at(span[0]), at(span[1])))
    reading = min(max(at(float(side.measure.value or 0)), low), high)
    if high - low < _NARROW:
        low, high = reading - _NARROW / 2, reading + _NARROW / 2
    half = min(side.half, max(_SLIM, (high - low) / 2))
    return Leaf(low, reading, high, side.y, half)


def _body(side: Side, leaf: Leaf, first: float, last: float) -> str:
    whole = leaf.part(first, last)
    if not whole:
        return ""
    if not side.measure.readable:
        return element("path", d=whole, cls="qw-aura") + element("path", d=whole, cls="qw-hollow")
    clear, past = (first, side.post_x), (side.post_x, last)
    if not side.leftward:
        clear, past = (side.post_x, last), (first, side.post_x)
    rib = f"M{figure(max(leaf.low + 5, first))},{figure(side.y)}"
    rib += f"H{figure(min(leaf.high - 5, last))}"
    return "".join(
        element("path", d=d, cls=cls)
        for d, cls in (
            (whole, "qw-aura"),
            (leaf.part(*clear), "qw-leaf"),
            (leaf.part(*past), "qw-past"),
            (rib, "qw-rib"),
        )
        if d
    )


def _arrow(side: Side) -> str:
    """Show that the leaf runs on past the end of the axis."""
    way = 1 if side.leftward else -1
    tip, y = side.scale.stop, side.y
    base = tip - way * _ARROW
    corners = ((base, y - _BARB), (tip, y), (base, y + _BARB))
    shape = " ".join(f"{figure(x)},{figure(py)}" for x, py in corners)
    return element("polygon", points=shape, cls="qw-beyond")
