"""From walks to readings, a thousand as easily as one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

import numpy as np

from quarterwalk.guideline import load_routine
from quarterwalk.reading.density import density_odds
from quarterwalk.reading.evenness import evenness_p
from quarterwalk.reading.odds import BetaOdds, GammaOdds
from quarterwalk.reading.reading import Losses, QuadrantReading, Reading
from quarterwalk.reading.square_set import share_odds
from quarterwalk.reading.sums import (
    BoolArray,
    ClusterSums,
    FloatArray,
    IntArray,
    cluster_sums,
)
from quarterwalk.walk import COUNTS, QUADRANTS, Method, PlantRows, Walk, WalkHead, WalkTable

_HEALTHY, _BLASTED = COUNTS.index("healthy"), COUNTS.index("blasted")


def take_reading(walk: Walk) -> Reading:
    """Say what one walk says of its field.

    Parameters
    ----------
    walk : Walk
        The walk; the order of its plants does not matter.

    Returns
    -------
    Reading
        What it says, independent of any guideline.
    """
    return take_readings(WalkTable.from_walks([walk]))[0]


def take_readings(table: WalkTable) -> tuple[Reading, ...]:
    """Say what each walk of a table says of its field.

    Parameters
    ----------
    table : WalkTable
        The walks.

    Returns
    -------
    tuple of Reading
        In the order of `WalkTable.heads`.
    """
    told = _estimates(table)
    return tuple(_reading(head, told, i) for i, head in enumerate(table.heads))


@dataclass(frozen=True)
class _Part:
    """The rows of a table in which one thing was looked at: terminals, or squares."""

    rows: PlantRows
    index: IntArray
    n_walks: int
    n_scouts: int

    @cached_property
    def walk(self) -> IntArray:
        return self.rows.walk[self.index]

    @cached_property
    def cell(self) -> IntArray:
        return self.walk * len(QUADRANTS) + self.rows.quadrant[self.index]

    @cached_property
    def counts(self) -> IntArray:
        return self.rows.counts[self.index]

    @cached_property
    def use_stops(self) -> BoolArray:
        """Walks in which every plant has a stop."""
        without = np.bincount(self.walk[self.stop == 0], minlength=self.n_walks)
        every: BoolArray = (without == 0) & (np.bincount(self.walk, minlength=self.n_walks) > 0)
        return every

    @cached_property
    def stop(self) -> IntArray:
        return self.rows.stop[self.index]

    @cached_property
    def cluster(self) -> IntArray:
        """One number for each stop; two scouts number their own stops."""
        by_scout = self.cell * self.n_scouts + self.rows.scout[self.index]
        return by_scout * (int(self.stop.max(initial=0)) + 1) + self.stop

    def sums(self, a: IntArray, b: IntArray) -> tuple[ClusterSums, ClusterSums]:
        """Add up `a` out of `b` plant by plant, and stop by stop."""
        plants = cluster_sums(a, b, self.cell, None, self.n_walks)
        if not self.use_stops.any():
            return plants, plants
        return plants, cluster_sums(a, b, self.cell, self.cluster, self.n_walks)

    def total(self, values: IntArray) -> IntArray:
        """Add up values for each walk, shape (walks,)."""
        return np.bincount(self.walk, weights=values, minlength=self.n_walks).astype(np.int64)


@dataclass(frozen=True, slots=True)
class _Estimates:
    """What was counted in every walk of a table, and what is estimated from it."""

    counted: ClusterSums
    kept: ClusterSums
    dead: ClusterSums
    gamma: tuple[FloatArray, FloatArray]
    set_beta: tuple[FloatArray, FloatArray]
    dead_beta: tuple[FloatArray, FloatArray]
    even: FloatArray
    adults: IntArray
    nymphs: IntArray
    lost: tuple[IntArray, ...]
    squaring: IntArray


def _estimates(table: WalkTable) -> _Estimates:
    """Estimate all walks at once."""
    rows, n = table.rows, len(table)
    scouts, seen = max(1, len(table.scouts)), ~rows.skipped
    terminals = _Part(rows, np.flatnonzero(rows.insects_looked & seen), n, scouts)
    squares = _Part(rows, np.flatnonzero(rows.squares_looked & seen), n, scouts)
    by_sweep = np.array([head.method is Method.SWEEP for head in table.heads], np.bool_)
    per = np.where(by_sweep[terminals.walk], rows.sweeps[terminals.index], 1)
    insects = terminals.counts[:, 0] + terminals.counts[:, 1]
    counted = (*terminals.sums(insects, per), terminals.use_stops)
    sites = squares.counts[:, _HEALTHY:].sum(axis=1)
    kept = (*squares.sums(squares.counts[:, _HEALTHY], sites), squares.use_stops)
    dead = (*squares.sums(squares.counts[:, _BLASTED], sites), squares.use_stops)
    return _Estimates(
        counted=counted[0],
        kept=kept[0],
        dead=dead[0],
        gamma=density_odds(*counted),
        set_beta=share_odds(*kept),
        dead_beta=share_odds(*dead),
        even=evenness_p(*counted),
        adults=terminals.total(terminals.counts[:, 0]),
        nymphs=terminals.total(terminals.counts[:, 1]),
        lost=tuple(squares.total(squares.counts[:, _HEALTHY + kind]) for kind in (1, 2, 3)),
        squaring=squares.total((sites > 0).astype(np.int64)),
    )


def _reading(head: WalkHead, told: _Estimates, i: int) -> Reading:
    """Put together what the estimates say of walk `i`."""
    quadrants = _quadrants(told.counted, told.kept, i, is_sweep=head.method is Method.SWEEP)
    square_plants = sum(q.square_plants for q in quadrants)
    looked_at, squaring = sum(q.squares for q in quadrants), int(told.squaring[i])
    return Reading(
        method=head.method,
        plants=sum(q.plants for q in quadrants),
        adults=int(told.adults[i]),
        nymphs=int(told.nymphs[i]),
        quadrants=quadrants,
        density=_mean_of_means(told.counted.a[i].tolist(), told.counted.b[i].tolist()),
        density_odds=_gamma(told.gamma, i),
        square_plants=square_plants,
        squaring_plants=squaring,
        square_set=_share(told.kept, i),
        set_odds=_beta(told.set_beta, i),
        blasted_share=_share(told.dead, i),
        blasted_odds=_beta(told.dead_beta, i),
        losses=Losses(*(int(kind[i]) for kind in told.lost)),
        set_readable=readable(looked_at, square_plants, squaring),
        evenness_p=None if math.isnan(told.even[i]) else float(told.even[i]),
        plan=head.plan,
    )


def _quadrants(
    counted: ClusterSums, kept: ClusterSums, walk: int, *, is_sweep: bool
) -> tuple[QuadrantReading, ...]:
    columns = (counted.rows, counted.a, counted.b, kept.rows, kept.b, kept.a)
    each = zip(QUADRANTS, *(column[walk].tolist() for column in columns), strict=True)
    return tuple(
        QuadrantReading(quadrant, plants, insects, per if is_sweep else 0, looked, sites, healthy)
        for quadrant, plants, insects, per, looked, sites, healthy in each
    )


def readable(squares: int, square_plants: int, squaring_plants: int) -> bool:
    """Tell whether there are squares enough to compare their set with a floor.

    Parameters
    ----------
    squares : int
        First positions looked at. [count]
    square_plants : int
        Plants whose squares were looked at. [count]
    squaring_plants : int
        Those of them with a first position or more. [count]

    Returns
    -------
    bool
    """
    routine = load_routine()
    enough = squares >= routine.thin_sites
    return enough and squaring_plants >= routine.squaring_share * square_plants


def _mean_of_means(a: Sequence[int], b: Sequence[int]) -> Fraction | None:
    """Mean of a/b over the quadrants that have any b, exact."""
    pairs = [(x, n) for x, n in zip(a, b, strict=True) if n]
    if not pairs:
        return None
    common = math.lcm(*(n for _, n in pairs))
    return Fraction(sum(x * (common // n) for x, n in pairs), common * len(pairs))


def _share(sums: ClusterSums, walk: int) -> Fraction | None:
    """Ratio of the quadrant-weighted means per plant, exact."""
    rows = sums.rows[walk].tolist()
    of = _mean_of_means(sums.b[walk].tolist(), rows)
    if not of:
        return None
    hit = _mean_of_means(sums.a[walk].tolist(), rows)
    return None if hit is None else hit / of


def _gamma(parameters: tuple[FloatArray, FloatArray], walk: int) -> GammaOdds | None:
    shape, rate = float(parameters[0][walk]), float(parameters[1][walk])
    return None if math.isnan(rate) else GammaOdds(shape, rate)


def _beta(parameters: tuple[FloatArray, FloatArray], walk: int) -> BetaOdds | None:
    kept, lost = float(parameters[0][walk]), float(parameters[1][walk])
    return None if math.isnan(kept) else BetaOdds(kept, lost)
