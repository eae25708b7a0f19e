"""What the tests in a browser share: an office that runs, and the program that drives Chromium."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, sync_playwright

from tests.browser import chromium
from tests.browser.server import Server, fill
from tests.browser.visit import Visit, visit_office, visit_phone


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    chromium.needed()
    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="session")
def filled(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Server:
    """Give an office that is filled and never started: each test gets its own of it."""
    data = tmp_path_factory.mktemp("filled") / "data"
    return Server(data, fill(data))


@pytest.fixture
def office(filled: Server, tmp_path: Path) -> Iterator[Server]:
    """Give an office of the test's own, that answers."""
    server = filled.copied(tmp_path / "data")
    server.start()
    yield server
    server.stop()


@pytest.fixture(scope="session")
def shared_office(filled: Server, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """Give an office that tests only look at."""
    server = filled.copied(tmp_path_factory.mktemp("shared") / "data")
    server.start()
    yield server
    server.stop()


@pytest.fixture(scope="session")
def office_visit(
    playwright: Playwright, shared_office: Server, tmp_path_factory: pytest.TempPathFactory
) -> Visit:
    """Give what was seen on every page of the office."""
    profile = tmp_path_factory.mktemp("desk")
    with chromium.opened(playwright, profile, phone=False) as desk:
        return visit_office(desk, shared_office)


@pytest.fixture(scope="session")
def phone_visit(
    playwright: Playwright, filled: Server, tmp_path_factory: pytest.TempPathFactory
) -> Visit:
    """Give what was seen on every screen of the phone."""
    office = filled.copied(tmp_path_factory.mktemp("toured") / "data")
    office.start()
    try:
        with chromium.opened(playwright, tmp_path_factory.mktemp("phone")) as phone:
            return visit_phone(phone, office)
    finally:
        office.stop()
