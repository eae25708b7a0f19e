"""A phone that is paired: its scout signs in on it, makes a code, and types it in."""

from __future__ import annotations

from playwright.sync_api import BrowserContext

from tests.browser.desk import pairing_code, sign_in
from tests.browser.hand import Hand
from tests.browser.server import Server


def paired(phone: BrowserContext, office: Server, who: str = "joss") -> Hand:
    """Pair a phone, with the day's cards on it and every file of the page kept."""
    page = phone.pages[0]
    sign_in(page, office, who)
    hand = Hand(page)
    hand.pair(office, pairing_code(page, office), f"The phone of {who}")
    hand.is_kept()
    return hand
