"""Somebody at the office's pages in a browser: signs in by the real form."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.browser.server import Server


def sign_in(page: Page, server: Server, name: str) -> None:
    """Sign somebody in."""
    page.goto(f"{server.url}/sign-in")
    page.get_by_label("Sign-in name").fill(name)
    page.get_by_label("Password").fill(server.told["password"])
    page.get_by_role("button", name="Sign in").click()
    expect(page).to_have_url(f"{server.url}/")


def sign_out(page: Page, server: Server) -> None:
    """Sign out, by the page that asks once more."""
    page.goto(f"{server.url}/sign-out")
    page.get_by_role("button", name="Sign out").last.click()
    page.wait_for_url(f"{server.url}/sign-in*")


def pairing_code(page: Page, server: Server) -> str:
    """Have the office make a code for a phone of whoever is signed in."""
    page.goto(f"{server.url}/phones")
    page.get_by_role("button", name="Pair a phone").click()
    return page.locator(".code").inner_text().strip()
