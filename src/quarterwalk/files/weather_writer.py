"""Weather tables out: CSV or XLSX, one row a day and station, as they are read."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from xlsxwriter import Workbook  # type: ignore[import-untyped]

from quarterwalk.errors import UsageError
from quarterwalk.files.walk_writer import MOST_SHEET_ROWS
from quarterwalk.files.weather_cells import MARKS
from quarterwalk.files.whole_file import whole_file
from quarterwalk.weather.daily import DailyWeather, DayMark, WeatherError

# Read back, a temperature is as near as this; thermometers state a tenth. [decimals]
DECIMALS = 2

COLUMNS = (
    "date", "station", "name", "latitude", "longitude", "elevation_m", "tmin_f", "tmax_f", "mark",
)  # fmt: skip
"""The columns of every table that is written."""

_SAID = {mark: word for word, mark in MARKS.items()}
Row = tuple[str | float | None, ...]


def write_weather(stations: Sequence[DailyWeather], path: str | Path) -> None:
    """Write days as a table that `read_weather` reads back equal to 0.01 °F.

    Parameters
    ----------
    stations : sequence of DailyWeather
        Each with an id of its own.
    path : str or Path
        A name that ends in ``.xlsx`` makes a workbook, any other CSV. [file name]

    Raises
    ------
    WeatherError
        If there is no station, one has no id, or two have the same.
    UsageError
        If a workbook can't hold so many days.
    OSError
        If the file can't be written.
    """
    path = Path(path)
    ids = [weather.station.id for weather in stations]
    if not ids or not all(ids) or len(set(ids)) < len(ids):
        raise WeatherError(f"stations to write must each have an id of their own, got {ids}.")
    as_workbook = path.suffix.lower() == ".xlsx"
    days = sum(weather.marks.size for weather in stations)
    if as_workbook and days >= MOST_SHEET_ROWS:
        expected = f"at most {MOST_SHEET_ROWS - 1:,} days in a workbook"
        raise UsageError(f"there must be {expected}, got {days:,}. Write CSV.")
    rows = (row for weather in stations for row in _rows(weather))
    with whole_file(path) as file:
        (_write_xlsx if as_workbook else _write_csv)(rows, file)


def _rows(weather: DailyWeather) -> Iterator[Row]:
    station = weather.station
    east, north = station.place or (None, None)
    told = (station.id, station.name, north, east, station.elevation_m)
    numbers = zip(
        weather.tmin_f.tolist(), weather.tmax_f.tolist(), weather.marks.tolist(), strict=True
    )
    for at, (low, high, mark) in enumerate(numbers):
        day = weather.day_at(at).isoformat()
        if mark == DayMark.MISSING:
            yield (day, *told, None, None, None)
        else:
            said = _SAID[DayMark(mark)]
            yield (day, *told, round(low, DECIMALS), round(high, DECIMALS), said)


def _write_csv(rows: Iterator[Row], file: BinaryIO) -> None:
    text = io.TextIOWrapper(file, encoding="utf-8", newline="", write_through=True)
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    writer.writerows(rows)
    text.detach()


def _write_xlsx(rows: Iterator[Row], file: BinaryIO) -> None:
    options = {"constant_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    with Workbook(file, options) as book:
        sheet = book.add_worksheet("weather")
        sheet.freeze_panes(1, 0)
        sheet.write_row(0, 0, COLUMNS)
        for at, row in enumerate(rows, start=1):
            for place, cell in enumerate(row):
                if isinstance(cell, str) and cell:
                    sheet.write_string(at, place, cell)
                elif isinstance(cell, float | int):
                    sheet.write_number(at, place, cell)
