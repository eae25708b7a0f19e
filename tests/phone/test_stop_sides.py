"""The phone puts every count of every stop plan on the side on which the core puts it."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

import pytest

from quarterwalk.plan import Look, Plan, Side, plan_json, shelved_plans

NODE = shutil.which("node")
SCRIPT = Path(__file__).with_name("stop_sides.js")
LETTERS = {Side.HOLD: "h", Side.TREAT: "t", Side.GO_ON: "g"}
PLANS = [each.plan for each in shelved_plans()]
PAST = 3
"""So many past the highest limit are looked up too. [count]"""


@dataclass(frozen=True)
class Asked:
    """One look of a plan, and up to which counts it is looked up."""

    look: Look
    rows: list[list[int | None]]
    squares: tuple[int, ...]
    insects: int
    lost: int

    def as_json(self) -> dict[str, Any]:
        return {"rows": self.rows, "squares": self.squares, "insects": self.insects,
                "lost": self.lost}  # fmt: skip

    def sides(self, squares: int) -> str:
        """Write the core's sides as letters and lengths, lost by lost and insect by insect."""
        letters = (
            LETTERS[self.look.side(insects, lost, squares)]
            for lost in range(min(squares, self.lost) + 1)
            for insects in range(self.insects + 1)
        )
        return "".join(f"{letter}{len(list(run))}" for letter, run in groupby(letters))


def asked(plan: Plan, *, every: bool) -> list[Asked]:
    """Say what is looked up in each look of a plan.

    Between two rows the limits are the same, so the numbers of squares at each row and next
    to it will do; `every` takes all of them.
    """
    found = []
    for look, told in zip(plan.looks, plan_json(plan)["looks"], strict=True):
        rows = look.rows
        borders = {row.squares + step for row in rows for step in (-1, 0, 1)}
        squares = range(rows[-1].squares + PAST + 1) if every else sorted({0, *borders} - {-1})
        insects = max(max(r.insects_low, r.sum_low, r.insects_high or 0) for r in rows)
        lost = max(max(r.lost_low, r.sum_low, r.lost_high or 0) for r in rows)
        found.append(Asked(look, told["rows"], tuple(squares), insects + PAST, lost + PAST))
    return found


def by_phone(looks: list[Asked]) -> list[list[str]]:
    """Look all of it up by the phone's own module."""
    assert NODE is not None, "looking up by the phone needs node"
    done = subprocess.run(
        [NODE, SCRIPT], input=json.dumps([each.as_json() for each in looks]),
        capture_output=True, text=True, check=True, timeout=120,
    )  # fmt: skip
    told: list[list[str]] = json.loads(done.stdout)
    return told


@pytest.mark.skipif(NODE is None and "CI" not in os.environ, reason="needs node")
@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.short)
def test_every_count_is_on_the_side_that_the_core_puts_it(plan: Plan) -> None:
    looks = asked(plan, every=plan in PLANS[:: len(PLANS) // 3])
    for look, told in zip(looks, by_phone(looks), strict=True):
        for squares, sides in zip(look.squares, told, strict=True):
            assert sides == look.sides(squares), (look.look.plants, squares)


def test_there_are_plans_of_every_kind() -> None:
    assert {plan.stopping for plan in PLANS} == {"hold-only", "either-way"}
    assert {plan.squares_on for plan in PLANS} == {"none", "every-plant", "first-loop"}
