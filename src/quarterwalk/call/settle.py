"""What would settle a call that is not clear: so many more plants, or nothing of the kind."""

from __future__ import annotations

import math
from collections.abc import Sequence

from quarterwalk.call.chances import CLEAR_FROM, chances_of
from quarterwalk.call.rule import Bounds
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.reading import Reading

# Plants come by the quadrant, so the answer is in fours. [count]
STEP = 4

# Past two more full walks nobody goes on; it is better to come back another day
# (this project's rule). [full walks]
MOST_WALKS = 2


def plants_to_settle(
    reading: Reading, guideline: Guideline, bounds: Sequence[Bounds]
) -> int | None:
    """Give how many more plants, or sweeps, would make the call clear if they show the same.

    Parameters
    ----------
    reading : Reading
        What the walk says so far.
    guideline : Guideline
        The region's rule.
    bounds : sequence of Bounds
        What it is judged by.

    Returns
    -------
    int or None
        Plants (sweeps of a sweep walk), a multiple of four; 0 where it is clear
        already; None where two more full walks would not do. [count]
    """
    done = reading.sweeps or reading.plants
    most = MOST_WALKS * load_routine().full_walk_plants // STEP

    def clear(steps: int) -> bool:
        times = (done + STEP * steps) / done
        chances = chances_of(reading, guideline, bounds, times=times)
        treat = chances.over if chances.treat is None else chances.treat
        return treat is not None and max(treat, 1.0 - treat) >= CLEAR_FROM

    if clear(0):
        return 0
    if not clear(most):
        return None
    unclear, enough = 0, most
    while enough - unclear > 1:
        middle = (unclear + enough) // 2
        unclear, enough = (unclear, middle) if clear(middle) else (middle, enough)
    return STEP * enough


def square_plants_to_read(reading: Reading) -> int | None:
    """Give on how many more plants squares must be counted before set can be read.

    Parameters
    ----------
    reading : Reading
        What the walk says so far.

    Returns
    -------
    int or None
        Plants; None where no plant seen so far has a first position, or where
        too few of them square for a share to mean anything. [count]
    """
    routine = load_routine()
    if (
        not reading.squares
        or reading.squaring_plants < routine.squaring_share * reading.square_plants
    ):
        return None
    lacking = max(0, routine.readable_sites - reading.squares)
    return math.ceil(lacking * reading.square_plants / reading.squares)
