"""Weather files with days as warm as each other, so that heat can be summed in the head.

All invented.
"""

from __future__ import annotations

from collections.abc import Collection
from datetime import date, timedelta
from pathlib import Path

HEADER = "date,station,name,latitude,longitude,tmin_f,tmax_f"
# 20 heat units above 60 °F a day, and 16 in the years before
LOW, HIGH = 70.0, 90.0
COOLER = 4.0
# Day by day the night is so much warmer and the day cooler: no thermometer is stuck
SWING = (0.0, -1.0, 1.0)
_STEADY = date(2026, 5, 8)


def station_rows(
    *,
    id: str = "gin",
    name: str = "Cedar Gin",
    place: str = "33.62,-101.85",
    first: date = date(2020, 1, 1),
    last: date = date(2026, 7, 10),
    without: Collection[date] = (),
) -> list[str]:
    """Give a station's rows: 80 °F on average in its last year, 76 °F in those before."""
    rows, day = [], first
    while day <= last:
        less = 0.0 if day.year == last.year else COOLER
        swing = SWING[(day - _STEADY).days % len(SWING)]
        told = "," if day in without else f"{LOW - less + swing},{HIGH - less - swing}"
        rows.append(f"{day},{id},{name},{place},{told}")
        day += timedelta(days=1)
    return rows


def write_station(path: str = "station.csv", **told: object) -> str:
    """Write one station's file, and give its name."""
    return write_stations(station_rows(**told), path=path)  # type: ignore[arg-type]


def write_stations(*stations: list[str], path: str = "station.csv") -> str:
    """Write a file of several stations, and give its name."""
    rows = [row for station in stations for row in station]
    Path(path).write_text("\n".join([HEADER, *rows]) + "\n", encoding="utf-8")
    return path


def write_table(path: str, *rows: str) -> str:
    """Write a table of lines, the header first, and give its name."""
    Path(path).write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path
