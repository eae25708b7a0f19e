"""``quarterwalk plan``: what decides, when a walk may end, what that saves, and refusals."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from quarterwalk.cli import plan_cache
from quarterwalk.guideline import load_guideline
from quarterwalk.plan import (
    SquaresOn,
    Stopping,
    plan_json,
    question_for,
    shelved_for,
)
from tests.cli.ground import DAY, Run, run_in, write_field, write_fields

SHP = ["--guideline", "southern-high-plains"]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setattr(plan_cache, "plan_cache_folder", lambda: tmp_path / "kept")
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def told(run: Run) -> Callable[..., dict]:
    return lambda *words: json.loads(run("plan", *words, "--json")[0])


def test_what_decides_is_said_before_the_limits(run: Run) -> None:
    said, notices = run("plan", *SHP, "--week", "2")
    assert notices == ""
    assert said.startswith("southern-high-plains, week 2 of squaring\n")
    assert "Treat at 25 insects or more per 100 plants and square set under 85 %." in said
    assert "10 in each quarter" in said
    assert "(assumed)" in said


def test_lines_fit_a_screen_of_80_columns(run: Run) -> None:
    said, _ = run("plan", *SHP, "--week", "1", "--stop", "either-way")
    assert max(map(len, said.splitlines())) <= 80


@pytest.mark.parametrize(
    ("name", "week", "stop"),
    [
        ("southern-high-plains", 1, "hold-only"),
        ("southern-high-plains", 3, "either-way"),
        ("kansas", 2, "either-way"),
        ("coastal-bend", 2, "hold-only"),
    ],
)
def test_the_limits_told_are_those_of_the_plan(run: Run, name: str, week: int, stop: str) -> None:
    words = ["--guideline", name, "--week", str(week), "--stop", stop, "--loops", "2+3"]
    out = json.loads(run("plan", *words, "--json")[0])
    said = " ".join(run("plan", *words)[0].split())
    row = out["plans"][0]["looks"][0]["rows"][out["plans"][0]["usual_row"]]
    assert f"Insects {row['insects_low']} or fewer" in said
    if row["lost_low"] is not None:
        assert f"squares {row['lost_low']} or fewer, or together {row['sum_low']} or fewer" in said
    if stop == "either-way":
        assert f"Insects {row['insects_high']} or more" in said
    else:
        assert "stop, treat" not in said


def test_json_holds_the_plan_of_the_package_whole(told: Callable[..., dict]) -> None:
    out = told(*SHP, "--week", "1")
    question = question_for(load_guideline("southern-high-plains"), 1)
    shelved = shelved_for(question, Stopping.HOLD_ONLY, SquaresOn.EVERY_PLANT)
    assert [each["hash"] for each in out["plans"]] == [each.plan.hash for each in shelved]
    for each, content in zip(shelved, out["plans"], strict=True):
        for look, shown in zip(plan_json(each.plan)["looks"], content["looks"], strict=True):
            rows = [list(row.values()) for row in shown["rows"]]
            assert rows == [[None if limit == -1 else limit for limit in r] for r in look["rows"]]
        assert [row["plants"] for row in content["figures"]] == [f.plants for f in each.figures]
    assert out["question"] == {"line": 25, "floor": 0.9, "blasted": None}


def test_insects_alone_have_no_squares_in_the_json(told: Callable[..., dict]) -> None:
    out = told("--guideline", "blacklands", "--week", "1")
    assert out["question"] == {"line": 10, "floor": None, "blasted": None}
    assert out["squares_on"] == "none"
    assert out["squares_a_plant"] is None
    assert out["clear_field"]["lost_share"] is None


def test_each_field_is_told_by_its_own_loops(run: Run, told: Callable[..., dict]) -> None:
    fields = write_fields("Home 40", "Gin")
    out = told(*SHP, "--week", "1", "--fields", fields, *DAY)
    laid = json.loads(run("quarters", fields, *DAY, "--json")[0])
    loops = [f["properties"] for f in laid["features"] if f["properties"]["kind"] == "path"]
    assert [each["field"] for each in out["fields"]] == ["Home 40", "Gin"]
    for each in out["fields"]:
        mine = [loop["metres"] for loop in loops if loop["field"] == each["field"]]
        assert each["costs"][0]["loop_metres"] == pytest.approx(mine, abs=1)
        assert len(each["costs"][1]["loop_metres"]) == 3
        best = min(each["costs"], key=lambda cost: cost["minutes"])
        saves = best["minutes"] < each["full_minutes"]
        assert each["picked"] == (best["hash"] if saves else None)


def test_only_the_field_named_is_told(told: Callable[..., dict]) -> None:
    fields = write_fields("Home 40", "Gin")
    out = told(*SHP, "--week", "2", "--fields", fields, *DAY, "--field", "Gin")
    assert [each["field"] for each in out["fields"]] == ["Gin"]


def test_where_nothing_is_saved_all_100_are_walked(run: Run) -> None:
    fields = write_field(0.0115, 0.0005)  # a long strip: each loop goes to its far end
    words = [*SHP, "--week", "1", "--loops", "1+2+2", "--fields", fields, *DAY]
    words += ["--pace", "10", "--seconds-squares", "1", "--seconds-insects", "1"]
    said, _ = run("plan", *words)
    assert "walk all 100" in said
    assert json.loads(run("plan", *words, "--json")[0])["fields"][0]["picked"] is None


def test_minutes_move_with_pace_and_acres_and_errors_do_not(told: Callable[..., dict]) -> None:
    usual = told(*SHP, "--week", "2")
    slow = told(*SHP, "--week", "2", "--pace", "50", "--seconds-squares", "20", "--acres", "100")
    assert slow["fields"][0]["full_minutes"] > usual["fields"][0]["full_minutes"]
    assert slow["fields"][0]["acres"] == 100
    assert slow["plans"] == usual["plans"]
    assert slow["pace"] == {"seconds_squares": 20, "seconds_insects": 8, "metres_a_minute": 50}


def test_more_squares_a_plant_take_another_row(told: Callable[..., dict]) -> None:
    few, many = (told(*SHP, "--week", "2", "--squares-a-plant", n) for n in ("2", "4"))
    at = [each["plans"][0]["figures"][each["plans"][0]["usual_row"]] for each in (few, many)]
    assert [row["squares"] for row in at] == [80, 160]


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (["--guideline", "tennessee-sweep", "--week", "1"], 2, "sweep net"),
        (["--guideline", "blacklands", "--week", "4"], 2, "--week must be 1 to 3 for blacklands"),
        (["--guideline", "nowhere", "--week", "1"], 2, "no guideline named"),
        ([*SHP, "--week", "9"], 2, "must be a week of squaring"),
        ([*SHP, "--week", "1", "--line", "40"], 2, "--line must be from 25 to 30"),
        ([*SHP, "--week", "1", "--line", "0"], 2, "must be a number above 0"),
        ([*SHP, "--week", "1", "--loops", "5"], 2, "must be 2+3 or 1+2+2"),
        ([*SHP, "--week", "1", "--loops", "two"], 2, "must be stops a quarter"),
        ([*SHP, "--week", "2", "--loops", "1+2+2"], 2, "--loops must be 2+3 from week 2 on"),
        ([*SHP, "--week", "1", "--acres", "-1"], 2, "must be a number above 0"),
        ([*SHP, "--week", "1", "--pace", "nan"], 2, "must be a number above 0"),
        ([*SHP, "--week", "3", "--squares-a-plant", "1"], 2, "must come to 40 squares or more"),
        ([*SHP, "--week", "1", "--squares-a-plant", "21"], 2, "at most 20"),
        (["--guideline", "blacklands", "--week", "1", "--squares-a-plant", "2"], 2, "no squares"),
        ([*SHP, "--week", "1", "--field", "Gin"], 2, "--field goes with --fields"),
        ([*SHP, "--week", "1", "--fields", "f.geojson", "--acres", "9"], 2, "--acres is for"),
        ([*SHP, "--week", "1", "--fields", "none.geojson"], 3, "none.geojson"),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_refused_by_name(
    run: Run, words: list[str], status: int, said: str
) -> None:
    out, err = run("plan", *words, status=status)
    assert said in " ".join(err.split())
    assert out == ""


def test_a_field_that_is_not_there_is_told_which_are(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    _, err = run("plan", *SHP, "--week", "1", "--fields", fields, "--field", "gin", status=2)
    assert 'got "gin"' in err
    assert "Home 40, Gin" in err
