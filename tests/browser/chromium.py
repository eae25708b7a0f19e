"""The browser: found on this machine, opened with a profile that outlives it."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Playwright

from tests.browser.server import ZONE

FLAGS = (
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}


def found() -> str | None:
    """Find Chromium; where there is none, say so, and fail where the whole proof runs."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


def flags() -> list[str]:
    """Give the command line that this user can start it with."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return [*FLAGS, "--no-sandbox"] if root else list(FLAGS)


def needed() -> str:
    """Give Chromium, or leave the test out."""
    program = found()
    if program is None and "CI" not in os.environ:
        pytest.skip("needs Chromium")
    assert program is not None, "the tests in a browser need Chromium"
    return program


@contextmanager
def opened(
    playwright: Playwright, profile: Path, *, phone: bool = True, **more: Any
) -> Iterator[BrowserContext]:
    """Open the browser as a phone, or as a desk; its profile stays when it is closed."""
    shape: dict[str, Any] = {"viewport": PHONE if phone else DESK}
    if phone:
        shape |= {"has_touch": True, "is_mobile": True}
    context = playwright.chromium.launch_persistent_context(
        profile,
        executable_path=needed(),
        args=flags(),
        timezone_id=ZONE,
        locale="en-US",
        accept_downloads=True,
        **{**shape, **more},
    )
    context.set_default_timeout(15_000)
    try:
        yield context
    finally:
        context.close()
