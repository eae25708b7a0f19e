"""A stop plan as JSON for scripts."""

from __future__ import annotations

import math
from collections.abc import Sequence

from quarterwalk.call.figures import plain_number
from quarterwalk.cli.plan_at import Standing, Stands
from quarterwalk.cli.plan_chosen import Chosen
from quarterwalk.cli.plan_ground import Ground
from quarterwalk.cli.plan_own import Own, TriedPlan
from quarterwalk.plan import CRITERION, Cost, Look, Lost, Row, RowFigures, Shelved, clear_field
from quarterwalk.plan.learn import Estimate
from quarterwalk.walk import QUADRANTS

Json = dict[str, object]


def plan_content(
    chosen: Chosen, ground: Sequence[Ground], walk: Standing | None, own: Own | None
) -> Json:
    """Give all that ``quarterwalk plan`` tells, for ``--json``.

    Parameters
    ----------
    chosen : Chosen
        The rule, the week and the plans.
    ground : sequence of Ground
        The fields.
    walk : Standing or None
        Where a walk stands; None where no counts were given.
    own : Own or None
        What one's own walks say; None where none were given.

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
        "at": None if walk is None else _standing(walk, chosen),
        "own_walks": None if own is None else _own(own),
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


def _standing(walk: Standing, chosen: Chosen) -> Json:
    counts, asked = walk.counts, chosen.question.bar is not None
    return {
        "look": counts.look,
        "insects": counts.insects,
        "lost": counts.lost if asked else None,
        "squares": counts.squares if asked else None,
        "by_plan": [_stands(each) for each in walk.plans],
    }


def _stands(stands: Stands) -> Json:
    return {
        "hash": stands.plan.hash,
        "checked": stands.checked,
        "side": stands.side.value,
        "plants_ahead": _rounded(stands.plants),
        "settled": _rounded(stands.settled, 4),
        "minutes_ahead": [_rounded(each) for each in stands.minutes] if stands.minutes else None,
    }


def _own(own: Own) -> Json:
    learned = own.learned
    return {
        "walks": own.walks,
        "k": _estimate(learned.k),
        "stop_cv": _estimate(learned.stop_cv),
        "rho": _estimate(learned.rho),
        "median_per_100": _estimate(learned.median, 100.0),
        "log_spread": _estimate(learned.log_spread),
        "limits": {"clear": CRITERION.clear, "near": CRITERION.near},
        "tried": [_tried(each) for each in own.plans],
    }


def _estimate(estimate: Estimate, times: float = 1.0) -> Json:
    return {
        "value": _rounded(times * estimate.value, 4),
        "low": _rounded(times * estimate.low, 4),
        "high": _rounded(times * estimate.high, 4),
        "walks_used": estimate.walks_used,
    }


def _tried(plan: TriedPlan) -> Json:
    tried = plan.tried
    return {
        "hash": plan.cost.shelved.plan.hash,
        "worst_clear": _rounded(tried.worst_clear, 3),
        "worst_near": _rounded(tried.worst_near, 3),
        "plants": _rounded(tried.plants),
        "own_plants": _rounded(tried.own_plants),
        "stays": plan.stays,
        "fitted": [_row(row) for row in plan.fitted],
        "fitted_plants": _rounded(plan.fitted_plants),
    }


def _rounded(value: float | None, places: int = 2) -> float | None:
    """Round a number; null where there is none, or where it is infinite."""
    return None if value is None or math.isinf(value) else round(value, places)
