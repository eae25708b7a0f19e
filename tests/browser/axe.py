"""What a program can tell of whether a page is open to everybody: WCAG 2.2, A and AA."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import axe_playwright_python
from playwright.sync_api import Page

from tests.browser.chromium import DESK, PHONE

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
# Without `preload`, axe puts no sheet of its own into the page, which the content policy forbids.
RUN = "(runOnly) => axe.run(document, { runOnly, resultTypes: ['violations'], preload: false })"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
BY_NIGHT = {"type": "rule", "values": ["color-contrast"]}
"""Only colours change by night."""


def violations(page: Page) -> Iterator[str]:
    """Check a page as it is shown now: small and wide, by day and by night."""
    before = page.viewport_size
    page.evaluate(AXE)
    for size, shape in (("phone", PHONE), ("desk", DESK)):
        page.set_viewport_size(shape)
        for light, rules in (("light", RULES), ("dark", BY_NIGHT)):
            page.emulate_media(color_scheme=light)
            for fault in page.evaluate(RUN, rules)["violations"]:
                yield f"{size}, {light}: {_told(fault)}"
    page.emulate_media(color_scheme="light")
    if before is not None:
        page.set_viewport_size(before)


def _told(fault: dict[str, Any]) -> str:
    places = "; ".join(" ".join(map(str, node["target"])) for node in fault["nodes"][:3])
    return f"{fault['id']} ({fault['help']}) at {places}"
