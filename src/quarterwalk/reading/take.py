"""From walks to readings, a thousand as easily as one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
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
from quarterwalk.walk import COUNTS, QUADRANTS, Method, PlantRows, Walk, WalkTable

_HEALTHY, _BLASTED = COUNTS.index("healthy"), COUNTS.index("blasted")
_FIRST_SQUARE_COLUMN = _HEALTHY


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
    return tuple(_readings(table))


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


def _readings(table: WalkTable) -> Iterator[Reading]:
    rows, n = table.rows, len(table)
    scouts = max(1, len(table.scouts))
    seen = ~rows.skipped
    terminals = _Part(rows, np.flatnonzero(rows.insects_looked & seen), n, scouts)
    squares = _Part(rows, np.flatnonzero(rows.squares_looked & seen), n, scouts)
    by_sweep = np.array([head.method is Method.SWEEP for head in table.heads], np.bool_)

    insects = terminals.counts[:, 0] + terminals.counts[:, 1]
    swept = rows.sweeps[terminals.index]
    per = np.where(by_sweep[terminals.walk], swept, 1)
    counted, counted_stops = terminals.sums(insects, per)
    gamma = density_odds(counted, counted_stops, terminals.use_stops)
    even = evenness_p(counted, counted_stops, terminals.use_stops)

    sites = squares.counts[:, _FIRST_SQUARE_COLUMN:].sum(axis=1)
    kept, kept_stops = squares.sums(squares.counts[:, _HEALTHY], sites)
    dead, dead_stops = squares.sums(squares.counts[:, _BLASTED], sites)
    set_beta = share_odds(kept, kept_stops, squares.use_stops)
    dead_beta = share_odds(dead, dead_stops, squares.use_stops)

    adults, nymphs = (terminals.total(terminals.counts[:, c]) for c in (0, 1))
    lost = [squares.total(squares.counts[:, _HEALTHY + c]) for c in (1, 2, 3)]
    squaring = squares.total((sites > 0).astype(np.int64))
    plan_of = [head.plan for head in table.heads]
    for i, head in enumerate(table.heads):
        quadrants = _quadrants(counted, kept, i, is_sweep=bool(by_sweep[i]))
        square_plants = sum(q.square_plants for q in quadrants)
        looked_at = sum(q.squares for q in quadrants)
        yield Reading(
            method=head.method,
            plants=sum(q.plants for q in quadrants),
            adults=int(adults[i]),
            nymphs=int(nymphs[i]),
            quadrants=quadrants,
            density=_mean_of_means(counted.a[i].tolist(), counted.b[i].tolist()),
            density_odds=_gamma(gamma, i),
            square_plants=square_plants,
            squaring_plants=int(squaring[i]),
            square_set=_share(kept, i),
            set_odds=_beta(set_beta, i),
            blasted_share=_share(dead, i),
            blasted_odds=_beta(dead_beta, i),
            losses=Losses(*(int(kind[i]) for kind in lost)),
            set_readable=_readable(looked_at, square_plants, int(squaring[i])),
            evenness_p=None if math.isnan(even[i]) else float(even[i]),
            plan=plan_of[i],
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


def _readable(squares: int, square_plants: int, squaring_plants: int) -> bool:
    """Whether there are squares enough to compare their set with a floor."""
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
