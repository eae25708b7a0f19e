"""Walks come back equal from CSV, from a workbook and from JSON; blank is not 0."""

from __future__ import annotations

import json
import os
import tempfile
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.errors import RefusedInput, UsageError
from quarterwalk.files import walk_writer
from quarterwalk.files.walk_json import walks_from_json, walks_to_json
from quarterwalk.files.walk_table import read_walks
from quarterwalk.files.walk_writer import write_walks
from quarterwalk.walk import (
    InsectCount,
    Method,
    PlantCheck,
    Quadrant,
    RecordError,
    Sites,
    SquareCount,
    Walk,
    WalkTable,
)

EXAMPLES = int(os.environ.get("QUARTERWALK_EXAMPLES", "300")) // 3
many = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
DAY = date(2026, 6, 18)

LETTERS = st.characters(exclude_categories=["C", "Zl", "Zp"])
NAMES = st.one_of(
    st.sampled_from(["Home 40", "12", "1e5", "=1+1", "0012", "a,b", 'the "old" one', "TRUE", "é"]),
    st.text(LETTERS, max_size=12).map(str.strip),
)
FIELDS = NAMES.filter(bool)
NOTES = st.one_of(NAMES, st.just("two\nlines"), st.just("a\r\nb\tc"))
COUNT = st.integers(0, 99)
INSECTS = st.none() | st.builds(InsectCount, COUNT, COUNT)
SQUARES = st.none() | st.builds(SquareCount, COUNT, COUNT, COUNT, COUNT)


@st.composite
def checks(draw: st.DrawFn, method: Method, parts: bool) -> tuple[PlantCheck, ...]:
    places = draw(
        st.lists(
            st.tuples(
                st.sampled_from(Quadrant),
                st.none() | st.integers(1, 999_999),
                st.integers(1, 999_999),
                NAMES,
            ),
            min_size=1,
            max_size=6,
            unique=True,
        )
    )
    sweeps = st.integers(1, 9999) if method is Method.SWEEP else st.none()
    found = [
        PlantCheck(
            quadrant, plant, stop, draw(INSECTS), draw(SQUARES), draw(sweeps), scout,
            DAY - timedelta(1) if parts and draw(st.booleans()) else None,
            draw(st.booleans()), draw(NOTES),
        )
        for quadrant, stop, plant, scout in places
    ]  # fmt: skip
    return (*found[:-1], PlantCheck(places[-1][0], places[-1][2], places[-1][1],
                                    sweeps=draw(sweeps), scout=places[-1][3]))  # fmt: skip


@st.composite
def walks(draw: st.DrawFn) -> list[Walk]:
    ids = draw(st.lists(NAMES, min_size=1, max_size=4, unique=True))
    made = []
    for place, id_ in enumerate(ids):
        method = draw(st.sampled_from(Method))
        field = draw(FIELDS)
        made.append(
            Walk(
                field if id_ else f"{field} {place}",
                DAY,
                draw(checks(method, parts=bool(id_))),
                id_,
                method,
                draw(st.sampled_from(Sites)),
                draw(NAMES),
            )
        )
    return made


def through_a_file(found: list[Walk], name: str) -> list[Walk]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        write_walks(WalkTable.from_walks(found), path)
        assert [p.name for p in path.parent.iterdir()] == [name]
        return list(read_walks(path).table)


@many
@given(walks())
def test_walks_come_back_equal_from_csv(found: list[Walk]) -> None:
    assert through_a_file(found, "walks.csv") == found


@settings(many, max_examples=max(EXAMPLES // 3, 1))
@given(walks())
def test_walks_come_back_equal_from_a_workbook(found: list[Walk]) -> None:
    assert through_a_file(found, "walks.XLSX") == found


@many
@given(walks())
def test_walks_come_back_equal_from_json(found: list[Walk]) -> None:
    assert list(walks_from_json(walks_to_json(WalkTable.from_walks(found)))) == found


def one(check: PlantCheck, field: str = "Home", id_: str = "") -> Walk:
    return Walk(field, DAY, (check,), id_)


NOT_LOOKED = one(PlantCheck(Quadrant.NW, 1))
NONE_THERE = one(PlantCheck(Quadrant.NW, 1, insects=InsectCount(), squares=SquareCount()))


def written(table: WalkTable, folder: Path) -> str:
    write_walks(table, folder / "walks.csv")
    return (folder / "walks.csv").read_text("utf-8")


def test_not_looked_at_is_blank_and_none_there_is_0(tmp_path: Path) -> None:
    header = (
        "field,date,scout,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted,flared,note"
    )
    assert written(WalkTable.from_walks([NOT_LOOKED]), tmp_path).split() == [
        header,
        "Home,2026-06-18,,NW,,1,,,,,,,",
    ]
    assert written(WalkTable.from_walks([NONE_THERE]), tmp_path).split() == [
        header,
        "Home,2026-06-18,,NW,,1,0,0,0,0,0,0,",
    ]


@pytest.mark.parametrize("name", ["walks.csv", "walks.xlsx"])
def test_blank_and_0_come_back_as_they_were(name: str) -> None:
    assert through_a_file([NOT_LOOKED], name) == [NOT_LOOKED]
    assert through_a_file([NONE_THERE], name) == [NONE_THERE]
    assert NOT_LOOKED != NONE_THERE


def test_optional_columns_are_written_where_a_row_needs_them(tmp_path: Path) -> None:
    check = PlantCheck(Quadrant.SE, 2, insects=InsectCount(1, 0), sweeps=25)
    table = WalkTable.from_walks([Walk("Home", DAY, (check,), method=Method.SWEEP)])
    header, row = written(table, tmp_path).split()
    assert header.endswith(",note,method,sweeps")
    assert row == "Home,2026-06-18,,SE,,2,1,0,,,,,,sweep,25"


@pytest.mark.parametrize("id_", ["", "w1"])
def test_two_walks_that_would_read_as_one_are_not_written(tmp_path: Path, id_: str) -> None:
    twins = [one(PlantCheck(Quadrant.NW, 1), id_=id_), one(PlantCheck(Quadrant.NW, 2), id_=id_)]
    with pytest.raises(RecordError, match="told from the others"):
        write_walks(WalkTable.from_walks(twins), tmp_path / "walks.csv")
    assert not list(tmp_path.iterdir())


def test_a_file_that_can_not_be_finished_leaves_the_one_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "walks.csv"
    path.write_text("what was there before")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(walk_writer, "_write_csv", full)
    with pytest.raises(OSError, match="No space"):
        write_walks(WalkTable.from_walks([NOT_LOOKED]), path)
    assert path.read_text() == "what was there before"
    assert list(tmp_path.iterdir()) == [path]


def test_a_text_too_long_for_a_workbook_is_refused_rather_than_cut(tmp_path: Path) -> None:
    table = WalkTable.from_walks([one(PlantCheck(Quadrant.NW, 1, note="x" * 32_768))])
    with pytest.raises(UsageError, match="column note.*32,767.*Write CSV"):
        write_walks(table, tmp_path / "walks.xlsx")
    write_walks(table, tmp_path / "walks.csv")
    assert read_walks(tmp_path / "walks.csv").table == table


PLANT = {"quadrant": "NW", "plant": 1}
WALK = {"field": "Home", "date": "2026-06-18", "plants": [PLANT]}


@pytest.mark.parametrize(
    ("content", "column", "value"),
    [
        ([], None, "[]"),
        ({"walks": 3}, "walks", "3"),
        ({"walks": [3]}, "walks[1]", "3"),
        ({"walks": [WALK, {**WALK, "date": "18 June"}]}, "walks[2].date", "18 June"),
        ({"walks": [{**WALK, "field": ""}]}, "walks[1].field", ""),
        ({"walks": [{**WALK, "field": "\ud800"}]}, "walks[1].field", "\ud800"),
        ({"walks": [{**WALK, "plants": []}]}, "walks[1].checks", "()"),
        ({"walks": [{**WALK, "method": "shake"}]}, "walks[1].method", "shake"),
        ({"walks": [{**WALK, "colour": 1}]}, "walks[1]", "colour"),
        ({"walks": [{**WALK, "plants": [{**PLANT, "adults": 100}]}]}, "adults", "100"),
        ({"walks": [{**WALK, "plants": [PLANT, {**PLANT, "plant": "2"}]}]}, "plants[2].plant", "2"),
        ({"walks": [{**WALK, "plants": [{**PLANT, "adults": None}]}]}, "adults", "None"),
        ({"walks": [{**WALK, "plants": [{**PLANT, "skipped": 1}]}]}, "plants[1].skipped", "1"),
        ({"walks": [{**WALK, "plants": [{**PLANT, "quadrant": "N"}]}]}, "quadrant", "N"),
    ],
)
def test_json_of_no_walk_is_refused_at_its_place(
    content: object, column: str | None, value: str
) -> None:
    with pytest.raises(RefusedInput) as refused:
        walks_from_json(json.dumps(content), "walks.json")
    (problem,) = refused.value.problems
    assert problem.file == "walks.json"
    assert (problem.column or "").endswith(column or "")
    assert value in problem.value


@pytest.mark.parametrize("text", ["", "{", '{"walks": NaN}', "[" * 100_000, "9" * 5000, "\x00"])
def test_text_that_is_no_json_is_refused(text: str) -> None:
    with pytest.raises(RefusedInput):
        walks_from_json(text)
