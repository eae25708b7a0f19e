"""How often the ranges of a reading hold the truth, in invented fields of known truth.

Prints plain text tables: the ranges of `quarterwalk.reading` beside the textbook
ones. The same seed prints the same tables. Run `coverage.py --quick` for a look.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.random import Generator
from scipy.special import betainc, gammainc

from quarterwalk.reading.density import density_odds
from quarterwalk.reading.evenness import evenness_p
from quarterwalk.reading.square_set import share_odds
from quarterwalk.reading.sums import BoolArray, ClusterSums, FloatArray, IntArray, cluster_sums
from quarterwalk.reading.textbook import clopper_pearson, garwood, wilson

LEVEL = 0.90
PLANTS_A_STOP = 5

# Invented fields: assumptions that span what small bugs on cotton plausibly do. [per plant]
# 0.0415 to 0.0427 and 0.0585 to 0.063 are where coverage dips with 100 and with 40 plants.
LOW = (0.03, 0.035, 0.0415, 0.0427, 0.05, 0.0585, 0.061, 0.063, 0.08)
DENSITIES = (*LOW, 0.1, 0.15, 0.2, 0.25, 0.3, 0.5, 0.7, 1.0)
LOWEST = (0.02,)
CLUMPINGS = (0.3, 0.5, 1.0, 2.0, np.inf)
PATCHINESS = (0.0, 0.6)
STOP_CVS = (0.0, 0.3, 0.5)
LAYOUTS = ((25, 25, 25, 25), (10, 10, 10, 10), (25, 25, 25, 5))
SHARES = (0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 0.97)
BLASTED = (0.02, 0.05, 0.1, 0.2)
LIKENESS = (0.0, 0.1, 0.3)
SQUARES = ((1, False), (3, False), (3, True), (5, False), (5, True))
QUADRANT_SDS = (0.0, 0.5)
STOP_LIKENESS = (0.0, 0.05, 0.1)


@dataclass(frozen=True, slots=True)
class Sample:
    """Many walks of one kind of field: their sums and the truth of each."""

    plants: ClusterSums
    stops: ClusterSums
    truth: FloatArray


Hold = Callable[[Sample], BoolArray]


def main() -> None:
    """Print the coverage tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--reps", type=int, default=2500, help="walks of each kind of field")
    parser.add_argument("--seed", type=int, default=20260618, help="start of the random numbers")
    parser.add_argument("--quick", action="store_true", help="400 walks of each kind")
    options = parser.parse_args()
    reps = 400 if options.quick else options.reps
    rng = np.random.default_rng(options.seed)
    error = np.sqrt(LEVEL * (1.0 - LEVEL) / reps)
    print(f"Coverage of {LEVEL:.0%} ranges, {reps} walks of each kind of field.")
    print(f"Monte Carlo standard error of one kind {error:.4f}; a minimum over many kinds of")
    print(f"field is drawn low by about {2.5 * error:.3f}.\n")
    print_density(rng, reps)
    print_stop_density(rng, reps)
    print_shares(rng, reps)
    print_stop_shares(rng, reps)
    print_evenness(rng, reps)


def print_density(rng: Generator, reps: int) -> None:
    """Print how often the ranges of insects per plant hold."""
    _head("INSECTS PER PLANT, plant form", "Garwood")
    for layout, (name, levels) in product(LAYOUTS, (("0.03 to 1.0", DENSITIES), ("0.02", LOWEST))):
        kinds = [
            insects(rng, reps, layout, density, k, patchy, 0.0)
            for density, k, patchy in product(levels, CLUMPINGS, PATCHINESS)
        ]
        _row(f"{_named(layout)}, {name}", kinds, gamma_holds(stops=False), garwood_holds)
    print()


def print_stop_density(rng: Generator, reps: int) -> None:
    """Print the same where plants of one stop resemble each other."""
    _head("INSECTS, STOPS ALIKE, stop form", "plant form")
    for layout, cv in product(LAYOUTS[:2], STOP_CVS):
        kinds = [
            insects(rng, reps, layout, density, k, patchy, cv)
            for density, k, patchy in product(
                (0.03, 0.06, 0.12, 0.25, 0.5, 1.0), (0.5, 1.0, np.inf), PATCHINESS
            )
        ]
        name = f"{_named(layout)}, stop CV {cv}"
        _row(name, kinds, gamma_holds(stops=True), gamma_holds(stops=False))
    print()


def print_shares(rng: Generator, reps: int) -> None:
    """Print how often the ranges of square set and blasted share hold."""
    for title, shares in (("SQUARE SET .60 to .97", SHARES), ("BLASTED SHARE .02 to .20", BLASTED)):
        _head(title, "Wilson", "Clopper")
        for layout in LAYOUTS:
            kinds = [
                squares(rng, reps, layout, share, rho, number, sd, 0.0)
                for share, rho, number, sd in product(shares, LIKENESS, SQUARES, QUADRANT_SDS)
            ]
            ours = beta_holds(stops=False)
            _row(_named(layout), kinds, ours, share_holds(wilson), share_holds(clopper_pearson))
        print()


def print_stop_shares(rng: Generator, reps: int) -> None:
    """Print the same where plants of one stop resemble each other."""
    _head("SQUARE SET, STOPS ALIKE, stop form", "plant form")
    for layout, alike in product(LAYOUTS[:2], STOP_LIKENESS):
        kinds = [
            squares(rng, reps, layout, share, rho, (3, True), 0.5, alike)
            for share, rho in product((0.6, 0.75, 0.85, 0.95), (0.0, 0.1))
        ]
        name = f"{_named(layout)}, stop rho {alike}"
        _row(name, kinds, beta_holds(stops=True), beta_holds(stops=False))
    print()


def print_evenness(rng: Generator, reps: int) -> None:
    """Print how often even fields are called uneven at 0.05, and how often a hot one is."""
    print("EVENNESS: share of walks with p at or under 0.05; k as named, field even")
    print(f"{'':<28}k .3    .5     1      2     inf   | one quarter x3, x5 (k 1)")
    for layout, density in product(LAYOUTS, (0.1, 0.25, 1.0)):
        even = [
            np.mean(_p(insects(rng, reps, layout, density, k, 0.0, 0.0)) <= 0.05) for k in CLUMPINGS
        ]
        hot = [
            np.mean(_p(insects(rng, reps, layout, density, 1.0, 0.0, 0.0, hot=times)) <= 0.05)
            for times in (3.0, 5.0)
        ]
        left = "  ".join(f"{size:.3f}" for size in even)
        print(
            f"{_named(layout) + f', {density}':<28}{left}  |  " + "  ".join(f"{p:.2f}" for p in hot)
        )


def insects(
    rng: Generator,
    reps: int,
    layout: tuple[int, ...],
    density: float,
    k: float,
    patchy: float,
    stop_cv: float,
    hot: float = 1.0,
) -> Sample:
    """Draw insect counts: quadrants, stops and plants each with a gamma factor of their own."""
    cells, stop = _plan(layout)
    quadrant = np.full((reps, 4), density) * _gamma(rng, (reps, 4), patchy)
    quadrant *= np.where(np.arange(4) == 0, hot, 1.0) * 4.0 / (3.0 + hot)
    expected = quadrant[:, cells] * _gamma(rng, (reps, stop[-1] + 1), stop_cv)[:, stop]
    counts = rng.poisson(expected * _gamma(rng, expected.shape, 1.0 / np.sqrt(k)))
    return _sample(counts, np.ones_like(counts), cells, stop, quadrant.mean(axis=1))


def squares(
    rng: Generator,
    reps: int,
    layout: tuple[int, ...],
    share: float,
    rho: float,
    number: tuple[int, bool],
    quadrant_sd: float,
    stop_rho: float,
) -> Sample:
    """Draw squares: quadrants differ on the logit scale, stops and plants by beta laws."""
    cells, stop = _plan(layout)
    logit = np.log(share / (1.0 - share)) + quadrant_sd * rng.standard_normal((reps, 4))
    quadrant = 1.0 / (1.0 + np.exp(-logit))
    first = np.unique(stop, return_index=True)[1]
    chance = _beta(rng, quadrant[:, cells[first]], stop_rho)[:, stop]
    chance = _beta(rng, chance, rho)
    mean, varies = number
    seen = 1 + rng.poisson(mean - 1, chance.shape) if varies else np.full(chance.shape, mean)
    return _sample(rng.binomial(seen, chance), seen, cells, stop, quadrant.mean(axis=1))


def gamma_holds(*, stops: bool) -> Hold:
    """Tell whether the range of insects per plant holds, by plants or by stops."""

    def holds(sample: Sample) -> BoolArray:
        use = np.full(sample.truth.size, stops)
        shape, rate = density_odds(sample.plants, sample.stops, use)
        return _inside(gammainc(shape, rate * sample.truth))

    return holds


def beta_holds(*, stops: bool) -> Hold:
    """Tell whether the range of a share holds, by plants or by stops."""

    def holds(sample: Sample) -> BoolArray:
        use = np.full(sample.truth.size, stops)
        kept, lost = share_odds(sample.plants, sample.stops, use)
        return _inside(betainc(kept, lost, sample.truth))

    return holds


def garwood_holds(sample: Sample) -> BoolArray:
    """Tell whether the textbook Poisson range holds, on the plain total."""
    low, high = garwood(sample.plants.a.sum(axis=1), level=LEVEL)
    expected = sample.truth * sample.plants.b.sum(axis=1)
    return (low <= expected) & (expected <= high)


def share_holds(textbook: Callable[..., tuple[FloatArray, FloatArray]]) -> Hold:
    """Tell whether a textbook range of a share holds, on the plain totals."""

    def holds(sample: Sample) -> BoolArray:
        totals = sample.plants.a.sum(axis=1), sample.plants.b.sum(axis=1)
        low, high = textbook(*totals, level=LEVEL)
        return (low <= sample.truth) & (sample.truth <= high)

    return holds


def _head(title: str, *others: str) -> None:
    print(f"{title:<40} mean   min   max  under .86" + "".join(f" | {o:>12}: min" for o in others))


def _row(name: str, kinds: list[Sample], ours: Hold, *others: Hold) -> None:
    held = np.array([np.mean(ours(kind)) for kind in kinds])
    line = f"{name:<40}{held.mean():.3f} {held.min():.3f} {held.max():.3f}"
    line += f"   {int((held < 0.86).sum()):3d} of {held.size:<3d}"
    for other in others:
        rates = np.array([np.mean(other(kind)) for kind in kinds])
        line += f" |       {rates.mean():.3f} {rates.min():.3f}"
    print(line)


def _p(sample: Sample) -> FloatArray:
    return evenness_p(sample.plants, sample.stops, np.zeros(sample.truth.size, dtype=bool))


def _inside(chance_below: FloatArray) -> BoolArray:
    tail = (1.0 - LEVEL) / 2.0
    return (chance_below >= tail) & (chance_below <= 1.0 - tail)


def _named(layout: tuple[int, ...]) -> str:
    return f"4 x {layout[0]} plants" if len(set(layout)) == 1 else "+".join(map(str, layout))


def _plan(layout: tuple[int, ...]) -> tuple[IntArray, IntArray]:
    cells = np.repeat(np.arange(4), layout)
    stop = np.concatenate(list(_stops(layout)))
    return cells, stop


def _stops(layout: tuple[int, ...]) -> Iterator[IntArray]:
    first = 0
    for plants in layout:
        yield first + np.arange(plants) // PLANTS_A_STOP
        first += -(-plants // PLANTS_A_STOP)


def _gamma(rng: Generator, size: tuple[int, ...], cv: float) -> FloatArray:
    return rng.gamma(cv**-2, cv**2, size) if cv > 0 else np.ones(size)


def _beta(rng: Generator, mean: FloatArray, rho: float) -> FloatArray:
    if rho == 0:
        return mean
    alike = 1.0 / rho - 1.0
    # a stop at all or none keeps its plants there; the beta law needs a hair's breadth
    return rng.beta(np.maximum(mean * alike, 1e-9), np.maximum((1.0 - mean) * alike, 1e-9))


def _sample(a: IntArray, b: IntArray, cells: IntArray, stop: IntArray, truth: FloatArray) -> Sample:
    reps = a.shape[0]
    walk = np.arange(reps)[:, None]
    cell = (4 * walk + cells).ravel()
    cluster = ((stop[-1] + 1) * walk + stop).ravel()
    plants = cluster_sums(a.ravel(), b.ravel(), cell, None, reps)
    stops = cluster_sums(a.ravel(), b.ravel(), cell, cluster, reps)
    return Sample(plants, stops, truth)


if __name__ == "__main__":
    main()
