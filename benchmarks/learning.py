"""How often what is learnt from walks holds: 90 % intervals against the truth.

Districts are invented. Every field is walked once: 20 stops of five plants, squares on two
plants of each stop. Insects per plant are log-normal between fields; quadrants, stops and
plants of a field each have a gamma factor of their own. The lost share of a quadrant is
normal on the logit scale, that of a plant beta around it.
"""

from __future__ import annotations

import argparse
import time
from dataclasses import dataclass
from datetime import date

import numpy as np

from quarterwalk.plan.learn import Estimate, Learned, learn
from quarterwalk.walk import MOST_A_PLANT, PlantRows, WalkHead, WalkTable

DAY = date(2026, 7, 1)
STOPS, PLANTS, SQUARE_PLANTS, SQUARES = 5, 5, 2, 3
WALK = 4 * STOPS * PLANTS
PATCHINESS = 0.4
LOST_LOGIT, LOST_SPREAD = -1.7, 0.5
SIZES = (1, 5, 30, 150)


@dataclass(frozen=True, slots=True)
class Truth:
    """What is true of all fields of a district."""

    k: float = 1.0
    stop_cv: float = 0.3
    rho: float = 0.1
    median: float = 0.13
    log_spread: float = 1.0


KINDS = (
    Truth(),
    Truth(stop_cv=0.0, rho=0.0),
    Truth(k=0.5),
    Truth(k=np.inf),
    Truth(k=np.inf, stop_cv=0.0, median=0.3),
    Truth(stop_cv=0.6, rho=0.3, median=0.05),
)


def walked(truth: Truth, walks: int, rng: np.random.Generator) -> WalkTable:
    """Invent a district and walk each of its fields once."""
    field = np.exp(rng.normal(np.log(truth.median), truth.log_spread, walks))
    quadrant = factor(rng, PATCHINESS, (walks, 4))
    quadrant *= (field / quadrant.mean(axis=1))[:, None]
    stop = quadrant[:, :, None] * factor(rng, truth.stop_cv, (walks, 4, STOPS))
    plant = np.repeat(stop.ravel(), PLANTS)
    insects = rng.poisson(plant * factor(rng, truth.k**-0.5, plant.shape))
    share = 1 / (1 + np.exp(-rng.normal(LOST_LOGIT, LOST_SPREAD, 4 * walks)))
    chance = np.repeat(share, STOPS * PLANTS)
    if truth.rho:
        alike = 1 / truth.rho - 1
        chance = rng.beta(chance * alike, (1 - chance) * alike)
    looked = np.tile(np.arange(PLANTS) < SQUARE_PLANTS, 4 * STOPS * walks)
    squares = rng.poisson(SQUARES, plant.size) * looked
    return laid_out(insects, squares, rng.binomial(squares, chance), looked)


def factor(rng: np.random.Generator, cv: float, shape: tuple[int, ...]) -> np.ndarray:
    """Draw gamma factors of mean 1."""
    return rng.gamma(cv**-2, cv**2, shape) if cv else np.ones(shape)


def laid_out(
    insects: np.ndarray, squares: np.ndarray, lost: np.ndarray, looked: np.ndarray
) -> WalkTable:
    """Lay the plants of full walks out as a table."""
    walks, rows = insects.size // WALK, insects.size
    counts = np.zeros((rows, 6), np.int64)
    counts[:, 0] = np.minimum(insects, MOST_A_PLANT)
    counts[:, 2], counts[:, 3] = squares - lost, lost
    place = np.arange(rows)
    nothing = np.zeros(rows, np.int64)
    return WalkTable(
        tuple(WalkHead(f"Field {i + 1}", DAY) for i in range(walks)),
        PlantRows(
            walk=place // WALK,
            quadrant=place // (STOPS * PLANTS) % 4,
            stop=place // PLANTS % STOPS + 1,
            plant=place % PLANTS + 1,
            counts=counts,
            insects_looked=np.ones(rows, bool),
            squares_looked=looked,
            sweeps=nothing,
            skipped=np.zeros(rows, bool),
            scout=nothing,
            day=np.full(rows, DAY.toordinal()),
        ),
        ("",),
        {},
    )


def held(learned: Learned, truth: Truth) -> list[bool]:
    """Tell which intervals hold the truth: k, stops, squares, median, spread."""
    return [
        holds(learned.k, truth.k),
        holds(learned.stop_cv, truth.stop_cv),
        holds(learned.rho, truth.rho),
        holds(learned.median, truth.median),
        holds(learned.log_spread, truth.log_spread),
    ]


def holds(estimate: Estimate, truth: float) -> bool:
    """Tell whether an interval holds a value."""
    return estimate.low <= truth <= estimate.high


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--reps", type=int, default=200, help="districts of each kind and size")
    parser.add_argument("--seed", type=int, default=20260701, help="start of the random numbers")
    options = parser.parse_args()
    error = np.sqrt(0.9 * 0.1 / options.reps)
    print(f"90 % intervals, {options.reps} districts a row, standard error of a share {error:.3f}")
    print("| k, stops, squares, median | walks | k | stops | squares | median | spread | ms |")
    print("|---|---|---|---|---|---|---|---|")
    for truth in KINDS:
        for walks in SIZES:
            rng = np.random.default_rng(options.seed)
            print(row(truth, walks, options.reps, rng), flush=True)


def row(truth: Truth, walks: int, reps: int, rng: np.random.Generator) -> str:
    """Learn from many districts of one kind; give a row of the table."""
    inside = np.zeros(5)
    seconds = []
    for _ in range(reps):
        table = walked(truth, walks, rng)
        begun = time.perf_counter()
        learned = learn(table)
        seconds.append(time.perf_counter() - begun)
        inside += held(learned, truth)
    shares = " | ".join(f"{share:.2f}" for share in inside / reps)
    kind = f"{truth.k:g}, {truth.stop_cv:g}, {truth.rho:g}, {truth.median:g}"
    return f"| {kind} | {walks} | {shares} | {1000 * np.median(seconds):.0f} |"


if __name__ == "__main__":
    main()
