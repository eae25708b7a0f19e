"""A stop plan as JSON for scripts."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.call.figures import plain_number
from quarterwalk.cli.plan_chosen import Chosen
from quarterwalk.cli.plan_ground import Ground
from quarterwalk.plan import Cost, Look, Lost, Row, RowFigures, Shelved, clear_field
from quarterwalk.walk import QUADRANTS

Json = dict[str, object]


def plan_content(chosen: Chosen, ground: Sequence[Ground]) -> Json:
    """Give all that ``quarterwalk plan`` tells, for ``--json``.

    Parameters
    ----------
    chosen : Chosen
        The rule, the week and the plans.
    ground : sequence of Ground
        The fields.

    Returns
    -------
    dict
        As docs/commands.md has it.
    """
    used = chosen.guideline
    return {
        "guideline": {
            "name": used.name, "edition": used.edition, "hash": used.hash, "own": used.own,
        },
        "week": chosen.week,
        "question": _question(chosen),
        "stop": chosen.stopping.value,
        "squares_on": chosen.squares_on.value,
        "squares_a_plant": chosen.squares_a_plant if chosen.question.bar else None,
        "clear_field": _clear_field(chosen),
        "pace": {
            "seconds_squares": chosen.pace.seconds_with_squares,
            "seconds_insects": chosen.pace.seconds_insects,
            "metres_a_minute": chosen.pace.metres_a_minute,
        },
        "plans": [_plan(cost.shelved, cost.row) for cost in ground[0].costs],
        "fields": [_field(each) for each in ground],
    }  # fmt: skip


def _question(chosen: Chosen) -> Json:
    bar = chosen.question.bar
    by_floor = bar is not None and bar.lost is Lost.ANY
    by_blasted = bar is not None and bar.lost is Lost.BLASTED
    return {
        "line": plain_number(chosen.question.line),
        "floor": plain_number(1 - bar.share) if bar is not None and by_floor else None,
        "blasted": plain_number(bar.share) if bar is not None and by_blasted else None,
    }


def _clear_field(chosen: Chosen) -> Json:
    density, share = clear_field(chosen.question)
    return {
        "per_100": round(100 * density, 6),
        "lost_share": round(share, 6) if chosen.question.bar else None,
    }


def _plan(shelved: Shelved, row: int) -> Json:
    plan = shelved.plan
    return {
        "hash": plan.hash,
        "loops": list(plan.loops),
        "usual_row": row,
        "looks": [_look(look) for look in plan.looks],
        "figures": [_figures(each) for each in shelved.figures],
    }


def _look(look: Look) -> Json:
    return {
        "plants": look.plants,
        "a_quarter": look.plants // len(QUADRANTS),
        "rows": [_row(row) for row in look.rows],
    }


def _row(row: Row) -> Json:
    return {
        "squares": row.squares,
        "insects_low": _limit(row.insects_low),
        "lost_low": _limit(row.lost_low),
        "sum_low": _limit(row.sum_low),
        "insects_high": row.insects_high,
        "lost_high": row.lost_high,
    }


def _limit(low: int) -> int | None:
    """Write a lower limit; null where no count is few enough."""
    return None if low < 0 else low


def _figures(row: RowFigures) -> Json:
    return {
        "squares": row.squares,
        "ends": list(row.ends),
        "clear_ends": list(row.clear_ends),
        "plants": row.plants,
        "plants_spread": row.plants_spread,
        "clear_plants": row.clear_plants,
        "worst_clear": row.worst_clear,
        "worst_near": row.worst_near,
    }


def _field(ground: Ground) -> Json:
    picked = ground.picked
    return {
        "field": ground.name or None,
        "acres": round(ground.acres, 2),
        "tour_metres": round(ground.way.tour, 1),
        "full_minutes": round(ground.costs[0].full_minutes, 2),
        "costs": [_cost(cost, ground) for cost in ground.costs],
        "picked": None if picked is None else picked.shelved.plan.hash,
    }


def _cost(cost: Cost, ground: Ground) -> Json:
    plan = cost.shelved.plan
    return {
        "hash": plan.hash,
        "loop_metres": [round(each, 1) for each in ground.way.loops[plan.loops]],
        "minutes_by_look": [round(each, 2) for each in cost.by_look],
        "minutes": round(cost.minutes, 2),
        "clear_minutes": round(cost.clear_minutes, 2),
        "saves": round(cost.saves, 2),
    }
