"""Calls and reports where first square is worked out from weather and what was seen."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.cli.ground import Run, run_in, write_fields
from tests.cli.stations import station_rows, write_station, write_stations, write_table
from tests.cli.tables import rows, table

SHP = ["--guideline", "southern-high-plains"]
HEAD = "field,planted,first_square,bloom,treated"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def words(run: Run) -> list[str]:
    """Give the words that judge a walk of 8 June, in a field planted on 1 May."""
    write_station()
    write_walks(rows(on="2026-06-08"))
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,,,")
    return ["call", "walks.csv", *SHP, "--plantings", "plantings.csv", "--weather", "station.csv"]


def write_walks(*walks: list[str]) -> None:
    write_table("walks.csv", table(*walks).rstrip())


def told(run: Run, *words: str) -> list[dict[str, Any]]:
    walks: list[dict[str, Any]] = json.loads(run(*words, "--json")[0])["walks"]
    return walks


def stage_of(run: Run, *words: str) -> dict[str, Any]:
    stage: dict[str, Any] = told(run, *words)[0]["stage"]
    return stage


def crop_of(run: Run, *words: str) -> dict[str, Any]:
    stage: dict[str, Any] = told(run, *words)[0]["crop"]
    return stage


def test_a_field_without_a_walk_may_lack_its_first_square(run: Run) -> None:
    write_walks(rows(on="2026-06-20"))
    write_table("plantings.csv", HEAD, "Creek,2026-05-01,,,", "Home 40,2026-05-01,2026-06-10,,")
    words = ["call", "walks.csv", *SHP, "--plantings", "plantings.csv"]
    assert stage_of(run, *words)["squaring_weeks"] == [2]


def test_a_blank_first_square_is_worked_out(run: Run, words: list[str]) -> None:
    # 512 heat units from planting to first square at 20 a day: about 27 May
    stage = stage_of(run, *words)
    first, last = crop_of(run, *words)["first_square"]
    assert first < "2026-05-27" < last
    assert stage["name"] == "squaring"
    assert 2 in stage["squaring_weeks"]
    chances = crop_of(run, *words)["chances"]
    assert chances["before"] + sum(chances["weeks"]) + chances["blooming"] == pytest.approx(1)


def test_the_call_says_that_it_was_worked_out(run: Run, words: list[str]) -> None:
    (walk,) = told(run, *words)
    assert "first-square-worked-out" in {reason["code"] for reason in walk["call"]["reasons"]}
    assert "First square was not given." in " ".join(run(*words)[0].split())


def test_a_first_square_that_is_given_is_judged_as_without_weather(
    run: Run, words: list[str]
) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,2026-05-30/2026-06-02,2026-06-28,")
    assert told(run, *words) == told(run, *words[:-2])


def test_what_was_seen_up_to_the_day_of_the_walk_tells_more(run: Run, words: list[str]) -> None:
    write_walks(rows(on="2026-06-08", square_plants=40))
    alone = crop_of(run, *words)["first_square"]
    seen = ["field,date,plants,pinhead", "Home 40,2026-05-29,40,2", "Home 40,2026-06-01,40,36"]
    known = crop_of(run, *words, "--seen", write_table("seen.csv", *seen))["first_square"]
    # few had a square on 29 May and most had on 1 June; a share may be a day off
    assert "2026-05-28" <= known[0] <= known[1] <= "2026-06-02"
    assert alone != known
    late = write_table("late.csv", seen[0], "Home 40,2026-06-09,40,0")
    assert crop_of(run, *words, "--seen", late)["first_square"] == alone


def test_square_checks_of_the_fields_walks_up_to_the_day_count_as_seen(
    run: Run, words: list[str]
) -> None:
    bare = [row.replace(",3,0,0,0,", ",0,0,0,0,") for row in rows(on="2026-06-01", lost=0,
                                                                healthy=120)]  # fmt: skip
    before = rows(on="2026-06-08", healthy=120, lost=0)
    write_walks(before)
    alone = crop_of(run, *words)["first_square"]
    write_walks(bare, before)
    early, late = told(run, *words)
    # on 1 June no plant had a square, on 8 June each had
    assert early["stage"]["name"] == "before-squaring"
    assert late["crop"]["first_square"][0] > "2026-06-01" > alone[0]


def test_a_bloom_after_the_day_of_the_walk_is_not_looked_at(run: Run, words: list[str]) -> None:
    plain = told(run, *words)
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,,2026-07-01,")
    assert told(run, *words) == plain
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,,2026-06-07,")
    assert stage_of(run, *words)["name"] == "blooming"


def test_a_spray_before_the_walk_is_told_of_a_blank_first_square_too(
    run: Run, words: list[str]
) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,,,2026-06-05")
    (walk,) = told(run, *words)
    assert "recently-treated" in {reason["code"] for reason in walk["call"]["reasons"]}


def test_with_several_stations_the_boundaries_tell_which_is_near(
    run: Run, words: list[str]
) -> None:
    far = station_rows(id="far", place="34.6,-101.9")
    write_stations(far, station_rows())
    _, err = run(*words, status=2)
    assert "--fields must say where the fields are" in err
    near = crop_of(run, *words, "--fields", write_fields("Home 40"))
    assert 20 < near.pop("distance_km") < 30
    write_station()
    alone = crop_of(run, *words)
    assert alone.pop("distance_km") is None
    assert alone == near


def test_a_report_tells_the_same_call(run: Run, words: list[str]) -> None:
    run("report", *words[1:], "--out", "letters")
    page = Path("letters/Home-40-2026-06-08.html").read_text(encoding="utf-8")
    assert "First square was not given." in page


def test_a_walk_that_can_not_be_placed_is_refused_at_its_row(run: Run, words: list[str]) -> None:
    write_walks(rows(on="2026-06-08"), rows(on="2026-04-20"))
    out, err = run(*words, "--json", status=3)
    (error,) = json.loads(out)["errors"]
    assert (error["file"], error["row"], error["value"]) == ("walks.csv", 102, "2026-04-20")
    assert error["message"] == err.strip()
    assert (
        "walks.csv row 102, column date: must be a day from 2026-05-01 to 2026-11-16,"
        ' 200 days from planting, got "2026-04-20".'
    ) in err


def test_a_field_without_weather_is_refused_once_at_its_planting(
    run: Run, words: list[str]
) -> None:
    write_station(without={date(2026, 5, 2) + timedelta(days=n) for n in range(18)})
    write_walks(rows(on="2026-06-08"), rows(on="2026-06-09"))
    out, _ = run(*words, "--json", status=3)
    told = [(e["file"], e["row"], e["column"], e["value"]) for e in json.loads(out)["errors"]]
    assert set(told) == {("plantings.csv", 2, "planted", "2026-05-01")}


@pytest.mark.parametrize(
    "more",
    [
        ["--first-square", "2026-06-01", "--weather", "station.csv"],
        ["--first-square", "2026-06-01", "--seen", "seen.csv"],
        ["--first-square", "2026-06-01", "--stations", "list.txt"],
        ["--plantings", "plantings.csv", "--seen", "seen.csv"],
        ["--plantings", "plantings.csv", "--stations", "list.txt"],
        ["--plantings", "plantings.csv", "--weather", "-", "--fields", "-"],
    ],
)
def test_options_that_do_not_go_together_exit_with_2(
    more: list[str], run: Run, words: list[str]
) -> None:
    out, err = run(*words[:4], *more, status=2)
    assert out == ""
    assert err.startswith("quarterwalk call: ")


def test_without_weather_a_blank_first_square_is_refused(run: Run, words: list[str]) -> None:
    _, err = run(*words[:-2], status=3)
    assert "plantings.csv row 2, column first_square: must be a date" in err
    assert err.endswith("Give a day, or leave it blank and give --weather.\n")


def test_without_weather_nor_planting_a_blank_first_square_takes_both(
    run: Run, words: list[str]
) -> None:
    write_table("plantings.csv", HEAD, "Home 40,,,,")
    _, err = run(*words[:-2], status=3)
    assert err.endswith("or leave it blank and give --weather and the day of planting.\n")


def test_a_table_without_first_square_is_told_that_weather_would_do(
    run: Run, words: list[str]
) -> None:
    write_table("plantings.csv", "field,planted", "Home 40,2026-05-01")
    _, err = run(*words[:-2], status=3)
    assert "column first_square: must be in the header" in err
    assert err.endswith("Or give --weather and the day of planting.\n")


def test_a_first_square_that_can_not_be_read_is_not_told_to_be_blank(
    run: Run, words: list[str]
) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,6/10/2026,,")
    _, err = run(*words[:-2], status=3)
    assert 'got "6/10/2026".' in err
    assert "--weather" not in err


def test_a_blank_first_square_without_planting_is_refused(run: Run, words: list[str]) -> None:
    write_table("plantings.csv", HEAD, "Home 40,,,,")
    _, err = run(*words, status=3)
    assert "plantings.csv row 2, column planted: must be a date" in err


def test_another_share_of_plants_needs_weather_to_count_for(run: Run, words: list[str]) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,2026-05-27,,")
    _, err = run(*words[:-2], "--square-share", "0.6", status=2)
    assert "--square-share goes with --weather" in err
    alone = ["call", "walks.csv", *SHP, "--first-square", "2026-05-27", "--square-share", "0.6"]
    assert "--square-share goes with --plantings" in run(*alone, status=2)[1]


def test_a_bloom_after_the_walk_is_known_whether_first_square_is_given_or_not(
    run: Run, words: list[str]
) -> None:
    write_walks(rows(on="2026-06-30"))
    for square in ("", "2026-05-27"):
        for bloom, asked in (("", True), ("2026-07-20", False)):
            write_table("plantings.csv", HEAD, f"Home 40,2026-05-01,{square},{bloom},")
            (walk,) = told(run, *words)
            codes = {reason["code"] for reason in walk["call"]["reasons"]}
            assert ("bloom-date" in codes) == asked, (square, bloom)
