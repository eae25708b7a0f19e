"""``quarterwalk card``: one card a field, as a page and on paper."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from quarterwalk.cli import plan_cache
from tests.cli.ground import DAY, Run, files_in, run_in, write_field, write_fields
from tests.cli.test_report import A4, LETTER, Page, paper

SHP = ["--guideline", "southern-high-plains"]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setattr(plan_cache, "plan_cache_folder", lambda: tmp_path / "kept")
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def typst() -> None:
    pytest.importorskip("typst", reason="needs the report extra")


@pytest.mark.usefixtures("typst")
def test_a_card_is_written_as_a_page_and_as_a_pdf(run: Run) -> None:
    said, notices = run("card", *SHP, "--week", "2", "--out", "d")
    assert notices == ""
    assert files_in("d") == {"week-2-stop-card.html", "week-2-stop-card.pdf"}
    assert paper("d/week-2-stop-card.pdf") == [LETTER, LETTER]
    assert "1 card, as a PDF" in said


def test_the_card_has_the_plan_that_the_command_plan_picks(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    words = [*SHP, "--week", "1", "--stop", "either-way", "--fields", fields, *DAY]
    told = json.loads(run("plan", *words, "--json")[0])
    run("card", *words, "--out", "d")
    for each in told["fields"]:
        page = Page(f"d/{each['field'].replace(' ', '-')}-stop-card.html").plain
        assert f"Plan {each['picked'][:8]}:" in page
        assert each["field"] in page


def test_only_the_field_named_has_a_card(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    run("card", *SHP, "--week", "2", "--fields", fields, *DAY, "--field", "Gin", "--out", "d")
    assert {name.partition("-stop")[0] for name in files_in("d")} == {"Gin"}


def test_loops_asked_for_are_those_of_the_card(run: Run) -> None:
    run("card", *SHP, "--week", "1", "--loops", "1+2+2", "--out", "d")
    page = Page("d/week-1-stop-card.html").plain
    assert "After the first loop: 20 plants, 5 in each quarter" in page
    assert "After the second loop: 60 plants, 15 in each quarter" in page


def test_a_field_where_nothing_is_saved_has_no_card_unless_loops_are_asked_for(run: Run) -> None:
    fields = write_field(0.0115, 0.0005)
    slow = ["--pace", "10", "--seconds-squares", "1", "--seconds-insects", "1"]
    words = [*SHP, "--week", "2", "--fields", fields, *DAY, *slow, "--out", "d"]
    said, _ = run("card", *words)
    assert "walk all 100" in said
    assert not Path("d").exists()
    run("card", *words, "--loops", "2+3")
    assert "Home-stop-card.html" in files_in("d")


@pytest.mark.usefixtures("typst")
def test_cards_are_in_spanish_on_a4_if_asked(run: Run) -> None:
    run("card", *SHP, "--week", "2", "--out", "d", "--language", "es", "--paper", "a4")
    assert Page("d/week-2-stop-card.html").lang == "es"
    assert paper("d/week-2-stop-card.pdf") == [A4, A4]


def test_without_the_report_extra_there_is_a_page_and_that_is_said(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("quarterwalk.cli.card_command.pdfs_can_be_made", lambda: False)
    said, _ = run("card", *SHP, "--week", "2", "--out", "d")
    assert files_in("d") == {"week-2-stop-card.html"}
    assert "No PDFs" in said


def test_seconds_and_pace_stand_on_the_back(run: Run) -> None:
    words = ["--seconds-squares", "20", "--seconds-insects", "9", "--pace", "60"]
    run("card", *SHP, "--week", "2", "--out", "d", *words)
    page = Page("d/week-2-stop-card.html").plain
    assert "20 seconds for a plant with its squares, 9 for a terminal alone, 197 feet" in page


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--guideline", "tennessee-sweep", "--week", "1", "--out", "d"], "sweep net"),
        ([*SHP, "--week", "1"], "--out"),
        ([*SHP, "--week", "2", "--loops", "1+2+2", "--out", "d"], "--loops must be 2+3"),
        ([*SHP, "--week", "2", "--out", " "], "--out must name a folder"),
        ([*SHP, "--week", "2", "--field", "Gin", "--out", "d"], "--field goes with --fields"),
    ],
)
def test_what_does_not_fit_is_refused_and_nothing_is_written(
    run: Run, words: list[str], said: str
) -> None:
    _, err = run("card", *words, status=2)
    assert said in err
    assert not Path("d").exists()
