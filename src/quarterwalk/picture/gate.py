"""The gate on a sketch: a mark unlike any stop, and its word outside the field."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
from shapely import Point

from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.labels import Taken, beside
from quarterwalk.picture.lettering import room
from quarterwalk.picture.stop_marks import Marks
from quarterwalk.picture.window import Window

_WORD = 15.0  # type size of its word [px]
_HALF = 8.0  # half of the mark [px]


@dataclass(frozen=True, slots=True)
class Gate:
    """The gate with its word in place.

    Parameters
    ----------
    spot : Point
        Where its mark stands. [px]
    box : Box
        Where its word stands. [px]
    text : str
        The word.
    harm : float
        What the word covers, in pixels of distance.
    taken : Taken
        Stops, ways, mark and word.
    """

    spot: Point
    box: Box
    text: str
    harm: float
    taken: Taken


def place_gate(text: str, window: Window, marks: Marks, canvas: Box) -> Gate:
    """Find the place of the gate's word, outside the field where there is room.

    Parameters
    ----------
    text : str
        The word.
    window : Window
        The field on the paper.
    marks : Marks
        Its stops.
    canvas : Box
        Where the word must lie. [px]

    Returns
    -------
    Gate
    """
    spot = _clear_of_stops(window.entry, marks)
    discs = shapely.union_all([*marks.areas, shapely.buffer(spot, _HALF + 1)])
    ways = shapely.MultiLineString(list(window.loops))
    around = Taken(shapely.union(discs, window.field), ways)
    box, harm = beside(spot, (room(text, _WORD), _WORD), around, canvas)
    return Gate(spot, box, text, harm, Taken(discs, ways).with_box(box))


def gate_mark(gate: Gate) -> str:
    """Draw the gate, a square on its corner, and write its word.

    Parameters
    ----------
    gate : Gate
        In its place.

    Returns
    -------
    str
    """
    x, y = gate.spot.x, gate.spot.y
    corners = ((x, y - _HALF), (x + _HALF, y), (x, y + _HALF), (x - _HALF, y))
    shape = " ".join(f"{figure(px)},{figure(py)}" for px, py in corners)
    return element("polygon", points=shape, cls="qw-gate") + words(
        (gate.box.left + gate.box.right) / 2,
        gate.box.top + _WORD * 0.82,
        gate.text,
        "qw-words qw-bold qw-middle qw-halo",
        _WORD,
    )


def _clear_of_stops(entry: Point, marks: Marks) -> Point:
    """Move the mark away from a stop that would cover it, straight back from it."""
    for _, stop in marks.stops:
        apart, needed = entry.distance(stop), marks.radius + _HALF + 1
        if 0 < apart < needed:
            reach = needed / apart
            return Point(stop.x + (entry.x - stop.x) * reach, stop.y + (entry.y - stop.y) * reach)
    return entry
