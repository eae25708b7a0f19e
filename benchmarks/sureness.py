"""How often the words clear, close and can't tell hold: what the rule says of the true field.

Fields are invented: insects per plant lognormal (median 0.13, log spread 1), square set
falling with insects, clumping k 1 (assumptions of this benchmark; no field data). Every
field is walked once, 100 plants with squares on 40 of them, and judged by the
southern-high-plains guideline in week 2. A call is borne out where the rule, applied to
the field's true values, says the same of treating.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from datetime import date, timedelta

import numpy as np

from quarterwalk import load_guideline, make_call, stage_on, take_readings
from quarterwalk.call import Sureness, Verdict
from quarterwalk.crop import CropDates
from quarterwalk.walk import PlantRows, WalkHead, WalkTable

FIRST_SQUARE = date(2026, 6, 10)
ON = FIRST_SQUARE + timedelta(days=10)
PLANTS, SQUARE_PLANTS, SITES = 100, 40, 3
LINE, FLOOR = 0.25, 0.85


def true_fields(count: int, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Draw the true insects per plant and the true square set of invented fields."""
    density = np.exp(rng.normal(np.log(0.13), 1.0, count))
    kept = 0.92 * np.exp(-0.6 * density)
    odds = np.log(kept / (1 - kept)) + rng.normal(0, 0.55, count)
    return density, 1 / (1 + np.exp(-odds))


def walked(density: np.ndarray, square_set: np.ndarray, rng: np.random.Generator) -> WalkTable:
    """Walk every field once."""
    fields = len(density)
    mean = np.repeat(density, PLANTS)
    walk = np.repeat(np.arange(fields), PLANTS)
    plant = np.tile(np.arange(PLANTS), fields)
    insects = rng.poisson(rng.gamma(1.0, mean)).clip(0, 99)
    looked = plant % 25 < SQUARE_PLANTS // 4
    healthy = rng.binomial(SITES, np.repeat(square_set, PLANTS)) * looked
    counts = np.zeros((len(walk), 6), np.int64)
    counts[:, 0], counts[:, 2], counts[:, 3] = insects, healthy, SITES * looked - healthy
    nothing = np.zeros(len(walk), np.int64)
    rows = PlantRows(
        walk=walk,
        quadrant=plant // 25,
        stop=nothing,
        plant=plant + 1,
        counts=counts,
        insects_looked=np.ones(len(walk), np.bool_),
        squares_looked=looked,
        sweeps=nothing,
        skipped=np.zeros(len(walk), np.bool_),
        scout=nothing,
        day=np.full(len(walk), ON.toordinal()),
    )
    heads = tuple(WalkHead(f"Field {i}", ON) for i in range(fields))
    return WalkTable(heads, rows, ("",), {})


def main() -> None:
    """Print how often each word holds."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fields", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    rng = np.random.default_rng(options.seed)
    density, square_set = true_fields(options.fields, rng)
    rule, stage = load_guideline("southern-high-plains"), stage_on(ON, CropDates(FIRST_SQUARE))
    held: dict[tuple[str, str], list[bool]] = defaultdict(list)
    readings = take_readings(walked(density, square_set, rng))
    for d, s, reading in zip(density, square_set, readings, strict=True):
        call = make_call(reading, stage, rule, on=ON)
        truly_treat = d >= LINE and s < FLOOR
        treat = call.verdict is Verdict.TREAT
        word = "" if call.sure is None else call.sure.value
        held["treat" if treat else "any other", word].append(treat == truly_treat)
    print(f"{options.fields:,} invented fields, 100 plants, squares on {SQUARE_PLANTS}")
    print(f"{'call':<12}{'sure':<12}{'walks':>8}{'borne out':>12}")
    for verdict in ("treat", "any other"):
        for word in Sureness:
            found = held[verdict, word.value]
            share = f"{np.mean(found):.3f}" if found else "–"
            print(f"{verdict:<12}{word.value:<12}{len(found):>8}{share:>12}")


if __name__ == "__main__":
    main()
