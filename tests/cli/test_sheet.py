"""Blank walk sheets: which fields, which plants, which paper and which language."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.ground import DAY, Run, files_in, of_kind, run_in, write_field, write_fields
from tests.cli.test_report import A4, LETTER, Page, paper

RULE = ["--guideline", "southern-high-plains"]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def typst() -> None:
    pytest.importorskip("typst", reason="needs the report extra")


@pytest.mark.usefixtures("typst")
def test_each_field_has_a_sheet_as_a_page_and_as_a_pdf(run: Run) -> None:
    said, notices = run("sheet", write_fields("Home 40", "Gin"), *DAY, "--out", "d")
    assert notices == ""
    assert "2 blank sheets" in said
    assert files_in("d") == {
        "Gin-sheet.html", "Gin-sheet.pdf", "Home-40-sheet.html", "Home-40-sheet.pdf",
    }  # fmt: skip
    assert set(paper("d/Gin-sheet.pdf")) == {LETTER}
    words = "".join(page.extract_text() for page in PdfReader("d/Gin-sheet.pdf").pages)
    assert "Gin" in words
    assert "2026-06-20" in words


def test_the_stops_of_the_sheet_are_those_of_the_quarters(run: Run) -> None:
    fields = write_fields("Home 40")
    told = json.loads(run("quarters", fields, *DAY, "--json")[0])
    run("sheet", fields, *DAY, "--out", "d")
    words = Page("d/Home-40-sheet.html").plain
    stops = {f["properties"]["stop"]: f["properties"]["quadrant"] for f in of_kind(told, "stop")}
    assert len(stops) == 20
    at = 0
    for number in sorted(stops):
        at = words.index(f" {number} {stops[number]} 1 2 3 4 5 ", at)
    assert "Walk sheet: Home 40" in words
    assert "100 plants" in words


def test_only_the_fields_named_have_a_sheet(run: Run) -> None:
    fields = write_fields("Home 40", "Gin", "Mill")
    said, _ = run("sheet", fields, *DAY, "--out", "d", "--field", "Gin", "--field", "Mill")
    assert "2 blank sheets" in said
    assert {name.partition("-sheet")[0] for name in files_in("d")} == {"Gin", "Mill"}


def test_a_field_named_twice_has_one_sheet(run: Run) -> None:
    words = ["--field", "Gin", "--field", "Gin"]
    said, _ = run("sheet", write_fields("Home 40", "Gin"), *DAY, "--out", "d", *words)
    assert "1 blank sheet," in said
    assert {name.partition(".")[0] for name in files_in("d")} == {"Gin-sheet"}


def test_a_field_that_is_not_there_is_told_which_are(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    _, err = run("sheet", fields, *DAY, "--out", "d", "--field", "gin", status=2)
    assert 'got "gin"' in err
    assert "Home 40, Gin" in err
    assert not Path("d").exists()


def test_the_rule_stands_on_the_sheet(run: Run) -> None:
    fields = write_fields("Home 40")
    run("sheet", fields, *DAY, "--out", "with", *RULE)
    run("sheet", fields, *DAY, "--out", "without")
    told, bare = (Page(f"{folder}/Home-40-sheet.html").plain for folder in ("with", "without"))
    assert "southern-high-plains, edition" in told
    assert "southern-high-plains" not in bare


def test_a_later_week_marks_fewer_plants_for_squares(run: Run) -> None:
    """A plant has 1 or 2 sites in week 1 and 5 to 7 in week 3 (common practice)."""
    fields = write_fields("Home 40")
    pages = {}
    for week in ("1", "2", "3"):
        run("sheet", fields, *DAY, "--out", week, "--week", week)
        pages[week] = Path(week, "Home-40-sheet.html").read_text(encoding="utf-8")
    run("sheet", fields, *DAY, "--out", "any")
    assert len({*pages.values(), Path("any/Home-40-sheet.html").read_text(encoding="utf-8")}) == 4


def test_the_suns_hours_go_by_the_clock_of_the_field(run: Run) -> None:
    fields = write_fields("Home 40")
    run("sheet", fields, *DAY, "--out", "named", "--zone", "America/Chicago")
    run("sheet", fields, *DAY, "--out", "bare")
    named, bare = (Page(f"{folder}/Home-40-sheet.html").plain for folder in ("named", "bare"))
    assert re.search(r"From 12:\d\d to 15:\d\d the sun is overhead", named)
    assert "While it is shorter than your arm, around midday, lean back" in bare


def test_loops_and_plants_change_the_sheet(run: Run) -> None:
    fields = write_fields("Home 40")
    run("sheet", fields, *DAY, "--out", "d", "--loops", "2", "--plants", "5")
    words = Page("d/Home-40-sheet.html").plain
    assert "40 plants" in words
    assert "100 plants" not in words
    assert " 8 " in words


@pytest.mark.usefixtures("typst")
def test_sheets_are_in_spanish_on_a4_if_asked(run: Run) -> None:
    fields = write_fields("Home 40")
    run("sheet", fields, *DAY, "--out", "d", "--language", "es", "--paper", "a4", *RULE)
    page = Page("d/Home-40-sheet.html")
    assert page.lang == "es"
    assert "Vuelta 1" in page.plain
    assert "Loop" not in page.plain
    assert set(paper("d/Home-40-sheet.pdf")) == {A4}


def test_without_the_report_extra_there_is_a_page_and_that_is_said(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    said, _ = run("sheet", write_fields("Home 40"), *DAY, "--out", "d")
    assert files_in("d") == {"Home-40-sheet.html"}
    assert "-m pip install typst" in " ".join(said.split())


def test_a_large_field_is_told_to_be_walked_in_parts(run: Run) -> None:
    """The sheet has no parts to offer; `quarters` writes them."""
    _, err = run("sheet", write_field(0.016, 0.012), *DAY, "--out", "d")
    assert "parts of at most 125 acres" in err
    assert "quarters" in err


def test_hostile_names_stay_in_the_folder_and_do_nothing(run: Run) -> None:
    names = ["../up", "<script>x</script>", '#panic("x")', "CON", "a b", "A_B"]
    run("sheet", write_fields(*names), *DAY, "--out", "in/d")
    assert files_in("in") == {"d"}
    pages = list(Path("in/d").glob("*.html"))
    assert len({page.name.lower() for page in pages}) == len(names)
    for page in map(Page, pages):
        assert "script" not in page.tags
        assert any(name in page.plain for name in names)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "--out"),
        (["--out", "d", "--week", "0"], "a week of squaring from 1 to 8"),
        (["--out", "d", "--week", "9"], "a week of squaring from 1 to 8"),
        (["--out", "d", "--language", "fr"], "'en', 'es'"),
        (["--out", "d", "--zone", "Texas"], "--zone must be the name of a time zone"),
        (["--out", "d", "--paper", "a5"], "'letter', 'a4'"),
        (["--out", "d", "--guideline", "oklahma"], "Closest: oklahoma."),
        (["--out", "d", "--loops", "9+9"], "10 in all at most"),
        (["--out", "fields.geojson"], "--out must be a folder"),
    ],
)
def test_a_wrong_command_line_exits_with_2_and_writes_nothing(
    run: Run, words: list[str], told: str
) -> None:
    out, err = run("sheet", write_fields("A"), *words, status=2)
    assert out == ""
    assert told in err
    assert files_in(".") == {"fields.geojson"}


def test_refused_boundaries_exit_with_3_and_write_nothing(run: Run) -> None:
    Path("bad.geojson").write_text("{", encoding="utf-8")
    _, err = run("sheet", "bad.geojson", "--out", "d", status=3)
    assert err.startswith("bad.geojson")
    assert not Path("d").exists()
