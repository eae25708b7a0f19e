"""Stops on a sketch: numbered discs, filled in the first loop and open in the later ones."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
from shapely import Point
from shapely.geometry.base import BaseGeometry

from quarterwalk.field import Stop
from quarterwalk.picture.drawing import element, words
from quarterwalk.picture.window import Window

# A disc is no larger than the first, and no smaller than the second, so that its number
# can be read; where stops crowd, discs may touch. [px]
_LARGEST, _SMALLEST = 11.0, 9.0
# Type size of a number of one figure and of two. [radius]
_NUMBER, _TWO_FIGURES = 1.45, 1.3


@dataclass(frozen=True, slots=True)
class Marks:
    """The stops of a sketch and how large their discs are.

    Parameters
    ----------
    stops : tuple of (Stop, Point)
        In the order of walking. [px]
    radius : float
        Of every disc. [px]
    """

    stops: tuple[tuple[Stop, Point], ...]
    radius: float

    @property
    def areas(self) -> list[BaseGeometry]:
        """The discs, with a rim of paper."""
        return [shapely.buffer(point, self.radius + 2.5) for _, point in self.stops]


def marks_for(window: Window) -> Marks:
    """Size the discs so that they stand apart where they can.

    Parameters
    ----------
    window : Window
        The field on the paper.

    Returns
    -------
    Marks
    """
    points = [point for _, point in window.stops]
    nearest = min(
        (a.distance(b) for i, a in enumerate(points) for b in points[:i]), default=2 * _LARGEST
    )
    radius = min(_LARGEST, max(_SMALLEST, nearest / 2 - 1))
    return Marks(window.stops, radius)


def stop_marks(marks: Marks) -> str:
    """Draw the discs with their numbers; those walked first lie on top.

    A page finds a stop's disc by its number in ``data-stop``.

    Parameters
    ----------
    marks : Marks
        The stops.

    Returns
    -------
    str
    """
    parts = []
    for stop, point in reversed(marks.stops):
        kind = min(stop.loop, 2)
        ink = " qw-on-ink" if kind == 1 else ""
        size = marks.radius * (_NUMBER if stop.number < 10 else _TWO_FIGURES)
        disc = element("circle", cx=point.x, cy=point.y, r=marks.radius, cls=f"qw-stop-{kind}")
        number = words(
            point.x,
            point.y + size * 0.35,
            str(stop.number),
            f"qw-words qw-bold qw-middle{ink}",
            size,
        )
        parts.append(element("g", disc + number, cls="qw-stop", data_stop=str(stop.number)))
    return "".join(parts)
