"""A field laid out by hand: a square of 800 m with its quarters, four stops and two loops."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from shapely import MultiPolygon, Point, box

from quarterwalk.field import Field, Frame, Layout, Loop, Place, Stop
from quarterwalk.field.area import acres_of, metres_along
from quarterwalk.walk import Quadrant

FRAME = Frame(-101.9, 33.45)

# West, south, east and north of each quarter. [m]
CORNERS = {
    Quadrant.NW: (-400, 0, 0, 400),
    Quadrant.NE: (0, 0, 400, 400),
    Quadrant.SW: (-400, -400, 0, 0),
    Quadrant.SE: (0, -400, 400, 0),
}
STOPS = ((1, "NW", 1, (-200, 200)), (2, "NE", 1, (200, 200)), (3, "SE", 2, (200, -200)))
STOPS += ((4, "SW", 2, (-200, -200)),)
GATE = (-400, -400)


def place(metres: tuple[float, float], frame: Frame = FRAME) -> Place:
    """Take metres east and north of the middle to the globe."""
    point = frame.to_globe(Point(metres))
    return point.x, point.y


def square(name: str = "Home 40", frame: Frame = FRAME) -> Layout:
    """Lay the square out around the middle of a frame."""
    whole = MultiPolygon([frame.to_globe(box(-400, -400, 400, 400))])
    quadrants = {
        which: MultiPolygon([frame.to_globe(box(*corners))]) for which, corners in CORNERS.items()
    }
    stops = tuple(
        Stop(number, Quadrant(which), loop, 5, place(metres, frame))
        for number, which, loop, metres in STOPS
    )
    loops = tuple(_loop(number, stops, frame) for number in (1, 2))
    return Layout(Field(name, whole), date(2026, 6, 18), quadrants, acres_of(whole), stops, loops)


def _loop(number: int, stops: tuple[Stop, ...], frame: Frame) -> Loop:
    gate = place(GATE, frame)
    line = (gate, *(stop.place for stop in stops if stop.loop == number), gate)
    metres = metres_along(line)
    return Loop(number, line, metres, metres / 60)


def at_the_corner(east: float, north: float) -> Layout:
    """Put one stop a hair inside a quarter's corner, which lies between two written places."""
    corner = (-101.9 + east, 33.45 + north)
    stop = Stop(1, Quadrant.NE, 1, 5, (corner[0] + 1e-9, corner[1] + 1e-9))
    gate = place(GATE)
    quarter = MultiPolygon([box(*corner, corner[0] + 0.004, corner[1] + 0.004)])
    plain = square()
    return replace(
        plain,
        quadrants={**plain.quadrants, Quadrant.NE: quarter},
        stops=(stop,),
        loops=(Loop(1, (gate, stop.place, gate), 1400.0, 20.0),),
    )
