"""A scout's thumb on the phone page: it finds things by what the screen says."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.browser.server import Server

PLACE = re.compile(r"^(NW|NE|SW|SE) · (\d+) of (\d+) · (?:new )?stop (\d+)$")
STATES = ("healthy", "missing", "blasted", "flared")
NOTES = {"NW": "North-west", "NE": "North-east", "SW": "South-west", "SE": "South-east"}


expect.set_options(timeout=15_000)  # two cores that other tests work on too

WALK_ON = """() => new Promise((done) => {
  const tap = () => {
    if (document.querySelector('.screen-finish')) return done();
    const note = document.querySelector('.screen-note .side-button');
    (note ?? document.querySelector('.number:nth-child(6)'))?.click();
    document.querySelector('.screen-plant .main-button:enabled')?.click();
    return setTimeout(tap, 5);
  };
  tap();
})"""


@dataclass(frozen=True, slots=True)
class Place:
    """Where the screen says that the next plant stands."""

    number: int
    quadrant: str
    in_quadrant: int
    stop: int


@dataclass(frozen=True, slots=True)
class Counts:
    """What somebody sees on one plant; squares by state, None where none are asked for."""

    adults: int = 0
    nymphs: int = 0
    squares: tuple[int, int, int, int] | None = None


class Hand:
    """Taps on one window of the phone page."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def button(self, name: str | re.Pattern[str]) -> Locator:
        return self.page.get_by_role("button", name=name, exact=True)

    def tap(self, name: str | re.Pattern[str]) -> None:
        self.button(name).tap()

    def sees(self, text: str | re.Pattern[str]) -> None:
        expect(self.page.get_by_text(text).first).to_be_visible()

    def screen(self, name: str) -> None:
        """Wait for a screen."""
        expect(self.page.locator(f".screen-{name}")).to_be_visible()

    def shown(self) -> str:
        """Name the screen that is shown."""
        kinds = self.page.locator(".screen").get_attribute("class") or ""
        return kinds.split("screen-")[-1].split()[0]

    def pair(self, server: Server, code: str, label: str = "A phone") -> None:
        self.page.goto(server.phone)
        self.screen("pair")
        self.page.get_by_label("Code from the office").fill(code)
        self.page.get_by_label("Name for this phone").fill(label)
        self.tap("Pair")
        self.screen("day")
        self.has_cards()

    def chooses(self, question: str, answer: str) -> None:
        """Answer one question of the notes on a quarter."""
        asked = self.page.get_by_role("group", name=question)
        asked.get_by_role("button", name=answer, exact=True).tap()

    def has_cards(self) -> None:
        """Wait until nothing of the day is missing here."""
        expect(self.page.get_by_text("Last fetched")).to_be_visible()
        expect(self.page.get_by_text("Not on this phone.")).to_have_count(0)

    def is_kept(self) -> None:
        """Wait until the page opens without an office: its worker has every file."""
        kept = self.page.evaluate(
            """() => Promise.race([
              navigator.serviceWorker.ready.then(() => true),
              new Promise((done) => setTimeout(() => done(false), 15000)),
            ])"""
        )
        assert kept, "the page's worker does not get ready: is the list of its files up to date?"

    def go_in(self, field: str) -> None:
        """Open a walk: through the gate, nothing sprayed."""
        self.field(field).tap()
        self.screen("gate")
        self.tap("Nothing sprayed")
        self.screen("plant")

    def field(self, name: str) -> Locator:
        return self.page.locator(".field-button", has_text=name)

    def place(self) -> Place:
        number = self.page.locator(".screen-plant h1").inner_text().split()[1]
        said = " ".join(self.page.locator(".screen-plant .head-words p").inner_text().split())
        told = PLACE.match(said)
        assert told, f"the plant's place can't be read: {said}"
        return Place(int(number), told[1], int(told[2]), int(told[4]))

    def squares_wanted(self) -> bool:
        """Tell whether the squares of this plant are to be counted."""
        return self.page.get_by_text("Insects only on this plant.").count() == 0

    def count(self, seen: Counts) -> None:
        """Enter what was seen, with nothing saved yet."""
        for name, times in (("adult", seen.adults), ("nymph", seen.nymphs)):
            for _ in range(times):
                self.tap(f"One {name} more")
        if seen.squares is not None:
            self._count_squares(seen.squares)

    def _count_squares(self, squares: tuple[int, int, int, int]) -> None:
        wanted = sum(squares)
        if self.page.locator(".squares-ask").count():
            word = "square" if wanted == 1 else "squares"
            self.page.get_by_label(f"{wanted} {word} on this plant", exact=True).tap()
        while (here := self.page.locator("[aria-label^='Branch ']").count()) != wanted:
            self.tap("One square more" if here < wanted else "One square fewer")
        states = [s for s, n in zip(STATES, squares, strict=True) for _ in range(n)]
        for branch, state in enumerate(states, start=1):
            self._make(branch, state)

    def _make(self, branch: int, state: str) -> None:
        one = self.page.locator(f"[aria-label^='Branch {branch}, ']")
        for _ in STATES:
            if (one.get_attribute("aria-label") or "").endswith(state):
                return
            one.tap()
        raise AssertionError(f"branch {branch} never says {state}")

    def save(self) -> None:
        """Save the plant that is shown, and wait until the screen has gone on."""
        with self._going_on():
            self.button(re.compile(r"^(Clean|Save), next")).tap()

    def skip(self, why: str) -> None:
        self.page.get_by_text("Can’t check this plant").tap()
        self.tap(why)

    def undo(self) -> None:
        button = self.button(re.compile("^Undo"))
        before = " ".join((button.text_content() or "").split())
        button.tap()
        expect(button).not_to_have_text(before)

    @contextmanager
    def _going_on(self) -> Iterator[None]:
        """Wait until the screen shows another plant than before, or something else."""
        title = self.page.locator(".screen-plant h1")
        before = re.compile(f"^{title.inner_text()}$")
        yield
        expect(title.filter(has_text=before)).to_have_count(0)

    def walk_plants(self, count: int) -> None:
        """Save so many clean plants in a row; the notes on a quarter are left for later."""
        for _ in range(count):
            self.count_squares_if_asked()
            self.save()
            if self.shown() == "note":
                self.tap("Later")

    def count_squares_if_asked(self) -> None:
        """Count five healthy squares where any are asked for."""
        self.count(Counts(squares=(5, 0, 0, 0) if self.squares_wanted() else None))

    def walk_on(self) -> None:
        """Save the plants that are left as quickly as the page answers."""
        self.page.evaluate(WALK_ON)
        self.screen("finish")

    def send(self) -> None:
        """Send what is here, from the page about this phone."""
        self.tap("Send now")
        self.sees("All is sent.")


def kept(page: Page) -> list[dict[str, Any]]:
    """Read the journal that the phone holds, past all of the page's own code."""
    lines: list[dict[str, Any]] = page.evaluate(
        """async () => {
          const asked = (request) => new Promise((done, failed) => {
            request.onsuccess = () => done(request.result);
            request.onerror = () => failed(request.error);
          });
          const db = await asked(indexedDB.open('quarterwalk'));
          const records = await asked(db.transaction('entries').objectStore('entries').getAll());
          db.close();
          return records.map(({ line, unsent = 0, answer }) => ({ line, unsent, answer }));
        }"""
    )
    return lines
