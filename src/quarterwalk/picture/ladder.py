"""The pinch small, for lists: all posts of a list stand on one x, so a column reads as a ladder."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.picture.drawing import Telling, drawing, element, figure
from quarterwalk.picture.ground import Box, hatched, post
from quarterwalk.picture.leaf import Leaf
from quarterwalk.picture.measure import Measure
from quarterwalk.picture.theme import Theme

RUNG_WIDTH = 224.0
"""Width of a rung. [px]"""

RUNG_HEIGHT = 44.0
"""Height of a row that shows a rung; a whole number of hatching steps. [px]"""

FIRST_POST, SECOND_POST = 58.0, 166.0
"""Where the post of the line and the post of the floor stand, in every rung. [px]"""

_LINE = 54.0  # from no insects to the line, and from the line to twice as many [px]
_POINT = 2.16  # one percentage point of squares, where there is room [px]
_MIDDLE = FIRST_POST + _LINE
_APART = 3.0  # from the middle to where a leaf is cut [px]
_EDGE = 4.0  # paper at either end [px]
_TICK, _POST = 6.0, 3.0  # half an end stroke, and a post's width [px]
_HALF, _DOT = 9.5, 4.5  # half the height of a leaf, and the radius at its reading [px]
_RIM = 1.5  # half the stroke around a reading, which must not be cut off [px]
_NARROW = 7.0  # a leaf is drawn at least so wide [px]
_ARROW, _WHOLE = 9.0, 22.0  # of a leaf that runs on, and of one all past the middle [px]


@dataclass(frozen=True, slots=True)
class Rung:
    """What one row of a list shows.

    Parameters
    ----------
    insects : Measure or None
        Insects beside their line; None where no line holds, or nobody walked.
    squares : Measure or None
        Squares beside what the rule asks of them; None where it asks nothing.
    falling : bool
        Whether squares are worse the fewer there are, as square set is; a share of
        blasted squares is worse the more there are.
    """

    insects: Measure | None = None
    squares: Measure | None = None
    falling: bool = True


def ladder_rung(rung: Rung, *, told: str, theme: Theme, id: str) -> str:
    """Draw one row of the ladder, three rows tall, so that a row may be cut out of its middle.

    Parameters
    ----------
    rung : Rung
        What was found; a dotted line where nothing is known.
    told : str
        What it says to someone who hears it.
    theme : Theme
        Where it will be seen.
    id : str
        Begins every id inside.

    Returns
    -------
    str
        SVG, its reading in the middle.
    """
    tall = 3 * RUNG_HEIGHT
    inside = _unknown(tall / 2) if rung.insects is None else _known(rung, rung.insects, tall)
    return drawing(inside, Telling(told), size=(RUNG_WIDTH, tall), theme=theme, id=id)


def _unknown(y: float) -> str:
    line = f"M{figure(_EDGE)},{figure(y)}H{figure(RUNG_WIDTH - _EDGE)}"
    return element("path", d=line, cls="qw-unseen")


def _known(rung: Rung, insects: Measure, tall: float) -> str:
    sides = [_insects(insects)]
    if rung.squares is not None:
        sides.append(_squares(rung.squares, falling=rung.falling))
    middle = f"M{figure(_MIDDLE)},0V{figure(tall)}"
    parts = [_axis(side, tall / 2) for side in sides]
    parts.append(hatched(Box(FIRST_POST, 0, SECOND_POST, tall)))
    parts.append(element("path", d=middle, cls="qw-unseen"))
    parts += [_leaf(side, tall / 2) for side in sides]
    parts += [post(side.post, 0, tall, wide=_POST) for side in sides]
    parts += [_dot(side, tall / 2) for side in sides]
    return "".join(parts)


@dataclass(frozen=True, slots=True)
class _Side:
    """One measure in its place: its post, its good end, and how long one unit is. [px]"""

    measure: Measure
    post: float
    end: float
    unit: float
    inwards: int

    def at(self, value: float) -> float:
        """Give the place of a number, past either end too."""
        return self.post + self.unit * (value - float(self.measure.limit or 0))

    @property
    def far(self) -> float:
        """Where a leaf is cut. [px]"""
        return _MIDDLE - self.inwards * _APART

    def runs_on(self, value: float) -> bool:
        """Tell whether a number lies past the cut."""
        return self.inwards * (self.at(value) - self.far) > 0


def _insects(measure: Measure) -> _Side:
    return _Side(measure, FIRST_POST, FIRST_POST - _LINE, _LINE / float(measure.limit or 1), 1)


def _squares(measure: Measure, *, falling: bool) -> _Side:
    limit = float(measure.limit or 0)
    points = (100 - limit if falling else limit) or 1.0
    point = min(_POINT, (RUNG_WIDTH - _EDGE - SECOND_POST) / points)
    return _Side(
        measure, SECOND_POST, SECOND_POST + point * points, point if falling else -point, -1
    )


def _axis(side: _Side, y: float) -> str:
    seen = side.measure.value is not None
    line = f"M{figure(side.end)},{figure(y)}H{figure(side.post)}"
    tick = f"M{figure(side.end)},{figure(y - _TICK)}V{figure(y + _TICK)}"
    return element("path", d=line, cls="qw-axis" if seen else "qw-unseen") + element(
        "path", d=tick, cls="qw-axis"
    )


def _leaf(side: _Side, y: float) -> str:
    measure = side.measure
    if measure.value is None or measure.span is None:
        return ""
    on = [side.runs_on(end) for end in measure.span]
    if all(on):
        return _arrow(side, y, _WHOLE)
    leaf = _placed(side, measure.span, float(measure.value), y)
    low, high = leaf.low, leaf.high
    if any(on):
        cut = side.far - side.inwards * _ARROW
        low, high = (low, min(high, cut)) if side.inwards > 0 else (max(low, cut), high)
    whole = leaf.part(low, high)
    if not measure.readable:
        return _both(whole, "qw-aura", "qw-hollow")
    clear, past = leaf.part(low, min(high, side.post)), leaf.part(max(low, side.post), high)
    if side.inwards < 0:
        clear, past = past, clear
    rib = f"M{figure(max(low, leaf.low + 3))},{figure(y)}H{figure(min(high, leaf.high - 3))}"
    dressed = (("qw-aura", whole), ("qw-leaf", clear), ("qw-past", past), ("qw-rib", rib))
    body = "".join(element("path", d=d, cls=cls) for cls, d in dressed if d)
    return body + (_arrow(side, y, _ARROW) if any(on) else "")


def _placed(side: _Side, span: tuple[float, float], value: float, y: float) -> Leaf:
    """Place a leaf, at least wide enough to be seen."""
    low, high = sorted(side.at(end) for end in span)
    reading = min(max(side.at(value), low), high)
    if high - low < _NARROW:
        low, high = reading - _NARROW / 2, reading + _NARROW / 2
    return Leaf(low, reading, high, y, _HALF)


def _both(path: str, *classes: str) -> str:
    return "".join(element("path", d=path, cls=cls) for cls in classes)


def _arrow(side: _Side, y: float, long: float) -> str:
    """Show that a leaf runs on past the middle."""
    tip = side.far
    base = tip - side.inwards * long
    corners = ((base, y - _HALF), (tip, y), (base, y + _HALF))
    shape = " ".join(f"{figure(x)},{figure(py)}" for x, py in corners)
    return element("polygon", points=shape, cls="qw-beyond")


def _dot(side: _Side, y: float) -> str:
    value = side.measure.value
    if value is None or side.runs_on(float(value)):
        return ""
    room = _DOT + _RIM
    place = min(max(side.at(float(value)), room), RUNG_WIDTH - room)
    return element("circle", cx=place, cy=y, r=_DOT, cls="qw-reading")
