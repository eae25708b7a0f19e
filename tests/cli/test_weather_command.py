"""What stations measured, on the screen and as JSON: gaps, findings, heat units by week."""

from __future__ import annotations

import io
import json
import sys
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from quarterwalk.cli.joined_words import joined_places
from quarterwalk.cli.parser import CUT_OFFS, HEAT_METHODS
from quarterwalk.files.weather_file import read_weather
from quarterwalk.weather import heat_units
from quarterwalk.weather.daily import DayMark
from tests.cli.ground import Run, run_in
from tests.cli.stations import station_rows, write_station, write_stations, write_table
from tests.files.weather_server import plain_weather, serving

MAY = ["--from", "2026-05-01", "--to", "2026-05-21"]
GAP = {date(2026, 5, 9), date(2026, 5, 10)}


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


def told(run: Run, *words: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run("weather", *words, "--json")[0])
    return found


def test_heat_units_are_told_by_week_beside_other_years(run: Run) -> None:
    out, _ = run("weather", write_station(), *MAY)
    assert [line.split() for line in out.splitlines() if line.startswith("  2026-")] == [
        ["2026-05-01", "7", "140", "140", "112"],
        ["2026-05-08", "7", "140", "280", "224"],
        ["2026-05-15", "7", "140", "420", "336"],
    ]
    assert "In all 420 heat units." in out
    assert "For the same days the mean of 6 other years is 336." in out


def forecast_from(day: int, *, without: set[date] = frozenset()) -> str:  # type: ignore[assignment]
    """Write the station's file with the days of May forecast from one on, and give its name."""
    first, last = date(2026, 5, 1), date(2026, 5, 19)
    rows = station_rows(first=first, last=last, without=without)
    marked = [f"{row},{'forecast' if n >= day else ''}" for n, row in enumerate(rows, start=1)]
    header = "date,station,name,latitude,longitude,tmin_f,tmax_f,mark"
    return write_table("ahead.csv", header, *marked)


def test_a_sum_says_how_much_of_it_is_forecast(run: Run) -> None:
    out, _ = run("weather", forecast_from(13))
    assert "In all 380 heat units, 140 of them forecast (7 days)." in out
    out, _ = run("weather", forecast_from(19))
    assert "In all 380 heat units, 20 of them forecast (1 day)." in out


def test_a_sum_without_a_day_and_one_that_ends_early_say_what_is_forecast_too(run: Run) -> None:
    out, _ = run("weather", forecast_from(13, without={date(2026, 5, 1)}))
    assert "the other days make 360 heat units, 140 of them forecast (7 days)." in joined(out)
    out, _ = run("weather", forecast_from(13), "--method", "double-sine")
    # of the last day, which is forecast too, no heat is told
    assert "of them forecast (6 days)." in joined(out)


def joined(out: str) -> str:
    return " ".join(out.split())


def test_each_week_has_its_days_under_their_own_heading(run: Run) -> None:
    out, _ = run("weather", forecast_from(13))
    (head,) = (line for line in out.splitlines() if "week from" in line)
    assert head.split()[:5] == ["week", "from", "days", "heat", "units"]
    weeks = [line.split() for line in out.splitlines() if line.startswith("  2026-")]
    assert weeks == [
        ["2026-05-01", "7", "140", "140", "–"],
        ["2026-05-08", "7", "140", "280", "–"],
        ["2026-05-15", "5", "100", "380", "–"],
    ]
    short = next(line for line in out.splitlines() if line.startswith("  2026-05-15"))
    assert short.rindex("5 ") < head.index("heat units")
    assert len(short) < head.index("filled")


def test_a_gap_is_told_with_how_it_was_filled(run: Run) -> None:
    out, _ = run("weather", write_station(without=GAP), *MAY)
    assert "2 of them are missing" in out
    assert "Filled: 2 on a straight line between the days around." in out
    assert "Cedar Gin, 2026-05-09 to 2026-05-10: no temperatures; 2 days are missing." in out
    assert "2026-05-08     7         140      280          224  2" in out


def test_a_gap_that_can_not_be_filled_leaves_no_sum(run: Run) -> None:
    lost = {date(2026, 5, 2) + timedelta(days=n) for n in range(18)}
    out, _ = run("weather", write_station(without=lost), *MAY)
    assert "18 could not be filled and stay missing." in out
    assert "18 days are not known, so no sum is told; the other days make 60 heat units." in out
    heat = told(run, "station.csv", *MAY)["stations"][0]["heat_units"]
    assert heat["total"] is None
    assert heat["daily"][1]["heat_units"] is None


def test_the_json_has_every_key_that_scripts_rely_on(run: Run) -> None:
    found = told(run, write_station(without=GAP), *MAY, "--near=33.62,-101.85")
    (station,) = found["stations"]
    heat = station.pop("heat_units")
    assert station == {
        "id": "gin", "name": "Cedar Gin", "place": [-101.85, 33.62], "first": "2020-01-01",
        "last": "2026-07-10", "days": 2383, "missing": 2, "filled": {"between": 2},
        "distance_km": 0.0,
    }  # fmt: skip
    daily = heat.pop("daily")
    assert heat == {
        "method": "simple-average", "cutoff": None, "base_f": 60.0, "cap_f": None,
        "from": "2026-05-01", "to": "2026-05-21", "total": 420.0,
        "other_years": {"years": 6, "mean": 336.0},
    }  # fmt: skip
    assert len(daily) == 21
    assert daily[8] == {
        "date": "2026-05-09", "tmin_f": 70.0, "tmax_f": 90.0, "heat_units": 20.0,
        "mark": "between",
    }  # fmt: skip
    (finding,) = found["findings"]
    assert finding.pop("text")
    assert finding == {
        "station": "gin", "first": "2026-05-09", "last": "2026-05-10", "code": "missing-days",
    }  # fmt: skip


def test_the_days_told_are_those_of_the_last_year_where_none_are_asked_for(run: Run) -> None:
    heat = told(run, write_station())["stations"][0]["heat_units"]
    assert (heat["from"], heat["to"]) == ("2026-01-01", "2026-07-10")


@pytest.mark.parametrize("near", [["--near", "33.6,-101.9"], ["--near=33.6,-101.9"]])
def test_the_nearest_station_is_told_first_with_its_distance(near: list[str], run: Run) -> None:
    far = station_rows(id="far", name="Far Gin", place="34.6,-101.9")
    found = told(run, write_stations(far, station_rows()), *MAY, *near)["stations"]
    assert [station["id"] for station in found] == ["gin", "far"]
    # a degree of latitude is 111 km
    assert found[1]["distance_km"] == pytest.approx(111, abs=1)
    assert "Cedar Gin (gin)\n  At 33.62° N, 101.85° W, 3.2 miles from" in run(
        "weather", "station.csv", *MAY, *near
    )[0]  # fmt: skip


def test_of_very_many_stations_the_nearest_are_told(run: Run) -> None:
    many = [
        station_rows(id=f"s{n:02}", place=f"33.{n:02},-101.9", first=date(2026, 5, 1))
        for n in range(10, 35)
    ]
    write_stations(*many)
    _, err = run("weather", "station.csv", status=2)
    assert "--near must say which of 25 stations are meant" in err
    out, err = run("weather", "station.csv", "--near", "33.1,-101.9", "--json")
    found = [station["id"] for station in json.loads(out)["stations"]]
    assert found == [f"s{n}" for n in range(10, 30)]
    assert err == "Told are the nearest 20 of 25 stations.\n"


@pytest.mark.parametrize(
    "near", [["--near", "-33.6,150"], ["--near", "-33.6,-70.5"], ["--near=-33.6,150"]]
)
def test_a_place_south_of_the_equator_is_a_word_like_another(near: list[str], run: Run) -> None:
    (station,) = told(run, write_station(first=date(2026, 7, 1)), *near)["stations"]
    assert station["distance_km"] > 5000


def test_words_behind_two_dashes_are_left_alone() -> None:
    assert joined_places(["weather", "--near", "-3.6,15"]) == ["weather", "--near=-3.6,15"]
    assert joined_places(["--", "--near", "-3.6,15"]) == ["--", "--near", "-3.6,15"]
    assert joined_places(["--near=1,2", "-3.6,15"]) == ["--near=1,2", "-3.6,15"]
    assert joined_places(["--base", "-5", "--json"]) == ["--base", "-5", "--json"]


def test_the_heat_of_a_file_that_ends_in_a_part_of_a_day_keeps_its_sum(run: Run) -> None:
    write_station(first=date(2026, 7, 1), without={date(2026, 7, 10)})
    words = ["station.csv", "--from", "2026-07-04"]
    out, _ = run("weather", *words)
    assert "simple-average, 4 July 2026 to 9 July 2026:" in out
    assert "In all 120 heat units." in out
    assert "Nothing is known of the days after that." in out
    # why it ends there stands among what was found
    assert "Cedar Gin, 2026-07-10: no temperatures; the day is missing." in out
    asked, _ = run("weather", *words, "--to", "2026-07-10")
    assert "1 day is not known, so no sum is told" in asked


@pytest.mark.parametrize("method", ["double-sine", "double-triangle"])
def test_that_the_last_day_needs_the_next_morning_is_said(method: str, run: Run) -> None:
    words = ["--from", "2026-07-04", "--method", method]
    out, _ = run("weather", write_station(), *words)
    said = " ".join(out.split())
    # six days of 20 heat units, and of 16 in the other years
    assert "The last day needs the next morning's low, which is not known; up to 9 July" in said
    assert "up to 9 July 2026: 120 heat units." in said
    assert "For the same days the mean of 6 other years is 96." in said
    assert "In all" in run("weather", "station.csv", *words, "--to", "2026-07-09")[0]
    alone, _ = run("weather", "station.csv", *words[2:], "--from", "2026-07-10")
    assert "This day needs the next morning's low" in alone


@pytest.mark.parametrize("method", ["double-sine", "double-triangle"])
def test_scripts_are_told_the_sum_that_ends_before_the_next_morning(method: str, run: Run) -> None:
    words = ["--from", "2026-07-04", "--method", method]
    heat = told(run, write_station(), *words)["stations"][0]["heat_units"]
    assert (heat["to"], heat["total"]) == ("2026-07-09", pytest.approx(120))
    assert heat["other_years"] == {"years": 6, "mean": pytest.approx(96)}
    assert heat["daily"][-1]["date"] == "2026-07-10"
    assert heat["daily"][-1]["heat_units"] is None
    # a day that is not known itself has no sum, nor has one that stands alone
    gap = write_station("gap.csv", first=date(2026, 7, 1), without=[date(2026, 7, 1)])
    for name, first in ((gap, "2026-07-01"), ("station.csv", "2026-07-10")):
        lacking = told(run, name, "--from", first, "--method", method)
        heat = lacking["stations"][0]["heat_units"]
        assert (heat["to"], heat["total"]) == ("2026-07-10", None)


def test_a_station_without_a_name_has_none_for_scripts(run: Run) -> None:
    (station,) = told(run, write_station(name=""))["stations"]
    assert station["name"] is None


def test_weather_comes_from_standard_input(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    data = Path(write_station()).read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    assert "In all 420 heat units." in run("weather", "-", *MAY)[0]


def test_a_gap_is_filled_from_the_station_near_by(run: Run) -> None:
    near = station_rows(id="near", name="Near Gin", place="33.63,-101.86")
    write_stations(station_rows(without=GAP), near)
    gin, _ = told(run, "station.csv", *MAY)["stations"]
    assert gin["filled"] == {"neighbour": 2}
    said = run("weather", "station.csv", *MAY)[0]
    assert "Filled: 2 from Near Gin, 0.9 miles away." in said


def test_of_several_stations_that_may_have_filled_a_gap_the_farthest_is_told(run: Run) -> None:
    near = station_rows(id="near", place="33.63,-101.86", without={min(GAP)})
    far = station_rows(id="far", place="33.72,-101.85")
    deaf = station_rows(id="deaf", place="33.62,-101.86", without=GAP)
    write_stations(station_rows(without=GAP), near, far, deaf)
    out, _ = run("weather", "station.csv", *MAY)
    assert "Filled: 2 from other stations, none more than 6.9 miles away." in out


def test_a_station_at_two_places_is_refused_with_both(run: Run) -> None:
    past = write_station("past.csv", last=date(2025, 12, 31))
    late = write_station("late.csv", first=date(2026, 1, 1), place="33.72,-101.85")
    out, err = run("weather", past, late, "--json", status=3)
    (problem,) = json.loads(out)["errors"]
    assert (problem["file"], problem["value"]) == ("late.csv", "33.72,-101.85")
    assert problem["expected"] == (
        "within 5 miles of 33.62,-101.85, where past.csv has station gin"
    )
    assert err.startswith("late.csv: must be within 5 miles of 33.62,-101.85")
    assert "That is 6.9 miles apart." in err


def test_of_three_files_the_one_that_told_the_place_is_named(run: Run) -> None:
    past = write_station("past.csv", last=date(2025, 12, 31))
    none = write_station("none.csv", first=date(2026, 1, 1), last=date(2026, 1, 9), place=",")
    late = write_station("late.csv", first=date(2026, 1, 10), place="33.72,-101.85")
    _, err = run("weather", past, none, late, status=3)
    assert "where past.csv has station gin" in err


def test_a_place_that_is_rounded_is_the_same(run: Run) -> None:
    past = write_station("past.csv", last=date(2025, 12, 31))
    late = write_station("late.csv", first=date(2026, 1, 1), place="33.6,-101.9")
    out, _ = run("weather", past, late, *MAY)
    assert out.count("(gin)") == 1


def test_the_files_of_one_station_are_joined_and_the_later_holds(run: Run) -> None:
    past = write_station("past.csv", last=date(2025, 12, 31))
    late = write_station("late.csv", first=date(2025, 12, 30))
    out, err = run("weather", past, late, *MAY)
    assert "2,383 days from 1 January 2020 to 10 July 2026" in out
    # the last year of the first file is as warm as that of the second one is cool
    assert err.count("2 days differ; the file given later holds.") == 1
    assert out.count("(gin)") == 1


def test_methods_base_and_cap_change_the_sum(run: Run) -> None:
    station = write_station()
    # (70 + 86)/2 - 50, the highest held at the cap
    words = ["--method", "held-extremes", "--base", "50", "--cap", "86"]
    heat = told(run, station, *MAY, *words)["stations"][0]["heat_units"]
    assert heat["total"] == 21 * 28
    assert (heat["method"], heat["cap_f"], heat["cutoff"]) == ("held-extremes", 86.0, "horizontal")
    double = told(run, station, *MAY, "--method", "double-triangle")["stations"][0]["heat_units"]
    assert double["total"] == pytest.approx(420)


def test_the_parser_knows_every_method_and_cut_off() -> None:
    assert set(HEAT_METHODS) == set(heat_units.HEAT_METHODS)
    assert set(CUT_OFFS) == {cutoff.value for cutoff in heat_units.CutOff}


@pytest.mark.parametrize("out", ["filled.csv", "filled.xlsx"])
def test_the_table_written_reads_back_with_its_gaps_filled(out: str, run: Run) -> None:
    said, _ = run("weather", write_station(without=GAP), *MAY, "--out", out)
    assert f"{out} holds 2,383 days, gaps filled" in said
    (weather,) = read_weather(out).stations
    assert not weather.missing.any()
    filled = np.flatnonzero(weather.marks == DayMark.BETWEEN)
    assert {weather.day_at(int(place)) for place in filled} == GAP


def test_a_service_is_asked_where_it_is_wished_for_and_its_answer_kept(run: Run) -> None:
    today = date.today()  # noqa: DTZ011 - as the command takes it
    begin = today - timedelta(days=30)
    with serving(partial(plain_weather, today=today)) as served:
        urls = [f"--service-{kind}={served.address}/{path}"
                for kind, path in (("forecast", "forecast"), ("history", "archive"))]  # fmt: skip
        words = ["--near", "33.5871,-101.8732", "--from", str(begin), "--out", "asked.csv"]
        kept = ["--service-cache", "kept"]
        out, err = run("weather", "--service", *urls, *kept, *words)
        asked = len(served.asked)
        assert run("weather", "--service", *urls, *kept, *words)[0] == out
        assert len(served.asked) == asked
    assert {path for path, _ in served.asked} == {"/forecast", "/archive"}
    assert {asked["latitude"] for _, asked in served.asked} == {"33.6"}
    assert "Weather data by" in err
    assert "16 of them forecast" in out
    assert "Model weather of a grid cell some miles wide, about 33.60° N, 101.90° W" in out
    assert "no thermometer stands there" in " ".join(out.split())
    assert "from the place asked for" not in out
    (weather,) = read_weather("asked.csv").stations
    assert (weather.first, weather.last) == (begin, today + timedelta(days=15))


def test_days_beyond_every_forecast_are_refused_in_its_own_words(run: Run) -> None:
    begin = date.today() + timedelta(days=200)  # noqa: DTZ011 - as the command takes it
    words = ["--near", "33.6,-101.9", "--from", str(begin)]
    with serving() as served:
        urls = [f"--service-{kind}={served.address}" for kind in ("forecast", "history")]
        _, err = run("weather", "--service", *urls, *words, status=2)
    assert "days must begin by " in err
    assert "the last that a forecast has" in err
    assert not served.asked


def test_no_command_opens_a_connection_unasked(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a service was asked")

    monkeypatch.setattr("quarterwalk.cli.weather_command.fetch_weather", refuse)
    run("weather", write_station(), "--near", "33.6,-101.9", "--from", "2026-05-01")


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["station.csv", "--near", "Lubbock"],
        ["station.csv", "--near", "133.6,-101.9"],
        ["station.csv", "--from", "2026-05-03", "--to", "2026-05-01"],
        ["station.csv", "--method", "guess"],
        ["station.csv", "--cutoff", "vertical"],
        ["station.csv", "--cap", "50"],
        ["station.csv", "--base", "warm"],
        ["station.csv", "--service-forecast", "https://example.org/forecast"],
        ["--service", "--near", "33.6,-101.9"],
        ["--service", "--from", "2026-05-01"],
        ["--service", "--service-history", "http://example.org/a", "--service-forecast",
         "http://example.org/f", "--near", "33.6,-101.9", "--from", "2026-05-01"],
        ["station.csv", "--out", "no/such/folder/out.csv"],
        ["station.csv", "--out", "."],
        ["station.csv", "--out", ".."],
        ["station.csv", "--out", ""],
        ["station.csv", "--out", "/"],
        ["-", "-"],
    ],
)  # fmt: skip
def test_a_wrong_command_line_exits_with_2(words: list[str], run: Run) -> None:
    write_station(first=date(2026, 5, 1))
    out, err = run("weather", *words, status=2)
    assert out == ""
    assert err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--cap", "50"], "--cap: the cap must be above the base, got base 60 and cap 50."),
        (["--cap", "50", "--cutoff", "vertical"], "--cap: the cap must be above"),
        (["--cap", "90", "--method", "four-case"], "--cap: the four-case formula knows no cap"),
        (["--cutoff", "vertical"], "--cutoff: a cut-off (vertical) needs a cap; give one."),
        (["--cap", "90", "--cutoff", "vertical"], "--cutoff: a cut-off (vertical) needs the"),
    ],
)
def test_of_heat_options_that_do_not_go_together_the_one_at_fault_is_named(
    words: list[str], said: str, run: Run
) -> None:
    _, err = run("weather", write_station(), *words, status=2)
    assert f"quarterwalk weather: {said}" in err


def test_a_folder_to_write_to_is_refused_by_its_option(run: Run) -> None:
    _, err = run("weather", write_station(), "--out", ".", status=2)
    assert '--out must be a file that can be written to, got "."' in err


@pytest.mark.parametrize("out", ["station.csv", "./station.csv", "link.csv"])
def test_a_file_that_is_read_is_not_written_over(out: str, run: Run) -> None:
    mine = Path(write_station(without=GAP)).read_bytes()
    Path("link.csv").symlink_to("station.csv")
    said, err = run("weather", "station.csv", "--out", out, status=2)
    assert f"--out must leave the files alone that are read, got {out}." in err
    assert said == ""
    assert Path("station.csv").read_bytes() == mine


def test_one_day_is_told_as_one_day(run: Run) -> None:
    one = write_table("one.csv", "date,tmin_f,tmax_f", "2026-06-01,70,90")
    out, _ = run("weather", one, "--out", "out.csv")
    assert "1 day, 1 June 2026.\n" in out
    assert "simple-average, 1 June 2026:" in out
    assert "out.csv holds 1 day, gaps filled" in out


def test_a_table_without_a_day_says_so(run: Run) -> None:
    _, err = run("weather", write_table("bare.csv", "date,tmin_f,tmax_f"), status=3)
    assert "bare.csv row 2, column date" in err
    assert "The table has a header and no day; give at least one row." in err


def test_days_of_a_thousand_and_more_have_their_thousands_apart(run: Run) -> None:
    lost = {date(2020, 2, 1) + timedelta(days=n) for n in range(1100)}
    span = ["--from", "2020-01-01", "--to", "2026-07-10"]
    out, _ = run("weather", write_station(without=lost), *span)
    assert "1,100 could not be filled and stay missing." in out
    assert "1,100 days are not known" in out


def test_a_file_that_is_no_weather_exits_with_3(run: Run) -> None:
    Path("odd.csv").write_text("date,tmin,tmax\n2026-05-01,70,90\n", encoding="utf-8")
    out, err = run("weather", "odd.csv", "--json", status=3)
    assert json.loads(out)["errors"][0]["file"] == "odd.csv"
    assert "odd.csv row 1" in err
