"""What one's own walks say of the plans that were found."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import dataclass

from quarterwalk.cli.chosen import chosen_walks
from quarterwalk.errors import UsageError
from quarterwalk.plan import CRITERION, Cost, Row
from quarterwalk.plan.learn import Learned, learn
from quarterwalk.plan.own_walks import Tried, try_plan


@dataclass(frozen=True, slots=True)
class TriedPlan:
    """One plan, tried in the world of one's own walks.

    Parameters
    ----------
    cost : Cost
        The plan, with the row of the usual number of squares.
    tried : Tried
        What it comes to there.
    """

    cost: Cost
    tried: Tried

    @property
    def rows(self) -> tuple[Row, ...]:
        """The plan's own limits, look by look."""
        return tuple(look.rows[self.cost.row] for look in self.cost.shelved.plan.looks)

    @property
    def stays(self) -> bool:
        """Whether its limits would stay as they are, were that world kept too.

        The search for three loops finds good limits, not the best: limits that keep the new
        world already may come out of it a little otherwise, and need not change.
        """
        return self._keeps_both or self.tried.fitted == self.rows

    @property
    def fitted(self) -> tuple[Row, ...]:
        """The limits that keep that world too, look by look."""
        return self.rows if self.stays else self.tried.fitted

    @property
    def fitted_plants(self) -> float:
        """Mean plants with those, on the usual spread of fields. [count]"""
        return self.tried.plants if self.stays else self.tried.fitted_plants

    @property
    def _keeps_both(self) -> bool:
        clear, near = self.tried.worst_clear, self.tried.worst_near
        return clear <= CRITERION.clear and near <= CRITERION.near


@dataclass(frozen=True, slots=True)
class Own:
    """What one's own walks say.

    Parameters
    ----------
    walks : int
        Walks that were read. [count]
    learned : Learned
        How their plants, stops, squares and fields differ.
    plans : tuple of TriedPlan
        The plans, in their order.
    """

    walks: int
    learned: Learned
    plans: tuple[TriedPlan, ...]


def refuse_one_stream_for_two(options: argparse.Namespace) -> None:
    """Refuse walks and boundaries that would both come from standard input.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk plan``.

    Raises
    ------
    UsageError
        If both are ``-``.
    """
    if options.walks == options.fields == "-":
        raise UsageError("only one of --walks and --fields can be - (standard input).")


def own_walks(path: str, costs: Sequence[Cost]) -> Own:
    """Read walks, and try each plan in their world.

    Parameters
    ----------
    path : str
        A walk table, or ``-`` for standard input.
    costs : sequence of Cost
        The plans that are told.

    Returns
    -------
    Own
    """
    table = chosen_walks(path).table
    learned = learn(table)
    tried = (TriedPlan(each, try_plan(each.shelved.plan, each.row, learned)) for each in costs)
    return Own(len(table.heads), learned, tuple(tried))
