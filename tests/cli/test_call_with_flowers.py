"""Calls and seasons of fields whose first square is given, and whose flowers were seen."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.ground import Run, run_in
from tests.cli.stations import write_station, write_table
from tests.cli.tables import rows, table

HEAD = "field,planted,first_square,bloom,treated"
TREAT = {"insects": 60, "healthy": 140, "lost": 60}
BY = ["--plantings", "plantings.csv", "--weather", "station.csv"]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    run = run_in(tmp_path, monkeypatch, capsys)
    write_station()
    walks = table(rows(on="2026-07-10", **TREAT))  # type: ignore[arg-type]
    write_table("walks.csv", walks.rstrip())
    plant()
    return run


def plant(planted: str = "2026-05-08", first_square: str = "2026-06-18", bloom: str = "") -> None:
    write_table("plantings.csv", HEAD, f"Home 40,{planted},{first_square},{bloom},")


def told(
    run: Run, *seen: str, rule: str = "southern-high-plains", columns: str = "bloom"
) -> dict[str, Any]:
    table = write_table("seen.csv", f"field,date,{columns}", *(f"Home 40,{row}" for row in seen))
    by = ["--guideline", rule, *BY, *(["--seen", table] if seen else []), "--json"]
    walk: dict[str, Any] = json.loads(run("call", "walks.csv", *by)[0])["walks"][0]
    return walk


def verdict(walk: dict[str, Any]) -> str:
    return f"{walk['stage']['name']}: {walk['call']['verdict']}"


def codes(walk: dict[str, Any]) -> set[str]:
    return {reason["code"] for reason in walk["call"]["reasons"]}


@pytest.mark.parametrize("first_square", ["2026-06-18", "2026-06-16/2026-06-20"])
def test_flowers_that_were_seen_end_the_season_where_bloom_is_not_given(
    run: Run, first_square: str
) -> None:
    plant(first_square=first_square)
    assert verdict(told(run)) == "squaring: treat"
    walk = told(run, "2026-07-09,1", "2026-07-08,1", "2026-07-02,0")
    assert verdict(walk) == "blooming: none"
    assert {"season-over", "bloom-seen"} <= codes(walk)
    assert "seen on Wednesday 8 July;" in " ".join(r["text"] for r in walk["call"]["reasons"])


def test_flowers_on_the_day_of_the_walk_count_and_those_after_it_do_not(run: Run) -> None:
    assert verdict(told(run, "2026-07-10,1")) == "blooming: none"
    assert told(run, "2026-07-11,1") == told(run)


def test_nodes_above_white_flower_count_as_flowers(run: Run) -> None:
    assert verdict(told(run, "2026-07-08,7", columns="nawf")) == "blooming: none"


def test_flowers_before_first_square_are_left_out_and_named(run: Run) -> None:
    walk = told(run, "2026-06-15,1")
    assert verdict(walk) == "squaring: treat"
    assert "seen-left-out" in codes(walk)
    both = told(run, "2026-06-15,1", "2026-07-09,1")
    assert {"bloom-seen", "seen-left-out"} <= codes(both)


def test_flowers_of_another_season_say_nothing_also_where_no_planting_is_known(run: Run) -> None:
    for planted in ("2026-05-08", ""):
        plant(planted)
        assert told(run, "2025-07-08,1") == told(run)
        assert verdict(told(run, "2026-07-08,1")) == "blooming: none"


def test_flowers_of_a_stand_that_was_planted_over_say_nothing(run: Run) -> None:
    head = f"{HEAD},replanted"
    write_table("plantings.csv", head, "Home 40,2026-04-10,2026-06-18,,,2026-05-12")
    walk = told(run, "2026-05-11,1")
    assert verdict(walk) == "squaring: treat"
    assert "seen-left-out" not in codes(walk)


def test_a_first_bloom_that_is_given_holds(run: Run) -> None:
    plant(bloom="2026-07-12")
    assert told(run, "2026-07-08,1") == told(run)
    plant(bloom="2026-07-06")
    assert told(run, "2026-07-08,1") == told(run)


def test_other_looks_change_no_call_where_first_square_is_given(run: Run) -> None:
    assert told(run, "2026-07-01,20,0,9", columns="plants,pinhead,nodes") == told(run)


def test_a_rule_that_holds_on_for_a_week_counts_it_from_the_flowers(run: Run) -> None:
    inside = told(run, "2026-07-04,1", rule="coastal-bend")
    assert verdict(inside) == "blooming: treat"
    assert not codes(inside) & {"look-for-bloom", "bloom-date"}
    assert verdict(told(run, "2026-07-03,1", rule="coastal-bend")) == "blooming: none"


def test_a_report_and_a_season_make_the_same_call(run: Run) -> None:
    seen = ["--seen", write_table("seen.csv", "field,date,bloom", "Home 40,2026-07-08,1")]
    rule = ["--guideline", "southern-high-plains"]
    run("report", "walks.csv", *rule, *BY, *seen, "--out", "letters")
    assert "so that day stands for it" in Path("letters/Home-40-2026-07-10.html").read_text("utf-8")
    season = [
        "stage",
        "plantings.csv",
        *BY[2:],
        "--walks",
        "walks.csv",
        *rule,
        "--on",
        "2026-07-10",
    ]
    run(*season, "--out", "plain")
    run(*season, *seen, "--out", "flowers")
    plain, flowers = (Path(f"{of}/Home-40.html").read_text("utf-8") for of in ("plain", "flowers"))
    assert "Walk 10 July, treat" in plain
    assert "Walk 10 July, no call" in flowers
