"""Fields, drawings and how to look at them, for the tests of pictures."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cache
from xml.etree import ElementTree

from shapely import MultiPolygon, Point, Polygon, box
from shapely.geometry.polygon import orient

from quarterwalk.call import Call, Verdict
from quarterwalk.field import Field, Frame, Layout, lay_out
from quarterwalk.picture import (
    Found,
    Theme,
    field_sketch,
    pinch,
    quarter_mark,
    quarters_small,
    three_outcomes,
    verdict_mark,
)
from quarterwalk.picture.lettering import room
from quarterwalk.reading import Reading
from quarterwalk.walk import Method, Quadrant
from quarterwalk.words import spoken_in
from tests.call.made import call, reading
from tests.picture.seasons import drawn_season, seasons

SVG = "{http://www.w3.org/2000/svg}"
HERE = Frame(-102.3, 33.6)
CIRCLE = Point(0, 0).buffer(400)

SHAPES: dict[str, Polygon | MultiPolygon] = {
    "Long 80": box(0, 0, 400, 780),
    "L": box(0, 0, 800, 400).union(box(0, 0, 300, 800)),
    "Circle with a corner cut": CIRCLE.difference(box(150, -400, 400, -150)),
    "C": box(0, 0, 700, 700).difference(box(250, 200, 700, 500)),
    "With a hole": box(0, 0, 700, 600).difference(Point(350, 300).buffer(120)),
    "Two pieces": MultiPolygon([box(0, 0, 350, 500), box(420, 100, 800, 700)]),
    "Narrow": box(0, 0, 1600, 90),
}


FOUND = {
    Quadrant.NW: Found(5, 25),
    Quadrant.NE: Found(20, 25),
    Quadrant.SW: Found(15, 25),
    Quadrant.SE: Found(10, 25),
}
"""A quarter of each grey step."""


def field_of(name: str, shape: Polygon | MultiPolygon) -> Field:
    """Put a shape in metres on the globe, with its gate at the south-west corner."""
    parts = shape.geoms if isinstance(shape, MultiPolygon) else [shape]
    west, south, *_ = shape.bounds
    gate = HERE.to_globe(Point(west, south))
    globe = HERE.to_globe(MultiPolygon([orient(part) for part in parts]))
    return Field(name, globe, (gate.x, gate.y))


@cache
def layout_of(shape: str, name: str = "") -> Layout:
    """Lay one of the shapes out for a walk."""
    return lay_out(field_of(name or shape, SHAPES[shape]), date(2026, 7, 1))


@dataclass(frozen=True)
class Case:
    """A reading with its call."""

    reading: Reading
    call: Call


def cases() -> dict[str, Case]:
    """Give readings of every kind with their calls."""
    over = reading(34, healthy=252, missing=31, blasted=35)
    few = reading(34, healthy=20, missing=5)
    near = reading(18, healthy=280, missing=35)
    many = reading(300, healthy=200, missing=115)
    swept = reading(9, plants=(5, 5, 5, 5), healthy=50, missing=9, method=Method.SWEEP, sweeps=25)
    blasted = reading(28, healthy=250, missing=20, blasted=40)
    bare = reading(34)
    none = reading(0, healthy=300)
    open_end = reading(3, plants=(1, 1, 0, 0))
    return {
        "over": Case(over, call(over)),
        "near": Case(near, call(near)),
        "none found": Case(none, call(none)),
        "ten times over": Case(many, call(many)),
        "squares not looked at": Case(bare, call(bare)),
        "few squares": Case(few, call(few)),
        "two plants": Case(open_end, call(open_end)),
        "one measure": Case(near, call(near, "mid-coast")),
        "blasted": Case(blasted, call(blasted, "kansas")),
        "swept": Case(swept, call(swept, "tennessee-sweep")),
        "too early": Case(over, call(over, day=-5)),
        "over the season": Case(over, call(over, bloom=2)),
    }


def every_drawing(theme: Theme, language: str = "en", width: int = 360) -> tuple[str, ...]:
    """Draw everything that can be drawn, each with an id of its own."""
    return _every_drawing(theme, language, width)


@cache
def _every_drawing(theme: Theme, language: str, width: int) -> tuple[str, ...]:
    return tuple(fresh_drawings(theme, language, width))


def fresh_drawings(theme: Theme, language: str, width: int) -> Iterator[str]:
    """Draw everything that can be drawn, in the words in force now."""
    for i, (name, case) in enumerate(cases().items()):
        yield drawn_pinch(name, theme=theme, language=language, width=width, id=f"p{i}")
        yield quarters_small(
            case.reading, case.call, theme=theme, width=width, id=f"s{i}", language=language
        )
    for verdict in Verdict:
        yield verdict_mark(verdict, theme=theme, id=f"m-{verdict}", language=language)
        for provisional in (False, True):
            yield three_outcomes(
                verdict,
                theme=theme,
                width=width,
                id=f"o-{verdict}-{provisional}",
                language=language,
                provisional=provisional,
                why="no-line-for-method" if verdict is Verdict.NONE else "",
            )
    with spoken_in(language):
        told = seasons()
    for i, season in enumerate(told.values()):
        yield drawn_season(season, theme=theme, width=width, id=f"e{i}", language=language)
    for quadrant in Quadrant:
        yield quarter_mark(quadrant, theme=theme, id=f"q-{quadrant}", language=language)
    for i, shape in enumerate(SHAPES):
        for way in (True, False):
            found = None if way else FOUND
            yield field_sketch(
                layout_of(shape),
                theme=theme,
                width=width,
                height=420,
                id=f"f{i}{way:d}",
                language=language,
                found=found,
                way=way,
            )


def drawn_pinch(
    name: str,
    *,
    theme: Theme = Theme.PRINT,
    language: str = "en",
    width: int = 820,
    id: str = "p",
) -> str:
    """Draw the pinch of one of the cases."""
    case = cases()[name]
    return pinch(
        case.reading,
        case.call,
        level=0.9,
        theme=theme,
        width=width,
        id=id,
        language=language,
    )


def parsed(svg: str) -> ElementTree.Element:
    """Read a drawing."""
    return ElementTree.fromstring(svg)


def having(svg: str, cls: str, tag: str = "*") -> list[ElementTree.Element]:
    """Give the elements of a drawing that have a class."""
    found = parsed(svg).iter(None if tag == "*" else SVG + tag)
    return [each for each in found if cls in each.get("class", "").split()]


def texts(svg: str) -> list[str]:
    """Give the words that are seen in a drawing."""
    return [each.text or "" for each in parsed(svg).iter(f"{SVG}text")]


def size_of(svg: str) -> tuple[float, float]:
    """Give the width and the height of a drawing."""
    _, _, width, height = map(float, parsed(svg).get("viewBox", "").split())
    return width, height


def spread(path: str) -> tuple[float, float]:
    """Give the least and the greatest x among the points of a path of M, L and C."""
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path)]
    return min(numbers[::2]), max(numbers[::2])


def text_boxes(svg: str) -> list[tuple[str, float, float, float, float]]:
    """Give each line of words with its left, top, right and bottom, moved as its group is."""
    return list(_boxes(parsed(svg), 0.0, 0.0))


def _boxes(
    node: ElementTree.Element, x: float, y: float
) -> Iterator[tuple[str, float, float, float, float]]:
    moved = re.fullmatch(r"translate\((\S+) (\S+)\)", node.get("transform", ""))
    if moved is not None:
        x, y = x + float(moved[1]), y + float(moved[2])
    if node.tag == f"{SVG}text":
        size, text = float(node.get("font-size", "0")), node.text or ""
        wide, cls = room(text, size), node.get("class", "").split()
        back = wide if "qw-end" in cls else wide / 2 if "qw-middle" in cls else 0.0
        left, base = x + float(node.get("x", "0")) - back, y + float(node.get("y", "0"))
        yield text, left, base - 0.75 * size, left + wide, base + 0.1 * size
    for child in node:
        yield from _boxes(child, x, y)
