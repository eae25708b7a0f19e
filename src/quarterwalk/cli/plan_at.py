"""Where a walk stands at a look: end it or go on, and what lies ahead of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quarterwalk.cli.plan_chosen import Chosen
from quarterwalk.cli.plan_ground import Ground
from quarterwalk.errors import UsageError
from quarterwalk.guideline import load_routine
from quarterwalk.plan import Ahead, Look, Plan, Side, ahead, expected_minutes
from quarterwalk.walk import QUADRANTS


@dataclass(frozen=True, slots=True)
class Counts:
    """What a walk has counted by a look.

    Parameters
    ----------
    look : int
        Which look; 1 is the end of the first loop.
    insects, lost, squares : int
        So far; lost (or blasted) squares and squares checked are 0 where they are not
        asked for. [count]
    """

    look: int
    insects: int
    lost: int = 0
    squares: int = 0


@dataclass(frozen=True, slots=True)
class Stands:
    """Where a walk by one plan stands.

    Parameters
    ----------
    plan : Plan
        The plan.
    checked : int
        Plants checked by this look. [count]
    least_squares : int
        The fewest squares for which the plan has limits at this look. [count]
    side : Side
        What the counts say.
    plants : float or None
        Mean plants still ahead; 0 where the walk ends, None where it goes on and the plan
        has no row to say it by. [count]
    minutes : tuple of float or None
        Mean minutes still ahead, field by field; None as for the plants. [minutes]
    settled : float or None
        Chance that the next look ends the walk; None where it ends here, where what comes
        next is the full walk, or as for the plants. [fraction]
    """

    plan: Plan
    checked: int
    least_squares: int
    side: Side
    plants: float | None
    minutes: tuple[float, ...] | None
    settled: float | None


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a walk stands by every plan that has the look.

    Parameters
    ----------
    counts : Counts
        Of the walk.
    plans : tuple of Stands
        In the order of the plans.
    """

    counts: Counts
    plans: tuple[Stands, ...]


def chosen_counts(given: Sequence[int], chosen: Chosen) -> Counts:
    """Take the counts of ``--at``, if they are those that the rule and the plans ask for.

    Parameters
    ----------
    given : sequence of int
        Look, insects, and where squares were given lost ones and all checked. [count]
    chosen : Chosen
        The rule and the plans.

    Returns
    -------
    Counts

    Raises
    ------
    UsageError
        If squares lack, or are not asked for, or no plan has such a look.
    """
    counts = Counts(*given)
    name, has_squares = chosen.guideline.name, len(given) > 2
    if chosen.question.bar is not None and not has_squares:
        raise UsageError(
            f"--at must have squares for {name}: LOOK,INSECTS,LOST,SQUARES, such as 1,6,17,118."
        )
    if chosen.question.bar is None and has_squares:
        raise UsageError(f"--at must be LOOK,INSECTS: {name} asks for no squares.")
    most = max(len(each.plan.looks) for each in chosen.plans)
    if counts.look > most:
        looks = "1, the only look" if most == 1 else f"from 1 to {most}"
        raise UsageError(f"--at must name a look of the plans, {looks}, got {counts.look}.")
    return counts


def standing(counts: Counts, ground: Sequence[Ground]) -> Standing:
    """Say where a walk stands by each plan that has the look.

    Parameters
    ----------
    counts : Counts
        Of the walk.
    ground : sequence of Ground
        The fields.

    Returns
    -------
    Standing
    """
    plans = (
        _stands(counts, [each.costs[number].by_look for each in ground], cost.shelved.plan)
        for number, cost in enumerate(ground[0].costs)
        if counts.look <= len(cost.shelved.plan.looks)
    )
    return Standing(counts, tuple(plans))


def _stands(counts: Counts, by_look: Sequence[Sequence[float]], plan: Plan) -> Stands:
    at = counts.look - 1
    look, last = plan.looks[at], at + 1 == len(plan.looks)
    side = look.side(counts.insects, counts.lost, counts.squares)
    plants: float | None = None
    minutes: tuple[float, ...] | None = None
    settled: float | None = None
    row = _row_that_goes_on(look, counts)
    if side is not Side.GO_ON:
        plants, minutes = 0.0, tuple(0.0 for _ in by_look)
    elif last:
        # the rest of the full walk, whatever was counted
        plants = float(_full_walk(plan) - look.plants)
        minutes = tuple(spent[-1] - spent[at] for spent in by_look)
    elif row is not None:
        table = ahead(plan, row, at)
        cell = _cell(table, counts)
        plants, settled = float(table.plants[cell]), float(table.settled[cell])
        minutes = tuple(float(expected_minutes(table, each, at)[cell]) for each in by_look)
    return Stands(plan, look.plants, look.rows[0].squares, side, plants, minutes, settled)


def _row_that_goes_on(look: Look, counts: Counts) -> int | None:
    """Give the row whose means are told: that with squares not above those checked.

    Limits between rows lie between those of both; where the counts end by the one row and go
    on by the other, that other one.
    """
    below = [n for n, row in enumerate(look.rows) if row.squares <= counts.squares]
    if not below:
        return None
    insects, lost = counts.insects, counts.lost
    for number in range(below[-1], min(below[-1] + 2, len(look.rows))):
        row = look.rows[number]
        if not row.holds(insects, lost) and not row.treats(insects, lost):
            return number
    return None


def _cell(table: Ahead, counts: Counts) -> tuple[int, int]:
    """Find the counts in a table whose last row and column stand for all beyond."""
    most_insects, most_lost = (size - 1 for size in table.plants.shape)
    return min(counts.insects, most_insects), min(counts.lost, most_lost)


def _full_walk(plan: Plan) -> int:
    return len(QUADRANTS) * sum(plan.loops) * load_routine().plants_a_stop
