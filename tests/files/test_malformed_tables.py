"""A malformed table is read, or refused with the place of each problem; nothing else happens.

QUARTERWALK_EXAMPLES sets how many tables each test makes.
"""

from __future__ import annotations

import os
import re
from functools import cache

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.errors import MOST_PROBLEMS, RefusedInput
from tests.files.tables import BASIC, read, with_part, workbook

EXAMPLES = int(os.environ.get("QUARTERWALK_EXAMPLES", "300"))
many = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))

OF_NO_CELL = re.compile("an XLSX workbook|a workbook that unpacks|a sheet no wider|a CSV or XLSX")
HEADER = [*BASIC.split(","), "walk", "sites", "method", "sweeps", "skipped", "plan", "colour"]
ROWS = [
    ["Home 40", "2026-06-18", "Ann", quadrant, str(stop), str(plant), "0", "1", *squares, "",
     "", "all", "terminal", "", "", "", "red"]
    for quadrant, squares in (("NW", ["1", "0", "0", "0"]), ("se", ["", "", "", ""]))
    for stop in (1, 2)
    for plant in (1, 2, 3)
]  # fmt: skip
CELLS = st.sampled_from([
    "", " ", "\u00a0", "0", "1", "2O", "-1", "100", "3.0", "3,0", "1e3", "９", "٣", "𝟗", "9" * 5000,
    "2026-02-30", "2026-06-19", "18.06.2026", "0000-00-00", "Home 41", "\x00", "\x1b[2J",
    '"', '""', 'a"b', "a\nb", "a\rb", ",", ";", "\t", "top3", "sweep", "SW", "middle", "true",
    "=1+1", "#N/A", "nan", "inf", "\ufeff", "\u2028", "é", "x" * 140_000,
])  # fmt: skip
Edit = tuple[int, int, str]
EDITS = st.lists(st.tuples(st.integers(0, 12), st.integers(0, 20), CELLS), max_size=6)
NAMES = st.sampled_from(["", " ", "FIELD", " date ", "plant", "adults", "x", '"', "walk", "\x00"])


def edited(edits: list[Edit], names: list[tuple[int, str]]) -> list[list[str]]:
    """Give the table with some cells and some names of its header changed."""
    table = [HEADER.copy(), *(row.copy() for row in ROWS)]
    for row, column, text in edits:
        cells = table[row % len(table)]
        if column < len(cells):
            cells[column] = text
        else:
            del cells[len(cells) // 2 :]
    for column, name in names:
        table[0][column % len(table[0])] = name
    return table


def look(data: bytes) -> None:
    """Read a table, and check what is said where it is refused."""
    try:
        walks = read(data)
    except RefusedInput as error:
        refused = error
    else:
        assert len(list(walks.table)) == len(walks.table) >= 1
        assert len(walks.file_rows) == len(walks.table.rows) >= 1
        return
    assert 1 <= len(refused.problems) <= MOST_PROBLEMS
    rows = [problem.row or 0 for problem in refused.problems]
    assert rows == sorted(rows)
    for problem in refused.problems:
        assert problem.file == "standard input"
        assert problem.message.isprintable()
        if not OF_NO_CELL.match(problem.expected):
            assert problem.column
            assert problem.row is not None
            assert problem.row >= 1


@many
@given(
    EDITS,
    st.lists(st.tuples(st.integers(0, 20), NAMES), max_size=2),
    st.sampled_from([",", ";", "\t", "|"]),
    st.sampled_from(["\n", "\r\n", "\r", "\n\n", "\r\r\n"]),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "latin-1", "cp1252"]),
)
def test_a_csv_table_with_odd_cells(
    edits: list[Edit], names: list[tuple[int, str]], separator: str, end: str, encoding: str
) -> None:
    text = end.join(separator.join(row) for row in edited(edits, names))
    look(text.encode(encoding, "replace"))


@many
@given(EDITS, st.data())
def test_a_csv_table_with_damaged_bytes(edits: list[Edit], data: st.DataObject) -> None:
    look(damaged("\n".join(",".join(row) for row in edited(edits, [])).encode(), data))


@many
@given(st.binary(max_size=200))
def test_bytes_that_are_no_table(data: bytes) -> None:
    look(data)
    look(b"PK\x03\x04" + data)
    look(BASIC.encode() + b"\n" + data)


@many
@given(st.text(max_size=200))
def test_text_below_a_header(text: str) -> None:
    look((BASIC + "\n" + text).encode("utf-8", "replace"))


@cache
def sound_workbook() -> bytes:
    return workbook([HEADER, *ROWS])


def damaged(data: bytes, draw: st.DataObject) -> bytes:
    """Cut, overwrite, repeat or put in some bytes."""
    for _ in range(draw.draw(st.integers(1, 4))):
        at = draw.draw(st.integers(0, len(data)))
        length = draw.draw(st.integers(0, 40))
        what = draw.draw(st.sampled_from(["cut", "end", "put", "over", "again"]))
        new = draw.draw(st.binary(max_size=8)) if what in ("put", "over") else b""
        before, after = data[:at], data[at:]
        data = {
            "cut": before + after[length:],
            "end": before,
            "put": before + new + after,
            "over": before + new + after[len(new) :],
            "again": data[: at + length] + after,
        }[what]
    return data


@many
@given(st.data())
def test_a_workbook_with_damaged_bytes(data: st.DataObject) -> None:
    look(damaged(sound_workbook(), data))


@many
@given(st.data())
def test_a_workbook_with_a_damaged_part(data: st.DataObject) -> None:
    parts = ["xl/worksheets/.*", "xl/workbook.xml", "xl/sharedStrings.xml", "xl/.*rels", ".*"]
    name = data.draw(st.sampled_from(parts))
    look(with_part(sound_workbook(), name, lambda part: damaged(part, data)))


ODD = st.one_of(CELLS.map(lambda text: text[:30_000]), st.booleans(), st.integers(-5, 120),
                st.floats(allow_nan=False, allow_infinity=False), st.dates())  # fmt: skip


@settings(many, max_examples=max(EXAMPLES // 4, 1))
@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 20), ODD), max_size=8))
def test_a_workbook_with_odd_cells(edits: list[tuple[int, int, object]]) -> None:
    table: list[list[object]] = [list(row) for row in edited([], [])]
    for row, column, cell in edits:
        cells = table[row % len(table)]
        cells[column % len(cells)] = cell if isinstance(cell, str | int | float) else str(cell)
    look(workbook(table))
