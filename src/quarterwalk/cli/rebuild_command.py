"""``quarterwalk rebuild``: the rows of every walk, made again from the journal's bytes."""

from __future__ import annotations

import argparse
from pathlib import Path

from quarterwalk.cli.office import set_up
from quarterwalk.errors import Problem, RefusedInput


def run(options: argparse.Namespace) -> None:
    """Replay all entries; with --check only compare."""
    set_up(Path(options.data) if options.data else None)
    from quarterwalk.office.services.projections import rebuild

    done = rebuild(check=options.check)
    told = f"{done.entries:,} entries, {done.walks:,} walks"
    if not done.differing:
        print(f"{told}: every row is what its entries tell.")
        return
    if not options.check:
        print(f"{told}: made again. {len(done.differing):,} walks had other rows before.")
        return
    problems = [
        Problem("journal", None, "walk", walk, "as its entries tell it") for walk in done.differing
    ]
    raise RefusedInput(problems[:50], max(0, len(problems) - 50))
