"""What a number of plants can tell, by the same estimate that reads every walk."""

from __future__ import annotations

from datetime import date

from quarterwalk.call.figures import span
from quarterwalk.reading import take_reading
from quarterwalk.walk import QUADRANTS, InsectCount, PlantCheck, Walk

_LEVEL = 0.90
_ANY_DAY = date(2026, 7, 1)


def range_at(plants: int, per_100: int) -> str:
    """Give the range that a walk of so many plants would leave.

    Parameters
    ----------
    plants : int
        Checked, as many in each quadrant. [count]
    per_100 : int
        Insects found, evenly spread, no two on one plant. [per 100]

    Returns
    -------
    str
        Such as ``14 to 28``, at 90 %.
    """
    each = plants // len(QUADRANTS)
    every = 100 // per_100
    checks = tuple(
        PlantCheck(quadrant, plant, insects=InsectCount(int(plant % every == 0), 0))
        for quadrant in QUADRANTS
        for plant in range(1, each + 1)
    )
    ends = take_reading(Walk("any", _ANY_DAY, checks)).per_100_interval(_LEVEL)
    if ends is None:
        raise ValueError(f"plants must be 4 or more, got {plants}.")
    return span(*ends)
