"""``quarterwalk plan --at``: where a walk stands at a look, and what lies ahead of it."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from quarterwalk.cli import plan_cache
from quarterwalk.plan import Side, shelved_named
from tests.cli.ground import DAY, Run, run_in, write_fields

SHP = ["--guideline", "southern-high-plains"]
EITHER = [*SHP, "--week", "1", "--stop", "either-way"]
Told = Callable[..., dict]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setattr(plan_cache, "plan_cache_folder", lambda: tmp_path / "kept")
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def told(run: Run) -> Told:
    return lambda *words: json.loads(run("plan", *words, "--json")[0])


@pytest.mark.parametrize(
    ("counts", "side", "said"),
    [
        ("1,3,24,120", "hold", "stop, do not treat."),
        ("1,15,20,118", "treat", "stop, treat."),
        ("1,11,20,118", "go-on", "go on with loop 2."),
    ],
)
def test_counts_are_looked_up_in_the_plan(
    run: Run, told: Told, counts: str, side: str, said: str
) -> None:
    words = [*SHP, "--week", "2", "--stop", "either-way", "--at", counts]
    [stands] = told(*words)["at"]["by_plan"]
    assert stands["side"] == side
    out = " ".join(run("plan", *words)[0].split())
    assert f"Two loops, 40 plants checked: {said}" in out


def test_a_walk_that_ends_has_nothing_ahead(told: Told) -> None:
    out = told(*EITHER, "--at", "1,0,0,80")["at"]
    for stands in out["by_plan"]:
        assert (stands["side"], stands["plants_ahead"], stands["minutes_ahead"]) == ("hold", 0, [0])
        assert stands["settled"] is None


def test_past_the_last_look_just_the_rest_of_the_walk_lies_ahead(told: Told) -> None:
    out = told(*EITHER, "--loops", "2+3", "--at", "1,9,7,80", "--acres", "40")
    [stands], [cost] = out["at"]["by_plan"], out["fields"][0]["costs"]
    first, both = cost["minutes_by_look"]
    assert stands["plants_ahead"] == 60
    assert stands["minutes_ahead"] == pytest.approx([both - first], abs=0.02)
    assert stands["settled"] is None


def test_before_it_the_next_look_may_settle_it(run: Run, told: Told) -> None:
    words = [*EITHER, "--loops", "1+2+2", "--at", "1,6,7,40"]
    out = told(*words)
    [stands], [cost] = out["at"]["by_plan"], out["fields"][0]["costs"]
    first, second, last = cost["minutes_by_look"]
    on = 1 - stands["settled"]
    assert 0 < on < 1
    # loop 2 has 40 plants, and so has loop 3, which those walk that go on
    assert stands["plants_ahead"] == pytest.approx(40 + 40 * on, abs=0.02)
    assert stands["minutes_ahead"] == pytest.approx(
        [second - first + on * (last - second)], abs=0.02
    )
    said = " ".join(run("plan", *words)[0].split())
    assert f"On average {stands['plants_ahead']:.0f} plants lie ahead" in said
    assert f"How likely loop 2 settles it: about {int(10 * (1 - on))} in 10." in said


def test_a_later_look_is_that_of_three_loops_only(run: Run, told: Told) -> None:
    out = told(*EITHER, "--at", "2,14,13,120")
    [stands] = out["at"]["by_plan"]
    assert stands["hash"] == out["plans"][1]["hash"]
    assert (stands["checked"], stands["plants_ahead"]) == (60, 40)
    said, _ = run("plan", *EITHER, "--at", "2,14,13,120")
    assert "Three loops, 60 plants checked: go on with loop 3. 40 plants lie ahead" in said


def test_between_two_rows_a_walk_that_goes_on_has_plants_ahead(told: Told) -> None:
    out = told(*EITHER, "--loops", "1+2+2")
    plan = shelved_named(out["plans"][0]["hash"]).plan
    rows = plan.looks[0].rows
    below = next(
        n for n, (row, more) in enumerate(zip(rows, rows[1:], strict=False))
        if row.lost_high is not None and more.lost_high > row.lost_high
    )  # fmt: skip
    squares = rows[below].squares + 1
    insects = max(row.insects_high for row in rows[below:])
    lost = rows[below].lost_high
    assert rows[below].treats(insects, lost)
    assert plan.looks[0].side(insects, lost, squares) is Side.GO_ON
    at = f"1,{insects},{lost},{squares}"
    [stands] = told(*EITHER, "--loops", "1+2+2", "--at", at)["at"]["by_plan"]
    assert stands["plants_ahead"] >= 40


def test_with_too_few_squares_it_goes_on_and_that_is_said(run: Run, told: Told) -> None:
    words = [*SHP, "--week", "2", "--at", "1,0,0,12"]
    [stands] = told(*words)["at"]["by_plan"]
    assert (stands["side"], stands["plants_ahead"]) == ("go-on", 60)
    said = " ".join(run("plan", *words)[0].split())
    assert "With fewer than 40 squares the plan ends no walk here." in said


def test_with_too_few_squares_no_mean_is_made_up(told: Told) -> None:
    [stands] = told(*EITHER, "--loops", "1+2+2", "--at", "1,0,0,3")["at"]["by_plan"]
    assert stands["side"] == "go-on"
    assert [stands[key] for key in ("plants_ahead", "minutes_ahead", "settled")] == [None] * 3


def test_counts_beyond_every_limit_are_taken(told: Told) -> None:
    [stands] = told(*EITHER, "--loops", "1+2+2", "--at", "1,900,0,40")["at"]["by_plan"]
    assert stands["side"] == "go-on"
    assert 40 <= stands["plants_ahead"] <= 80


def test_insects_alone_are_told_without_squares(run: Run, told: Told) -> None:
    words = ["--guideline", "blacklands", "--week", "1"]
    counts = told(*words, "--at", "1,1")["at"]
    assert (counts["insects"], counts["lost"], counts["squares"]) == (1, None, None)
    assert "After loop 1: 1 insect.\n" in run("plan", *words, "--at", "1,1")[0]


def test_minutes_are_told_field_by_field(run: Run, told: Told) -> None:
    fields = write_fields("Home 40", "Gin")
    words = [*SHP, "--week", "2", "--fields", fields, *DAY, "--at", "1,9,25,120"]
    [stands] = told(*words)["at"]["by_plan"]
    home, gin = stands["minutes_ahead"]
    said = " ".join(run("plan", *words)[0].split())
    assert f"60 plants lie ahead, {home:.0f} minutes in Home 40, {gin:.0f} in Gin." in said


def test_without_counts_nothing_is_said_of_a_walk(run: Run, told: Told) -> None:
    assert told(*EITHER)["at"] is None
    assert "Where this walk stands" not in run("plan", *EITHER)[0]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([*EITHER, "--at", "1,6,9,8"], "no more squares lost than checked, got 9 lost of 8"),
        ([*EITHER, "--at", "1,6"], "--at must have squares for southern-high-plains"),
        ([*EITHER, "--at", "3,6,7,80"], "--at must name a look of the plans, from 1 to 2, got 3"),
        ([*SHP, "--week", "2", "--at", "2,6,7,80"], "of the plans, 1, the only look, got 2"),
        ([*EITHER, "--at", "0,6,7,80"], "must begin with 1"),
        ([*EITHER, "--at", "1,6,7"], "must be a look and its counts"),
        ([*EITHER, "--at", "1,-6,7,80"], "must be a look and its counts"),
        ([*EITHER, "--at", "1,6.5,7,80"], "must be a look and its counts"),
        ([*EITHER, "--at", "1,6,7,80000"], "at most 10,000"),
        (["--guideline", "blacklands", "--week", "1", "--at", "1,6,7,8"], "asks for no squares"),
    ],
)  # fmt: skip
def test_counts_that_can_not_be_are_refused(run: Run, words: list[str], said: str) -> None:
    out, err = run("plan", *words, status=2)
    assert said in " ".join(err.split())
    assert out == ""
