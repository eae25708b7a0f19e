"""Lays a field out for one walk: quadrants, stops and loops, all from its boundary."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon, Point

from quarterwalk.errors import UsageError
from quarterwalk.field.area import acres_of, metres_along
from quarterwalk.field.field import Field, Place
from quarterwalk.field.frame import Frame
from quarterwalk.field.globe_cuts import from_cut, to_cut
from quarterwalk.field.layout import Layout, Loop, Stop
from quarterwalk.field.loops import Round, Rows, entry_for, lay_loop
from quarterwalk.field.quadrants import quarter
from quarterwalk.field.stops import choose_stops, dice, ground_of
from quarterwalk.guideline import load_routine
from quarterwalk.walk import QUADRANTS, Quadrant

FloatArray = NDArray[np.float64]

TWO_LOOPS = (2, 3)
"""Stops a quadrant in each loop: a small complete walk, then the rest (common practice)."""

MOST_STOPS = 10
"""A quadrant takes so many stops at most. [count]"""


@dataclass(frozen=True, slots=True)
class Plan:
    """How a walk is shared out.

    Parameters
    ----------
    split : tuple of int
        Stops a quadrant in each loop, in the order of walking. [count]
    plants : int
        Plants in a row at each stop. [count]

    Raises
    ------
    UsageError
        If a loop has no stop, or a quadrant more than `MOST_STOPS`.
    """

    split: tuple[int, ...] = TWO_LOOPS
    plants: int = load_routine().plants_a_stop

    def __post_init__(self) -> None:
        if not self.split or min(self.split) < 1 or sum(self.split) > MOST_STOPS:
            told = "+".join(map(str, self.split))
            raise UsageError(
                f"the loops must have 1 stop a quadrant or more, {MOST_STOPS} in all at most,"
                f" such as 2+3, got {told}."
            )
        if self.plants < 1:
            raise UsageError(f"a stop must have 1 plant or more, got {self.plants}.")


DEFAULT_PLAN = Plan()


def lay_out(field: Field, on: date, *, plan: Plan = DEFAULT_PLAN) -> Layout:
    """Lay a field out for the walk of one day.

    Parameters
    ----------
    field : Field
        Its boundary, and gate and rows where they are known.
    on : date
        The day of the walk. The quadrants are the same every day; the stops are not.
    plan : Plan
        Loops, stops and plants.

    Returns
    -------
    Layout
        The same for the same field and day.
    """
    frame = Frame.around(field.shape)
    ground = frame.to_ground(field.shape)
    quarters = _quarters(field)
    rng = dice(field.name, on)
    margin = float(load_routine().turnrow_margin)
    chosen: dict[Quadrant, list[FloatArray]] = {}
    for quadrant, part in quarters.items():
        others = [place for stops in chosen.values() for loop in stops for place in loop]
        within = ground_of(ground, frame.to_ground(part), margin)
        chosen[quadrant] = choose_stops(within, plan.split, rng, others=np.array(others))
    entry = _entry(field, frame, ground, np.vstack([chosen[q][0] for q in QUADRANTS]))
    stops: list[Stop] = []
    loops: list[Loop] = []
    for number in range(len(plan.split)):
        places = np.vstack([chosen[q][number] for q in QUADRANTS])
        names = [q for q in QUADRANTS for _ in range(plan.split[number])]
        laid = lay_loop(ground, entry, places, _rows(field), rng)
        for place in laid.order:
            at = _on_globe(frame, places[place : place + 1])[0]
            stops.append(Stop(len(stops) + 1, names[place], number + 1, plan.plants, at))
        loops.append(_loop(number + 1, laid, frame))
    return Layout(field, on, quarters, acres_of(field.shape), tuple(stops), tuple(loops))


def _quarters(field: Field) -> dict[Quadrant, MultiPolygon]:
    """Quarter a field, on the globe."""
    frame = Frame.around(field.shape, straight=True)
    parts = quarter(to_cut(field.shape, frame))
    return {quadrant: from_cut(part, frame) for quadrant, part in parts.items()}


def _entry(field: Field, frame: Frame, ground: MultiPolygon, first_stops: FloatArray) -> FloatArray:
    if field.gate is None:
        return entry_for(ground, first_stops)
    return np.asarray(frame.to_ground(Point(field.gate)).coords[0])


def _rows(field: Field) -> Rows | None:
    if field.rows is None:
        return None
    return Rows(field.rows, float(load_routine().across_rows))


def _loop(number: int, laid: Round, frame: Frame) -> Loop:
    line = _on_globe(frame, laid.line)
    line = (*line[:-1], line[0])
    metres = metres_along(line)
    return Loop(number, line, metres, metres / load_routine().walking_pace)


def _on_globe(frame: Frame, places: FloatArray) -> tuple[Place, ...]:
    line = frame.to_globe(shapely.MultiPoint(places))
    return tuple((point.x, point.y) for point in line.geoms)
