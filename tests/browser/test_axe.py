"""No page and no screen breaks the rules for accessible pages that a program can check."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Playwright

from tests.browser.axe import violations
from tests.browser.chromium import opened
from tests.browser.tour import SCREENS
from tests.browser.visit import Visit


def test_every_page_of_the_office_is_free_of_violations(office_visit: Visit) -> None:
    assert len(office_visit.seen) >= 30
    assert not office_visit.violations


def test_every_screen_of_the_phone_is_free_of_violations(phone_visit: Visit) -> None:
    assert phone_visit.seen == SCREENS
    assert not phone_visit.violations


def test_a_page_with_a_violation_is_found_out(playwright: Playwright, tmp_path: Path) -> None:
    with opened(playwright, tmp_path / "desk", phone=False) as desk:
        desk.pages[0].set_content('<html lang="en"><title>Bare</title><input></html>')
        assert any("label" in fault for fault in violations(desk.pages[0]))
