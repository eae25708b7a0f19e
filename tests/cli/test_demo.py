"""The demo writes what it says, judges it as any other walks, and tells it plainly."""

from __future__ import annotations

import csv
import json
import shlex
from collections.abc import Callable
from pathlib import Path

import pytest

from quarterwalk.cli import main

TABLES = {"walks.csv", "plantings.csv", "truth.csv", "calls.json", "calls.csv"}
NAMES = TABLES | {
    "fields.geojson", "reports", "seasons", "cards", "weather.csv", "seen.csv", "planted.csv",
}  # fmt: skip
Told = Callable[..., str]


@pytest.fixture
def told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Told:
    """Run a command from an empty folder, and give what it prints."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")

    def run(*words: str, status: int = 0) -> str:
        assert main(words) == status
        printed = capsys.readouterr()
        return printed.out if status == 0 else printed.err

    return run


def rows(path: str) -> list[dict[str, str]]:
    with Path(path).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_demo_writes_its_files_and_nothing_else(told: Told, tmp_path: Path) -> None:
    told("demo", "--calls-only")
    assert {path.name for path in tmp_path.iterdir()} == {"quarterwalk-demo"}
    assert {path.name for path in (tmp_path / "quarterwalk-demo").iterdir()} == NAMES


def test_the_same_seed_writes_the_same_bytes_and_another_seed_does_not(told: Told) -> None:
    told("demo", "--calls-only", "--out", "one")
    told("demo", "--calls-only", "--out", "two", "--seed", "1")
    told("demo", "--calls-only", "--out", "three", "--seed", "3")
    files = [path.relative_to("one") for path in Path("one").rglob("*") if path.is_file()]
    assert len(files) > len(TABLES)
    same = [Path("one", f).read_bytes() == Path("two", f).read_bytes() for f in files]
    assert all(same)
    assert Path("one/walks.csv").read_bytes() != Path("three/walks.csv").read_bytes()


def test_the_calls_are_those_of_the_ordinary_command(told: Told) -> None:
    told("demo", "--calls-only", "--out", "d")
    said = told(
        "call", "d/walks.csv", "--guideline", "southern-high-plains",
        "--plantings", "d/plantings.csv", "--json",
    )  # fmt: skip
    assert Path("d/calls.json").read_text(encoding="utf-8") == said


def test_the_table_of_calls_has_a_row_for_each_walk(told: Told) -> None:
    told("demo", "--calls-only", "--out", "d")
    calls = json.loads(Path("d/calls.json").read_text(encoding="utf-8"))["walks"]
    table = rows("d/calls.csv")
    assert [(r["field"], r["date"], r["verdict"]) for r in table] == [
        (c["field"], c["date"], c["call"]["verdict"]) for c in calls
    ]


def test_other_peoples_files_stay_and_old_ones_of_the_demo_go(told: Told) -> None:
    folder = Path("d")
    folder.mkdir()
    (folder / "notes.txt").write_text("mine", encoding="utf-8")
    (folder / "walks.csv").write_text("old", encoding="utf-8")
    told("demo", "--calls-only", "--out", "d")
    assert (folder / "notes.txt").read_text(encoding="utf-8") == "mine"
    assert {path.name for path in folder.iterdir()} == NAMES | {"notes.txt"}
    assert rows("d/walks.csv")


def test_the_agreement_told_is_that_of_the_files(told: Told) -> None:
    said = " ".join(told("demo", "--calls-only", "--out", "d").split())
    calls = json.loads(Path("d/calls.json").read_text(encoding="utf-8"))["walks"]
    compared = [
        (c["call"]["verdict"] == "treat", t["rule_says"] == "treat")
        for c, t in zip(calls, rows("d/truth.csv"), strict=True)
        if c["call"]["verdict"] != "none" and t["rule_says"]
    ]
    agree = sum(call == truth for call, truth in compared)
    assert f"Of {len(compared)} calls, {agree} agree with what the guideline says" in said


def test_the_truth_has_a_row_for_each_walk_in_the_order_of_the_calls(told: Told) -> None:
    told("demo", "--calls-only", "--out", "d")
    assert [(r["field"], r["date"]) for r in rows("d/truth.csv")] == [
        (r["field"], r["date"]) for r in rows("d/calls.csv")
    ]


@pytest.mark.parametrize("width", [60, 80, 88, 200])
def test_no_line_is_wider_than_the_screen_or_than_reads_well(
    told: Told, monkeypatch: pytest.MonkeyPatch, width: int
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    monkeypatch.setattr("shutil.which", lambda name: name)
    said = told("demo", "--calls-only")
    # the guideline's hash is to be copied whole, so that line is not broken
    lines = [line for line in said.splitlines() if not line.startswith("  Guideline: ")]
    assert max(map(len, lines)) <= min(width, 88)


def test_nothing_is_coloured_where_nobody_looks(told: Told) -> None:
    assert "\x1b" not in told("demo", "--calls-only")


def test_each_field_stands_once_under_what_its_last_call_says(told: Told) -> None:
    said = told("demo", "--calls-only", "--out", "d")
    shown = said[said.index("HOW EACH FIELD") : said.index("ONE CALL IN FULL")]
    last = {r["field"]: r["verdict"] for r in rows("d/calls.csv")}
    titles = {
        "Wants a decision": "treat",
        "Look sooner": "look-sooner",
        "Fine": "hold",
        "No call": "none",
    }
    found, group = {}, ""
    for line in shown.splitlines():
        group = titles.get(line.partition(":")[0], group)
        found.update({field: group for field in last if line.startswith(f"  {field} ")})
    assert found == last


@pytest.mark.parametrize("folder", ["d", "two words", "-"])
def test_the_command_to_try_next_works_from_here(
    told: Told, monkeypatch: pytest.MonkeyPatch, folder: str
) -> None:
    monkeypatch.setattr("shutil.which", lambda name: name)
    said = told("demo", "--calls-only", "--out", folder)
    after = said[said.index("TRY NEXT") :]
    calls = after[after.index("    quarterwalk call") : after.index("  how far each crop is")]
    crops = after[after.index("    quarterwalk stage") : after.index("  where to walk today")]
    for command in (calls, crops):
        program, *words = shlex.split(command.replace("\\\n", ""))
        assert program == "quarterwalk"
        assert "Sand Draw 110" in told(*words)


@pytest.mark.parametrize("folder", ["d", "two words", "-", "./deep/d"])
def test_where_to_walk_today_is_a_command_that_works_from_here(
    told: Told, monkeypatch: pytest.MonkeyPatch, folder: str
) -> None:
    monkeypatch.setattr("shutil.which", lambda name: name)
    said = told("demo", "--calls-only", "--out", folder)
    after = said[said.index("  where to walk today") :]
    command = after[after.index("    quarterwalk quarters") : after.index("  the rule itself")]
    program, *words = shlex.split(command.replace("\\\n", ""))
    assert program == "quarterwalk"
    assert "Sand Draw 110, 110 acres" in told(*words)


def test_it_says_where_the_reports_are_and_that_page_is_there(told: Told) -> None:
    said = " ".join(told("demo", "--calls-only", "--out", "d").split())
    assert "14 reports, each as a page" in said
    page = said.partition("Open ")[2].partition(" in a browser")[0]
    assert page == str(Path("d/reports/index.html"))
    assert Path(page).is_file()


def test_the_cards_are_those_of_the_ordinary_command_and_none_is_worked_out(
    told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*_: object) -> None:
        raise AssertionError("a plan was worked out")

    monkeypatch.setattr("quarterwalk.cli.plan_cache.make_plan", never)
    said = told("demo", "--calls-only", "--out", "d")
    assert "cards           when a walk may end early, weeks 1 to 3" in said
    pages = sorted(path.name for path in Path("d/cards").glob("*.html"))
    assert pages == [f"week-{week}-stop-card.html" for week in (1, 2, 3)]
    last = max(row["date"] for row in rows("d/truth.csv"))
    words = ["--guideline", "southern-high-plains", "--week", "2", "--date", last]
    told("card", *words, "--out", "one")
    for path in Path("one").iterdir():
        assert path.read_bytes() == Path("d/cards", path.name).read_bytes()


def test_fields_may_be_shown_in_hectares(told: Told) -> None:
    # 120 acres of 0.40468564 ha are 48.56 ha
    assert "  Gin Road 120      49 hectares" in told("demo", "--calls-only", "--units", "metric")
    assert "hectares" not in told("demo", "--calls-only")


def test_an_out_that_is_a_file_is_told_and_left_alone(told: Told) -> None:
    Path("taken").write_text("mine", encoding="utf-8")
    assert "--out must be a folder that can be written to, got taken" in told(
        "demo", "--calls-only", "--out", "taken", status=2
    )
    assert Path("taken").read_text(encoding="utf-8") == "mine"


def test_boundaries_that_were_given_are_not_written_over(told: Told) -> None:
    Path("d").mkdir()
    mine = Path("d/fields.geojson")
    mine.write_text("my own", encoding="utf-8")
    words = ["--calls-only", "--out", "d", "--fields", "d/fields.geojson"]
    said = told("demo", *words, status=2)
    assert "--out must leave the files alone that are read" in said
    assert mine.read_text(encoding="utf-8") == "my own"


def test_a_seed_below_0_is_told(told: Told) -> None:
    assert "--seed must be 0 or more, got -1" in told(
        "demo", "--calls-only", "--seed", "-1", status=2
    )
    assert not Path("quarterwalk-demo").exists()


def test_it_says_that_all_is_invented(told: Told) -> None:
    said = " ".join(told("demo", "--calls-only").split())
    assert "is an invented district" in said
    assert "No place, person or count in it is real." in said
