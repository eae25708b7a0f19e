"""Where fields' seasons stand, on the screen, as JSON and as pages."""

from __future__ import annotations

import json
import sys
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.cli.ground import Run, files_in, run_in, write_fields
from tests.cli.stations import station_rows, write_station, write_stations, write_table
from tests.cli.tables import rows, table

# 20 heat units a day from the day after planting: three days to emergence (57), then 23 to
# first square (455). Past 30 May they are 16 a day, as in other years: of the 410 to first
# bloom three days bring 60, and 22 days the rest.
PLANTED = date(2026, 5, 1)
SQUARE = PLANTED + timedelta(days=26)
BLOOM = date(2026, 5, 30) + timedelta(days=22)
HOME = "Home 40,2026-05-01,,,"
HEAD = "field,planted,first_square,bloom,treated"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def season(run: Run) -> list[str]:
    """Give the words that ask for the season of one field on 30 May."""
    write_station()
    write_table("plantings.csv", HEAD, HOME)
    return ["stage", "plantings.csv", "--weather", "station.csv", "--on", "2026-05-30"]


def told(run: Run, *words: str) -> list[dict[str, Any]]:
    fields: list[dict[str, Any]] = json.loads(run(*words, "--json")[0])["fields"]
    return fields


def near(day: str, expected: date) -> bool:
    return abs((date.fromisoformat(day) - expected).days) <= 1


def test_events_fall_where_the_heat_puts_them(run: Run, season: list[str]) -> None:
    (field,) = told(run, *season)
    events = field["events"]
    assert near(events["emergence"]["likely"], PLANTED + timedelta(days=3))
    assert near(events["first_square"]["likely"], SQUARE)
    assert near(events["first_bloom"]["likely"], BLOOM)
    assert list(events) == ["emergence", "four_leaves", "first_square", "first_bloom", "cutout"]
    for event in events.values():
        assert event["low"] <= event["likely"] <= event["high"]
        assert (event["level"], event["given"]) == (0.8, False)


def test_the_json_has_every_key_that_scripts_rely_on(run: Run, season: list[str]) -> None:
    (field,) = told(run, *season)
    assert (field["field"], field["planted"], field["on"]) == (
        "Home 40", "2026-05-01", "2026-05-30",
    )  # fmt: skip
    assert set(field["stage"]) == {"name", "squaring_weeks", "bbch"}
    weeks = field["weeks"]
    assert weeks["before"] + sum(weeks["weeks"]) + weeks["blooming"] == pytest.approx(1)
    assert field["first_square_for_call"][0] <= field["events"]["first_square"]["low"]
    assert set(field["by_weather"]) == {"emergence", "first_square", "first_bloom", "cutout"}
    assert set(field["next"]) == {"begin", "closest", "bloom", "weeds_until", "weeds_again"}
    assert (field["disagreements"], field["set_aside"]) == ([], [])
    # 29 days after the day of planting
    assert field["heat_units"] == 29 * 20
    assert field["weather"] == {
        "station": "gin", "distance_km": None, "known_until": "2026-05-30", "years": 6,
        "years_from": None,
        "filled": {},
    }  # fmt: skip


def test_a_first_square_that_is_given_stays_as_it_is(run: Run, season: list[str]) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2026-05-01,2026-05-25/2026-05-26,,")
    (field,) = told(run, *season)
    assert field["first_square_for_call"] == ["2026-05-25", "2026-05-26"]
    assert field["events"]["first_square"]["given"] is True


def test_what_was_seen_moves_first_square_and_a_disagreement_is_told(
    run: Run, season: list[str]
) -> None:
    seen = write_table(
        "seen.csv", "field,date,plants,pinhead", "Home 40,2026-05-18,20,18", "Gin,2026-05-18,20,1"
    )
    (field,) = told(run, *season, "--seen", seen)
    assert field["events"]["first_square"]["high"] <= "2026-05-18"
    (disagreement,) = field["disagreements"]
    assert (disagreement["code"], disagreement["on"]) == ("pinheads", "2026-05-18")
    assert "18 plants of 20" in disagreement["text"]
    assert 'no field named "Gin"' in run(*season, "--seen", seen)[1]


def test_what_can_not_be_true_beside_the_rest_is_set_aside(run: Run, season: list[str]) -> None:
    write_table(
        "seen.csv", "field,date,plants,pinhead", "Home 40,2026-05-20,20,18",
        "Home 40,2026-05-28,20,1",
    )  # fmt: skip
    (aside,) = told(run, *season, "--seen", "seen.csv")[0]["set_aside"]
    assert (aside["on"], aside["by_on"]) == ("2026-05-20", "2026-05-28")
    assert "set aside" in aside["text"]


def test_what_was_seen_later_is_not_looked_at(run: Run, season: list[str]) -> None:
    seen = write_table("seen.csv", "field,date,plants,pinhead", "Home 40,2026-06-02,20,0")
    assert told(run, *season, "--seen", seen) == told(run, *season)


def test_square_checks_of_walks_count_as_seen(run: Run, season: list[str]) -> None:
    write_table("walks.csv", table(rows(on="2026-05-20")).rstrip())
    (field,) = told(run, *season, "--walks", "walks.csv")
    assert field["events"]["first_square"]["high"] <= "2026-05-20"


def test_a_stand_planted_again_counts_from_that_day(run: Run, season: list[str]) -> None:
    write_table("plantings.csv", HEAD + ",replanted", HOME + ",2026-05-08")
    (field,) = told(run, *season)
    assert field["planted"] == "2026-05-08"
    # 440 of 512 heat units by 30 May, then 16 a day
    assert near(field["events"]["first_square"]["likely"], date(2026, 6, 4))


def test_the_screen_tells_where_it_stands_and_what_comes_next(run: Run, season: list[str]) -> None:
    out, _ = run(*season)
    assert out.startswith("Home 40, Saturday 30 May 2026\n\n  Where it stands\n")
    assert "What comes next" in out
    assert "Told for today" not in out
    assert max(map(len, out.splitlines())) <= 80


def test_of_several_fields_the_needs_and_their_sources_are_told_once(
    run: Run, season: list[str]
) -> None:
    alone, _ = run(*season)
    write_table("plantings.csv", HEAD, HOME, "Gin,2026-05-08,,,")
    both, _ = run(*season)
    for said in ("First square takes 455", "Sources: [1]"):
        assert alone.count(said) == 1
        assert both.count(said) == 1
    assert both.count("Weather: ") == 2
    assert both.index("What all these fields stand on") < both.index("Sources: [1]")


def test_each_record_of_the_json_has_the_sentence_of_its_own_day(
    run: Run, season: list[str]
) -> None:
    """Five looks of one kind, of which the screen tells the last."""
    days = [f"2026-05-{day}" for day in (10, 11, 12, 13, 14)]
    few = "2026-05-20"
    write_table(
        "seen.csv",
        "field,date,plants,pinhead",
        *(f"Home 40,{day},20,18" for day in days),
        f"Home 40,{few},20,2",
    )
    (field,) = told(run, *season, "--seen", "seen.csv")
    records = (*field["disagreements"], *field["set_aside"])
    assert len(records) >= 5
    for record in records:
        day = date.fromisoformat(record["on"])
        assert f"{day.day} {day:%B}" in record["text"], record


def test_a_look_before_planting_is_told_to_clash_with_it(run: Run, season: list[str]) -> None:
    write_table("seen.csv", "field,date,true_leaves", "Home 40,2026-04-25,3")
    (field,) = told(run, *season, "--seen", "seen.csv")
    assert [(each["code"], each["by"]) for each in field["set_aside"]] == [
        ("true-leaves", "planted")
    ]


def test_a_long_name_does_not_push_the_line_out_of_the_screen(run: Run, season: list[str]) -> None:
    name = "The field behind the old gin by the second turnrow north"
    write_table("plantings.csv", HEAD, f"{name},2026-05-01,,,")
    out, _ = run(*season, "--brief")
    assert max(map(len, out.splitlines())) <= 92


def test_brief_is_one_line_a_field(run: Run, season: list[str]) -> None:
    write_table("plantings.csv", HEAD, HOME, "Gin,2026-05-25,,,", "Old,2026-04-01,2026-04-27,,")
    out, _ = run(*season, "--brief")
    head, home, gin, old = out.splitlines()
    assert head.split() == ["field", "stage", "first", "square", "first", "bloom", "next"]
    assert home.startswith("Home 40  week 1, ")
    assert "watch closest to" in home
    assert gin.startswith("Gin      not squaring")
    assert "begin to walk" in gin
    assert old.startswith("Old      blooming")


def test_brief_says_where_the_weather_ends_long_before_the_day(run: Run, season: list[str]) -> None:
    # the station's file ends on 10 July
    out, _ = run(*season[:-1], "2026-09-29", "--brief")
    assert out.splitlines()[-1] == "Weather of Cedar Gin is known until Friday 10 July 2026."
    out, _ = run(*season[:-1], "2026-07-24", "--brief")
    assert "is known until" not in out


def test_brief_says_once_where_the_weather_of_several_fields_ends(
    run: Run, season: list[str]
) -> None:
    write_table("plantings.csv", HEAD, HOME, "Gin,2026-05-25,,,")
    out, _ = run(*season[:-1], "2026-09-29", "--brief")
    assert out.count("Weather of Cedar Gin is known until") == 1


def test_fields_can_be_picked_by_name(run: Run, season: list[str]) -> None:
    write_table("plantings.csv", HEAD, HOME, "Gin,2026-05-08,,,", "Creek,2026-05-08,,,")
    found = told(run, *season, "--field", "Creek", "--field", "Home 40")
    assert [field["field"] for field in found] == ["Home 40", "Creek"]
    _, err = run(*season, "--field", "Crek", status=2)
    assert '--field must be a field of plantings.csv, got "Crek".' in err


def test_each_field_goes_by_the_nearest_station(run: Run, season: list[str]) -> None:
    far = station_rows(id="far", name="Far Gin", place="34.6,-101.9")
    write_stations(far, station_rows())
    fields = write_fields("Home 40", grower="Rufus Pendry")
    (field,) = told(run, *season, "--fields", fields)
    assert field["weather"]["station"] == "gin"
    # from 33.403, -101.896 to 33.62, -101.85
    assert field["weather"]["distance_km"] == pytest.approx(24.4, abs=0.5)
    assert "Home 40, Rufus Pendry, Saturday 30 May 2026, 122 acres" in run(
        *season, "--fields", fields
    )[0]  # fmt: skip


def test_several_stations_need_the_places_of_the_fields(run: Run, season: list[str]) -> None:
    write_stations(station_rows(), station_rows(id="far", place="34.6,-101.9"))
    _, err = run(*season, status=2)
    assert "with 2 stations --fields must say where the fields are" in err
    # said before the walks are read, which may take long
    assert run(*season, "--walks", "none.csv", status=2)[1] == err


def test_pages_and_pdfs_are_named_for_their_fields(run: Run, season: list[str]) -> None:
    pytest.importorskip("typst", reason="needs the report extra")
    out, _ = run(*season, "--brief", "--out", "seasons")
    assert files_in("seasons") == {"Home-40.html", "Home-40.pdf"}
    assert "seasons holds 1 season, as a page and as a PDF." in out
    assert Path("seasons/Home-40.pdf").read_bytes().startswith(b"%PDF")


def test_a_name_that_is_taken_by_a_folder_stops_it_before_anything_is_written(
    run: Run, season: list[str]
) -> None:
    Path("seasons/Home-40.html").mkdir(parents=True)
    _, err = run(*season, "--brief", "--out", "seasons", status=2)
    assert f"{Path('seasons/Home-40.html')} is a folder" in err
    assert files_in("seasons") == {"Home-40.html"}


def test_without_the_extra_there_are_pages_and_a_line_says_what_brings_pdfs(
    run: Run, season: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("quarterwalk.cli.stage_command.pdfs_can_be_made", lambda: False)
    monkeypatch.setitem(sys.modules, "typst", None)
    out, _ = run(*season, "--brief", "--out", "seasons")
    assert files_in("seasons") == {"Home-40.html"}
    assert "No PDFs" in out


def test_walks_are_drawn_with_what_the_rule_calls_for(run: Run, season: list[str]) -> None:
    walks = table(rows(on="2026-05-29", insects=60, healthy=60, lost=60), rows(on="2025-06-01"))
    write_table("walks.csv", walks.rstrip())
    words = ["--walks", "walks.csv", "--out", "seasons", "--brief"]
    run(*season, *words)
    plain = Path("seasons/Home-40.html").read_text(encoding="utf-8")
    run(*season, *words, "--guideline", "southern-high-plains")
    judged = Path("seasons/Home-40.html").read_text(encoding="utf-8")
    assert "next look" not in plain
    assert "next look" in judged
    assert "southern-high-plains" in judged


def test_pages_can_be_in_spanish(run: Run, season: list[str]) -> None:
    run(*season, "--language", "es", "--brief", "--out", "seasons")
    assert '<html lang="es"' in Path("seasons/Home-40.html").read_text(encoding="utf-8")


def test_the_day_is_today_or_the_nearest_of_the_season(run: Run, season: list[str]) -> None:
    write_table("plantings.csv", HEAD, "Home 40,2021-05-01,,,")
    out, _ = run(*season[:-2], "--brief")
    told = " ".join(out.split())
    today = date.today()  # noqa: DTZ011 - as the command takes it
    assert f"{today.year}; --on DATE asks for another day." in told
    # the last of 200 days
    assert "Home 40 for 2021-11-16" in told


@pytest.mark.parametrize(
    "words",
    [
        ["stage", "plantings.csv"],
        ["stage", "--weather", "station.csv"],
        ["stage", "plantings.csv", "--weather", "station.csv", "--on", "2026-04-30"],
        ["stage", "plantings.csv", "--weather", "station.csv", "--on", "2027-04-30"],
        ["stage", "plantings.csv", "--weather", "station.csv", "--guideline", "oklahma"],
        ["stage", "plantings.csv", "--weather", "-", "--fields", "-"],
    ],
)
def test_a_wrong_command_line_exits_with_2(words: list[str], run: Run, season: list[str]) -> None:
    out, err = run(*words, status=2)
    assert out == ""
    assert err


def test_a_field_whose_weather_does_not_reach_is_refused_by_its_name(
    run: Run, season: list[str]
) -> None:
    lost = {date(2026, 5, 2) + timedelta(days=n) for n in range(18)}
    write_station(without=lost)
    write_table("plantings.csv", HEAD, HOME, "Gin,2026-05-20,,,")
    out, err = run(*season, "--json", status=3)
    (error,) = json.loads(out)["errors"]
    assert error["message"] == err.strip()
    where = "plantings.csv row 2, field Home 40"
    assert err.startswith(f"{where}: weather of Cedar Gin must have every day")
    assert err.endswith(". Give a file of another station near by, or of more years.\n")
    assert (error["row"], error["column"], error["value"]) == (2, "planted", "2026-05-01")
    assert error["expected"].startswith("weather of Cedar Gin must have every day from 2026-05-01")
    assert "Give" not in error["expected"]


def test_the_stand_that_grows_now_is_refused_at_its_own_day(run: Run, season: list[str]) -> None:
    lost = {date(2026, 5, 12) + timedelta(days=n) for n in range(18)}
    write_station(without=lost)
    write_table("plantings.csv", "field,planted,replanted", "Home 40,2026-05-01,2026-05-10")
    (error,) = json.loads(run(*season, "--json", status=3)[0])["errors"]
    assert (error["row"], error["column"], error["value"]) == (2, "replanted", "2026-05-10")


def test_a_field_without_a_day_of_planting_is_refused(run: Run, season: list[str]) -> None:
    write_table("plantings.csv", HEAD, HOME, "Gin,,2026-05-25,,")
    _, err = run(*season, status=3)
    assert err == (
        'plantings.csv row 3, column planted: must be a date for Gin, got "". A season needs it.\n'
    )
    run(*season, "--field", "Home 40")


def test_a_walk_of_a_field_that_was_never_planted_is_refused(run: Run, season: list[str]) -> None:
    write_table("walks.csv", table(rows(field="Gin")).rstrip())
    _, err = run(*season, "--walks", "walks.csv", status=3)
    assert 'must be a field with a row in plantings.csv, got "Gin"' in err
