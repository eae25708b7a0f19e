"""``quarterwalk plan --walks``: what own walks say of the plans, which stay as they are."""

from __future__ import annotations

import io
import json
import math
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest

from quarterwalk.cli import plan_cache
from quarterwalk.files.walk_table import read_walks
from quarterwalk.plan import shelved_named
from quarterwalk.plan.learn import learn
from quarterwalk.plan.own_walks import try_plan
from tests.cli.ground import Run, run_in, write_fields
from tests.cli.tables import HEADER, rows, table
from tests.docs.said import DOCS, section

WEEK = ["--guideline", "southern-high-plains", "--week", "1"]
Told = Callable[..., dict]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setattr(plan_cache, "plan_cache_folder", lambda: tmp_path / "kept")
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def told(run: Run) -> Told:
    return lambda *words: json.loads(run("plan", *words, "--json")[0])


def write_even(path: str = "even.csv") -> str:
    """Write walks whose insects and lost squares lie more evenly than chance has it."""
    return write(path, lambda field, stop, plant: (int(plant == 1 + stop % 5), int(plant == 5)))


def write_clumped(path: str = "clumped.csv") -> str:
    """Write walks whose insects sit on one plant in five, and whose plants lose all or none."""
    return write(
        path,
        lambda field, stop, plant: (
            (2 + field) * (plant == 1 and stop < 3),
            3 * ((5 * stop + plant + field) % 7 == 0),
        ),
    )


def write(path: str, found: Callable[[int, int, int], tuple[int, int]]) -> str:
    """Write a walk of each of 12 fields: insects, and lost ones of three squares."""
    told = [HEADER]
    for field in range(12):
        for quadrant in ("NW", "NE", "SW", "SE"):
            for stop in range(1, 6):
                for plant in range(1, 6):
                    insects, lost = found(field, stop, plant)
                    place = f"F{field},2026-06-20,Ana,{quadrant},{stop},{plant}"
                    told.append(f"{place},{insects},0,{3 - lost},{lost},0,0,")
    Path(path).write_text("\n".join(told) + "\n", "utf-8")
    return path


def test_what_is_told_is_what_the_walks_say(told: Told) -> None:
    walks = write_clumped()
    out = told(*WEEK, "--walks", walks)
    learned = learn(read_walks(walks).table)
    own = out["own_walks"]
    assert own["walks"] == 12
    for name in ("k", "stop_cv", "rho", "log_spread"):
        one = getattr(learned, name)
        assert own[name]["value"] == pytest.approx(one.value, abs=1e-4)
        assert own[name]["walks_used"] == one.walks_used
    assert own["median_per_100"]["high"] == pytest.approx(100 * learned.median.high, abs=1e-3)
    for content, tried in zip(out["plans"], own["tried"], strict=True):
        mine = try_plan(shelved_named(content["hash"]).plan, content["usual_row"], learned)
        assert tried["hash"] == content["hash"]
        assert tried["worst_clear"] == pytest.approx(mine.worst_clear, abs=1e-3)
        assert tried["own_plants"] == pytest.approx(mine.own_plants, abs=0.01)


def test_no_plan_is_changed_and_that_is_said(run: Run, told: Told) -> None:
    walks = write_clumped()
    without, with_walks = told(*WEEK), told(*WEEK, "--walks", walks)
    assert without["own_walks"] is None
    assert with_walks["plans"] == without["plans"]
    assert "    No plan is changed by this.\n" in run("plan", *WEEK, "--walks", walks)[0]


def test_insects_that_lie_at_random_are_told_in_words(run: Run, told: Told) -> None:
    walks = write_even()
    assert math.isinf(learn(read_walks(walks).table).k.value)
    assert told(*WEEK, "--walks", walks)["own_walks"]["k"]["value"] is None
    said = " ".join(run("plan", *WEEK, "--walks", walks)[0].split())
    assert "of a stop: k at random (" in said
    assert "to at random). The smaller" in said
    assert "Told by 12 walks." in said


def test_where_a_plan_holds_its_limits_would_stay(run: Run, told: Told) -> None:
    walks = write_even()
    out = told(*WEEK, "--walks", walks)
    for tried, content in zip(out["own_walks"]["tried"], out["plans"], strict=True):
        assert tried["worst_clear"] <= out["own_walks"]["limits"]["clear"]
        assert tried["stays"]
        own = [look["rows"][content["usual_row"]] for look in content["looks"]]
        assert tried["fitted"] == own
        assert tried["fitted_plants"] == tried["plants"]
    said = " ".join(run("plan", *WEEK, "--walks", walks)[0].split())
    assert said.count("its limits would stay as they are") == 2
    assert "over the limit" not in said


def test_where_it_does_not_other_limits_would_be_needed(run: Run, told: Told) -> None:
    walks = write_clumped()
    words = [*WEEK, "--loops", "2+3", "--walks", walks]
    out = told(*words)
    [tried], [content] = out["own_walks"]["tried"], out["plans"]
    assert tried["worst_clear"] > out["own_walks"]["limits"]["clear"]
    assert not tried["stays"]
    assert tried["fitted"] != [content["looks"][0]["rows"][content["usual_row"]]]
    assert tried["fitted_plants"] > tried["plants"]
    said = " ".join(run("plan", *words)[0].split())
    assert f"{tried['worst_clear']:.1f} more wrong answers" in said
    assert "(over the limit of 1)" in said
    assert f"with {tried['fitted_plants']:.0f} plants on average over the usual spread" in said
    assert f"together {tried['fitted'][0]['sum_low']} or fewer: stop, do not treat." in said


def test_walks_that_tell_nothing_leave_what_was_expected(run: Run, told: Told) -> None:
    Path("none.csv").write_text(table(rows(insects=0, healthy=0, lost=0)), "utf-8")
    out = told(*WEEK, "--walks", "none.csv")["own_walks"]
    assert [out[name]["walks_used"] for name in ("k", "stop_cv", "rho")] == [0, 0, 0]
    assert out["stop_cv"]["value"] == pytest.approx(0.3, abs=0.01)
    said = " ".join(run("plan", *WEEK, "--walks", "none.csv")[0].split())
    assert said.count("No walk told this: it is what was expected before.") == 3
    assert "1 walk was read." in said


def test_walks_may_come_from_standard_input(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    text = Path(write_even()).read_bytes()
    monkeypatch.setattr("sys.stdin", SimpleNamespace(buffer=io.BytesIO(text)))
    said, _ = run("plan", *WEEK, "--loops", "2+3", "--walks", "-")
    assert "12 walks were read." in said


def test_lines_fit_a_screen_of_80_columns(run: Run) -> None:
    said, _ = run("plan", *WEEK, "--walks", write_clumped(), "--at", "1,6,7,40")
    assert max(map(len, said.splitlines())) <= 80


def test_two_files_from_standard_input_are_refused(run: Run) -> None:
    write_fields("Home 40")
    _, err = run("plan", *WEEK, "--walks", "-", "--fields", "-", status=2)
    assert "only one of --walks and --fields can be -" in err


def test_a_table_with_faults_is_refused_as_a_whole(run: Run) -> None:
    Path("bad.csv").write_text(table(rows()).replace(",NW,1,1,", ",NX,1,1,"), "utf-8")
    out, err = run("plan", *WEEK, "--walks", "bad.csv", status=3)
    assert "bad.csv" in err
    assert out == ""


def test_every_key_of_the_json_is_told(told: Told) -> None:
    page = section(DOCS / "commands.md", "`plan`")

    def keys(content: object) -> set[str]:
        if isinstance(content, list):
            return set().union(*map(keys, content))
        if isinstance(content, dict):
            return set(content) | keys(list(content.values()))
        return set()

    out = told(*WEEK, "--walks", write_even(), "--at", "1,6,7,40")
    lacking = {key for key in keys(out) if f"`{key}`" not in page}
    assert not lacking
