"""The phone puts every count of every stop plan on the side on which the core puts it."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from quarterwalk.plan import Look, Plan, Side, plan_json, shelved_plans

NODE = shutil.which("node")
SCRIPT = Path(__file__).with_name("stop_sides.js")
LETTERS = {Side.HOLD: "h", Side.TREAT: "t", Side.GO_ON: "g"}
HOLD, TREAT, GO_ON = (ord(LETTERS[side]) for side in (Side.HOLD, Side.TREAT, Side.GO_ON))
PLANS = [each.plan for each in shelved_plans()]
PAST = 3
"""So many past the last row, and past the highest limit, are looked up too. [count]"""


@dataclass(frozen=True)
class Asked:
    """One look of a plan, and up to which counts it is looked up."""

    look: Look
    rows: list[list[int | None]]
    squares: int
    insects: int
    lost: int

    def as_json(self) -> dict[str, Any]:
        return {"rows": self.rows, "squares": self.squares, "insects": self.insects,
                "lost": self.lost}  # fmt: skip

    @property
    def shape(self) -> tuple[int, int, int]:
        return self.squares + 1, self.lost + 1, self.insects + 1

    def sides(self, squares: int) -> np.ndarray:
        """Give the core's sides as letters, shape (lost, insects)."""
        row = self.look.row_for(squares)
        sides = np.full(self.shape[1:], GO_ON, np.uint8)
        if row is None:
            return sides
        insects = np.arange(self.insects + 1)[None, :]
        lost = np.arange(self.lost + 1)[:, None]
        if row.insects_high is not None and row.lost_high is not None:
            sides[(insects >= row.insects_high) & (lost >= row.lost_high)] = TREAT
        few = insects <= row.insects_low
        sides[few | (lost <= row.lost_low) | (insects + lost <= row.sum_low)] = HOLD
        return sides


def asked(plan: Plan) -> list[Asked]:
    """Say up to which counts each look of a plan is looked up: past the highest limits of all."""
    found = []
    for look, told in zip(plan.looks, plan_json(plan)["looks"], strict=True):
        rows = look.rows
        insects = max(max(r.insects_low, r.sum_low, r.insects_high or 0) for r in rows)
        lost = max(max(r.lost_low, r.sum_low, r.lost_high or 0) for r in rows)
        squares = rows[-1].squares
        found.append(Asked(look, told["rows"], squares + PAST, insects + PAST, lost + PAST))
    return found


def by_phone(looks: list[Asked]) -> list[np.ndarray]:
    """Look all of it up by the phone's own module, shape (squares, lost, insects) each."""
    assert NODE is not None, "looking up by the phone needs node"
    done = subprocess.run(
        [NODE, SCRIPT], input=json.dumps([each.as_json() for each in looks]).encode(),
        capture_output=True, check=True, timeout=120,
    )  # fmt: skip
    letters = np.frombuffer(done.stdout, np.uint8)
    ends = np.cumsum([np.prod(each.shape) for each in looks])
    assert len(letters) == ends[-1]
    parts = np.split(letters, ends[:-1])
    return [part.reshape(each.shape) for part, each in zip(parts, looks, strict=True)]


@pytest.mark.skipif(NODE is None and "CI" not in os.environ, reason="needs node")
@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.short)
def test_every_count_is_on_the_side_that_the_core_puts_it(plan: Plan) -> None:
    looks = asked(plan)
    for look, told in zip(looks, by_phone(looks), strict=True):
        for squares, sides in enumerate(told):
            unlike = np.argwhere(sides != look.sides(squares))
            assert not len(unlike), (look.look.plants, squares, "lost, insects", unlike[0])


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.short)
def test_the_sides_of_all_counts_at_once_are_those_of_the_look(plan: Plan) -> None:
    for each in asked(plan):
        for squares in range(0, each.squares + 1, 23):
            sides = each.sides(squares)
            for lost in range(0, each.lost + 1, 3):
                for insects in range(each.insects + 1):
                    side = each.look.side(insects, lost, squares)
                    assert sides[lost, insects] == ord(LETTERS[side])


def test_there_are_plans_of_every_kind() -> None:
    assert {plan.stopping for plan in PLANS} == {"hold-only", "either-way"}
    assert {plan.squares_on for plan in PLANS} == {"none", "every-plant", "first-loop"}
