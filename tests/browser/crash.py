"""A phone whose browser dies in the middle of a walk: what the screen had shown as saved is there.

A thumb in the page saves plant after plant; a recorder beside it writes to the browser's log
what the screen says, and the moment it says a chosen plant, every process of the browser is
killed, at once or some thousandths of a second later. Then the same profile is opened again.
"""

from __future__ import annotations

import json
import os
import random
import re
import signal
import subprocess
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Error, Page, Playwright

from tests.browser import chromium
from tests.browser.hand import Hand, kept
from tests.browser.paired import paired
from tests.browser.server import PATIENCE, ZONE, Server

FIELD = "Windmill 80"
SAID = re.compile(r"qw-shown Plant (\d+) saved\. (\d+) insects? on")
LISTENS = re.compile(r"DevTools listening on (\S+)")

RECORDER = """
let last = '';
const look = () => {
  const text = document.querySelector('.screen-plant [aria-live]')?.textContent.trim() ?? '';
  if (text && text !== last) console.log('qw-shown ' + text);
  if (text) last = text;
};
const whatever = { subtree: true, childList: true, characterData: true };
new MutationObserver(look).observe(document, whatever);
"""

# Taps as fast as the page answers: an insect on one plant in three, notes left for later.
THUMB = """(seed) => {
  let state = seed;
  const dice = () => (state = (state * 48271) % 2147483647) / 2147483647;
  const says = (each) => (each.getAttribute('aria-label') ?? each.textContent).trim();
  const button = (name) => [...document.querySelectorAll('button:enabled')].find((each) =>
    says(each).startsWith(name));
  const first = (names) => names.map(button).find(Boolean);
  const tap = () => {
    if (document.querySelector('.squares-ask')) document.querySelectorAll('.number')[4].click();
    if (dice() < 0.3) button('One adult more')?.click();
    first(['Later', 'Go on walking', 'Clean, next', 'Save, next'])?.click();
    setTimeout(tap, dice() * 12);
  };
  tap();
}"""


@dataclass(frozen=True, slots=True)
class Moment:
    """When the browser is killed: so many plants after it was opened, and how late. [s]"""

    seed: int
    plants: int
    late: float


@dataclass(frozen=True, slots=True)
class Crash:
    """One moment, and what became of what the screen had shown."""

    moment: Moment
    shown: int
    lost: int


def moments(count: int, seed: int) -> list[Moment]:
    """Draw moments; half of them lie at the very report that a plant is saved."""
    dice = random.Random(seed)
    return [
        Moment(
            dice.randrange(1, 2**31 - 1),
            dice.randint(1, 5),
            0.0 if dice.random() < 0.5 else dice.expovariate(1 / 0.008),
        )
        for _ in range(count)
    ]


class Doomed:
    """A browser of its own that kills itself when its screen says a certain plant."""

    def __init__(self, profile: Path) -> None:
        self.said: list[tuple[int, int]] = []
        self.moment: Moment | None = None
        self._left = 0
        self._listens = threading.Event()
        self.endpoint = ""
        self.process = subprocess.Popen(
            [
                chromium.needed(), *chromium.flags(), "--headless=new", "--enable-logging=stderr",
                "--log-level=0", "--remote-debugging-port=0", f"--user-data-dir={profile}",
                "about:blank",
            ],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            errors="replace",
            env={**os.environ, "TZ": ZONE},
            start_new_session=True,
        )  # fmt: skip
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        assert self._listens.wait(PATIENCE), "Chromium does not open its door for tests"

    def _read(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            if told := SAID.search(line):
                self._shown((int(told[1]), int(told[2])))
            elif found := LISTENS.search(line):
                self.endpoint = found[1]
                self._listens.set()

    def _shown(self, plant: tuple[int, int]) -> None:
        self.said.append(plant)
        if self.moment is None:
            return
        self._left -= 1
        if self._left == 0:
            time.sleep(self.moment.late)
            self.kill()

    def dies_at(self, moment: Moment) -> None:
        self._left = moment.plants
        self.moment = moment

    def kill(self) -> None:
        os.killpg(self.process.pid, signal.SIGKILL)

    def wait(self) -> None:
        """Wait until the whole of it is gone, and all that it said is read."""
        self.process.wait(PATIENCE)
        self._reader.join(PATIENCE)


@contextmanager
def opened(playwright: Playwright, profile: Path) -> Iterator[tuple[Doomed, Page]]:
    """Open a doomed browser; it is dead at the end whatever happens."""
    doomed = Doomed(profile)
    try:
        browser = playwright.chromium.connect_over_cdp(doomed.endpoint)
        page = browser.contexts[0].pages[0]
        page.add_init_script(RECORDER)
        yield doomed, page
    finally:
        if doomed.process.poll() is None:
            doomed.kill()
        doomed.wait()


def begin(playwright: Playwright, office: Server, profile: Path) -> None:
    """Pair a phone and go into a field; then the office is stopped."""
    office.start()
    try:
        with chromium.opened(playwright, profile) as phone:
            paired(phone, office).go_in(FIELD)
    finally:
        office.stop()


def crashes(
    playwright: Playwright, office: Server, profile: Path, at: Sequence[Moment]
) -> Iterator[Crash]:
    """Kill one walk's browser again and again, and say each time what was lost."""
    before: tuple[Moment, Sequence[tuple[int, int]]] | None = None
    for moment in [*at, None]:
        with opened(playwright, profile) as (doomed, page):
            page.goto(office.phone)
            Hand(page).screen("plant")
            if before is not None:
                died_at, said = before
                yield Crash(died_at, len(said), lost(said, page))
            if moment is not None:
                doomed.dies_at(moment)
                _tap_until_dead(page, doomed, moment)
        if moment is not None:
            before = moment, doomed.said


def _tap_until_dead(page: Page, doomed: Doomed, moment: Moment) -> None:
    with suppress(Error):  # it may die before it answers
        page.evaluate(THUMB, moment.seed)
    doomed.process.wait(PATIENCE)


def lost(said: Sequence[tuple[int, int]], page: Page) -> int:
    """Count the plants that the screen showed as saved and that the journal does not tell of."""
    entries = [json.loads(record["line"]) for record in kept(page)]
    assert [entry["seq"] for entry in entries] == list(range(1, len(entries) + 1))
    checks = [entry["body"] for entry in entries if entry["kind"] == "plant-checked"]
    insects = [0]
    for body in checks:
        insects.append(insects[-1] + sum(body["insects"].values()))
    return sum(plant >= len(insects) or insects[plant] != found for plant, found in said)
