from __future__ import annotations

import re
from datetime import date
from importlib.resources import files

import pytest

from quarterwalk.crop import Seen
from quarterwalk.office.models import JournalEntry
from quarterwalk.office.services.journal import take
from quarterwalk.office.services.seen import note_seen
from quarterwalk.picture import Theme, style
from tests.office.people import People, phone
from tests.office.weathered import weathered
from tests.office_pages.visits import Tags, visitor

OFFICE = files("quarterwalk.office")


def every_page(people: People, walk_id: str) -> dict[str, str]:
    """Give every page that somebody can read, by its path."""
    device, _ = phone(people.bob, people.near)
    take(device, b"{spoiled\n")
    client, home = visitor(people.alice), people.home.public_id
    weathered(people.near)
    note_seen(field=people.home, seen=Seen(date(2026, 6, 20), nodes=8), by=people.bob)
    waiting = JournalEntry.objects.get(state="quarantined").pk
    paths = [
        "/", "/import", "/fields/import", "/plantings/import", "/walks/import", "/journal/import",
        "/weather/import", "/seen/import", f"/fields/{home}/season", f"/fields/{home}/seen",
        f"/fields/{home}", f"/fields/{home}/rule", f"/fields/{home}/dates",
        f"/fields/{home}/closed", f"/fields/{home}/walk", f"/walks/{walk_id}",
        f"/walks/{walk_id}/strike", "/inbox", f"/inbox/{waiting}", "/phones", "/people",
        "/people/add", f"/people/{people.part(people.bob).pk}", "/password", "/sign-out",
        "/district/ending", "/inactive", "/join/spent", "/nowhere",
    ]  # fmt: skip
    pages = {path: client.get(path).content.decode() for path in paths}
    pages["code"] = client.post("/phones/code").content.decode()
    pages["link"] = client.post(f"/people/{people.part(people.bob).pk}/link").content.decode()
    pages["sign-in"] = visitor(None).get("/sign-in").content.decode()
    pages["grower"] = visitor(people.gil).get(f"/walks/{walk_id}").content.decode()
    return pages


@pytest.fixture
def pages(people: People, walk_id: str) -> dict[str, str]:
    return every_page(people, walk_id)


def test_no_page_carries_a_script_or_a_style_of_its_own(pages: dict[str, str]) -> None:
    for path, page in pages.items():
        tags = Tags(page)
        assert not tags.named("script", "style"), path
        for tag, attributes in tags.found:
            assert "style" not in attributes, (path, tag)
            assert not any(name.startswith("on") for name in attributes), (path, tag)


def test_every_page_has_one_heading_one_main_part_and_a_way_past_the_top(
    pages: dict[str, str],
) -> None:
    for path, page in pages.items():
        tags = Tags(page)
        assert len(tags.named("h1")) == 1, path
        assert len(tags.named("main")) == 1, path
        assert {"class": "skip", "href": "#main"} in tags.named("a"), path
        assert re.search(r"<title>[^<]+ · Quarterwalk</title>", page), path


def test_headings_go_down_a_step_at_a_time(pages: dict[str, str]) -> None:
    for path, page in pages.items():
        levels = [int(level) for level in re.findall(r"<h([1-6])", page)]
        steps = zip(levels, levels[1:], strict=False)
        assert all(after - before <= 1 for before, after in steps), path


def test_a_screen_has_one_filled_button_at_most(pages: dict[str, str]) -> None:
    for path, page in pages.items():
        filled = [a for a in Tags(page).named("a", "button") if a.get("class") == "main"]
        assert len(filled) <= 1, path


def test_no_id_stands_twice_and_every_input_has_a_name_to_be_heard(
    pages: dict[str, str],
) -> None:
    for path, page in pages.items():
        tags = Tags(page)
        ids = [attributes["id"] for _, attributes in tags.found if "id" in attributes]
        assert len(ids) == len(set(ids)), path
        labelled = {label.get("for") for label in tags.named("label")}
        for field in tags.named("input", "select", "textarea"):
            silent = field.get("type") == "hidden" or "hidden" in field
            assert silent or field.get("aria-label") or field.get("id") in labelled, (path, field)


def test_every_form_that_changes_something_carries_its_mark(pages: dict[str, str]) -> None:
    for path, page in pages.items():
        posts = page.count('method="post"')
        assert page.count('name="csrfmiddlewaretoken"') >= posts, path


def test_every_answer_names_what_a_page_may_load(people: People) -> None:
    policy = visitor(people.alice).get("/")["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy


def test_what_one_person_reads_is_kept_for_nobody_else(people: People) -> None:
    assert visitor(people.alice).get("/")["Cache-Control"] == "private, no-cache"


def test_the_style_of_drawings_is_what_the_drawings_ask_for() -> None:
    kept = (OFFICE / "static" / "office" / "drawings.css").read_text(encoding="utf-8")
    assert kept == style(Theme.SCREEN) + "\n"


def test_no_template_is_too_long() -> None:
    found = list((OFFICE / "templates").rglob("*.html"))
    assert found
    for path in found:
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 80, path.name


def test_the_office_needs_no_script() -> None:
    assert not list((OFFICE / "static").rglob("*.js"))


def test_every_fault_leads_to_where_it_is_mended(people: People) -> None:
    client, home = visitor(people.alice), people.home.public_id
    sent = {
        "/people/add": {},
        f"/fields/{home}/rule": {},
        f"/fields/{home}/dates": {"bloom": "soon"},
        f"/fields/{home}/closed": {},
        f"/fields/{home}/walk": {"NW-1-adults": "x"},
        f"/fields/{home}/seen": {"nodes": "x"},
        "/walks/import": {},
        "/weather/import": {},
        "/seen/import": {},
        "/district/ending": {},
        "/password": {},
    }
    for path, form in sent.items():
        answer = client.post(path, form)
        assert answer.status_code == 422, path
        page = answer.content.decode()
        faults = page[page.index('class="faults"') :].split("</div>")[0]
        ids = {attributes.get("id") for _, attributes in Tags(page).found}
        links = [a["href"] for a in Tags(faults).named("a")]
        assert links, path
        assert {str(link)[1:] for link in links} <= ids, path
