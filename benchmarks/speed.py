"""How long a walk takes: one, warm; and a season of a district, from its table to its calls.

Run ``python benchmarks/speed.py`` (``--walks 1000`` for less). Times are medians of
several runs on this machine; quote them with the machine.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from datetime import date, timedelta
from pathlib import Path

import numpy as np

from quarterwalk import load_guideline, make_call, read_walks, stage_on, take_reading, take_readings
from quarterwalk.crop import CropDates

HEADER = "field,date,scout,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted,flared,note\n"
FIRST_SQUARE = date(2026, 6, 10)


def median_ms(run: Callable[[], object], times: int) -> float:
    """Median time of a call. [ms]"""
    took = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        took.append(1000 * (time.perf_counter() - start))
    return statistics.median(took)


def write_table(path: Path, walks: int, rng: np.random.Generator) -> None:
    """Write a table of walks of 100 plants with squares on 40 of them."""
    with path.open("w", encoding="utf-8") as table:
        table.write(HEADER)
        for walk in range(walks):
            on = FIRST_SQUARE + timedelta(days=int(rng.integers(0, 28)))
            insects = rng.poisson(rng.gamma(1.0, 0.15, 100)).clip(0, 99)
            healthy = rng.binomial(3, 0.85, 100)
            for n in range(100):
                quadrant, plant = ("NW", "NE", "SW", "SE")[n // 25], n % 25
                squares = f"{healthy[n]},{3 - healthy[n]},0,0" if plant < 10 else ",,,"
                place = f"{quadrant},{plant // 5 + 1},{plant % 5 + 1}"
                head = f"Field {walk},{on},Scout {walk % 7}"
                table.write(f"{head},{place},{insects[n]},0,{squares},\n")


def calls_of(path: Path) -> int:
    """Make a call on every walk of a table."""
    rule, dates = load_guideline("southern-high-plains"), CropDates(FIRST_SQUARE)
    walks = read_walks(path)
    readings = take_readings(walks.table)
    calls = [
        make_call(reading, stage_on(head.date, dates), rule, on=head.date)
        for head, reading in zip(walks.table.heads, readings, strict=True)
    ]
    return len(calls)


def main() -> None:
    """Print the table of times."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--walks", type=int, default=10_000)
    parser.add_argument("--runs", type=int, default=3)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        rng = np.random.default_rng(1)
        one = Path(folder) / "one.csv"
        write_table(one, 1, rng)
        walk = next(iter(read_walks(one).table))
        rule, dates = load_guideline("southern-high-plains"), CropDates(FIRST_SQUARE)
        stage = stage_on(walk.date, dates)
        take_reading(walk)

        def reading_and_call() -> None:
            make_call(take_reading(walk), stage, rule, on=walk.date)

        print(f"python {sys.version.split()[0]}, numpy {np.__version__}")
        warm = median_ms(reading_and_call, 200)
        print(f"one walk of 100 plants, reading and call: {warm:.2f} ms")
        halves = [Path(folder) / f"{part}.csv" for part in (1, 2)]
        for half in halves:
            write_table(half, options.walks // 2, rng)
        rows = 100 * (options.walks // 2) * 2
        whole = Path(folder) / "whole.csv"
        text = [half.read_text(encoding="utf-8") for half in halves]
        whole.write_text(text[0] + text[1].removeprefix(HEADER).replace("Field ", "Field B"))
        read = median_ms(lambda: read_walks(whole), options.runs)
        a_second = rows / read * 1000
        print(f"reading {rows:,} rows: {read / 1000:.2f} s, {a_second:,.0f} rows a second")
        alone = median_ms(lambda: calls_of(whole), options.runs)
        print(f"{options.walks:,} walks from CSV to calls, one core: {alone / 1000:.2f} s")
        with ProcessPoolExecutor(2) as pool:
            list(pool.map(calls_of, [one, one]))
            both = median_ms(lambda: list(pool.map(calls_of, halves)), options.runs)
        print(f"the same in two files on two cores: {both / 1000:.2f} s")


if __name__ == "__main__":
    main()
