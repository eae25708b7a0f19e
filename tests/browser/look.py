"""Takes a picture of every page and every screen: ``python tests/browser/look.py FOLDER``.

Not a test: for somebody who looks whether it is well made. In three sizes, by day; with
``--dark`` by night.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path
from types import ModuleType

from playwright.sync_api import Page, sync_playwright

# another package called tests may be installed: ours is named by its place
sys.modules["tests"] = _tests = ModuleType("tests")
_tests.__path__ = [str(Path(__file__).resolve().parents[1])]

from tests.browser.chromium import opened  # noqa: E402
from tests.browser.pages import every_page  # noqa: E402
from tests.browser.server import Server, fill  # noqa: E402
from tests.browser.tour import screens  # noqa: E402

SIZES = ((360, 640), (390, 844), (1280, 800))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--dark", action="store_true")
    parser.add_argument("--only", choices=("office", "phone"))
    told = parser.parse_args()
    light = "dark" if told.dark else "light"
    with tempfile.TemporaryDirectory(prefix="look-") as top, sync_playwright() as playwright:
        office = Server(Path(top) / "data", fill(Path(top) / "data"))
        office.start()
        try:
            if told.only != "phone":
                with opened(playwright, Path(top) / "desk", phone=False) as desk:
                    for each in every_page(desk.pages[0], office):
                        take(each.page, told.folder, f"office-{each.who}-{each.name}", light)
            if told.only != "office":
                with opened(playwright, Path(top) / "phone") as phone:
                    for shown in screens(phone, office):
                        take(shown.page, told.folder, f"phone-{shown.name}", light, full=False)
        finally:
            office.stop()


def take(page: Page, folder: Path, name: str, light: str, *, full: bool = True) -> None:
    """Take the picture in each size; of an office page the whole of it."""
    before = page.viewport_size
    page.emulate_media(color_scheme="dark" if light == "dark" else "light")
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        to = folder / f"{width}x{height}" / f"{name}-{light}.png"
        page.screenshot(path=to, full_page=full, animations="disabled")
    page.emulate_media(color_scheme="light")
    if before is not None:
        page.set_viewport_size(before)


main()
