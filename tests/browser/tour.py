"""Every screen of the phone page, one after the other, as a day of walking shows them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from playwright.sync_api import BrowserContext, Page

from tests.browser.desk import pairing_code, sign_in
from tests.browser.hand import Counts, Hand
from tests.browser.server import Server

SCREENS = frozenset({
    "pair", "day", "gate", "plant", "where", "standing",
    "note", "finish", "handover", "take", "call", "phone",
})  # fmt: skip
FIELD = "Windmill 80"


@dataclass(frozen=True, slots=True)
class Shown:
    """A screen as it is shown now: which, in which case, and the window that shows it."""

    screen: str
    case: str
    page: Page

    @property
    def name(self) -> str:
        return f"{self.screen}-{self.case}"


def screens(phone: BrowserContext, office: Server) -> Iterator[Shown]:
    """Show every screen in its cases; at the end it was all of `SCREENS`."""
    page = phone.pages[0]
    hand = Hand(page)
    sign_in(page, office, "joss")
    code = pairing_code(page, office)
    yield from _pairing(hand, office, code)
    yield from _gates(hand)
    yield from _plants(hand, phone, office)
    yield from _on_the_way(hand)
    yield from _handing_over(hand, office)
    yield from _ending(hand, office)


def _pairing(hand: Hand, office: Server, code: str) -> Iterator[Shown]:
    hand.page.goto(office.phone)
    hand.screen("pair")
    yield Shown("pair", "first", hand.page)
    hand.page.get_by_label("Code from the office").fill("2222-2222")
    hand.tap("Pair")
    hand.sees("This code is unknown")
    yield Shown("pair", "refused", hand.page)
    hand.pair(office, code, "Joss's phone")
    hand.is_kept()
    yield Shown("day", "fetched", hand.page)
    hand.tap("Phone")
    hand.screen("phone")
    yield Shown("phone", "sent", hand.page)
    hand.tap("Back")


def _gates(hand: Hand) -> Iterator[Shown]:
    hand.field("Playa 60").tap()
    hand.screen("gate")
    yield Shown("gate", "closed", hand.page)
    hand.tap("Back to the day")
    hand.field(FIELD).tap()
    hand.screen("gate")
    yield Shown("gate", "asked", hand.page)
    hand.tap("Yes, or not sure")
    hand.sees("Don’t walk in.")
    yield Shown("gate", "sign", hand.page)
    hand.tap("Back to the day")
    hand.go_in(FIELD)


def _plants(hand: Hand, phone: BrowserContext, office: Server) -> Iterator[Shown]:
    yield Shown("plant", "first", hand.page)
    hand.count(Counts(adults=2, nymphs=1, squares=(4, 1, 1, 1)))
    yield Shown("plant", "counted", hand.page)
    hand.page.get_by_text("Can’t check this plant").tap()
    yield Shown("plant", "skipping", hand.page)
    hand.page.get_by_text("Can’t check this plant").tap()
    other = phone.new_page()
    other.goto(office.phone)
    Hand(other).sees("This one only reads.")
    yield Shown("day", "reading", other)
    other.close()
    hand.save()
    hand.walk_plants(1)
    yield Shown("plant", "insects-only", hand.page)


def _on_the_way(hand: Hand) -> Iterator[Shown]:
    hand.tap("Where")
    hand.screen("where")
    yield Shown("where", "way", hand.page)
    hand.tap("Back")
    hand.page.locator(".tally").tap()
    hand.screen("standing")
    yield Shown("standing", "few", hand.page)
    hand.tap("Go on walking")
    hand.button("Notes on the south-west quarter").tap()
    hand.screen("note")
    hand.chooses("Which squares are lost?", "Small")
    hand.chooses("Standing water?", "No")
    hand.tap("Plant 1: one branch more")
    yield Shown("note", "answered", hand.page)
    hand.tap("Save notes")


def _handing_over(hand: Hand, office: Server) -> Iterator[Shown]:
    hand.page.locator(".tally").tap()
    hand.tap("Stop here")
    hand.screen("finish")
    yield Shown("finish", "short", hand.page)
    hand.tap("Hand over to another scout")
    hand.screen("handover")
    yield Shown("handover", "who", hand.page)
    hand.tap("Show the code")
    hand.sees("Point the other phone’s camera at it.")
    yield Shown("handover", "code", hand.page)
    link = hand.page.locator(".link").inner_text().strip()
    hand.tap("Back")
    hand.screen("day")
    yield Shown("day", "handed-over", hand.page)
    hand.page.goto(link)
    hand.screen("take")
    yield Shown("take", "asked", hand.page)
    hand.tap("Go on with the walk")
    hand.screen("plant")


def _ending(hand: Hand, office: Server) -> Iterator[Shown]:
    hand.walk_on()
    yield Shown("finish", "whole", hand.page)
    hand.tap("Back")
    hand.page.locator(".tally").tap()
    hand.screen("standing")
    yield Shown("standing", "full", hand.page)
    office.stop()
    hand.tap("Finish walk")
    hand.tap("Close the walk")
    hand.screen("call")
    yield Shown("call", "unconfirmed", hand.page)
    hand.tap("Done")
    hand.button(re.compile("^Phone")).tap()
    hand.screen("phone")
    yield Shown("phone", "unsent", hand.page)
    office.start()
    hand.send()
    hand.tap("Back")
    yield Shown("day", "walked", hand.page)
    hand.field(FIELD).tap()
    hand.sees("The office’s call")
    yield Shown("call", "office", hand.page)
