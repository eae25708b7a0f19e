"""A malformed weather file is read, or refused with its problems; nothing else happens.

QUARTERWALK_EXAMPLES sets how many files each test makes.
"""

from __future__ import annotations

import os

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.errors import MOST_PROBLEMS, RefusedInput
from quarterwalk.files.weather_file import WeatherFile
from tests.files.tables import workbook
from tests.files.weather_days import month_line, read

EXAMPLES = int(os.environ.get("QUARTERWALK_EXAMPLES", "200"))
many = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))

DAYS = ("2026-06-01", "2026-06-02")
DAILY = [
    ["station", "name", "latitude", "longitude", "elevation_m", "date", "tmin_f", "tmax_f", "mark"],
    *(["p1", "Pump", "33.5", "-101.9", "990", day, "70", "95", ""] for day in DAYS),
    ["p2", "", "", "", "", "2026-06-01", "", "96", "forecast"],
]
HOURLY = [
    ["station", "time", "temp_c", "humidity", "dew_point_c"],
    *(["p1", f"2026-06-01T0{hour}:00", "25", "40", ""] for hour in range(6)),
    ["p1", "2026-06-01T06:53", "26", "", "12"],
]
BY_STATION = [
    ["STATION", "DATE", "LATITUDE", "LONGITUDE", "TMAX", "TMAX_ATTRIBUTES", "TMIN"],
    *(["US000000001", day, "33", "-101", "300", "", "150"] for day in DAYS),
]
YEARLY = [
    ["US000000001", "20260601", element, "250", "", "", "S", "0700"] for element in ("TMAX", "TMIN")
]
TABLES = (DAILY, HOURLY, BY_STATION, YEARLY)
CELLS = st.sampled_from([
    "", " ", "0", "-9999", "7O", "70,5", "1e3", "nan", "inf", "٧٠", "9" * 5000, "999999.9",
    "2026-02-30", "2026-06-01", "0001-01-01", "9999-12-31", "2199-12-31", "2199-12-31T23:59",
    "2026-06-01T05:00", "2026-06-01 05:00:59.9", "2026-11-01T01:00", "2026-06-01T05:60",
    "20260601", "21991231", "TMIN", "PRCP", "p2", "p1", "forecast", "missing", "\x00", '"', '""',
    "a\nb", ",", ";", ",,I", ",,,,,", "#N/A", "\ufeff", "\u2028", "é", "x" * 140_000, "-999.9",
    "date", "time", "tmin_c", "tmax_f", "temp_f", "TMAX", "TMAX_ATTRIBUTES", "mark",
])  # fmt: skip
EDITS = st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12), CELLS), max_size=6)


def edited(table: list[list[str]], edits: list[tuple[int, int, str]]) -> list[list[str]]:
    found = [row.copy() for row in table]
    for row, column, text in edits:
        cells = found[row % len(found)]
        if column < len(cells):
            cells[column] = text
        else:
            del cells[len(cells) // 2 :]
    return found


def look(data: bytes) -> None:
    """Read a file, and check what is said where it is refused."""
    try:
        file = read(data)
    except RefusedInput as error:
        refused = error
    else:
        _look_at_findings(file)
        return
    assert 1 <= len(refused.problems) <= MOST_PROBLEMS
    rows = [problem.row or 0 for problem in refused.problems]
    assert rows == sorted(rows)
    for problem in refused.problems:
        assert problem.file == "standard input"
        assert problem.message.isprintable()


def _look_at_findings(file: WeatherFile) -> None:
    assert file.stations
    for finding in file.findings:
        assert finding.first <= finding.last
        assert finding.station in {days.station.id for days in file.stations}


@many
@given(
    st.sampled_from(TABLES),
    EDITS,
    st.sampled_from([",", ";", "\t", "|"]),
    st.sampled_from(["\n", "\r\n", "\r", "\n\n"]),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "latin-1"]),
)
def test_a_table_with_odd_cells(
    table: list[list[str]],
    edits: list[tuple[int, int, str]],
    separator: str,
    end: str,
    encoding: str,
) -> None:
    text = end.join(separator.join(row) for row in edited(table, edits))
    look(text.encode(encoding, "replace"))


@many
@given(st.sampled_from(TABLES), EDITS)
def test_a_workbook_with_odd_cells(
    table: list[list[str]], edits: list[tuple[int, int, str]]
) -> None:
    look(workbook([[cell[:30_000] for cell in row] for row in edited(table, edits)]))


@many
@given(st.data())
def test_a_file_with_damaged_bytes(data: st.DataObject) -> None:
    tables = ["\n".join(",".join(row) for row in table) for table in TABLES]
    lines = month_line("TMAX", [300] * 30) + month_line("TMIN", [150] * 30)
    damaged = data.draw(st.sampled_from([*tables, lines])).encode()
    for _ in range(data.draw(st.integers(1, 4))):
        at, length = data.draw(st.integers(0, len(damaged))), data.draw(st.integers(0, 40))
        new = data.draw(st.binary(max_size=8))
        damaged = damaged[:at] + new + damaged[at + length :]
    look(damaged)


@many
@given(st.binary(max_size=200))
def test_bytes_that_are_no_weather(data: bytes) -> None:
    look(data)
    look(b"date,tmin_f,tmax_f\n" + data)
    look(b"time,temp_f\n" + data)
    look(b"US000000001202606TMAX" + data)
    look(b"US000000001,20260601,TMAX,300,,,S,\n" + data)


PAIRS = st.tuples(
    st.one_of(st.none(), st.floats(-200, 300)), st.one_of(st.none(), st.floats(-200, 300))
)


@many
@given(st.lists(PAIRS, min_size=1, max_size=60), st.sampled_from("fc"))
def test_any_temperatures_of_any_days(
    pairs: list[tuple[float | None, float | None]], unit: str
) -> None:
    cells = [["" if v is None else f"{v:.3f}" for v in pair] for pair in pairs]
    rows = [f"2026-{1 + i // 28:02d}-{1 + i % 28:02d},{','.join(c)}" for i, c in enumerate(cells)]
    look("\n".join([f"date,tmin_{unit},tmax_{unit}", *rows]).encode())
