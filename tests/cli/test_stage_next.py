"""What ``stage`` says comes next: the look that is due, also after a spray, and a flower."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from tests.cli.ground import Run, run_in
from tests.cli.stations import write_station, write_table
from tests.cli.tables import rows, table

HEAD = "field,planted,first_square,bloom,treated"
RULE = ["--walks", "walks.csv", "--guideline", "southern-high-plains"]
STAGE = ["stage", "plantings.csv", "--weather", "station.csv"]

# 20 heat units a day: first square is about 27 May, first bloom about 21 June, as worked out
# in test_stage_command.
PLANTED = "2026-05-01"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    run = run_in(tmp_path, monkeypatch, capsys)
    write_station()
    return run


def walked(on: str, *, treated: str = "", **counted: int) -> None:
    """Write one field with a walk that calls for treating, and sprays."""
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},,,{treated}")
    counts = {"insects": 60, "healthy": 60, "lost": 60} | counted
    write_table("walks.csv", table(rows(on=on, **counts)).rstrip())


def brief(run: Run, on: str, *words: str) -> str:
    """Give the line of the only field."""
    return run(*STAGE, *words, "--on", on, "--brief")[0].splitlines()[1]


def test_a_spray_since_the_last_walk_says_when_somebody_comes_back(run: Run) -> None:
    walked("2026-06-03", treated="2026-06-10")
    # 3 to 4 days after the spray, and not 3 days after a walk that nobody acted on
    told, _ = run(*STAGE, *RULE, "--on", "2026-06-12")
    assert "The next look is due 13 to 14 June." in told
    assert "The next look was due" not in told
    # before the spray nobody knows of it
    assert "The next look was due 6 June." in run(*STAGE, *RULE, "--on", "2026-06-09")[0]


def test_a_spray_on_the_day_of_the_walk_comes_after_it_and_an_older_one_does_not(run: Run) -> None:
    walked("2026-06-03", treated="2026-06-03")
    assert "due 6 to 7 June." in run(*STAGE, *RULE, "--on", "2026-06-04")[0]
    walked("2026-06-13", treated="2026-06-03", insects=0, healthy=120, lost=0)
    assert "due 6 to 7 June" not in run(*STAGE, *RULE, "--on", "2026-06-14")[0]


def test_a_spray_asks_for_a_look_also_where_no_rule_judges_the_walk(run: Run) -> None:
    walked("2026-06-03", treated="2026-06-10")
    told, _ = run(*STAGE, *RULE[:2], "--on", "2026-06-12")
    assert "The next look is due 13 to 14 June." in told
    walked("2026-06-03")
    assert "next look" not in run(*STAGE, *RULE[:2], "--on", "2026-06-12")[0]


@pytest.mark.parametrize(
    ("on", "told"),
    [
        ("2026-06-11", "look again 13–14 Jun"),
        ("2026-06-13", "look again by 14 Jun"),
        ("2026-06-14", "look again today"),
        ("2026-06-15", "look due since 14 Jun"),
    ],
)
def test_brief_tells_the_look_that_is_due(run: Run, on: str, told: str) -> None:
    walked("2026-06-03", treated="2026-06-10")
    assert brief(run, on, *RULE).endswith(f"  {told}")


def test_past_the_season_of_the_rule_brief_tells_no_look(run: Run) -> None:
    walked("2026-06-19")
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},,2026-06-21,")
    assert "look" in brief(run, "2026-06-20", *RULE)
    assert brief(run, "2026-07-01", *RULE).endswith("weeds may be cleared")


def test_a_bloom_that_is_only_likely_has_its_odds_and_asks_for_a_flower(run: Run) -> None:
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},,,")
    likely = brief(run, "2026-06-23")
    assert "blooming, " in likely
    assert " in 10  " in likely
    assert likely.endswith("look for a flower")
    # as good as certain, and yet nobody saw it
    late = brief(run, "2026-07-08")
    assert "blooming, 19 in 20  " in late
    assert late.endswith("look for a flower")
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},,2026-06-21,")
    given = brief(run, "2026-06-23")
    assert "  blooming  " in given
    assert given.endswith("weeds may be cleared")


def test_a_field_that_may_square_already_has_its_odds(run: Run) -> None:
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},,,")
    assert "  not squaring, " in brief(run, "2026-05-25")
    assert "  not squaring  " in brief(run, "2026-05-10")


def test_a_field_planted_after_the_day_is_left_out_by_one_line(run: Run) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,,,", "Gin,2026-06-05,,,")
    alone = run(*STAGE, "--on", "2026-05-30", "--field", "Home 40")[0]
    why = "planted 5 June: after the day asked for"
    told, _ = run(*STAGE, "--on", "2026-05-30")
    assert told == f"{alone}Gin, {why}.\n"
    short, _ = run(*STAGE, "--on", "2026-05-30", "--brief")
    assert short.splitlines()[2] == f"Gin      {why}"
    data = json.loads(run(*STAGE, "--on", "2026-05-30", "--json")[0])
    assert [each["field"] for each in data["fields"]] == ["Home 40"]
    assert data["left_out"] == [{"field": "Gin", "planted": "2026-06-05", "text": why}]
    assert json.loads(run(*STAGE, "--on", "2026-06-06", "--json")[0])["left_out"] == []


def test_a_field_of_an_earlier_year_is_left_out_too(run: Run) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,,,", "Gin,2025-05-01,,,")
    told, _ = run(*STAGE, "--on", "2026-05-30", "--brief")
    # the last of 200 days
    ended = "its season ended 16 November 2025, before the day asked for"
    assert told.splitlines()[2] == f"Gin      planted 1 May 2025: {ended}"


def test_a_day_in_the_season_of_no_field_is_refused(run: Run) -> None:
    write_table("plantings.csv", HEAD, "Gin,2026-06-05,,,", "Home 40,2026-05-01,,,")
    _, err = run(*STAGE, "--on", "2026-04-30", status=2)
    assert "--on must lie in the season of a field, the nearest Home 40, 2026-05-01 to" in err
    _, err = run(*STAGE, "--on", "2026-04-30", "--field", "Gin", status=2)
    assert "--on must lie in the season of Gin, 2026-06-05 to 2026-12-21, got 2026-04-30." in err


@pytest.mark.parametrize("words", [["--brief"], []])
def test_weather_that_ends_before_planting_is_told(run: Run, words: list[str]) -> None:
    write_station(last=date(2026, 2, 28))
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},,,")
    told, _ = run(*STAGE, "--on", "2026-05-30", *words)
    assert told.splitlines()[-1] == "Weather of Cedar Gin is known until Saturday 28 February 2026."
    # 14 days before the day asked for are not long
    write_station(last=date(2026, 4, 20))
    assert "Weather of Cedar Gin is" not in run(*STAGE, "--on", "2026-05-04", *words)[0]
    assert "Weather of Cedar Gin is" in run(*STAGE, "--on", "2026-05-05", *words)[0]


def test_a_first_square_given_as_a_range_stays_a_range_in_the_json(run: Run) -> None:
    write_table("plantings.csv", HEAD, f"Home 40,{PLANTED},2026-05-20/2026-05-22,,")
    (field,) = json.loads(run(*STAGE, "--on", "2026-06-10", "--json")[0])["fields"]
    square = field["events"]["first_square"]
    assert (square["low"], square["high"]) == ("2026-05-20", "2026-05-22")
    assert square["low"] <= square["likely"] <= square["high"]
    assert square["given"] is True
