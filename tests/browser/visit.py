"""One visit to every page, and one to every screen: many tests ask what was seen on it."""

from __future__ import annotations

from dataclasses import dataclass, field

from playwright.sync_api import BrowserContext, Page

from tests.browser.axe import violations
from tests.browser.pages import every_page
from tests.browser.server import Server
from tests.browser.tour import screens
from tests.browser.watch import Watch, watching


@dataclass
class Visit:
    """What was seen: pages or screens by name, what the browser said, what axe found."""

    watch: Watch
    seen: set[str] = field(default_factory=set)
    violations: list[str] = field(default_factory=list)

    def check(self, name: str, page: Page) -> None:
        """Have axe look at a page that is shown."""
        self.violations += [f"{name}, {fault}" for fault in violations(page)]


def visit_office(desk: BrowserContext, office: Server) -> Visit:
    """Open every page of the office for everybody who is shown it."""
    with watching(desk, office) as watch:
        visit = Visit(watch)
        for each in every_page(desk.pages[0], office):
            visit.seen.add(each.name)
            visit.check(f"{each.name} ({each.who})", each.page)
    return visit


def visit_phone(phone: BrowserContext, office: Server) -> Visit:
    """Show every screen of the phone page."""
    with watching(phone, office) as watch:
        visit = Visit(watch)
        for shown in screens(phone, office):
            visit.seen.add(shown.screen)
            visit.check(shown.name, shown.page)
    return visit
