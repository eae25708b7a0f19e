"""The whole way of a walk: paired, fetched, walked without an office, sent, called."""

from __future__ import annotations

import json
import random
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, Playwright, expect

from tests.browser.chromium import opened
from tests.browser.desk import sign_in
from tests.browser.hand import Counts, Hand
from tests.browser.paired import paired
from tests.browser.server import MORNING, Server, surroundings
from tests.browser.walked import Walked, seen_on

FIELD = "Windmill 80"
SCOUT = "Joss Verel"
UNDONE = frozenset((7, 38, 81))
SKIPPED = {13: "Hailed out", 64: "Cut off"}
SEED = 20260701


def test_a_walk_without_signal_ends_as_the_call_that_the_core_makes_of_the_same_plants(
    playwright: Playwright, office: Server, tmp_path: Path
) -> None:
    own = Walked(FIELD, MORNING.date().isoformat(), SCOUT)
    with opened(playwright, tmp_path / "desk", phone=False) as desk:
        sign_in(desk.pages[0], office, "tamsin")  # the lead, by the real form
        with opened(playwright, tmp_path / "phone") as phone:
            hand = paired(phone, office)
            office.stop()
            _walk(hand, own)
            _close(hand, own)
            office.start()
            call = _sent(hand)
        walk_id = _seen_in_the_office(desk.pages[0], office, call)
    _same_as_the_core(office, walk_id, own.write(tmp_path / "walk.csv"))


def _walk(hand: Hand, own: Walked) -> None:
    """Walk a hundred plants with a page that comes from the phone alone."""
    hand.page.reload()
    hand.screen("day")
    hand.go_in(FIELD)
    dice = random.Random(SEED)
    undone = set(UNDONE)
    while len(own.rows) < 100 + len(SKIPPED):
        place = hand.place()
        if len(own.rows) in SKIPPED and "skipped" not in own.rows[-1]:
            hand.skip(SKIPPED[len(own.rows)])
            own.skipped(place)
            continue
        seen = seen_on(dice, squares=hand.squares_wanted())
        hand.count(seen)
        hand.save()
        own.saw(place, seen)
        if len(own.rows) in undone:
            undone.remove(len(own.rows))
            _undo(hand, own, seen)
        if hand.shown() == "note":
            _note(hand, place.quadrant)


def _undo(hand: Hand, own: Walked, seen: Counts) -> None:
    """Take the last plant back, and save it with one more adult than before."""
    place = own.rows[-1]
    hand.undo()
    own.undone()
    again = hand.place()
    assert (again.quadrant, again.stop) == (place["quadrant"], place["stop"])
    hand.count(Counts(adults=1))
    hand.save()
    own.saw(again, Counts(seen.adults + 1, seen.nymphs, seen.squares))


def _note(hand: Hand, quadrant: str) -> None:
    hand.chooses("Which squares are lost?", "Small" if quadrant == "NW" else "None")
    hand.chooses("Standing water?", "No")
    hand.tap("Plant 1: one branch more")
    hand.page.get_by_label("Anything else").fill(f"Walked by the {quadrant} turnrow.")
    hand.tap("Save notes")
    expect(hand.page.locator(".screen-plant, .screen-finish")).to_be_visible()


def _close(hand: Hand, own: Walked) -> None:
    """Look at how it stands, then close; the office is not there yet."""
    assert set(own.checked().values()) == {25}
    hand.screen("finish")
    hand.tap("Back")
    hand.page.locator(".tally").tap()
    hand.screen("standing")
    hand.sees("A full walk")
    insects = sum(int(row.get("adults", 0)) + int(row.get("nymphs", 0)) for row in own.rows)
    expect(hand.page.locator(".figure-number").first).to_have_text(str(insects))
    hand.tap("Finish walk")
    hand.sees("Every quarter is walked.")
    hand.tap("Close the walk")
    hand.screen("call")
    hand.sees("To be confirmed by the office")
    hand.sees("Not sent yet. It is safe on this phone.")


def _sent(hand: Hand) -> dict[str, str]:
    """Send, and read the office's call on the phone."""
    hand.tap("Done")
    hand.tap(re.compile("^Phone"))
    hand.send()
    hand.tap("Back")
    hand.field(FIELD).tap()
    hand.screen("call")
    hand.sees("The office’s call")
    hand.sees("Sent to the office.")
    page = hand.page
    return {
        "word": page.locator(".outcome.marked").inner_text().strip(),
        "headline": page.locator(".headline h2").inner_text().strip(),
    }


def _seen_in_the_office(page: Page, office: Server, call: dict[str, str]) -> str:
    """The lead finds the walk on its field's page, with the same call; gives its id."""
    page.goto(f"{office.url}/fields/{office.told['fields'][FIELD]}")
    page.locator("main a[href^='/walks/']").first.click()
    expect(page.locator(".headline")).to_have_text(call["headline"])
    expect(page.locator("main")).to_contain_text(call["word"])
    expect(page.locator("main")).to_contain_text("Walked by the NE turnrow.")
    expect(page.locator("main")).to_contain_text(SCOUT)
    return page.url.rsplit("/", 1)[1]


def _same_as_the_core(office: Server, walk_id: str, table: Path) -> None:
    """The call that the office keeps is, key by key, that of the command on the test's own list."""
    kept = _kept_call(office, walk_id)
    assert kept.pop("office") == {"provisional": False, "why": []}
    made = _core_call(office, table)
    differing = {key for key in kept.keys() | made.keys() if kept.get(key) != made.get(key)}
    assert differing <= {"walk"}, {key: (kept.get(key), made.get(key)) for key in differing}
    assert {"reading", "call"} <= made.keys()


def _kept_call(office: Server, walk_id: str) -> dict[str, Any]:
    """Read the last call past all of the office's own code."""
    query = "SELECT content FROM office_callrow WHERE walk_id = ? ORDER BY id DESC LIMIT 1"
    ((content,),) = office.rows(query, walk_id)
    found: dict[str, Any] = json.loads(content)
    return found


def _core_call(office: Server, table: Path) -> dict[str, Any]:
    told = ("--guideline", office.told["guideline"], "--first-square", office.told["first_square"])
    done = subprocess.run(
        [sys.executable, "-m", "quarterwalk", "call", str(table), *told, "--json"],
        env=surroundings(),
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    (made,) = json.loads(done.stdout)["walks"]
    found: dict[str, Any] = made
    return found
