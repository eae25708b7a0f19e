"""Every page of the office: its address in the office of these tests, and who is shown it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from http import HTTPStatus
from typing import Any

from playwright.sync_api import Page

from tests.browser.desk import sign_in
from tests.browser.server import Server

PEOPLE = {"tamsin": "lead", "joss": "scout", "marlow": "grower", "": "nobody"}
FIELD = "Gin Road 120"
ALIKE = frozenset({"account_inactive", "account_logout", "begin", "join", "password"})
"""Pages that are the same for whoever is signed in: opened for the lead, and for nobody."""


def addresses(told: dict[str, Any]) -> dict[str, str]:
    """Give the address of every page that a browser can be sent to, by the page's name."""
    field = f"/fields/{told['fields'][FIELD]}"
    return {
        "fields": "/",
        "fields-import": "/fields/import",
        "field": field,
        "field-rule": f"{field}/rule",
        "field-dates": f"{field}/dates",
        "field-closed": f"{field}/closed",
        "field-season": f"{field}/season",
        "field-seen": f"{field}/seen",
        "desk-walk": f"{field}/walk",
        "plantings-import": "/plantings/import",
        "weather-import": "/weather/import",
        "seen-import": "/seen/import",
        "walks-import": "/walks/import",
        "walk": f"/walks/{told['walk']}",
        "walk-strike": f"/walks/{told['walk']}/strike",
        "imports": "/import",
        "inbox": "/inbox",
        "entry": f"/inbox/{told['entry']}",
        "journal-import": "/journal/import",
        "phones": "/phones",
        "people": "/people",
        "person-add": "/people/add",
        "district-ending": "/district/ending",
        "person-role": f"/people/{told['people']['dace']}",
        "password": "/password",
        "account_login": "/sign-in",
        "account_inactive": "/inactive",
        "join": f"/join/{told['join']}",
        "begin": "/begin/nothing",
        "account_logout": "/sign-out",
    }


@dataclass(frozen=True, slots=True)
class Opened:
    """A page of the office that is open now, and for whom."""

    who: str
    name: str
    page: Page


def every_page(page: Page, office: Server) -> Iterator[Opened]:
    """Open every page for everybody who is shown it, then pages that a form leads to."""
    for person, who in PEOPLE.items():
        page.context.clear_cookies()
        if person:
            sign_in(page, office, person)
        for name, path in addresses(office.told).items():
            if name in ALIKE and who in ("scout", "grower"):
                continue
            answer = page.goto(office.url + path)
            assert answer is not None
            if answer.status == HTTPStatus.OK and page.url == office.url + path:
                yield Opened(who, name, page)
    yield from _led_to(page, office)


def _led_to(page: Page, office: Server) -> Iterator[Opened]:
    """Open what comes after a form: a code, a link, a refusal, and what is not there."""
    told = office.told
    field = addresses(told)["field"]
    page.goto(f"{office.url}/sign-in")
    page.get_by_role("button", name="Sign in").click()
    yield Opened("nobody", "sign-in-refused", page)
    sign_in(page, office, "tamsin")
    yield from _refused(page, office.url + field)
    page.goto(f"{office.url}/phones")
    page.get_by_role("button", name="Pair a phone").click()
    yield Opened("lead", "phone-code", page)
    page.goto(office.url + addresses(told)["person-role"])
    page.get_by_role("button", name="Make a new link").click()
    yield Opened("lead", "person-link", page)
    page.goto(f"{office.url}/people/add")
    page.locator("main form button[type=submit]").first.click()
    yield Opened("lead", "person-add-refused", page)
    page.goto(f"{office.url}/walks/{told['left_out']}")
    yield Opened("lead", "walk-left-out", page)
    page.goto(f"{office.url}/nothing-here")
    yield Opened("lead", "not-found", page)


def _refused(page: Page, field: str) -> Iterator[Opened]:
    """Send forms with nothing in them, or nonsense."""
    for name in ("walk", "closed"):
        page.goto(f"{field}/{name}")
        page.locator("main form button[type=submit]").last.click()
        yield Opened("lead", f"{name}-refused", page)
    page.goto(f"{field}/dates")
    page.locator("main form input[type=date], main form input[type=text]").first.fill("")
    yield Opened("lead", "dates-emptied", page)
