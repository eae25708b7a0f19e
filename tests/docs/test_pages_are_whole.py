"""The pages leave nothing out: commands, options, codes, numbers, and links that lead somewhere."""

from __future__ import annotations

import argparse
import json
import re
import tomllib
from pathlib import Path

import pytest

from quarterwalk.call import Verdict
from quarterwalk.call.chances import CLEAR_FROM, CLOSE_FROM
from quarterwalk.cli import main
from quarterwalk.cli.parser import make_parser
from quarterwalk.walk import COUNTS
from tests.contracts.source import PACKAGE, ROOT, short
from tests.docs.said import DOCS, codes_in_call, pages, rows, section

COMMANDS = DOCS / "commands.md"
CALL = DOCS / "methods" / "call.md"
SOURCE_WORDS = {"practice": "common practice", "ours": "ours"}
LINK = re.compile(r"(?<!!)\[[^\]\n]*\]\(([^)\s]+)\)")
PICTURE = re.compile(r"!\[[^\]\n]+\]\(([^)\s]+)\)")
OPTION = re.compile(r"(?<![\w-])--[a-z][a-z-]*")


def commands() -> dict[str, argparse.ArgumentParser]:
    """Give the parser of each command."""
    parser = make_parser()
    found = [a for a in parser._actions if isinstance(a, argparse._SubParsersAction)]
    return dict(found[0].choices)


@pytest.mark.parametrize("name", sorted(commands()))
def test_every_option_of_a_command_is_told_and_no_other(name: str) -> None:
    told = section(COMMANDS, f"`{name}`")
    given = {o for a in commands()[name]._actions for o in a.option_strings} - {"-h", "--help"}
    listed = set(re.findall(r"^- `(--[a-z-]+)", told, re.MULTILINE))
    assert listed == given
    usage = re.search(r"^`(quarterwalk .*)`$", told, re.MULTILINE)
    assert usage, f"{name} needs a line of its own that shows how it is typed"
    assert set(OPTION.findall(usage[1])) == given
    assert f"quarterwalk {name}" in told


def test_the_page_of_commands_tells_of_no_command_that_is_not_there() -> None:
    told = re.findall(r"^## `([a-z-]+)`$", COMMANDS.read_text(encoding="utf-8"), re.MULTILINE)
    assert sorted(told) == sorted(commands())


def test_the_readme_names_only_options_that_the_command_has() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    given = {o for p in commands().values() for a in p._actions for o in a.option_strings}
    assert set(OPTION.findall(text)) <= given


def test_every_reason_code_is_told_and_no_other() -> None:
    told = re.findall(r"^\| `([a-z-]+)` \|", section(CALL, "Reason codes"), re.MULTILINE)
    assert len(told) == len(set(told))
    assert set(told) == codes_in_call()


def test_every_number_of_the_routine_stands_on_the_page_with_its_source_and_reason() -> None:
    content = tomllib.loads((PACKAGE / "guideline" / "routine.toml").read_text(encoding="utf-8"))
    sources = content.pop("sources")
    assert set(sources) == set(SOURCE_WORDS)
    numbers = [(n, table) for group in content.values() for n, table in group.items()]
    expected = [[f"`{n}`", amount(t), SOURCE_WORDS[t["source"]], t["why"]] for n, t in numbers]
    assert rows(CALL, "The numbers") == expected


def amount(table: dict[str, object]) -> str:
    """Write a number of the routine as the page does."""
    value = str(table["value"])
    if "to" in table:
        value += f" to {table['to']}"
    if "of" in table:
        value += f"/{table['of']}"
    unit = str(table["unit"])
    return f"{value} {unit.removesuffix('s') if value == '1' else unit}"


def test_the_words_for_how_sure_begin_where_the_page_says() -> None:
    assert rows(CALL, "How sure") == [
        ["clear", f"{CLEAR_FROM} or more"],
        ["close", f"{CLOSE_FROM} to under {CLEAR_FROM}"],
        ["can't tell", f"under {CLOSE_FROM}"],
    ]


def test_every_key_of_the_json_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    table = str(DOCS / "examples" / "home-40.csv")
    main(["call", table, "--guideline", "kansas", "--first-square", "2026-06-15", "--json"])
    walk = json.loads(capsys.readouterr().out)["walks"][0]
    told = section(DOCS / "tables.md", "JSON")
    parts = (walk, walk["reading"], walk["call"], walk["stage"], walk["call"]["guideline"],
             walk["reading"]["quadrants"][0], walk["call"]["reasons"][0])  # fmt: skip
    lacking = {key for part in parts for key in part if f"`{key}`" not in told}
    assert not lacking


def test_the_glossary_has_the_words_of_the_tables_and_of_the_calls() -> None:
    text = (DOCS / "glossary.md").read_text(encoding="utf-8")
    told = {w.strip() for row in re.findall(r"^\| ([^|]+) \|", text, re.MULTILINE)
            for w in row.split(",")}  # fmt: skip
    counts = {name.removesuffix("s") for name in COUNTS}
    verdicts = {verdict.value.replace("-", " ") for verdict in Verdict} - {"none"}
    assert counts | verdicts <= told


def anchors(page: Path) -> set[str]:
    """Give what a link to a heading of a page may say."""
    text = re.sub(r"^```.*?^```", "", page.read_text(encoding="utf-8"), flags=re.M | re.S)
    heads = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}


@pytest.mark.parametrize("page", pages(), ids=short)
def test_links_lead_to_a_page_and_a_heading_that_are_there(page: Path) -> None:
    text = re.sub(r"^```.*?^```", "", page.read_text(encoding="utf-8"), flags=re.M | re.S)
    for link in LINK.findall(text):
        assert "://" not in link
        name, _, anchor = link.partition("#")
        target = (page.parent / name).resolve() if name else page
        assert target.is_relative_to(ROOT), link
        assert target.is_file(), link
        assert not anchor or anchor in anchors(target), link


def test_every_picture_shown_is_there_and_none_is_left_over() -> None:
    shown = {
        (page.parent / name).resolve()
        for page in pages()
        for name in PICTURE.findall(page.read_text(encoding="utf-8"))
    }
    assert shown == set((DOCS / "gallery").iterdir())
    assert max(picture.stat().st_size for picture in shown) < 120_000


def test_every_page_can_be_come_to_from_the_readme() -> None:
    reached, todo = set(), [ROOT / "README.md"]
    while todo:
        page = todo.pop()
        if page in reached or page.suffix != ".md":
            continue
        reached.add(page)
        names = [link.partition("#")[0] for link in LINK.findall(page.read_text(encoding="utf-8"))]
        todo += [(page.parent / name).resolve() for name in names if name]
    assert set(pages()) <= reached


@pytest.mark.parametrize(
    "heading", ["Numbers that moved", "Breaking", "Added", "Fixed", "Guidelines"]
)
def test_the_changelog_opens_with_the_numbers_that_moved(heading: str) -> None:
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    entry = text.split("\n## ")[1]
    heads = re.findall(r"^### (.+)$", entry, re.MULTILINE)
    assert heads[0] == "Numbers that moved"
    assert heading in heads


def test_the_readme_can_be_read_at_one_sitting() -> None:
    assert len((ROOT / "README.md").read_text(encoding="utf-8").splitlines()) < 130
