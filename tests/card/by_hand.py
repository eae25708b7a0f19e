"""The published numbers written out by hand, and sides worked out from them alone.

Nothing here comes from the package: the lines, the floors, the shares and the table of
verdicts are typed in from what is published and from the page on the call.
"""

from __future__ import annotations

from fractions import Fraction

LINES = {
    "southern-high-plains": 25, "mid-coast": 15, "upper-coast": 15, "coastal-bend": 10,
    "blacklands": 10, "oklahoma": 30, "kansas": 25,
}  # fmt: skip
FLOORS = {"southern-high-plains": {1: "0.9", 2: "0.85", 3: "0.75"}}
BLASTED = {"kansas": ("0.1", "0.15")}
THIN = 50

VERDICTS = {
    "over": {"not-asked": "treat", "not-readable": "look-sooner", "fine": "look-sooner",
             "under": "treat", "well-under": "treat"},
    "near": {"not-asked": "look-sooner", "not-readable": "look-sooner", "fine": "look-sooner",
             "under": "look-sooner", "well-under": "look-sooner"},
    "middle": {"not-asked": "hold", "not-readable": "hold", "fine": "hold",
               "under": "look-sooner", "well-under": "look-sooner"},
    "few": {"not-asked": "hold", "not-readable": "hold", "fine": "hold", "under": "hold",
            "well-under": "look-sooner"},
}  # fmt: skip


def insect_side(line: int | str, plants: int, insects: int) -> str:
    """Compare a count with a line, two thirds and a third of it, exactly."""
    per_100, limit = Fraction(100 * insects, plants), Fraction(line)
    if per_100 >= limit:
        return "over"
    if per_100 >= limit * 2 / 3:
        return "near"
    return "middle" if per_100 >= limit / 3 else "few"


def set_side(floor: str, squares: int, lost: int) -> str:
    """Compare a square set with a floor, and with five of 100 under it, exactly."""
    if squares < THIN:
        return "not-readable"
    healthy = Fraction(squares - lost, squares)
    if healthy < Fraction(floor) - Fraction(5, 100):
        return "well-under"
    return "under" if healthy < Fraction(floor) else "fine"


def blasted_side(at_least: str, well_over: str, squares: int, blasted: int) -> str:
    """Compare a blasted share with what is asked for, exactly."""
    if squares < THIN:
        return "not-readable"
    share = Fraction(blasted, squares)
    if share > Fraction(well_over):
        return "well-under"
    return "under" if share >= Fraction(at_least) else "fine"
