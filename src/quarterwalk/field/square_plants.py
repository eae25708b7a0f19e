"""On which plants squares are counted, stop by stop."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from quarterwalk.field.layout import Stop
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.walk import Quadrant

# The squaring week in which plants have few squares still, but more than one. [from 1]
SECOND = 2


def square_plants(
    stops: Iterable[Stop], guideline: Guideline | None, week: int | None
) -> dict[int, int]:
    """Say on how many plants of each stop squares are counted; they are its first ones.

    Parameters
    ----------
    stops : iterable of Stop
        In the order of walking.
    guideline : Guideline or None
        The rule that the walk will be judged by, where it is known.
    week : int or None
        Squaring week, the first is 1; None where it is not known. [count]

    Returns
    -------
    dict of int to int
        Plants by the stop's number. [count]

    Notes
    -----
    The plants with squares lie in the first loop as far as they go there, so that a walk
    which ends after it has its squares.
    """
    if guideline is not None and not guideline.reads_squares:
        return {stop.number: 0 for stop in stops}
    if week is None or week == 1:
        return {stop.number: stop.plants for stop in stops}
    routine = load_routine()
    groups: dict[Quadrant, dict[int, list[Stop]]] = defaultdict(lambda: defaultdict(list))
    for stop in stops:
        groups[stop.quadrant][stop.loop].append(stop)
    counted: dict[int, int] = {}
    for loops in groups.values():
        left = routine.square_plants_week_2 if week == SECOND else routine.square_plants_later
        for loop in sorted(loops):
            share = _spread(left, [stop.plants for stop in loops[loop]])
            counted |= {s.number: n for s, n in zip(loops[loop], share, strict=True)}
            left -= sum(share)
    return counted


def _spread(number: int, room: Sequence[int]) -> list[int]:
    """Share a number out as evenly as the room allows, the earlier ones first."""
    share = [0] * len(room)
    for _ in range(min(number, sum(room))):
        least = min(n for n, most in zip(share, room, strict=True) if n < most)
        place = next(i for i, n in enumerate(share) if n == least and n < room[i])
        share[place] += 1
    return share
