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
    told = f"{_count(done.entries, 'entry', 'entries')}, {_count(done.walks, 'walk', 'walks')}"
    if not done.differing:
        print(f"{told}: every row is what its entries tell.")
        return
    if not options.check:
        differing = _count(len(done.differing), "walk", "walks")
        print(f"{told}: made again. {differing} had other rows before.")
        return
    problems = [
        Problem("journal", None, "walk", walk, "as its entries tell it") for walk in done.differing
    ]
    raise RefusedInput(problems[:50], max(0, len(problems) - 50))


def _count(number: int, one: str, many: str) -> str:
    return f"{number:,} {one if number == 1 else many}"
