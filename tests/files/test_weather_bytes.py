"""A file that is no text or table is told as what it is, by its own name."""

from __future__ import annotations

import bz2
import gzip
import io
import lzma
import zipfile
from pathlib import Path

import pytest

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files import weather_rows
from quarterwalk.files.weather_file import read_weather
from tests.files.weather_days import month_line, problems

TABLE = "date,tmin_f,tmax_f\n2026-06-01,66,93\n"


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (bz2.compress(TABLE.encode()), "one packed with bzip2"),
        (lzma.compress(TABLE.encode()), "one packed with xz"),
        (TABLE.encode("utf-16-le"), "UTF-16"),
        (TABLE.encode("utf-16-be"), "UTF-16"),
    ],
)
def test_what_it_is_is_said(data: bytes, what: str) -> None:
    (problem,) = problems(data)
    assert problem.value == what


def zipped() -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as packed:
        packed.writestr("weather.csv", TABLE)
    return data.getvalue()


def test_a_zip_of_a_table_is_told_to_be_unpacked() -> None:
    (problem,) = problems(zipped())
    assert problem.value == "a zip without a workbook in it"
    assert problem.hint == "Unpack it first."


@pytest.mark.parametrize(
    "data",
    [gzip.compress(TABLE.encode())[:-4], gzip.compress(TABLE.encode()) + b"junk",
     gzip.compress(TABLE.encode())[:12] + bytes(40), zipped()[:60], zipped()[-22:-2],
     b"PK\x03\x04" + bytes(100)],
)  # fmt: skip
def test_what_is_damaged_is_told_in_plain_words(data: bytes) -> None:
    (problem,) = problems(data)
    assert problem.value == "a damaged one"


def test_a_packed_table_without_ids_is_the_station_of_the_bare_one(tmp_path: Path) -> None:
    for name, data in (
        ("home.csv", TABLE.encode()),
        ("home.csv.gz", gzip.compress(TABLE.encode())),
    ):
        (tmp_path / name).write_bytes(data)
        assert read_weather(tmp_path / name).stations[0].station.id == "home"


@pytest.mark.parametrize("text", ["date,tmin,tmax\n2026-06-01,66,93\n", TABLE[:19], "", "\n\n"])
def test_a_fault_of_a_packed_table_is_told_with_its_name(text: str, tmp_path: Path) -> None:
    path = tmp_path / "home.csv.gz"
    path.write_bytes(gzip.compress(text.encode()))
    assert {problem.file for problem in refused(path)} == {str(path)}


def refused(path: Path) -> tuple[Problem, ...]:
    with pytest.raises(RefusedInput) as told:
        read_weather(path)
    return told.value.problems


def test_a_file_of_too_many_stations_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(weather_rows, "MOST_STATIONS", 3)
    rows = "".join(f"s{at},2026-06-01,66,93\n" for at in range(4))
    lines = "".join(month_line("TMAX", [300], station=f"US00000000{at}") for at in range(4))
    for text in ("station,date,tmin_f,tmax_f\n" + rows, lines):
        (problem,) = problems(text)
        assert (problem.value, problem.expected) == ("more", "at most 3 stations in a file")
