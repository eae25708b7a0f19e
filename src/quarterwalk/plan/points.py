"""The true values at which a plan must keep its limits, and how far it may err there."""

from __future__ import annotations

from dataclasses import dataclass, replace

from quarterwalk.plan.numbers import load_numbers, number
from quarterwalk.plan.question import Question


@dataclass(frozen=True, slots=True)
class Point:
    """True values of a field.

    Parameters
    ----------
    density : float
        Insects per plant. [count per plant]
    share : float
        Lost share of the squares; 0 where insects decide alone. [fraction]
    clear : bool
        Whether it lies far from the lines.
    """

    density: float
    share: float
    clear: bool


@dataclass(frozen=True, slots=True)
class Criterion:
    """How far the error of a plan may lie above that of the full walk.

    Parameters
    ----------
    clear, near : float
        At clear and at near points. [percentage points]
    """

    clear: float = number("limits", "clear")
    near: float = number("limits", "near")

    def allowed(self, point: Point) -> float:
        """Give what is allowed at a point. [fraction]"""
        return (self.clear if point.clear else self.near) / 100.0


CRITERION = Criterion()
"""What shipped plans keep."""


def points_for(question: Question) -> tuple[Point, ...]:
    """Give the points of a question.

    Parameters
    ----------
    question : Question
        Its line and bar.

    Returns
    -------
    tuple of Point
        19 clear and 18 near ones; without a bar the distinct densities of them, 6 and 2.
    """
    line = float(question.line) / 100.0
    found: dict[Point, None] = {}
    for name in ("clear", "near"):
        for times, set_off in load_numbers()["points"][name]["at"]:
            share = 0.0
            if question.bar is not None:
                share = round(float(question.bar.share) - set_off, 12)
            share = min(max(share, 0.0), 1.0)
            point = Point(times * line, share, name == "clear")
            # without squares the near ones are those of densities that are not clear
            if question.bar is not None or replace(point, clear=True) not in found:
                found[point] = None
    return tuple(found)
