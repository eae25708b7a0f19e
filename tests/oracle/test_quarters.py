"""What `quarters --json` prints holds, measured again with a second, plain geometry."""

from __future__ import annotations

import io
import json
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from shapely import MultiPolygon, Polygon

from quarterwalk.cli import main
from tests.oracle.ground import Case, Given, make, written
from tests.oracle.laid import faults

CASES = int(os.environ.get("QUARTERWALK_FIELD_CASES", "24"))
FIRST = int(os.environ.get("QUARTERWALK_FIRST_FIELD_CASE", "0"))


def laid(case: Case, folder: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    """Run the command on a case, and give what it prints."""
    name, given = written(case, folder)
    before = sys.stdin
    sys.stdin = io.TextIOWrapper(io.BytesIO(given))
    try:
        status = main(["quarters", name, *case.words, "--json"])
    finally:
        sys.stdin = before
    said = capsys.readouterr()
    assert status == 0, said.err
    return json.loads(said.out)


def test_what_is_printed_holds_when_it_is_measured_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for seed in range(FIRST, FIRST + CASES):
        case = make(seed)
        found = list(faults(laid(case, tmp_path, capsys), case.fields))
        assert not found, f"case {seed} ({case.kind}): {found}"


def of_kind(told: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    return [f for f in told["features"] if f["properties"]["kind"] == kind]


def exchange_names(told: dict[str, Any]) -> None:
    for quadrant in of_kind(told, "quadrant") + of_kind(told, "stop"):
        said = quadrant["properties"]
        said["quadrant"] = {"NW": "NE", "NE": "NW", "SW": "SE", "SE": "SW"}[said["quadrant"]]


def turn_a_ring(told: dict[str, Any]) -> None:
    of_kind(told, "quadrant")[0]["geometry"]["coordinates"][0].reverse()


def move_a_corner(told: dict[str, Any]) -> None:
    """Some metres, into the quadrant."""
    ring = of_kind(told, "quadrant")[0]["geometry"]["coordinates"][0]
    ring[1] = [sum(x) / 2 for x in zip(ring[0], ring[2], strict=True)]


def move_a_stop(told: dict[str, Any]) -> None:
    """To a corner of the field, in the stop and in its loop."""
    stop, path = of_kind(told, "stop")[0]["geometry"], of_kind(told, "path")[0]["geometry"]
    corner = [-101.9, 33.4]
    path["coordinates"] = [corner if p == stop["coordinates"] else p for p in path["coordinates"]]
    stop["coordinates"] = corner


def leave_a_stop_out(told: dict[str, Any]) -> None:
    del of_kind(told, "path")[1]["geometry"]["coordinates"][3]


def tell_a_longer_way(told: dict[str, Any]) -> None:
    of_kind(told, "path")[0]["properties"]["metres"] += 2


def open_a_loop(told: dict[str, Any]) -> None:
    of_kind(told, "path")[0]["geometry"]["coordinates"].pop()


def tell_other_acres(told: dict[str, Any]) -> None:
    of_kind(told, "quadrant")[2]["properties"]["acres"] *= 1.002


def give_a_stop_a_plant_more(told: dict[str, Any]) -> None:
    of_kind(told, "stop")[4]["properties"]["plants"] = 6


def put_a_stop_into_the_other_loop(told: dict[str, Any]) -> None:
    of_kind(told, "stop")[4]["properties"]["loop"] = 2


def number_in_halves(told: dict[str, Any]) -> None:
    of_kind(told, "stop")[4]["properties"]["stop"] = 5.0


def say_more_of_a_stop(told: dict[str, Any]) -> None:
    of_kind(told, "stop")[0]["properties"]["note"] = ""


def start_elsewhere(told: dict[str, Any]) -> None:
    for path in of_kind(told, "path"):
        line = path["geometry"]["coordinates"]
        line[0] = line[-1] = [line[0][0] + 1e-5, line[0][1]]


SLIPS = (
    *(exchange_names, turn_a_ring, move_a_corner, move_a_stop, leave_a_stop_out, open_a_loop),
    *(tell_a_longer_way, tell_other_acres, give_a_stop_a_plant_more, number_in_halves),
    *(put_a_stop_into_the_other_loop, say_more_of_a_stop, start_elsewhere),
)


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip.__name__)
def test_the_second_measuring_finds_a_slip(
    slip: Callable[[dict[str, Any]], None], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    square = Polygon([(-101.9, 33.4), (-101.892, 33.4), (-101.892, 33.406), (-101.9, 33.406)])
    gate = (-101.896, 33.4)
    given = Given("A", MultiPolygon([square]), gate, {"name": "A", "gate": list(gate)})
    case = Case([given], "geojson", ["--date", "2026-06-20"])
    told = laid(case, tmp_path, capsys)
    assert not list(faults(told, case.fields))
    slip(told)
    assert list(faults(told, case.fields))
