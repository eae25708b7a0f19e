"""The command and a second, plain reckoning of the rules agree on walks made up at the edges."""

from __future__ import annotations

import json
import math
import os
from fractions import Fraction
from pathlib import Path

import pytest

from quarterwalk.cli import main
from tests.oracle.cases import Case, make
from tests.oracle.plain import expected, sure

CASES = int(os.environ.get("QUARTERWALK_CASES", "400"))
FIRST = int(os.environ.get("QUARTERWALK_FIRST_CASE", "0"))
PLAIN = ("method", "plants", "adults", "nymphs", "per_100", "square_plants", "squares")
SET = ("squares_healthy", "square_set", "blasted_share", "set_readable")
CALL = ("verdict", "provisional", "next_look")


def run(case: Case, folder: Path, capsys: pytest.CaptureFixture[str]) -> list[dict]:
    (folder / "walks.csv").write_bytes(case.text.encode())
    said = ["call", str(folder / "walks.csv"), *case.arguments, "--json"]
    if case.plantings is not None:
        (folder / "plantings.csv").write_bytes(case.plantings.encode())
        said += ["--plantings", str(folder / "plantings.csv")]
    status = main(said)
    out = capsys.readouterr().out
    assert status == 0, out
    return json.loads(out)["walks"]


def same(want: object, got: object) -> bool:
    if want is None or isinstance(want, bool | str):
        return got == want and type(got) is type(want)
    if isinstance(want, int | Fraction):
        return got is not None and math.isclose(got, want, rel_tol=1e-12, abs_tol=1e-12)
    return got == str(want)


def compare(want: dict, got: dict, level: float) -> list[str]:
    """Return what the two say differently of one walk."""
    read, made = got["reading"], got["call"]
    pairs = [(f"reading.{n}", want["reading"][n], read[n]) for n in PLAIN + SET]
    pairs += [(f"call.{n}", want["call"][n], made[n]) for n in CALL]
    pairs += [(n, want["call"][n], made["guideline"][n]) for n in ("line", "floor")]
    pairs.append(("scouts", str(sorted(want["scouts"])), str(sorted(got["scouts"]))))
    pairs.append(("stage", want["stage"]["name"], got["stage"]["name"]))
    weeks = str(want["stage"]["squaring_weeks"])
    pairs.append(("weeks", weeks, str(got["stage"]["squaring_weeks"])))
    pairs += quadrant_pairs(want["reading"]["quadrants"], read["quadrants"])
    said = {reason["code"] for reason in made["reasons"]}
    pairs += [(code, there, code in said) for code, there in want["codes"].items()]
    pairs += [(name, is_null, read[name] is None) for name, is_null in want["nulls"].items()]
    pairs += chance_pairs(want, got, level)
    if made["verdict"] == want["call"]["verdict"]:
        wanted = sure(made["verdict"], read["p_treat"], read["p_over"])
        pairs.append(("sure", wanted, made["sure"]))
    return [f"{name}: {want} != {got}" for name, want, got in pairs if not same(want, got)]


def chance_pairs(want: dict, got: dict, level: float) -> list[tuple[str, object, object]]:
    """Hold the probabilities against each other and against the intervals."""
    pairs: list[tuple[str, object, object]] = []
    read, side = got["reading"], (1 + level) / 2
    line, floor = got["call"]["guideline"]["line"], got["call"]["guideline"]["floor"]
    if line is not None:
        pairs.append(("low end", read["per_100_low"] >= line, read["p_over"] >= side))
        pairs.append(("high end", read["per_100_high"] < line, read["p_over"] < 1 - side))
    if floor is not None and read["set_readable"]:
        pairs.append(("set's high end", read["square_set_high"] < floor, read["p_under"] > side))
    if want["alone"]:
        alike = math.isclose(read["p_over"], read["p_treat"], rel_tol=1e-9)
        pairs.append(("p_treat alone", True, alike))
    if want["one_floor"] and read["p_treat"] is not None:
        both = math.isclose(read["p_over"] * read["p_under"], read["p_treat"], rel_tol=1e-9)
        pairs.append(("p_treat of both", True, both))
    return pairs


def quadrant_pairs(want: list[dict], got: list[dict]) -> list[tuple[str, object, object]]:
    """Pair the quadrants by name; one that is not there has nothing in it."""
    nothing = {"plants": 0, "insects": None, "squares": None, "square_set": None}
    there = {quadrant["quadrant"]: quadrant for quadrant in got}
    return [
        (f"{own['quadrant']}.{name}", own[name], there.get(own["quadrant"], nothing)[name])
        for own in want
        for name in nothing
    ]


def differences(case: Case, got: list[dict]) -> list[str]:
    want = expected(case.text, case.options)
    by_walk = {(walk["field"], walk["date"]): walk for walk in got}
    keys = [(walk["field"], walk["date"]) for walk in want]
    if sorted(keys) != sorted(by_walk):
        return [f"walks: {sorted(keys)} != {sorted(by_walk)}"]
    return [
        line
        for w, key in zip(want, keys, strict=True)
        for line in compare(w, by_walk[key], case.level)
    ]


def test_the_command_agrees_with_the_rules_written_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for seed in range(FIRST, FIRST + CASES):
        case = make(seed)
        found = differences(case, run(case, tmp_path, capsys))
        assert not found, f"case {seed}: {found} {case.arguments}"
