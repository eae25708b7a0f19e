"""Where to walk: what `quarters` prints, what it writes, and what it refuses."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import gpxpy
import pytest
from defusedxml import ElementTree

from tests.cli.ground import (
    DAY,
    Run,
    files_in,
    of_kind,
    read_json,
    run_in,
    write_field,
    write_fields,
)
from tests.files.drawings import LAT, LON, block, feature, geojson

SKETCHES = {"Gin.gpx", "Gin.svg", "Home-40.gpx", "Home-40.svg", "quarters.geojson"}


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


def stops_of(out: str) -> list[tuple[list[float], str]]:
    """Give the place and the quadrant of every stop."""
    told = json.loads(out)
    return [
        (stop["geometry"]["coordinates"], stop["properties"]["quadrant"])
        for stop in of_kind(told, "stop")
    ]


def test_what_is_printed_names_field_quarters_and_both_loops(run: Run) -> None:
    said, notices = run("quarters", write_fields("Home 40", grower="Wen Adair"), *DAY)
    assert notices == ""
    assert said.startswith("Home 40, 12")
    for words in ("acres, Wen Adair", "Four quarters of 30.", "Loop 1: 8 stops, 40 plants",
                  "Loop 2: 12 stops, 60 plants", "minutes of walking", "20 June 2026"):  # fmt: skip
        assert words in said


def test_the_same_day_has_the_same_stops_and_another_day_others(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    first, _ = run("quarters", fields, *DAY, "--json")
    again, _ = run("quarters", fields, *DAY, "--json")
    other, _ = run("quarters", fields, "--date", "2026-06-21", "--json")
    assert first == again
    assert not {str(s) for s in stops_of(first)} & {str(s) for s in stops_of(other)}
    quarters = [list(of_kind(json.loads(told), "quadrant")) for told in (first, other)]
    assert quarters[0] == quarters[1]


def test_without_a_date_it_is_today(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    fields = write_fields("Home 40")
    before = time.localtime()
    told, _ = run("quarters", fields, "--json")
    today = time.strftime("%Y-%m-%d", before)
    if time.localtime()[:3] == before[:3]:
        assert told == run("quarters", fields, "--date", today, "--json")[0]


def test_a_field_is_laid_out_alike_whatever_stands_beside_it(run: Run) -> None:
    both, _ = run("quarters", write_fields("Gin", "Home 40"), *DAY, "--json")
    features = [feature([block(0.01)], name="Home 40")]
    Path("alone.geojson").write_bytes(geojson(*features))
    alone, _ = run("quarters", "alone.geojson", *DAY, "--json")
    mine = [f for f in json.loads(both)["features"] if f["properties"]["field"] == "Home 40"]
    assert mine == json.loads(alone)["features"]


def test_a_district_is_laid_out_as_each_of_its_fields_is(run: Run) -> None:
    names = [f"F {n}" for n in range(45)]
    together, _ = run("quarters", write_fields(*names), *DAY, "--json")
    told = json.loads(together)["features"]
    assert list(dict.fromkeys(f["properties"]["field"] for f in told)) == names
    for number in (0, 44):
        one = geojson(feature([block(0.01 * number)], name=names[number]))
        Path("alone.geojson").write_bytes(one)
        alone = json.loads(run("quarters", "alone.geojson", *DAY, "--json")[0])["features"]
        assert [f for f in told if f["properties"]["field"] == names[number]] == alone


def test_files_written_twice_for_a_day_are_the_same_to_the_byte(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    for folder in ("one", "two"):
        run("quarters", fields, *DAY, "--out", folder)
    assert files_in("one") == files_in("two") == SKETCHES
    assert all(Path("one", n).read_bytes() == Path("two", n).read_bytes() for n in SKETCHES)


@pytest.mark.parametrize(
    ("loops", "each"), [("2+3", [8, 12]), ("1+2+2", [4, 8, 8]), ("5", [20]), ("10", [40])]
)
def test_loops_share_the_stops_out(run: Run, loops: str, each: list[int]) -> None:
    told = json.loads(run("quarters", write_fields("A"), *DAY, "--loops", loops, "--json")[0])
    by_loop = [s["properties"]["loop"] for s in of_kind(told, "stop")]
    assert [by_loop.count(n + 1) for n in range(len(each))] == each
    assert len(by_loop) == sum(each)
    assert [p["properties"]["loop"] for p in of_kind(told, "path")] == sorted(set(by_loop))


def test_plants_are_those_at_every_stop(run: Run) -> None:
    words = ("quarters", write_fields("A"), *DAY, "--plants", "4")
    told = json.loads(run(*words, "--json")[0])
    assert {s["properties"]["plants"] for s in of_kind(told, "stop")} == {4}
    # 8 stops of 4 plants, and 12
    said, _ = run(*words)
    assert "8 stops, 32 plants" in said
    assert "12 stops, 48 plants" in said


def test_units_change_what_is_said_but_not_what_is_stored(run: Run) -> None:
    fields = write_fields("A")
    said, _ = run("quarters", fields, *DAY, "--units", "metric")
    assert "hectares" in said
    assert " km" in said
    assert not any(word in said for word in ("acres", "feet", "miles"))
    stored = [run("quarters", fields, *DAY, "--json", "--units", u)[0] for u in ("us", "metric")]
    assert stored[0] == stored[1]


def test_geojson_comes_from_standard_input(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write_fields("Home 40")
    data = Path(path).read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    assert run("quarters", "-", *DAY, "--json") == run("quarters", path, *DAY, "--json")


@pytest.mark.parametrize("data", [b"", b"<kml/>", b'{"type": "FeatureCollection"}', b"PK\x03\x04"])
def test_standard_input_that_is_no_geojson_is_refused(
    run: Run, monkeypatch: pytest.MonkeyPatch, data: bytes
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    out, err = run("quarters", "-", "--json", status=3)
    (error,) = json.loads(out)["errors"]
    assert error["file"] == "standard input"
    assert err == error["message"] + "\n"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--date", "20.6.2026"], "must be a date as YYYY-MM-DD"),
        (["--date", "2026-02-30"], "must be a date as YYYY-MM-DD"),
        (["--date", "2026-W01-1"], "must be a date as YYYY-MM-DD"),
        (["--date", "9999-12-31"], 'got "9999-12-31". The year must be from 1700 to 2199.'),
        (["--date", ""], 'must be a date as YYYY-MM-DD, got ""'),
        (["--loops", "0+5"], "such as 2+3"),
        (["--loops", "2+"], "such as 2+3"),
        (["--loops", "6+5"], "10 in all at most"),
        (["--loops", "two"], "such as 2+3"),
        (["--plants", "0"], "a whole number from 1 to 50"),
        (["--plants", "51"], "a whole number from 1 to 50"),
        (["--plants", "4.5"], "a whole number from 1 to 50"),
        (["--units", "yards"], "'us', 'metric'"),
        (["--guideline", "kansas"], "--guideline"),
    ],
)
def test_a_wrong_option_exits_with_2_and_says_what_is_taken(
    run: Run, words: list[str], told: str
) -> None:
    out, err = run("quarters", write_fields("A"), *words, "--json", status=2)
    assert out == ""
    assert told in err
    assert words[-1] in err


def test_every_problem_of_a_file_is_told_with_row_and_column(run: Run) -> None:
    bow = [[LON, LAT], [LON + 0.01, LAT + 0.01], [LON + 0.01, LAT], [LON, LAT + 0.01], [LON, LAT]]
    Path("bad.geojson").write_bytes(
        geojson(
            feature([block()], name="A", rows="east"),
            feature([block(0.01)], name="B"),
            feature([[[x + 0.03, y] for x, y in bow]], name="C"),
            feature([block(0.05)], name="B"),
        )
    )
    out, err = run("quarters", "bad.geojson", *DAY, "--json", "--out", "d", status=3)
    errors = json.loads(out)["errors"]
    assert [(e["file"], e["row"], e["column"]) for e in errors] == [
        ("bad.geojson", 1, "rows"), ("bad.geojson", 3, "geometry"), ("bad.geojson", 4, "name"),
    ]  # fmt: skip
    assert all(set(e) == {"file", "row", "column", "value", "expected", "message"} for e in errors)
    assert err.splitlines() == [error["message"] for error in errors]
    assert not Path("d").exists()


def test_a_name_that_cannot_be_written_is_refused_and_not_a_crash(run: Run) -> None:
    """Half of a pair of code units (RFC 8259, section 8.2) stands for no character."""
    data = geojson(feature([block()], name="HALF")).replace(b"HALF", b"a\\ud800b")
    Path("half.geojson").write_bytes(data)
    out, err = run("quarters", "half.geojson", "--json", status=3)
    (error,) = json.loads(out)["errors"]
    assert (error["row"], error["column"]) == (1, "name")
    assert err == error["message"] + "\n"


@pytest.mark.parametrize("name", ["nothing.geojson", ".", "walks.csv"])
def test_a_file_that_holds_no_boundaries_exits_with_3(run: Run, name: str) -> None:
    Path("walks.csv").write_text("field,date\n", encoding="utf-8")
    out, err = run("quarters", name, status=3)
    assert out == ""
    assert err.startswith(f"{name}: must be ")


def test_a_boundary_that_was_mended_is_a_notice_and_the_output_stays_json(run: Run) -> None:
    Path("open.geojson").write_bytes(geojson(feature([block()[:-1]], name="A")))
    out, err = run("quarters", "open.geojson", *DAY, "--json")
    assert len(stops_of(out)) == 20
    assert "open.geojson, field A: the ring was not closed" in err


def test_a_small_field_is_told_how_few_plants_do(run: Run) -> None:
    # 0.001 degrees of latitude are 111 m, of longitude here 93 m: 2.55 acres
    _, err = run("quarters", write_field(0.001, 0.001), *DAY)
    assert err.startswith("Home: 2.5 acres are few. 80 plants do there (4 a stop).")
    _, err = run("quarters", write_field(0.004, 0.002), *DAY)
    assert err == ""


def test_a_field_of_over_160_acres_is_to_be_walked_in_parts(run: Run) -> None:
    out, err = run("quarters", write_field(0.016, 0.012), *DAY, "--json")
    assert "Home: 48" in err
    assert "parts of at most 125 acres" in err
    assert len(stops_of(out)) == 20


def test_the_parts_of_a_large_field_are_a_file_that_is_read_again(run: Run) -> None:
    fields = write_field(0.016, 0.012)
    said, _ = run("quarters", fields, *DAY, "--out", "d")
    assert "parts.geojson holds" in said
    whole = json.loads(run("quarters", fields, *DAY, "--json")[0])
    out, err = run("quarters", "d/parts.geojson", *DAY, "--json")
    assert err == ""
    acres: dict[str, float] = {}
    for quarter in of_kind(json.loads(out), "quadrant"):
        said_of = quarter["properties"]
        acres[said_of["field"]] = acres.get(said_of["field"], 0) + said_of["acres"]
    assert sorted(acres) == [f"Home part {n + 1}" for n in range(4)]
    assert max(acres.values()) <= 125
    total = sum(q["properties"]["acres"] for q in of_kind(whole, "quadrant"))
    assert sum(acres.values()) == pytest.approx(total, rel=1e-4)


def test_fields_that_one_walk_covers_have_no_parts_file(run: Run) -> None:
    run("quarters", write_fields("Home 40", "Gin"), *DAY, "--out", "d")
    assert files_in("d") == SKETCHES


def test_a_gpx_file_has_the_stops_and_loops_of_the_json(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    told = json.loads(run("quarters", fields, *DAY, "--json")[0])
    run("quarters", fields, *DAY, "--out", "d")
    assert read_json("d/quarters.geojson") == told
    for name, file in (("Home 40", "Home-40.gpx"), ("Gin", "Gin.gpx")):
        gpx = gpxpy.parse(Path("d", file).read_text(encoding="utf-8"))
        stops = [s for s in of_kind(told, "stop") if s["properties"]["field"] == name]
        assert [(w.longitude, w.latitude) for w in gpx.waypoints] == [
            tuple(s["geometry"]["coordinates"]) for s in stops
        ]
        paths = [p for p in of_kind(told, "path") if p["properties"]["field"] == name]
        tracks = [[[p.longitude, p.latitude] for p in t.segments[0].points] for t in gpx.tracks]
        assert tracks == [p["geometry"]["coordinates"] for p in paths]


def test_json_and_files_may_be_asked_for_together(run: Run) -> None:
    fields = write_fields("Home 40", "Gin")
    out, _ = run("quarters", fields, *DAY, "--json", "--out", "d")
    assert json.loads(out) == read_json("d/quarters.geojson")
    assert files_in("d") == SKETCHES


def test_hostile_names_write_inside_the_folder_only(run: Run) -> None:
    names = ["../up", "/etc/passwd", "a\\b", "CON", "a:b", "a b", "A B", "<svg onload=x>", "..."]
    run("quarters", write_fields(*names), *DAY, "--out", "in/d")
    assert files_in(".") == {"fields.geojson", "in"}
    assert files_in("in") == {"d"}
    found = files_in("in/d") - {"quarters.geojson"}
    assert len(found) == 2 * len(names)
    assert all(set(name) <= set("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.")
               for name in found)  # fmt: skip
    assert len({name.lower() for name in found}) == len(found)
    for path in Path("in/d").glob("*.svg"):
        tags = {node.tag.rpartition("}")[2] for node in ElementTree.parse(path).iter()}
        assert not tags & {"script", "foreignObject"}
        assert "onload=x" not in path.read_text(encoding="utf-8").partition("<title")[0]
    told = read_json("in/d/quarters.geojson")
    assert list(dict.fromkeys(f["properties"]["field"] for f in told["features"])) == names


def test_long_names_in_any_script_are_written_down(run: Run) -> None:
    names = ["棉" * 150, "棉" * 149 + "花", "x" * 200]
    run("quarters", write_fields(*names), *DAY, "--out", "d")
    assert len(files_in("d")) == 2 * len(names) + 1


@pytest.mark.parametrize("out", ["taken", "taken/below"])
def test_an_out_that_is_no_folder_is_told_and_left_alone(run: Run, out: str) -> None:
    Path("taken").write_text("mine", encoding="utf-8")
    _, err = run("quarters", write_fields("A"), *DAY, "--out", out, status=2)
    assert f"--out must be a folder that can be written to, got {out}: " in err
    assert Path("taken").read_text(encoding="utf-8") == "mine"


def test_a_name_that_is_taken_by_a_folder_stops_it_before_anything_is_written(run: Run) -> None:
    Path("d/Home-40.svg").mkdir(parents=True)
    _, err = run("quarters", write_fields("Gin", "Home 40"), *DAY, "--out", "d", status=2)
    assert "--out must be" in err
    assert f"{Path('d/Home-40.svg')} is a folder" in err
    assert files_in("d") == {"Home-40.svg"}


@pytest.mark.parametrize("name", ["quarters.geojson", "parts.geojson"])
def test_the_boundaries_that_were_read_are_not_written_over(run: Run, name: str) -> None:
    mine = Path(write_fields("Home 40")).rename(name).read_bytes()
    _, err = run("quarters", name, *DAY, "--out", ".", status=2)
    assert f"--out must leave the files alone that are read, got {name}." in err
    assert Path(name).read_bytes() == mine
    assert files_in(".") == {name}


def test_a_second_run_leaves_other_peoples_files_alone(run: Run) -> None:
    Path("d").mkdir()
    Path("d/notes.txt").write_text("mine", encoding="utf-8")
    run("quarters", write_fields("Home 40", "Gin"), *DAY, "--out", "d")
    run("quarters", write_fields("Home 40", "Gin"), *DAY, "--out", "d")
    assert files_in("d") == SKETCHES | {"notes.txt"}


@pytest.mark.skipif(os.name != "posix", reason="signals are sent as they are on Unix")
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGINT])
def test_who_stops_it_halfway_finds_whole_files_only(tmp_path: Path, how: int) -> None:
    names = [f"F {n}" for n in range(30)]
    features = [feature([block(0.01 * n)], name=name) for n, name in enumerate(names)]
    (tmp_path / "f.geojson").write_bytes(geojson(*features))
    words = [sys.executable, "-m", "quarterwalk", "quarters", "f.geojson", *DAY, "--out", "d"]
    paths = os.pathsep.join(str(Path(p).resolve()) for p in sys.path if p)
    command = subprocess.Popen(
        words,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": paths},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    )
    folder, until = tmp_path / "d", time.monotonic() + 60
    while not list(folder.glob("*.svg")) and time.monotonic() < until:
        time.sleep(0.005)
    command.send_signal(how)
    _, err = command.communicate(timeout=60)
    found = [path for path in folder.iterdir() if path.suffix in (".svg", ".gpx", ".geojson")]
    assert 1 <= len(found) < 2 * len(names)
    for path in found:
        ElementTree.fromstring(path.read_bytes())
    if how == signal.SIGINT:
        assert command.returncode == 130
        assert b"Traceback" not in err
        assert set(folder.iterdir()) == set(found)


def test_files_are_written_even_if_nobody_reads_what_is_printed(tmp_path: Path) -> None:
    """As with `| head`, which stops reading after some lines."""
    names = [f"F {n}" for n in range(12)]
    features = [feature([block(0.01 * n)], name=name) for n, name in enumerate(names)]
    (tmp_path / "f.geojson").write_bytes(geojson(*features))
    words = [sys.executable, "-u", "-m", "quarterwalk", "quarters", "f.geojson", *DAY, "--out", "d"]
    paths = os.pathsep.join(str(Path(p).resolve()) for p in sys.path if p)
    command = subprocess.Popen(
        words,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": paths},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    command.stdout.close()
    assert command.wait(timeout=60) in (0, 120)
    assert b"Traceback" not in command.stderr.read()
    assert len(files_in(str(tmp_path / "d"))) == 2 * len(names) + 1
