"""Small weather files for the tests: tables, lines of the archive, and how they are read."""

from __future__ import annotations

import io
from calendar import monthrange
from collections.abc import Sequence
from datetime import date, timedelta

import pytest

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.weather_file import WeatherFile, read_weather

JUNE = date(2026, 6, 1)


def read(text: str | bytes, *, stations: str | None = None) -> WeatherFile:
    """Read a file out of its text, as from standard input."""
    data = text if isinstance(text, bytes) else text.encode()
    return read_weather("-", stdin=io.BytesIO(data), stations=stations)


def problems(text: str | bytes, *, stations: str | None = None) -> tuple[Problem, ...]:
    """Give the problems for which a file is refused."""
    with pytest.raises(RefusedInput) as refused:
        read(text, stations=stations)
    return refused.value.problems


def told(file: WeatherFile) -> list[tuple[str, str, str]]:
    """Give the code, the first and the last day of each finding."""
    return [(f.code, f.first.isoformat(), f.last.isoformat()) for f in file.findings]


def days_table(
    lows: Sequence[object], highs: Sequence[object], *, unit: str = "f", first: date = JUNE
) -> str:
    """Give a table of days in a row; None is a blank cell."""
    rows = [f"date,tmin_{unit},tmax_{unit}"]
    for at, (low, high) in enumerate(zip(lows, highs, strict=True)):
        cells = ["" if value is None else str(value) for value in (low, high)]
        rows.append(",".join([(first + timedelta(days=at)).isoformat(), *cells]))
    return "\n".join(rows) + "\n"


def month_line(
    element: str, tenths: Sequence[int], *, month: str = "202606", station: str = "US000000001"
) -> str:
    """Give a line of a station file; days that the month lacks, or are not given, are -9999."""
    days = monthrange(int(month[:4]), int(month[4:]))[1]
    values = [*tenths, *[-9999] * (days - len(tenths)), *[-9999] * (31 - days)]
    return f"{station}{month}{element}" + "".join(f"{value:5d}  X" for value in values) + "\n"
