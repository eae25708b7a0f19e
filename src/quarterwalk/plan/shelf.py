"""The stop plans that come with the package, and where each is found."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from quarterwalk.plan.figures import RowFigures
from quarterwalk.plan.plan import (
    LEAST_DIGITS,
    Plan,
    SquaresOn,
    Stopping,
    plan_from_json,
    plan_json,
)
from quarterwalk.plan.question import Question

Json = dict[str, object]


@dataclass(frozen=True, slots=True)
class Shelved:
    """A stop plan with what it comes to.

    Parameters
    ----------
    plan : Plan
        The plan.
    figures : tuple of RowFigures
        One for each row of its looks.
    """

    plan: Plan
    figures: tuple[RowFigures, ...]


@cache
def shelved_plans() -> tuple[Shelved, ...]:
    """Give all plans of the package.

    Returns
    -------
    tuple of Shelved
        In the order of their lines, bars and designs.
    """
    text = (files("quarterwalk.plan") / "shelf.json").read_text(encoding="utf-8")
    return tuple(shelved_from_json(each) for each in json.loads(text))


def shelved_for(
    question: Question | None, stopping: Stopping, squares_on: SquaresOn
) -> tuple[Shelved, ...]:
    """Give the plans that answer a question in one manner.

    Parameters
    ----------
    question : Question or None
        What they must answer; None has no plans.
    stopping : Stopping
        For what the walk may end early.
    squares_on : SquaresOn
        On which plants squares are counted; where the question has no bar it does not matter.

    Returns
    -------
    tuple of Shelved
        One for each design of loops, the fewest loops first; empty where the package has none.
    """
    if question is not None and question.bar is None:
        squares_on = SquaresOn.NONE
    return tuple(
        each
        for each in shelved_plans()
        if each.plan.question == question
        and each.plan.stopping is stopping
        and each.plan.squares_on is squares_on
    )


def shelved_named(name: str) -> Shelved | None:
    """Find a plan of the package by its hash, or by 8 or more of the first digits of it.

    Parameters
    ----------
    name : str
        As a walk has it.

    Returns
    -------
    Shelved or None
        None where the package has none of that name.
    """
    given = name.strip().lower()
    if len(given) < LEAST_DIGITS:
        return None
    return next((each for full, each in _by_hash().items() if full.startswith(given)), None)


@cache
def _by_hash() -> dict[str, Shelved]:
    """Give the plans by their hashes, each worked out once."""
    return {each.plan.hash: each for each in shelved_plans()}


def shelved_json(shelved: Shelved) -> Json:
    """Write a plan and its figures as JSON.

    Parameters
    ----------
    shelved : Shelved
        The plan.

    Returns
    -------
    dict
        Figures are rounded to what can be told from them.
    """
    return {
        "plan": plan_json(shelved.plan),
        "figures": [_figures_json(row) for row in shelved.figures],
    }


def shelved_from_json(content: dict[str, Any]) -> Shelved:
    """Read what `shelved_json` wrote.

    Parameters
    ----------
    content : dict
        The JSON.

    Returns
    -------
    Shelved
        The plan and its figures.

    Raises
    ------
    KeyError, TypeError, ValueError
        If something lacks or is not what it should be.
    """
    figures = tuple(
        RowFigures(**{**row, "ends": tuple(row["ends"]), "clear_ends": tuple(row["clear_ends"])})
        for row in content["figures"]
    )
    return Shelved(plan_from_json(content["plan"]), figures)


def _figures_json(row: RowFigures) -> Json:
    return {
        "squares": row.squares,
        "ends": [round(each, 4) for each in row.ends],
        "clear_ends": [round(each, 4) for each in row.clear_ends],
        "plants": round(row.plants, 2),
        "plants_spread": round(row.plants_spread, 2),
        "clear_plants": round(row.clear_plants, 2),
        "worst_clear": round(row.worst_clear, 3),
        "worst_near": round(row.worst_near, 3),
    }
