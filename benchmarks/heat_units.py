"""How long heat units take: 10,000 years of days at stations, by every method, with a cap.

Run ``python benchmarks/heat_units.py`` (``--years 1000`` for less). Times are medians of
several runs on this machine; quote them with the machine.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from quarterwalk.weather.daily import FloatArray
from quarterwalk.weather.heat_units import COTTON_BASE_F, HEAT_METHODS, CutOff

DAYS = 365
CAP_F = 86.0


def median_s(run: Callable[[], object], times: int) -> float:
    """Median time of a call. [s]"""
    took = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        took.append(time.perf_counter() - start)
    return statistics.median(took)


def made_up_days(years: int, rng: np.random.Generator) -> tuple[FloatArray, FloatArray]:
    """Make up days that cross the base, the cap, both or neither. [°F]"""
    season = 62 - 22 * np.cos(2 * np.pi * np.arange(DAYS) / DAYS)
    middle = season + rng.normal(0, 8, (years, DAYS))
    swing = rng.gamma(6, 2, (years, DAYS))
    return middle - swing, middle + swing


def main() -> None:
    """Print the table of times."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--years", type=int, default=10_000)
    parser.add_argument("--runs", type=int, default=3)
    options = parser.parse_args()
    tmin, tmax = made_up_days(options.years, np.random.default_rng(1))
    print(f"python {sys.version.split()[0]}, numpy {np.__version__}")
    print(f"{options.years:,} station-years, {tmin.size:,} days")
    for name, method in HEAT_METHODS.items():
        cap = None if name == "four-case" else CAP_F
        cutoffs = CutOff if name.endswith(("triangle", "sine")) else (CutOff.HORIZONTAL,)
        for cutoff in cutoffs:
            run = partial(method, tmin, tmax, base=COTTON_BASE_F, cap=cap, cutoff=cutoff)
            lines = "no cap" if cap is None else f"{cutoff} at {cap:g}"
            print(f"{name}, {lines}: {median_s(run, options.runs):.2f} s")


if __name__ == "__main__":
    main()
