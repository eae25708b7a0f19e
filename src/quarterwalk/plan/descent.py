"""The limits of a walk with several looks: improved look by look until nothing gets better."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from quarterwalk.plan.columns import Columns
from quarterwalk.plan.course import Course
from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.look import Aims, AtLook, aims_for, room_at
from quarterwalk.plan.outcome import follow, sides
from quarterwalk.plan.plan import Row, Stopping
from quarterwalk.plan.points import CRITERION, Criterion
from quarterwalk.plan.prior import COARSE
from quarterwalk.plan.regions import Choices, Room, hold_choices, row_of, treat_choices
from quarterwalk.plan.worlds import WORLDS, World

# Errors are sums of many small chances: so much is rounding. [fraction]
ROUNDING = 1e-12

# The penalty on errors past their limits at first, and how it grows from sweep to sweep, where
# the cost of the full walk counts as 100. Found by trial: smaller ones wander, larger ones
# stick. [cost per squared fraction, times]
_PENALTY = 2e4
_RISE = 1.25

SWEEPS = 24
"""How often the looks are gone through from a fresh start. [count]"""

# In the end no error past its limit is worth any cost. [cost per fraction]
_NEVER = 1e7

# After the first sweeps limits move by so much at most. [count]
_REACH = 3


@dataclass(frozen=True, slots=True)
class Found:
    """Limits that keep all limits on errors, and their mean cost.

    Parameters
    ----------
    rows : tuple of Row
        One a look.
    cost : float
        Over the usual spread of fields; the full walk costs 100.
    """

    rows: tuple[Row, ...]
    cost: float


def descend(
    course: Course,
    stopping: Stopping,
    cost: Sequence[float],
    *,
    worlds: tuple[World, ...] = WORLDS,
    criterion: Criterion = CRITERION,
    start: Sequence[Row] | None = None,
    over: Sequence[Row] | None = None,
    sweeps: int = SWEEPS,
) -> Found:
    """Search for the limits with which a walk costs least on the usual spread of fields.

    Parameters
    ----------
    course : Course
        A walk of two stretches or more.
    stopping : Stopping
        For what it may end.
    cost : sequence of float, length stretches
        Spent by each look and by the end, such as minutes.
    worlds : tuple of World
        In which the limits on errors are kept.
    criterion : Criterion
        Those limits.
    start : sequence of Row or None
        Limits to begin with, such as those of a neighbour; None begins with a walk that
        never ends early.
    over : sequence of Row or None
        Limits of fewer squares, under which these must not lie; where none can be found so, the
        cost is infinite.
    sweeps : int
        How often the looks are gone through before the last, exact sweeps. [count]

    Returns
    -------
    Found
        Good limits, not surely the best ones: see `least_cost` for how far from them.

    Notes
    -----
    At one look the effects of single counts on cost and errors add up exactly, given what
    earlier looks let through and what later looks will say. So all limits of a look are
    compared at once; looks are gone through from the last to the first under an augmented
    Lagrangian, and at last under a penalty past which nothing pays.

    References
    ----------
    .. [1] D. P. Bertsekas, Constrained Optimization and Lagrange Multiplier Methods,
       Academic Press, 1982.
    """
    share = tuple(100.0 * each / cost[-1] for each in cost)
    aims = aims_for(course, worlds, criterion, COARSE)
    rooms = [room_at(course, look, stopping) for look in range(len(cost) - 1)]
    if over is not None:
        rooms = [room.over(row) for room, row in zip(rooms, over, strict=True)]
    search = _Search(aims, rooms, share)
    rows = list(start) if start else [Row(squares) for squares in course.squares[:-1]]
    weights, penalty = np.zeros(len(aims.sign)), _PENALTY
    best = search.judged(rows)
    whole = start is None
    for sweep in range(sweeps):
        rows = search.swept(rows, _lagrangian(weights, penalty), whole=whole and sweep < 2)
        past = search.excess(rows) - aims.allowed
        weights = np.maximum(0.0, weights + penalty * past)
        penalty *= _RISE
        best = min(best, search.judged(rows), key=lambda found: found.cost)
    for begin in (rows, list(best.rows)):
        best = min(best, search.settled(begin), key=lambda found: found.cost)
    return best


Penalty = Callable[[FloatArray], FloatArray]


def _lagrangian(weights: FloatArray, penalty: float) -> Penalty:
    def price(over: FloatArray) -> FloatArray:
        pressed = np.maximum(0.0, weights + penalty * over)
        return np.asarray(((pressed**2 - weights**2) / (2.0 * penalty)).sum(axis=-1))

    return price


def _forbidding(over: FloatArray) -> FloatArray:
    return np.asarray(_NEVER * np.maximum(0.0, over - ROUNDING).sum(axis=-1))


class _Search:
    """One walk under search."""

    def __init__(self, aims: Aims, rooms: Sequence[Room], cost: tuple[float, ...]) -> None:
        self.aims, self.rooms, self.cost = aims, rooms, cost
        self.looks = len(cost) - 1

    def swept(self, rows: Sequence[Row], price: Penalty, *, whole: bool) -> list[Row]:
        """Go through the looks once, from the last to the first."""
        rows = list(rows)
        points, fields = self._reach(self.aims.points, rows), self._reach(self.aims.fields, rows)
        treat = self.aims.points.full_ahead(self.looks - 1)
        left = np.full_like(fields[-1], self.cost[-1] - self.cost[-2])
        for look in reversed(range(self.looks)):
            at = self._at(look, rows, points, treat, np.einsum("f,fxl,fxl->xl",
                          self.aims.weight, fields[look], left))  # fmt: skip
            rows[look] = self._best(look, rows[look], at, price, whole=whole)
            if look:
                held, treated = sides(self.aims.course, rows[look])
                treat = np.where(treated, 1.0, np.where(held, 0.0, treat))
                treat = self.aims.points.back(treat, look - 1)
                left = np.where(held | treated, 0.0, left)
                step = self.cost[look] - self.cost[look - 1]
                left = step + self.aims.fields.back(left, look - 1)
        return rows

    def settled(self, rows: Sequence[Row]) -> Found:
        """Sweep under a forbidding price until nothing changes."""
        rows = list(rows)
        for _ in range(12):
            after = self.swept(rows, _forbidding, whole=False)
            if after == rows:
                break
            rows = after
        return self.judged(rows)

    def judged(self, rows: Sequence[Row]) -> Found:
        """Give the cost of limits; past a limit on errors nothing pays."""
        ends = self._ends(self.aims.fields, rows)[0]
        cost = float(self.aims.weight @ (np.array(self.cost) @ ends))
        fits = (self.excess(rows) <= self.aims.allowed + ROUNDING).all()
        return Found(tuple(rows), cost if fits else float("inf"))

    def excess(self, rows: Sequence[Row]) -> FloatArray:
        """Give the error above the full walk's at each point. [fraction]"""
        treat = self._ends(self.aims.points, rows)[1]
        return np.asarray(self.aims.sign * (treat - self.aims.full))

    def _ends(self, fields: Columns, rows: Sequence[Row]) -> tuple[FloatArray, FloatArray]:
        done = follow(fields, rows)
        return done.ends, done.says_treat

    def _reach(self, fields: Columns, rows: Sequence[Row]) -> list[FloatArray]:
        """Give the chances of the counts at each look, before it takes any away."""
        reach = [fields.first()]
        for look, row in enumerate(rows[:-1]):
            held, treated = sides(self.aims.course, row)
            reach.append(fields.onward(reach[-1] * ~(held | treated), look))
        return reach

    def _at(
        self,
        look: int,
        rows: Sequence[Row],
        reach: Sequence[FloatArray],
        treat: FloatArray,
        saved: FloatArray,
    ) -> AtLook:
        before = np.zeros(len(self.aims.sign))
        for earlier in range(look):
            before += (reach[earlier] * sides(self.aims.course, rows[earlier])[1]).sum(axis=(1, 2))
        here, sign = reach[look], self.aims.sign[:, None, None]
        base = self.aims.sign * (before + (here * treat).sum(axis=(1, 2)) - self.aims.full)
        return AtLook(
            self.rooms[look],
            base,
            -sign * here * treat,
            sign * here * (1.0 - treat),
            saved,
        )

    def _best(self, look: int, row: Row, at: AtLook, price: Penalty, *, whole: bool) -> Row:
        room = at.room if whole else at.room.around(row, _REACH)
        hold = hold_choices(room, at.hold, at.saved)
        treat = treat_choices(room, at.treat, at.saved)
        spare = at.base - self.aims.allowed
        first, second = 0, _where(treat, row.insects_high, row.lost_high)
        for _ in range(3):
            first = _cheapest(hold, spare + treat.effect[second], price)
            second = _cheapest(treat, spare + hold.effect[first], price)
        return row_of(self.aims.course.squares[look], hold.limits[first], treat.limits[second])


def _cheapest(choices: Choices, over: FloatArray, price: Penalty) -> int:
    return int(np.argmin(price(choices.effect + over) - choices.saved))


def _where(treat: Choices, insects: int | None, lost: int | None) -> int:
    if insects is None or lost is None:
        return 0
    same = (treat.limits == (insects, lost)).all(axis=1)
    return int(np.argmax(same))
