"""No page breaks its content policy, and nothing that a page asks for leaves the office."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from tests.browser.chromium import opened
from tests.browser.server import Server
from tests.browser.tour import SCREENS
from tests.browser.visit import Visit
from tests.browser.watch import watching


def test_the_pages_of_the_office_keep_to_their_policy(office_visit: Visit) -> None:
    assert len(office_visit.seen) >= 30
    assert office_visit.watch.answered >= len(office_visit.seen)
    assert not office_visit.watch.told()


def test_the_screens_of_the_phone_keep_to_their_policy(phone_visit: Visit) -> None:
    assert phone_visit.seen == SCREENS
    # while the office is stopped, a send that fails says so
    assert not [each for each in phone_visit.watch.told() if "ERR_CONNECTION_REFUSED" not in each]


@pytest.mark.parametrize(
    "breach",
    [
        "document.body.append(Object.assign(document.createElement('script'), {text: 'let a'}))",
        "document.body.setAttribute('style', 'color: red')",
        "fetch('http://127.0.0.2:9/').catch(() => {})",
    ],
)
def test_a_breach_of_the_policy_is_seen(
    playwright: Playwright, shared_office: Server, tmp_path: Path, breach: str
) -> None:
    with (
        opened(playwright, tmp_path / "desk", phone=False) as desk,
        watching(desk, shared_office) as watch,
    ):
        page = desk.pages[0]
        page.goto(f"{shared_office.url}/sign-in")
        assert not watch.faults
        page.evaluate(breach)
        page.wait_for_timeout(200)
    assert any("Content Security Policy" in fault for fault in watch.faults)
