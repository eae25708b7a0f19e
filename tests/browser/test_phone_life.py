"""What may befall a phone in a season: nothing of it loses a plant, or lets anybody in unasked."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from tests.browser.altered import altered
from tests.browser.chromium import opened
from tests.browser.desk import pairing_code, sign_in
from tests.browser.hand import Hand, kept
from tests.browser.paired import paired
from tests.browser.server import Server

FIELD = "Windmill 80"
REFUSE_STORAGE = (
    "IDBFactory.prototype.open = () => { throw new DOMException('', 'SecurityError') };"
)
# What a full disk does to a browser: the transaction is broken off after the entry was asked for.
FILL_UP = """() => {
  const { add } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.add = function (...args) {
    const asked = add.apply(this, args);
    this.transaction.abort();
    return asked;
  };
  window.makeRoom = () => { IDBObjectStore.prototype.add = add; };
}"""
WALKS = "SELECT walk_id, state, plants, waiting, doubled, scouts FROM office_walkrow"


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[BrowserContext]:
    with opened(playwright, tmp_path / "phone") as context:
        yield context


def entries(page: Page) -> list[dict[str, Any]]:
    return [json.loads(record["line"]) for record in kept(page)]


def kinds(page: Page) -> list[str]:
    return [entry["kind"] for entry in entries(page)]


def to_phone_page(hand: Hand) -> None:
    """Go to the page about this phone, from wherever the walk is."""
    if hand.shown() == "plant":
        hand.tap("Leave the walk for now")
    hand.button(re.compile("^Phone")).tap()
    hand.screen("phone")


def test_a_second_window_only_reads_and_goes_on_when_the_first_is_closed(
    phone: BrowserContext, office: Server
) -> None:
    first = paired(phone, office)
    first.go_in(FIELD)
    first.walk_plants(2)
    second = Hand(phone.new_page())
    second.page.goto(office.phone)
    second.sees("Another window has this page open. This one only reads.")
    second.screen("plant")
    expect(second.button(re.compile("^Only reads here"))).to_be_disabled()
    before = entries(second.page)
    first.page.close()
    expect(second.page.get_by_text("This one only reads.")).to_have_count(0)
    second.walk_plants(1)
    after = entries(second.page)
    assert after[:-1] == before
    assert [entry["seq"] for entry in after] == [1, 2, 3, 4]


def test_a_browser_that_keeps_nothing_says_so_and_is_not_paired(
    phone: BrowserContext, office: Server
) -> None:
    hand = Hand(phone.pages[0])
    sign_in(hand.page, office, "joss")
    code = pairing_code(hand.page, office)
    hand.page.add_init_script(REFUSE_STORAGE)
    hand.page.goto(office.phone)
    hand.sees("This browser keeps nothing here")
    hand.page.get_by_label("Code from the office").fill(code)
    hand.tap("Pair")
    hand.page.wait_for_timeout(500)
    hand.screen("pair")
    assert office.rows("SELECT count(*) FROM office_device WHERE label != 'An old phone'"
                       " AND kind = 'phone'") == [(0,)]  # fmt: skip


def test_a_full_phone_says_that_nothing_was_counted_and_goes_on_once_there_is_room(
    phone: BrowserContext, office: Server
) -> None:
    hand = paired(phone, office)
    hand.go_in(FIELD)
    hand.walk_plants(6)
    hand.page.evaluate(FILL_UP)
    place, count = hand.place(), len(entries(hand.page))
    hand.count_squares_if_asked()
    hand.button(re.compile("^Clean, next")).tap()
    hand.sees("This phone could not keep that. Nothing was counted.")
    assert hand.place() == place
    hand.page.evaluate("makeRoom()")
    hand.save()
    assert len(entries(hand.page)) == count + 1
    expect(hand.page.get_by_text("Nothing was counted.")).to_have_count(0)


def test_with_a_card_of_yesterday_the_office_is_called_first(
    phone: BrowserContext, office: Server
) -> None:
    hand = paired(phone, office)
    office.stop()
    hand.page.clock.set_system_time(datetime.now(UTC) + timedelta(hours=25))
    hand.page.reload()
    hand.sees("Call before you go in.")
    hand.field(FIELD).tap()
    hand.sees("Call first: was anything sprayed?")
    expect(hand.button("Nothing sprayed")).to_have_count(0)
    hand.tap("I called. Nothing sprayed")
    hand.screen("plant")
    (opening,) = entries(hand.page)
    assert opening["body"]["gate"] == {"sign": False, "called": True}


def test_nobody_walks_into_a_closed_field(phone: BrowserContext, office: Server) -> None:
    hand = paired(phone, office)
    hand.field("Playa 60").tap()
    hand.screen("gate")
    hand.sees(re.compile("^Closed until Friday 3 July"))
    names = [button.inner_text() for button in hand.page.locator(".foot button").all()]
    assert names == ["Back to the day"]
    assert entries(hand.page) == []


def test_a_sign_at_the_gate_keeps_the_scout_out_and_is_told_to_the_office(
    phone: BrowserContext, office: Server
) -> None:
    hand = paired(phone, office)
    hand.field(FIELD).tap()
    hand.tap("Yes, or not sure")
    hand.sees("Don’t walk in. Call the office first.")
    hand.tap("Back to the day")
    to_phone_page(hand)
    hand.send()
    (sighted,) = entries(hand.page)
    field = office.told["fields"][FIELD]
    assert (sighted["kind"], sighted["body"]) == ("sighted", {"what": "spray-sign", "field": field})
    assert "walk" not in sighted
    query = (
        "SELECT r.what, r.by FROM office_remarkrow r JOIN office_fieldrow f ON f.id = r.field_id"
        " WHERE f.public_id = ?"
    )
    assert office.rows(query, field) == [("spray-sign", "Joss Verel")]


def test_a_phone_whose_pairing_was_ended_says_so_and_loses_nothing(
    playwright: Playwright, phone: BrowserContext, office: Server, tmp_path: Path
) -> None:
    hand = paired(phone, office)
    hand.go_in(FIELD)
    hand.walk_plants(3)
    with opened(playwright, tmp_path / "desk", phone=False) as desk:
        sign_in(desk.pages[0], office, "tamsin")
        desk.pages[0].goto(f"{office.url}/phones")
        desk.pages[0].get_by_role("button", name="End The phone of joss").click()
        expect(desk.pages[0].locator(".notice")).to_be_visible()
    hand.walk_plants(2)
    to_phone_page(hand)  # it sends by itself after some seconds
    hand.sees("The office has ended the pairing of this phone. Your counts stay here.")
    assert kinds(hand.page) == ["walk-opened", *["plant-checked"] * 5]
    again = Hand(phone.new_page())
    code = pairing_code(again.page, office)
    again.page.close()
    hand.tap("Send now")
    hand.screen("pair")
    hand.page.get_by_label("Code from the office").fill(code)
    hand.tap("Pair")
    hand.screen("day")
    to_phone_page(hand)
    hand.sees("All is sent.")
    assert kinds(hand.page) == ["walk-opened", *["plant-checked"] * 5]
    assert (5,) in office.rows("SELECT plants FROM office_walkrow WHERE state = 'open'")


def test_a_journal_brought_as_a_file_gives_the_same_rows_as_one_that_was_sent(
    playwright: Playwright, phone: BrowserContext, office: Server, tmp_path: Path
) -> None:
    hand = paired(phone, office)
    office.stop()
    other = office.copied(tmp_path / "other")
    hand.go_in(FIELD)
    hand.walk_plants(4)
    hand.skip("Hailed out")
    hand.undo()
    to_phone_page(hand)
    with hand.page.expect_download() as saving:
        hand.tap("Save the counts as a file")
    name = saving.value.suggested_filename
    assert re.fullmatch(r"quarterwalk-[0-9a-z]{12}-2026-07-01\.ndjson", name)
    saving.value.save_as(tmp_path / name)
    _bring(playwright, other, tmp_path, name)
    office.start()
    hand.send()
    assert _rows(other) == _rows(office)
    lines = (tmp_path / name).read_text(encoding="utf-8").splitlines()
    assert lines == [record["line"] for record in kept(hand.page)]


def _bring(playwright: Playwright, office: Server, folder: Path, name: str) -> None:
    """Hand the file in at the office's page, as its scout."""
    office.start()
    with opened(playwright, folder / "desk", phone=False) as desk:
        page = desk.pages[0]
        sign_in(page, office, "joss")
        page.goto(f"{office.url}/journal/import")
        page.locator("main input[type=file]").set_input_files(folder / name)
        page.locator("main form button[type=submit]").click()
        expect(page.locator(".notice").first).to_be_visible()
    office.stop()


def _rows(office: Server) -> list[list[tuple[Any, ...]]]:
    """Read what the office tells of the walk in Windmill 80, but for numbers it counts up."""
    found = [office.rows(f"{WALKS} WHERE source = 'phone'")]
    for table, columns in (
        ("checkrow", "walk_id, position, device_id, seq, quadrant, stop, plant, adults, skipped"),
        ("quadrantnoterow", "walk_id, position, quadrant, lost"),
        ("journalentry", "key_device, key_seq, raw, sha256, state"),
    ):
        query = f"SELECT {columns} FROM office_{table} ORDER BY 1, 2"
        found.append(office.rows(query))
    return found


def test_a_walk_goes_on_on_another_phone_that_read_the_link(
    playwright: Playwright, phone: BrowserContext, office: Server, tmp_path: Path
) -> None:
    joss = paired(phone, office)
    with opened(playwright, tmp_path / "other") as other:
        dace = paired(other, office, "dace")
        office.stop()
        joss.go_in(FIELD)
        joss.walk_plants(7)
        link = _handed_over(joss)
        dace.page.goto(link)
        dace.sees("Go on with Windmill 80 from Joss Verel?")
        dace.tap("Go on with the walk")
        dace.screen("plant")
        assert (dace.place().number, dace.place().stop) == (8, 2)
        dace.walk_plants(4)
        _closed(dace)
        office.start()
        dace.tap("Done")
        to_phone_page(dace)
        dace.send()
        assert _phone_walks(office) == [("unopened", 4, 9)]  # opening, 7 plants, handing over
        dace.tap("Back")
        dace.field(FIELD).tap()
        dace.sees("Waiting for 9 more from the other phone")
        to_phone_page(joss)
        joss.send()
    assert _phone_walks(office) == [("closed", 11, 0)]
    ((scouts,),) = office.rows("SELECT scouts FROM office_walkrow WHERE source = 'phone'")
    assert scouts == "Joss Verel, Dace Illery"


def _handed_over(hand: Hand) -> str:
    hand.page.locator(".tally").tap()
    hand.tap("Stop here")
    hand.tap("Hand over to another scout")
    hand.tap("Show the code")
    link = hand.page.locator(".link").inner_text().strip()
    hand.tap("Back")
    return link


def _closed(hand: Hand) -> None:
    hand.page.locator(".tally").tap()
    hand.tap("Stop here")
    hand.tap("Close the walk")
    hand.screen("call")


def _phone_walks(office: Server) -> list[tuple[Any, ...]]:
    return office.rows(
        "SELECT state, plants, waiting FROM office_walkrow"
        " WHERE walk_id NOT IN (?, ?)", office.told["walk"], office.told["left_out"]
    )  # fmt: skip


def test_a_new_version_of_the_page_waits_until_no_walk_is_open(
    phone: BrowserContext, office: Server, tmp_path: Path
) -> None:
    hand = paired(phone, office)
    hand.go_in(FIELD)
    hand.walk_plants(2)
    office.stop()
    newer = altered(office, tmp_path / "page", "words/day.js", "'This phone'", "'This new phone'")
    newer.port = office.port
    newer.start()
    try:
        hand.page.reload()
        hand.screen("plant")
        _waits_for_its_turn(hand.page)
        hand.walk_plants(1)
        to_phone_page(hand)
        expect(hand.page.get_by_role("heading", name="This phone")).to_be_visible()
        hand.tap("Back")
        hand.field(FIELD).tap()
        _closed(hand)
        hand.tap("Done")
        hand.screen("day")
        hand.page.wait_for_timeout(1500)  # the page comes again by itself
        to_phone_page(hand)
        expect(hand.page.get_by_role("heading", name="This new phone")).to_be_visible()
        assert kinds(hand.page) == ["walk-opened", *["plant-checked"] * 3, "walk-closed"]
    finally:
        newer.stop()


def _waits_for_its_turn(page: Page) -> None:
    """Wait until the newer worker is installed; it must not have taken over."""
    waiting = page.evaluate(
        """async () => {
          const registration = await navigator.serviceWorker.getRegistration();
          for (let i = 0; i < 150 && !registration.waiting; i += 1) {
            await new Promise((done) => setTimeout(done, 100));
          }
          return Boolean(registration.waiting);
        }"""
    )
    assert waiting, "no newer version came"


def test_nobody_signs_out_while_counts_are_unsent(phone: BrowserContext, office: Server) -> None:
    hand = paired(phone, office)
    office.stop()
    hand.go_in(FIELD)
    hand.walk_plants(2)
    to_phone_page(hand)
    hand.tap("Sign out")
    hand.sees("Send your counts, or save them as a file, before you sign out.")
    hand.screen("phone")
    assert kinds(hand.page) == ["walk-opened", "plant-checked", "plant-checked"]
    office.start()
    hand.send()
    hand.tap("Sign out")
    hand.screen("pair")
    assert entries(hand.page) == []
