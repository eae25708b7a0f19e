"""Boundaries beside walks: `call` and `demo` know the fields, and what they judge is the same."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest

from tests.cli.ground import Run, files_in, read_json, run_in, write_fields
from tests.cli.tables import rows, table
from tests.cli.test_report import Page

RULE = ["--guideline", "southern-high-plains", "--first-square", "2026-06-10"]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def walks(run: Run) -> str:
    Path("walks.csv").write_text(table(rows(), rows(field="Gin")), encoding="utf-8")
    return "walks.csv"


def test_a_call_is_headed_by_area_and_grower(run: Run, walks: str) -> None:
    fields = write_fields("Home 40", "Gin", grower="Ines Halloway")
    said, notices = run("call", walks, *RULE, "--fields", fields)
    assert notices == ""
    head = said.partition("\n\n")[0].splitlines()
    assert head[0].startswith("Home 40, ")
    # 0.008 by 0.006 degrees at 33.4 north: 744 m by 665.5 m are 122.3 acres
    assert head[-1].strip() == "122 acres, Ines Halloway."
    plain, _ = run("call", walks, *RULE)
    assert said.replace("  122 acres, Ines Halloway.\n", "") == plain


def test_a_field_without_a_grower_is_headed_by_its_area(run: Run, walks: str) -> None:
    said, _ = run("call", walks, *RULE, "--fields", write_fields("Home 40", "Gin"))
    assert said.count("  122 acres.\n") == 2


def test_what_scripts_read_is_the_same_with_and_without_fields(run: Run, walks: str) -> None:
    fields = write_fields("Home 40", grower="Ines Halloway")
    bounded, notices = run("call", walks, *RULE, "--json", "--fields", fields)
    assert bounded == run("call", walks, *RULE, "--json")[0]
    assert json.loads(bounded)["walks"]
    assert "Gin" in notices


def test_a_walked_field_that_is_not_in_the_file_is_told_once(run: Run, walks: str) -> None:
    more = table(rows(), rows(field="Gin"), rows(field="Gin", on="2026-06-24"))
    Path("walks.csv").write_text(more, encoding="utf-8")
    said, notices = run("call", walks, *RULE, "--fields", write_fields("Home 40"))
    assert notices.splitlines() == [
        'fields.geojson: has no field named "Gin"; what is said of its walks carries no area and'
        " no sketch."
    ]
    assert said.count("acres") == 1


def test_boundaries_that_nobody_walked_are_no_matter(run: Run, walks: str) -> None:
    fields = write_fields("Home 40", "Gin", "Mill")
    assert run("call", walks, *RULE, "--fields", fields)[1] == ""


def test_an_accent_written_in_two_ways_is_one_name(run: Run) -> None:
    """As one character in the table, as letter and accent in a file from another system."""
    Path("walks.csv").write_text(table(rows(field="R\u00edo")), encoding="utf-8")
    said, notices = run("call", "walks.csv", *RULE, "--fields", write_fields("Ri\u0301o"))
    assert notices == ""
    assert "122 acres" in said


def test_walks_and_boundaries_cannot_both_come_from_standard_input(
    run: Run, walks: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = Path(walks).read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    out, err = run("call", "-", *RULE, "--fields", "-", status=2)
    assert out == ""
    assert "standard input" in err


def test_boundaries_from_standard_input_are_named_so(
    run: Run, walks: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = Path(write_fields("Home 40")).read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    said, notices = run("call", walks, *RULE, "--fields", "-")
    assert "122 acres" in said
    assert notices.startswith('standard input: has no field named "Gin"')


def test_refused_boundaries_refuse_the_call(run: Run, walks: str) -> None:
    fields = write_fields("Home 40", "Home 40")
    out, err = run("call", walks, *RULE, "--json", "--fields", fields, status=3)
    (error,) = json.loads(out)["errors"]
    assert (error["file"], error["row"], error["column"]) == (fields, 2, "name")
    assert err == error["message"] + "\n"


def test_a_notice_of_a_mended_boundary_does_not_touch_the_json(run: Run, walks: str) -> None:
    fields = write_fields("Home 40", "Gin")
    whole = json.loads(Path(fields).read_text(encoding="utf-8"))
    whole["features"][0]["geometry"]["coordinates"][0].pop()
    Path(fields).write_text(json.dumps(whole), encoding="utf-8")
    out, err = run("call", walks, *RULE, "--json", "--fields", fields)
    assert "the ring was not closed" in err
    assert len(json.loads(out)["walks"]) == 2


def test_the_demo_writes_boundaries_that_quarters_reads(run: Run) -> None:
    run("demo", "--calls-only", "--out", "d")
    out, err = run("quarters", "d/fields.geojson", "--date", "2026-07-10", "--json")
    assert err == ""
    laid = {f["properties"]["field"] for f in json.loads(out)["features"]}
    walked = {w["field"] for w in read_json("d/calls.json")["walks"]}
    assert laid == walked
    assert len(laid) == 14


def test_the_demo_tells_each_grower_of_the_last_walk(run: Run) -> None:
    run("demo", "--calls-only", "--out", "d")
    last = {w["field"]: w["date"] for w in read_json("d/calls.json")["walks"]}
    pages = {name for name in files_in("d/reports") if name.endswith(".html")} - {"index.html"}
    assert pages == {f"{name.replace(' ', '-')}-{day}.html" for name, day in last.items()}
    growers = {
        f["properties"]["name"]: f["properties"]["grower"]
        for f in read_json("d/fields.geojson")["features"]
    }
    for name, day in last.items():
        page = Page(f"d/reports/{name.replace(' ', '-')}-{day}.html").plain
        assert name in page
        assert growers[name] in page


def test_the_demo_takes_boundaries_of_your_own_for_its_fields(run: Run) -> None:
    fields = write_fields("Windmill 80", grower="Wen Adair")
    run("demo", "--calls-only", "--out", "d", "--fields", fields)
    page = next(Path("d/reports").glob("Windmill-80-*.html"))
    assert "Wen Adair" in Page(page).plain
    other = next(Path("d/reports").glob("Playa-60-*.html"))
    assert "acres" not in Page(other).plain


def test_the_demo_judges_alike_with_boundaries_of_your_own(run: Run) -> None:
    run("demo", "--calls-only", "--out", "one")
    run("demo", "--calls-only", "--out", "two", "--fields", write_fields("Windmill 80"))
    for name in ("walks.csv", "calls.json", "calls.csv", "truth.csv", "plantings.csv"):
        assert Path("one", name).read_bytes() == Path("two", name).read_bytes()
