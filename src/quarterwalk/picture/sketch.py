"""The field as a sketch: its quarters, its stops, its way, and what was found where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import shapely

from quarterwalk.field import Layout
from quarterwalk.picture.drawing import Telling, drawing, element
from quarterwalk.picture.found import Found
from quarterwalk.picture.furniture import STRIP, loops_key, north, scale_bar
from quarterwalk.picture.gate import Gate, gate_mark, place_gate
from quarterwalk.picture.ground import Box
from quarterwalk.picture.labels import Taken
from quarterwalk.picture.lettering import cut
from quarterwalk.picture.quarter_label import (
    found_labels,
    ground_class,
    most_found,
    name_labels,
)
from quarterwalk.picture.settle_labels import settle
from quarterwalk.picture.stop_marks import Marks, marks_for, stop_marks
from quarterwalk.picture.texture import texture
from quarterwalk.picture.theme import Theme
from quarterwalk.picture.window import Window, outline, track, window_on
from quarterwalk.walk import QUADRANTS, Quadrant
from quarterwalk.words import phrase, phrase_for, spoken_in

_MOST_NAME = 60  # letters of a field's name that are told [count]
_SIDE = 16.0  # paper left and right of the field [px]
_MORE = (0.0, 30.0, 60.0)  # more of it beside the gate, as its word needs [px]
_ABOVE = 26.0  # paper above and below it [px]
_LEAST_SCALE, _MOST_SCALE = 120.0, 240.0  # room of the scale with its words [px]
_HARMLESS = 14.0  # what the gate's word may cover [px of distance]


def field_sketch(
    layout: Layout,
    *,
    theme: Theme,
    width: int,
    height: int,
    id: str,
    language: str,
    found: Mapping[Quadrant, Found] | None = None,
    way: bool = True,
) -> str:
    """Draw a field with its quarters and the way through its stops.

    Parameters
    ----------
    layout : Layout
        The field laid out for a walk.
    theme : Theme
        Where it will be seen.
    width, height : int
        [px]
    id : str
        Begins every id inside.
    language : str
        Of its words.
    found : mapping of Quadrant to Found, or None
        What was found, to be written into each quarter; the more insects, the darker.
    way : bool
        Whether to draw the stops and the loops through them.

    Returns
    -------
    str
        SVG.
    """
    canvas = Box(0, 0, width, height - STRIP)
    with spoken_in(language):
        plan = _plan(layout, canvas) if way else _bare_plan(layout, canvas)
        labels, taken = _labels(plan, found)
        inside = (
            _ground(plan.window, found, taken)
            + (_ways(plan.window) + stop_marks(plan.marks) if way else "")
            + (gate_mark(plan.gate) if plan.gate is not None else "")
            + labels
            + _furniture(layout, plan.window, Box(0, canvas.bottom, width, height), way=way)
        )
        told = Telling(_title(layout), _desc(layout, found, way=way))
    return drawing(inside, told, size=(width, height), theme=theme, id=id)


@dataclass(frozen=True, slots=True)
class _Plan:
    """The field in its place, with what lies on it before any label."""

    window: Window
    marks: Marks
    gate: Gate | None
    taken: Taken
    canvas: Box


def _plan(layout: Layout, canvas: Box) -> _Plan:
    """Lay the field out on the paper, smaller where the gate's word needs room beside it."""
    text = phrase("gate") if layout.field.gate is not None else phrase("start")
    at_left = layout.entry[0] < layout.field.shape.centroid.x
    for more in _MORE:
        left, right = (more, 0.0) if at_left else (0.0, more)
        right = canvas.right - _SIDE - right
        box = Box(_SIDE + left, _ABOVE, right, canvas.bottom - _ABOVE)
        window = window_on(layout, box, way=True)
        marks = marks_for(window)
        gate = place_gate(text, window, marks, canvas)
        if gate.harm < _HARMLESS:
            break
    return _Plan(window, marks, gate, gate.taken, canvas)


def _bare_plan(layout: Layout, canvas: Box) -> _Plan:
    window = window_on(layout, Box(4, 4, canvas.right - 4, canvas.bottom - 4), way=False)
    nothing = Taken(shapely.MultiPolygon(), shapely.MultiLineString())
    return _Plan(window, Marks((), 0), None, nothing, canvas)


def _labels(plan: _Plan, found: Mapping[Quadrant, Found] | None) -> tuple[str, Taken]:
    wanted = {
        quadrant: name_labels(quadrant)
        if found is None or quadrant not in found
        else found_labels(quadrant, found[quadrant])
        for quadrant in QUADRANTS
    }
    taken = plan.taken
    placed = settle(plan.window.quarters, wanted, taken, plan.canvas)
    for _, box in placed:
        taken = taken.with_box(box)
    halo = "qw-halo" if found is None or plan.gate is not None else ""
    return "".join(label.at(box, halo) for label, box in placed), taken


def _ground(window: Window, found: Mapping[Quadrant, Found] | None, taken: Taken) -> str:
    """Draw the quarters with their texture, or with the grey step of what was found."""
    most = most_found(found) if found is not None else None
    free_of = shapely.union(shapely.buffer(taken.marks, 4), shapely.buffer(taken.ways, 6))
    parts = []
    for quadrant, shape in window.quarters.items():
        told = None if found is None else found.get(quadrant)
        cls = "qw-ground" if told is None or not most else ground_class(told, most)
        parts.append(element("path", d=outline(shape), cls=f"{cls} qw-even"))
        if found is None:
            parts.append(texture(quadrant, shape, free_of))
    borders = "".join(outline(shape) for shape in window.quarters.values())
    parts.append(element("path", d=borders, cls="qw-border"))
    parts.append(element("path", d=outline(window.field), cls="qw-edge"))
    return "".join(parts)


def _ways(window: Window) -> str:
    """Draw the loops, the first on top, each in a clearing of paper."""
    parts = []
    for number, loop in reversed(list(enumerate(window.loops, 1))):
        parts.append(element("path", d=track(loop), cls="qw-clearing"))
        parts.append(element("path", d=track(loop), cls=f"qw-loop-{min(number, 2)}"))
    return "".join(parts)


def _furniture(layout: Layout, window: Window, strip: Box, *, way: bool) -> str:
    arrow = 16.0
    free = strip.right - 2 * arrow
    key, wide = loops_key(free, strip.top + 13, len(layout.loops)) if way else ("", 0.0)
    if free - wide < _LEAST_SCALE:
        key, wide = "", 0.0
    return (
        scale_bar(2, strip.top + 13, window.px_per_metre, min(free - wide - 12, _MOST_SCALE))
        + key
        + north(strip.right - arrow / 2 - 2, strip.top + 4)
    )


def _title(layout: Layout) -> str:
    return phrase("Sketch of {field}", field=cut(layout.field.name, _MOST_NAME))


def _desc(layout: Layout, found: Mapping[Quadrant, Found] | None, *, way: bool) -> str:
    said = [phrase("{acres} acres in four quarters of equal area.", acres=round(layout.acres))]
    if way:
        said.append(
            phrase_for(
                len(layout.loops),
                "{stops} stops in {count} loop.",
                "{stops} stops in {count} loops.",
                stops=len(layout.stops),
            )
        )
    for quadrant, each in (found or {}).items():
        said.append(_found_words(quadrant, each))
    return " ".join(said)


def _found_words(quadrant: Quadrant, found: Found) -> str:
    lines = found_labels(quadrant, found)[0].lines
    return f"{lines[0].text}: {', '.join(line.text for line in lines[1:])}."
