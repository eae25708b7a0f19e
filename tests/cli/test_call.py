"""The command as scripts rely on it: options, JSON, exit statuses."""

from __future__ import annotations

import io
import json
import signal
import subprocess
import sys

import pytest

from quarterwalk.cli import main
from tests.cli.tables import HEADER, rows, table

SHP = ["--guideline", "southern-high-plains"]


@pytest.fixture
def walks(tmp_path):
    path = tmp_path / "walks.csv"
    path.write_text(table(rows()), encoding="utf-8")
    return str(path)


def told(capsys, *words):
    """Run a command that is to succeed, and give its JSON."""
    assert main([*words, "--json"]) == 0
    return json.loads(capsys.readouterr().out)


def test_the_json_of_a_call_has_every_key_that_scripts_rely_on(walks, capsys):
    (walk,) = told(capsys, "call", walks, *SHP, "--first-square", "2026-06-10")["walks"]
    assert (walk["field"], walk["date"], walk["scouts"]) == ("Home 40", "2026-06-20", ["Ana"])
    reading = walk["reading"]
    expected = {
        "method": "terminal", "plants": 100, "adults": 21, "nymphs": 0, "per_100": 21.0,
        "square_plants": 40, "squares": 120, "squares_healthy": 105, "square_set": 0.875,
        "blasted_share": 0.0, "set_readable": True,
    }  # fmt: skip
    assert {key: reading[key] for key in expected} == expected
    assert reading["per_100_low"] < 21 < reading["per_100_high"]
    assert reading["square_set_low"] < 0.875 < reading["square_set_high"]
    assert [q["quadrant"] for q in reading["quadrants"]] == ["NW", "NE", "SW", "SE"]
    assert reading["quadrants"][0] | {"square_set": 0} == {
        "quadrant": "NW", "plants": 25, "insects": 6, "squares": 31, "square_set": 0,
    }  # fmt: skip
    assert reading["p_treat"] == pytest.approx(reading["p_over"] * reading["p_under"])
    assert walk["stage"] == {"name": "squaring", "squaring_weeks": [2]}
    call = walk["call"]
    assert (call["verdict"], call["provisional"], call["next_look"]) == (
        "look-sooner", False, "2026-06-24",
    )  # fmt: skip
    assert call["guideline"]["line"] == 25
    assert call["guideline"]["floor"] == 0.85
    assert len(call["guideline"]["hash"]) == 64
    assert call["reasons"][0]["code"] == "insects-near"


def test_read_gives_the_reading_only(walks, capsys):
    (walk,) = told(capsys, "read", walks)["walks"]
    assert "call" not in walk
    assert "p_over" not in walk["reading"]


def test_the_level_widens_the_range(walks, capsys):
    wide = told(capsys, "read", walks, "--level", "0.99")["walks"][0]["reading"]
    narrow = told(capsys, "read", walks, "--level", "0.5")["walks"][0]["reading"]
    assert wide["per_100_low"] < narrow["per_100_low"] < narrow["per_100_high"]
    assert narrow["per_100_high"] < wide["per_100_high"]


@pytest.mark.parametrize("given", ["0", "0.9999999999999999", "1", "90", "nan", "high"])
def test_a_level_that_no_range_has_is_refused(given, walks, capsys):
    with pytest.raises(SystemExit) as stopped:
        main(["read", walks, "--level", given])
    assert stopped.value.code == 2
    told = f'must be above 0 and at most 0.999999, such as 0.90, got "{given}"'
    assert told in capsys.readouterr().err


def test_the_highest_level_has_a_range_that_json_can_hold(walks, capsys):
    reading = told(capsys, "read", walks, "--level", "0.999999")["walks"][0]["reading"]
    assert 0 < reading["per_100_low"] < reading["per_100_high"] < 1000


def test_what_was_not_looked_at_is_null_not_zero(tmp_path, capsys):
    path = tmp_path / "walks.csv"
    path.write_text(HEADER + "\nHome,2026-06-20,,NW,,1,,,3,0,0,0,\n", encoding="utf-8")
    reading = told(capsys, "read", str(path))["walks"][0]["reading"]
    nothing = ("adults", "nymphs", "per_100", "per_100_low", "per_100_high", "evenness_p")
    assert {reading[key] for key in nothing} == {None}
    assert reading["plants"] == 0
    assert reading["quadrants"][1] == {
        "quadrant": "NE", "plants": 0, "insects": None, "squares": None, "square_set": None,
    }  # fmt: skip


def test_plantings_give_each_field_its_own_dates(tmp_path, capsys):
    walks = tmp_path / "walks.csv"
    walks.write_text(table(rows(), rows(field="Gin 80")), encoding="utf-8")
    plantings = tmp_path / "plantings.csv"
    plantings.write_text(
        "field,planted,first_square,bloom,treated\n"
        "Home 40,,2026-06-10/2026-06-12,,2026-06-01 2026-06-17 2026-06-25\n"
        "Gin 80,2026-05-01,2026-05-20,2026-06-15,\n",
        encoding="utf-8",
    )
    home, gin = told(capsys, "call", str(walks), *SHP, "--plantings", str(plantings))["walks"]
    assert home["stage"]["squaring_weeks"] == [2]
    assert "recently-treated" in {r["code"] for r in home["call"]["reasons"]}
    assert gin["stage"] == {"name": "blooming", "squaring_weeks": []}
    assert gin["call"]["verdict"] == "none"
    assert gin["call"]["next_look"] is None
    assert gin["call"]["guideline"]["line"] is None


def test_a_walk_whose_field_has_no_planting_is_refused_at_its_row(tmp_path, walks, capsys):
    plantings = tmp_path / "plantings.csv"
    plantings.write_text("field,first_square\nOther,2026-06-10\n", encoding="utf-8")
    assert main(["call", walks, *SHP, "--plantings", str(plantings), "--json"]) == 3
    out, err = capsys.readouterr()
    (error,) = json.loads(out)["errors"]
    assert (error["file"], error["row"], error["column"], error["value"]) == (
        walks, 2, "field", "Home 40",
    )  # fmt: skip
    assert error["message"] in err


def test_walks_come_from_standard_input(monkeypatch, capsys):
    text = io.TextIOWrapper(io.BytesIO(table(rows()).encode()))
    monkeypatch.setattr(sys, "stdin", text)
    assert told(capsys, "read", "-")["walks"][0]["reading"]["plants"] == 100


@pytest.mark.parametrize(
    "words",
    [
        ["call", "{walks}", "--first-square", "2026-06-10"],
        ["call", "{walks}", *SHP],
        ["call", "{walks}", *SHP, "--first-square", "10.6.2026"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-12/2026-06-10"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--bloom", "2026-06-01"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--line", "31"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--line", "many"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--line", "1e9999999"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--line", "24.9999999"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--plantings", "p.csv"],
        ["call", "{walks}", *SHP, "--plantings", "p.csv", "--bloom", "2026-07-01"],
        ["call", "{walks}", *SHP, "--first-square", "2026-06-10", "--level", "1.5"],
        ["call", "{walks}", "--guideline", "oklahma", "--first-square", "2026-06-10"],
        ["guidelines", "oklahma"],
        ["read"],
        ["walk", "{walks}"],
        [],
    ],
)
def test_a_wrong_command_line_exits_with_2(words, walks, capsys):
    words = [word.format(walks=walks) for word in words]
    try:
        status = main(words)
    except SystemExit as stopped:
        status = stopped.code
    out, err = capsys.readouterr()
    assert status == 2
    assert out == ""
    assert err


def test_a_misspelt_guideline_is_told_the_closest(walks, capsys):
    main(["call", walks, "--guideline", "oklahma", "--first-square", "2026-06-10"])
    assert "Closest: oklahoma." in capsys.readouterr().err


def test_a_refused_table_names_every_problem_and_exits_with_3(tmp_path, capsys):
    path = tmp_path / "walks.csv"
    text = (
        table(rows()).replace("Ana,NW,1,1,1,0", "Ana,NW,1,1,2O,0").replace(",SE,1,2,", ",XX,1,2,")
    )
    path.write_text(text, encoding="utf-8")
    assert main(["read", str(path), "--json"]) == 3
    out, err = capsys.readouterr()
    first, second = json.loads(out)["errors"]
    assert (first["row"], first["column"], first["value"]) == (2, "adults", "2O")
    assert first["expected"] == "a whole number from 0 to 99"
    assert (second["column"], second["value"]) == ("quadrant", "XX")
    assert err.splitlines() == [first["message"], second["message"]]


def test_an_unknown_column_is_left_alone_with_a_notice(tmp_path, capsys):
    path = tmp_path / "walks.csv"
    path.write_text(HEADER + ",weather\n" + rows()[0] + ",sunny\n", encoding="utf-8")
    assert main(["read", str(path)]) == 0
    assert "weather" in capsys.readouterr().err


def test_a_guideline_of_ones_own_says_so(tmp_path, walks, capsys):
    own = "examples/own-guideline.toml"
    (walk,) = told(capsys, "call", walks, "--guideline", own, "--first-square", "2026-06-10")[
        "walks"
    ]
    assert walk["call"]["guideline"]["own"] is True
    assert main(["call", walks, "--guideline", own, "--first-square", "2026-06-10"]) == 0
    assert "your own" in capsys.readouterr().out
    broken = tmp_path / "mine.toml"
    broken.write_text('[guideline]\nname = "mine"\n', encoding="utf-8")
    assert main(["call", walks, "--guideline", str(broken), "--first-square", "2026-06-10"]) == 3


def test_several_walks_close_with_the_most_urgent_first(tmp_path, capsys):
    path = tmp_path / "walks.csv"
    calm, past = rows(field="Calm", insects=2), rows(field="Past", insects=60, healthy=60, lost=60)
    path.write_text(table(calm, past), encoding="utf-8")
    assert main(["call", str(path), *SHP, "--first-square", "2026-06-10", "--brief"]) == 0
    out = capsys.readouterr().out
    assert out.index("Past") < out.index("Calm")
    assert "2 walks: 1 treat, 1 hold" in out
    assert "\x1b" not in out


def test_what_is_printed_fits_the_screen(walks, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    main(["call", walks, *SHP, "--first-square", "2026-06-10"])
    assert max(map(len, capsys.readouterr().out.splitlines())) <= 72


def test_a_reader_that_stops_is_no_error(walks):
    words = [sys.executable, "-m", "quarterwalk", "guidelines", "--json"]
    command = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    command.stdout.close()
    assert command.wait(timeout=30) in (0, 120)
    assert b"Traceback" not in command.stderr.read()


@pytest.mark.parametrize("shell", ["bash", "zsh"])
def test_completion_is_a_script_that_knows_the_commands(shell, capsys):
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    for word in ("guidelines", "--first-square", "--plantings"):
        assert word in script


def test_guidelines_lists_eight_and_prints_one_with_its_sources(capsys):
    assert main(["guidelines"]) == 0
    listed = capsys.readouterr().out
    for name in ("southern-high-plains", "mid-coast", "upper-coast", "coastal-bend", "blacklands",
                 "oklahoma", "kansas", "tennessee-sweep"):  # fmt: skip
        assert name in listed
    assert main(["guidelines", "kansas"]) == 0
    assert "ources" in capsys.readouterr().out


def test_an_interrupt_that_a_library_makes_an_error_of_is_still_an_interrupt(monkeypatch, capsys):
    def stopped_inside(_):
        try:
            signal.raise_signal(signal.SIGINT)
        except KeyboardInterrupt:
            raise RuntimeError("a library's own word for it") from None

    monkeypatch.setattr("quarterwalk.cli.guidelines_command.run", stopped_inside)
    assert main(["guidelines"]) == 130
    assert capsys.readouterr().err == "stopped; nothing was half-written.\n"


def test_an_error_that_nobody_expected_is_still_seen(monkeypatch):
    def broken(_):
        raise RuntimeError("a fault of our own")

    monkeypatch.setattr("quarterwalk.cli.guidelines_command.run", broken)
    with pytest.raises(RuntimeError, match="a fault of our own"):
        main(["guidelines"])
