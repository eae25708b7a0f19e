"""Plans that the package does not have are made once, kept, and found by their hash."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from quarterwalk.cli import plan_cache
from quarterwalk.cli.plan_cache import plan_for, plan_named
from quarterwalk.plan import (
    Question,
    SquaresOn,
    Stopping,
    Wanted,
    make_plan,
    shelved_for,
    shelved_json,
    shelved_plans,
)
from tests.cli.ground import Run, run_in
from tests.contracts.source import PACKAGE

OWN = Wanted(Question(Fraction(12)), Stopping.EITHER_WAY, SquaresOn.NONE, (2, 3))


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "kept"
    monkeypatch.setattr(plan_cache, "plan_cache_folder", lambda: folder)
    return folder


def never(*_: object) -> None:
    raise AssertionError("a plan was made again")


def test_a_plan_of_the_package_is_not_made_again(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(plan_cache, "make_plan", never)
    first = shelved_plans()[0].plan
    wanted = Wanted(first.question, first.stopping, first.squares_on, first.loops)
    assert plan_for(wanted) == shelved_plans()[0]
    assert not kept.exists()


def test_a_plan_is_made_once_and_kept(
    kept: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    made = plan_for(OWN)
    assert made.plan == make_plan(OWN)
    assert "a line of 12" in capsys.readouterr().err
    monkeypatch.setattr(plan_cache, "make_plan", never)
    assert plan_for(OWN) == made
    assert capsys.readouterr().err == ""
    assert len(list(kept.iterdir())) == 1


def test_another_wish_has_a_plan_of_its_own(kept: Path) -> None:
    made = plan_for(OWN)
    other = plan_for(replace(OWN, stopping=Stopping.HOLD_ONLY))
    assert other.plan.hash != made.plan.hash
    assert len(list(kept.iterdir())) == 2


@pytest.mark.parametrize(
    "spoil",
    [
        lambda _: b"",
        lambda _: b"{}",
        lambda _: b"[1, 2]",
        lambda whole: whole[: len(whole) // 2],
        lambda _: b"\xff\xfe",
        lambda whole: whole.replace(b'"line": "12"', b'"line": "13"'),
        lambda whole: json.dumps(json.loads(whole) | {"figures": []}).encode(),
    ],
)
def test_a_broken_file_is_made_again(kept: Path, spoil) -> None:
    made = plan_for(OWN)
    [path] = kept.iterdir()
    whole = path.read_bytes()
    path.write_bytes(spoil(whole))
    assert plan_named(made.plan.hash) is None
    assert plan_for(OWN) == made
    assert path.read_bytes() == whole


def test_a_plan_is_made_where_nothing_can_be_kept(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept.write_text("a file in the folder's place", encoding="utf-8")
    assert plan_for(OWN).plan == make_plan(OWN)
    assert "not kept" in capsys.readouterr().err


def test_plans_are_found_by_eight_digits_or_more(kept: Path) -> None:
    made = plan_for(OWN)
    packaged = shelved_plans()[-1]
    assert plan_named(made.plan.short) == made
    assert plan_named(f" {made.plan.hash.upper()} ") == made
    assert plan_named(packaged.plan.short) == packaged


@pytest.mark.usefixtures("kept")
@pytest.mark.parametrize("name", ["", "*", "abc", "../../etc", "0" * 65, "zzzzzzzz", "00000000"])
def test_a_name_that_is_none_finds_nothing(name: str) -> None:
    plan_for(OWN)
    assert plan_named(name) is None


def test_too_few_digits_of_a_kept_plan_find_nothing(kept: Path) -> None:
    assert plan_named(plan_for(OWN).plan.hash[:7]) is None


def test_what_is_kept_reads_as_what_was_made(kept: Path) -> None:
    made = plan_for(OWN)
    [path] = kept.iterdir()
    assert json.loads(path.read_text(encoding="utf-8")) == shelved_json(made)


@pytest.mark.usefixtures("kept")
def test_an_own_guideline_with_its_own_line_has_its_plan(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    run: Run = run_in(tmp_path, monkeypatch, capsys)
    [packaged] = (PACKAGE / "guideline" / "packs" / "blacklands").rglob("guideline.toml")
    Path("mine.toml").write_bytes(packaged.read_bytes())
    words = ["plan", "--guideline", "mine.toml", "--week", "2", "--line", "12"]
    said, err = run(*words)
    assert "12 insects or more per 100" in said
    assert "(your own file)" in said
    assert "worked out" in err
    again, quiet = run(*words)
    assert (again, quiet) == (said, "")
    found = json.loads(run(*words, "--json")[0])
    assert plan_named(found["plans"][0]["hash"][:8]) is not None


def test_a_default_line_of_an_own_guideline_is_that_of_the_package(kept: Path) -> None:
    question = Question(Fraction(10))
    [two, _] = shelved_for(question, Stopping.HOLD_ONLY, SquaresOn.NONE)
    wanted = Wanted(question, Stopping.HOLD_ONLY, SquaresOn.NONE, (2, 3))
    assert plan_for(wanted) == two
    assert not kept.exists()
