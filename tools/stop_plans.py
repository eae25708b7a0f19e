"""Makes the stop plans that come with the package: ``python tools/stop_plans.py``.

It takes about an hour on one core; ``--workers N`` shares the plans out. The same input gives
the same plans.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from quarterwalk.plan.figures import figures_of
from quarterwalk.plan.make import Wanted, make_plan
from quarterwalk.plan.shelf import Shelved, shelved_json
from quarterwalk.plan.wanted import packaged_plans

SHELF = Path(__file__).parents[1] / "src/quarterwalk/plan/shelf.json"


def made(wanted: Wanted) -> Shelved:
    """Make one plan with its figures."""
    plan = make_plan(wanted)
    return Shelved(plan, figures_of(plan))


def text(plans: Iterable[Shelved]) -> str:
    """Write plans as the package has them: one a line."""
    lines = [json.dumps(shelved_json(each), separators=(",", ":")) for each in plans]
    return "[\n" + ",\n".join(lines) + "\n]\n"


def main() -> None:
    """Make all plans and write them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--workers", type=int, default=1, help="processes to share the plans out")
    options = parser.parse_args()
    wanted = packaged_plans()
    plans = []
    with ProcessPoolExecutor(options.workers) as pool:
        for plan in pool.map(made, wanted):
            plans.append(plan)
            print(f"{len(plans)} of {len(wanted)} plans: {plan.plan.short}", flush=True)
    SHELF.write_text(text(plans), encoding="utf-8")


if __name__ == "__main__":
    main()
