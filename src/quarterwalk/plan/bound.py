"""The least that any plan could cost: a certified bound, for plans of any shape.

It keeps the search honest and serves the method page and the benchmarks; nobody walks it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_array, eye_array, hstack, vstack

from quarterwalk.plan.course import Course
from quarterwalk.plan.laws import FloatArray, insects_law, lost_law
from quarterwalk.plan.look import aims_for
from quarterwalk.plan.one_look import only_look
from quarterwalk.plan.plan import Stopping
from quarterwalk.plan.points import CRITERION, Criterion, points_for
from quarterwalk.plan.prior import Fields, fields_for
from quarterwalk.plan.worlds import NOMINAL, WORLDS, World

# Counts past these are left out, which can only lower the bound: no point has more insects,
# and with more lost squares no end is wrong. [count]
_MOST_INSECTS, _MOST_LOST = 220, 200

# Fields that stand for fewer than this are left out, which lowers it too, but by nothing that
# can be seen: the ratios of the wildest ones can't be written as numbers. [fraction]
_RAREST = 1e-7

# Steps that spread the weights roughly, then steps of the cutting planes, and the box in
# which those look for better weights: all found by trial.
_START = 2.0
_ROUGH, _FINE = 60, 140
_RATE = 0.5
_BOX = 1.0

# Every so many steps it is seen whether both ends have met, but for so much. [count, fraction]
_TRY, _GAP = 10, 5e-4


@dataclass(frozen=True, slots=True)
class Bound:
    """Between which costs the best plan of any shape lies.

    Parameters
    ----------
    least : float
        No plan that keeps the limits costs less, in the unit of the cost.
    attained : float
        A mixture of plans that keeps them costs this.
    """

    least: float
    attained: float


def most_ends(
    course: Course,
    stopping: Stopping,
    *,
    worlds: tuple[World, ...] = WORLDS,
    criterion: Criterion = CRITERION,
) -> float:
    """Give the most walks in two loops that any plan could end after the first.

    Parameters
    ----------
    course : Course
        A walk of two stretches.
    stopping : Stopping
        For what it may end.
    worlds : tuple of World
        In which the limits on errors are kept.
    criterion : Criterion
        Those limits.

    Returns
    -------
    float
        Over the usual spread of fields; exact for plans of any shape, also those that leave
        some counts to a coin. [fraction]

    Notes
    -----
    Each count ends the walk or not: a linear programme, with one limit for each point.
    """
    aims = aims_for(course, worlds, criterion)
    at = only_look(aims, stopping)
    points, cells = len(aims.sign), at.saved.size
    saved = at.saved.ravel()
    effect: Any = csr_array(at.hold.reshape(points, cells))
    limits: FloatArray = aims.allowed
    if stopping is Stopping.EITHER_WAY:
        effect = hstack([effect, csr_array(at.treat.reshape(points, cells))])
        once: Any = eye_array(cells)
        effect = vstack([effect, hstack([once, once])])
        saved, limits = np.tile(saved, 2), np.concatenate([limits, np.ones(cells)])
    done: Any = linprog(-saved, A_ub=effect, b_ub=limits, bounds=(0, 1), method="highs")
    return -float(done.fun)


def least_cost(
    course: Course,
    stopping: Stopping,
    cost: Sequence[float],
    *,
    criterion: Criterion = CRITERION,
) -> Bound:
    """Give the least mean cost with which any plan keeps the limits in the nominal world.

    Parameters
    ----------
    course : Course
        The walk, with any number of looks.
    stopping : Stopping
        For what it may end.
    cost : sequence of float, length stretches
        Spent by each look and by the end.
    criterion : Criterion
        The limits on errors.

    Returns
    -------
    Bound
        Over the usual spread of fields.

    Notes
    -----
    For any weights on the errors, backward induction gives the plan with the least of cost and
    weighted errors; that least, less the weighted limits, is a lower bound. In the nominal
    world the chance of a path hangs on its end point alone, so all fields share one set of
    transitions and differ by a ratio. Weights are improved by cutting planes; the plans met on
    the way, mixed by a linear programme, attain the upper value.

    References
    ----------
    .. [1] J. E. Kelley, "The cutting-plane method for solving convex programs," J. Soc.
       Indust. Appl. Math., vol. 8, pp. 703-712, 1960.
    """
    walk = _Walk(course, stopping, tuple(cost), criterion)
    weights = np.full(len(walk.allowed), _START * cost[-1])
    plans: list[_Met] = []
    best, best_weights = -np.inf, weights
    for step in range(_ROUGH + _FINE):
        met = walk.best_plan(weights)
        plans.append(met)
        value = met.value - float(weights @ walk.allowed)
        if value > best:
            best, best_weights = value, weights
        if step < _ROUGH:
            rate = _RATE / (1.0 + step / 20.0)
            past = (met.errors - walk.allowed) / walk.limits
            weights = weights * np.exp(rate * np.clip(past, -1.0, 2.0))
        else:
            shrink = 0.97 ** (step - _ROUGH)
            weights = _cut(plans, walk.allowed, best_weights, _BOX * shrink)
            if step % _TRY == 0 and _mixed(plans, walk.allowed) < best * (1.0 + _GAP):
                break
    return Bound(best, _mixed(plans, walk.allowed))


@dataclass(frozen=True)
class _Met:
    """A plan met on the way: what it is worth, costs and errs."""

    value: float
    cost: float
    errors: FloatArray


def _cut(plans: Sequence[_Met], allowed: FloatArray, middle: FloatArray, box: float) -> FloatArray:
    """Give the weights that look best by all plans met so far, near the best ones known."""
    count = len(allowed)
    rows = np.array([np.append(-(met.errors - allowed), 1.0) for met in plans])
    costs = np.array([met.cost for met in plans])
    width = box * np.maximum(middle, middle.max() / 50.0)
    low, high = np.maximum(0.0, middle - width), middle + width
    bounds = [*zip(low, high, strict=True), (None, None)]
    done: Any = linprog(np.append(np.zeros(count), -1.0), A_ub=rows, b_ub=costs, bounds=bounds)
    return np.asarray(done.x[:count])


def _mixed(plans: Sequence[_Met], allowed: FloatArray) -> float:
    """Give the cost of the cheapest mixture of plans that keeps the limits."""
    done: Any = linprog(
        [met.cost for met in plans],
        A_ub=np.array([met.errors for met in plans]).T,
        b_ub=allowed,
        A_eq=np.ones((1, len(plans))),
        b_eq=[1.0],
        bounds=(0, None),
    )
    return float(done.fun) if done.status == 0 else float("inf")


class _Walk:
    """A walk in the nominal world, all fields by their ratio to one on both lines."""

    def __init__(
        self, course: Course, stopping: Stopping, cost: tuple[float, ...], criterion: Criterion
    ) -> None:
        self.course, self.stopping, self.cost = course, stopping, cost
        bar, question = course.question.bar, course.question
        self.at = (float(question.line) / 100.0, 0.0 if bar is None else float(bar.share))
        points, spread = points_for(question), _common(fields_for(question))
        density = np.array([point.density for point in points])
        share = np.array([point.share for point in points])
        self.treat = np.array([question.treat(d, s) for d, s in zip(density, share, strict=True)])
        self.insects = np.arange(_MOST_INSECTS)
        self.lost = np.arange(_MOST_LOST if bar is not None else 1)
        looks = range(len(course.stretches))
        self.ratios = [self._ratios(look, density, share) for look in looks]
        self.seen = [self._mean_ratio(look, spread) for look in looks]
        self.limits = np.array([criterion.allowed(point) for point in points])
        self.allowed = self._errors_of_full() + self.limits
        self.steps = [self._laws(look) for look in looks]
        self.moves = [tuple(_shift(law) for law in laws) for laws in self.steps]

    def best_plan(self, weights: FloatArray) -> _Met:
        """Give the plan with the least of cost and weighted errors."""
        last = len(self.course.stretches) - 1
        hold, treat = self._losses(last, weights)
        says = self._rule()
        value = np.where(says, treat, hold)
        held, treated = [], []
        for look in reversed(range(last)):
            insects, lost = self.moves[look + 1]
            step = self.cost[look + 1] - self.cost[look]
            on = step * self.seen[look] + insects @ value @ lost.T
            hold, treat = self._losses(look, weights)
            if self.stopping is Stopping.HOLD_ONLY:
                treat = np.full_like(treat, np.inf)
            value = np.minimum(np.minimum(hold, treat), on)
            held.append((hold <= on) & (hold <= treat))
            treated.append((treat < hold) & (treat <= on))
        worth = self.cost[0] + float(np.einsum("x,xl,l", self.steps[0][0], value, self.steps[0][1]))
        cost, errors = self._followed(held[::-1], treated[::-1])
        return _Met(worth, cost, errors)

    def _followed(
        self, held: list[np.ndarray], treated: list[np.ndarray]
    ) -> tuple[float, FloatArray]:
        reach = np.outer(*self.steps[0])
        cost, says_treat = self.cost[0], np.zeros(len(self.treat))
        says_hold = np.zeros(len(self.treat))
        for look, (hold, treat) in enumerate(zip(held, treated, strict=True)):
            says_treat += self._weighed(look, reach * treat)
            says_hold += self._weighed(look, reach * hold)
            insects, lost = self.moves[look + 1]
            reach = reach * ~(hold | treat)
            step = self.cost[look + 1] - self.cost[look]
            cost += step * float((reach * self.seen[look]).sum())
            reach = insects.T @ reach @ lost
        last = len(held)
        says_treat += self._weighed(last, reach * self._rule())
        says_hold += self._weighed(last, reach * ~self._rule())
        return cost, np.where(self.treat, says_hold, says_treat)

    def _weighed(self, look: int, reach: FloatArray) -> FloatArray:
        insects, lost = self.ratios[look]
        return np.asarray(np.einsum("cx,xl,cl->c", insects, reach, lost, optimize=True))

    def _losses(self, look: int, weights: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Give the weighted errors of ending at each count, not to treat and to treat."""
        insects, lost = self.ratios[look]
        hold = (insects.T * (weights * self.treat)) @ lost
        treat = (insects.T * (weights * ~self.treat)) @ lost
        return hold, treat

    def _rule(self) -> np.ndarray:
        over = self.insects >= self.course.treat_insects
        return over[:, None] & (self.lost >= self.course.treat_lost)[None, :]

    def _laws(self, look: int) -> tuple[FloatArray, FloatArray]:
        part, (density, share) = self.course.stretches[look], self.at
        insects = insects_law(NOMINAL, density, part.stops, len(self.insects))
        lost = lost_law(NOMINAL, share, part.square_plants, part.squares, len(self.lost))
        return insects[:-1], lost[:-1]

    def _ratios(
        self, look: int, density: FloatArray, share: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        plants, squares = self.course.plants[look], self.course.squares[look]
        k, (at, lost_at) = NOMINAL.k, self.at
        each = np.log((density / (density + k)) / (at / (at + k)))
        none = plants * k * np.log((k + at) / (k + density))
        insects = np.exp(each[:, None] * self.insects + none[:, None])
        if self.course.question.bar is None:
            return insects, np.ones((len(share), 1))
        share = np.clip(share, 1e-12, 1.0 - 1e-12)
        gone, kept = np.log(share / lost_at), np.log((1.0 - share) / (1.0 - lost_at))
        left = squares - self.lost
        lost = np.exp(gone[:, None] * self.lost + kept[:, None] * np.maximum(left, 0))
        return insects, np.where(left >= 0, lost, 0.0)

    def _mean_ratio(self, look: int, spread: Fields) -> FloatArray:
        insects, lost = self._ratios(look, spread.density, spread.share)
        return np.asarray((insects.T * spread.weight) @ lost)

    def _errors_of_full(self) -> FloatArray:
        aims = aims_for(self.course, (NOMINAL,), CRITERION)
        return np.where(self.treat, 1.0 - aims.full, aims.full)


def _common(spread: Fields) -> Fields:
    often = spread.weight > _RAREST
    return Fields(spread.density[often], spread.share[often], spread.weight[often])


def _shift(law: FloatArray) -> FloatArray:
    """Give the transitions by a stretch; what goes past the last count is left out."""
    moves = np.zeros((law.size, law.size))
    for start in range(law.size):
        moves[start, start:] = law[: law.size - start]
    return moves
