"""What one's own walks say of the numbers that stop plans are made for.

Nothing here changes a plan. A `World` of what was learnt can be put beside the worlds that
the packaged plans keep their limits in.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from quarterwalk.plan.learn_fields import FieldChance
from quarterwalk.plan.learn_insects import InsectChance
from quarterwalk.plan.learn_profile import Likeliest, likeliest, likeliest_two
from quarterwalk.plan.learn_squares import SquareChance
from quarterwalk.plan.learn_tally import (
    FieldCounts,
    SquarePlants,
    Stops,
    tally_fields,
    tally_squares,
    tally_stops,
)
from quarterwalk.plan.numbers import number
from quarterwalk.plan.worlds import ROBUST, World
from quarterwalk.reading.density import CLUMPING_SPREAD, EXPECTED_CLUMPING
from quarterwalk.walk import Walk, WalkTable

# Where the walks say little, each quantity is drawn toward what is expected of it, with a
# normal distribution. 1/k: as every reading has it. The others: what packaged plans are
# made to bear, and the spread of fields that they take; each may be off by about as much
# (a rule of this project).
EXPECTED_STOP_CV = max(world.stop_cv for world in ROBUST)
STOP_CV_SPREAD = EXPECTED_STOP_CV
EXPECTED_RHO = max(world.rho for world in ROBUST)
RHO_SPREAD = 2.0 * EXPECTED_RHO
EXPECTED_MEDIAN = number("fields", "median")
MEDIAN_LOG_SPREAD = 1.0
EXPECTED_LOG_SPREAD = number("fields", "log_spread")
LOG_SPREAD_SPREAD = 0.5

# Nothing is looked for beyond these: the root of 1/k (k 0.08), the variation of stops, the
# likeness of squares, the logarithm of the median (0.0002 to 20 a plant), its spread.
_ROOT_CLUMPING, _STOP_CV, _RHO = (0.0, 3.5), (0.0, 1.5), (0.0, 0.9)
_LOG_MEDIAN, _LOG_SPREAD = (-8.5, 3.0), (0.0, 3.0)


@dataclass(frozen=True, slots=True)
class Estimate:
    """One quantity with its 90 % interval.

    Parameters
    ----------
    value : float
        The likeliest.
    low, high : float
        Ends of the interval; for k an infinite `high` says that insects may as well lie
        at random.
    walks_used : int
        Walks that told something of it; with 0 the estimate is what was expected before. [count]
    """

    value: float
    low: float
    high: float
    walks_used: int


@dataclass(frozen=True, slots=True)
class Learned:
    """What walks say of plants, stops, squares and fields.

    Parameters
    ----------
    k : Estimate
        Clumping of insects between the plants of a stop; where no walk has stop numbers,
        between those of a quadrant. Infinite: at random. [dimensionless]
    stop_cv : Estimate
        Coefficient of variation of the factor that the plants of a stop share. [fraction]
    rho : Estimate
        Correlation of two squares of one plant, lost or healthy. [fraction]
    median : Estimate
        Half of the fields have fewer insects, on the day of a walk. [count per plant]
    log_spread : Estimate
        Standard deviation of the logarithm of that density between fields. [log]
    """

    k: Estimate
    stop_cv: Estimate
    rho: Estimate
    median: Estimate
    log_spread: Estimate

    def world(self) -> World:
        """Give the likeliest values as a world that a plan can be tried in.

        Returns
        -------
        World
        """
        return World("own walks", self.k.value, self.rho.value, self.stop_cv.value)


def learn(walks: WalkTable | Iterable[Walk]) -> Learned:
    """Learn from walks how plants, stops, squares and fields differ.

    Parameters
    ----------
    walks : WalkTable or iterable of Walk
        The walks, in any order; none will do. Insects are taken from those that counted
        terminals, squares from all.

    Returns
    -------
    Learned
        Penalised profile likelihood with 90 % intervals. Each quadrant of each walk has a
        density and a lost share of its own; one k, one likeness of stops and one of squares
        holds for all walks.
    """
    table = walks if isinstance(walks, WalkTable) else WalkTable.from_walks(walks)
    k, stop_cv = _insects(tally_stops(table))
    median, log_spread = _fields(tally_fields(table), 1.0 / k.value, stop_cv.value)
    return Learned(k, stop_cv, _squares(tally_squares(table)), median, log_spread)


def _insects(stops: Stops) -> tuple[Estimate, Estimate]:
    chance = InsectChance(stops)

    def height(root: float, stop_cv: float) -> float:
        before = _expected(root**2, EXPECTED_CLUMPING, CLUMPING_SPREAD)
        before += _expected(stop_cv, EXPECTED_STOP_CV, STOP_CV_SPREAD)
        return chance.log(root**2, stop_cv) + before

    root, stop_cv = likeliest_two(height, (_ROOT_CLUMPING, _STOP_CV))
    k = Estimate(
        _one_over(root.value**2), _one_over(root.high**2), _one_over(root.low**2),
        stops.telling_of_plants,
    )  # fmt: skip
    return k, _estimate(stop_cv, stops.telling_of_stops)


def _squares(plants: SquarePlants) -> Estimate:
    chance = SquareChance(plants) if plants.telling else None

    def height(rho: float) -> float:
        before = _expected(rho, EXPECTED_RHO, RHO_SPREAD)
        return before if chance is None else chance.log(rho) + before

    return _estimate(likeliest(height, _RHO), plants.telling)


def _fields(fields: FieldCounts, clumping: float, stop_cv: float) -> tuple[Estimate, Estimate]:
    chance = FieldChance(fields, clumping, stop_cv)

    def height(middle: float, spread: float) -> float:
        before = _expected(middle, math.log(EXPECTED_MEDIAN), MEDIAN_LOG_SPREAD)
        before += _expected(spread, EXPECTED_LOG_SPREAD, LOG_SPREAD_SPREAD)
        return chance.log(middle, spread) + before

    middle, spread = likeliest_two(height, (_LOG_MEDIAN, _LOG_SPREAD))
    walks = fields.density.size
    median = Estimate(math.exp(middle.value), math.exp(middle.low), math.exp(middle.high), walks)
    return median, _estimate(spread, walks)


def _expected(value: float, middle: float, spread: float) -> float:
    """Give the log of how much a value was expected before the walks."""
    return -0.5 * ((value - middle) / spread) ** 2


def _estimate(found: Likeliest, walks: int) -> Estimate:
    return Estimate(found.value, found.low, found.high, walks)


def _one_over(x: float) -> float:
    return 1.0 / x if x > 0 else math.inf
