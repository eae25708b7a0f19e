"""The closed sets of a walk: quadrants, ways of counting, which squares were looked at."""

from __future__ import annotations

from enum import StrEnum


class Quadrant(StrEnum):
    """One of the four equal-area parts of a field; on screens: quarter."""

    NW = "NW"
    NE = "NE"
    SW = "SW"
    SE = "SE"


class Method(StrEnum):
    """How the insects were counted; a guideline's line holds for its own method only."""

    TERMINAL = "terminal"
    WHOLE_PLANT = "whole-plant"
    BUCKET = "bucket"
    SWEEP = "sweep"


class Sites(StrEnum):
    """Which first positions of a plant were looked at for squares."""

    ALL = "all"
    TOP3 = "top3"


QUADRANTS = tuple(Quadrant)
"""The quadrants in the order in which every table and array keeps them."""
