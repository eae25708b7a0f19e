"""How many plants are lost when a phone's browser dies mid-walk: killed at 1,000 moments.

Each walk's browser is killed 25 times, half of them at the very report that a plant is saved,
then another walk begins on a fresh phone. With ``--early`` the page is altered to show a plant
before it is kept: that must lose some. Needs Chromium, the office extra and Playwright.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType

from playwright.sync_api import Playwright, sync_playwright

# another package called tests may be installed: ours is named by its place
sys.modules["tests"] = _tests = ModuleType("tests")
_tests.__path__ = [str(Path(__file__).resolve().parents[1] / "tests")]

from tests.browser.altered import that_paints_early  # noqa: E402
from tests.browser.crash import Crash, Moment, begin, crashes, moments  # noqa: E402
from tests.browser.server import Server, fill  # noqa: E402

A_WALK = 25


def one_walk(
    playwright: Playwright, filled: Server, folder: Path, at: Sequence[Moment]
) -> list[Crash]:
    """Begin a walk on a fresh phone, and kill its browser at some moments."""
    office = filled.copied(folder / "data")
    begin(playwright, office, folder / "profile")
    return list(crashes(playwright, office, folder / "profile", at))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--moments", type=int, default=1_000)
    parser.add_argument("--early", action="store_true", help="with a page that shows too soon")
    told = parser.parse_args()
    began = time.monotonic()
    ends: list[Crash] = []
    with tempfile.TemporaryDirectory(prefix="crash-") as top, sync_playwright() as playwright:
        folder = Path(top)
        office = Server(folder / "filled", fill(folder / "filled"))
        if told.early:
            office = that_paints_early(office, folder / "page")
        while len(ends) < told.moments:
            at = moments(min(A_WALK, told.moments - len(ends)), seed=len(ends))
            ends += one_walk(playwright, office, folder / f"walk-{len(ends)}", at)
            _say(ends, time.monotonic() - began)


def _say(ends: list[Crash], seconds: float) -> None:
    shown = sum(end.shown for end in ends)
    lost = sum(end.lost for end in ends)
    moments_with = sum(end.lost > 0 for end in ends)
    at_once = sum(end.moment.late == 0 for end in ends)
    print(
        f"{len(ends)} kills, {at_once} of them at the report itself: {shown} plants shown as saved,"
        f" {lost} lost, at {moments_with} kills. {seconds:.0f} s",
        flush=True,
    )


main()
