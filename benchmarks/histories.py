"""Whether a walk's rows are the same however its entries come to the office: 10,000 histories.

Each is sent through the office's real door in an odd way (in pieces, twice, turned about,
torn, with rubbish and forgeries between), compared with what must stand in the end, made again
from nothing, and sent once more in the plain way. Needs the office extra.
"""

from __future__ import annotations

import argparse
import logging
import os
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from types import ModuleType

from quarterwalk.cli.office import set_up

AT_ONCE = 25
PROCESSES = 2


def begin(folder: str) -> None:
    """Give this process an office of its own."""
    # another package called tests may be installed: ours is named by its place
    tests = ModuleType("tests")
    tests.__path__ = [str(Path(__file__).resolve().parents[1] / "tests")]
    sys.modules["tests"] = tests
    os.environ.pop("DATABASE_URL", None)
    set_up(Path(folder) / str(os.getpid()))
    logging.disable()  # every torn request is a warning


def judged(seeds: Sequence[int]) -> Counter[str]:
    """Judge some histories; where one fails, name every one that does."""
    from tests.office.judged import judge_all  # noqa: PLC0415 - only once Django is set up

    try:
        return judge_all(seeds)
    except AssertionError:
        done: Counter[str] = Counter()
        for seed in seeds:
            try:
                done += judge_all([seed])
            except AssertionError as fault:
                done += Counter(differences=1)
                print(f"history {seed}: {str(fault)[:200]}", flush=True)
        return done


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--histories", type=int, default=10_000)
    count: int = parser.parse_args().histories
    chunks = [range(n, min(n + AT_ONCE, count)) for n in range(0, count, AT_ONCE)]
    begun = time.perf_counter()
    with (
        tempfile.TemporaryDirectory(prefix="histories-") as folder,
        ProcessPoolExecutor(PROCESSES, initializer=begin, initargs=(folder,)) as pool,
    ):
        done = sum(pool.map(judged, chunks), Counter[str]())
    print(
        f"{time.perf_counter() - begun:.0f} s: {done['histories']:,} histories,"
        f" {done['entries']:,} entries, {done['requests']:,} requests,"
        f" {done['differences']:,} differences"
    )
    sys.exit(done["differences"] > 0)


if __name__ == "__main__":
    main()
