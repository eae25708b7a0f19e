"""Plantings in: one row a field, with the dates of its season and what else is known of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Any

from quarterwalk.crop import CropDates
from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput
from quarterwalk.files.cells import day, day_range, days, name, required
from quarterwalk.files.coded import Misread
from quarterwalk.files.header import find_columns
from quarterwalk.files.sheet import open_sheet
from quarterwalk.files.table_rows import filled_rows, read_cells

REQUIRED = ("field", "first_square")
"""Columns that must be there; the second not where first square can be worked out."""

_READERS: dict[str, Callable[[str], Any]] = {
    "field": required(name, "the name of a field"),
    "planted": day,
    "first_square": day_range,
    "bloom": day,
    "treated": days,
    "variety": name,
    "water": name,
    "seed_treatment": name,
    "replanted": day,
    "hail": days,
}
COLUMNS = tuple(_READERS)
"""Every column that is read."""


@dataclass(frozen=True, slots=True)
class Planting:
    """What was planted in one field, and the dates of its season.

    Parameters
    ----------
    field : str
        The field's name.
    planted : date or None
        None where it is not given; so with the other days.
    first_square : (date, date) or None
        The first and the last day that it may have been.
    bloom : date or None
        The day of first bloom.
    treated : tuple of date
        Days of treatments, in the order of the table.
    variety, water, seed_treatment : str
        As they stand in the table; empty where not given.
    replanted : date or None
        The day of planting again.
    hail : tuple of date
        Days of hail, in the order of the table.
    """

    field: str
    planted: date | None = None
    first_square: tuple[date, date] | None = None
    bloom: date | None = None
    treated: tuple[date, ...] = ()
    variety: str = ""
    water: str = ""
    seed_treatment: str = ""
    replanted: date | None = None
    hail: tuple[date, ...] = ()

    @property
    def dates(self) -> CropDates | None:
        """First square, first bloom and treatments; None while first square is not given."""
        if self.first_square is None:
            return None
        first, last = self.first_square
        return CropDates(first, None if last == first else last, self.bloom, self.treated)

    @property
    def stand_planted(self) -> date | None:
        """The day on which the stand that grows now was planted; None where not given."""
        return self.replanted or self.planted


@dataclass(frozen=True, slots=True)
class PlantingFile:
    """The plantings of a file and their rows by field name, and what is worth saying of it."""

    file: str
    plantings: Mapping[str, Planting]
    notices: tuple[str, ...]
    rows: Mapping[str, int] = field(default_factory=dict)


def read_plantings(
    path: str | Path,
    *,
    need_first_square: bool = True,
    may_give_weather: bool = False,
    asked: Collection[str] | None = None,
) -> PlantingFile:
    """Read which field was planted when, squared when, bloomed when and was treated when.

    Parameters
    ----------
    path : str or Path
        A CSV or XLSX file, one row a field. [file name]
    need_first_square : bool
        Whether a field must give its first square; where it may be worked out from weather, a
        field without it must give the day of planting.
    may_give_weather : bool
        Whether who reads the errors could give ``--weather`` instead of a first square.
    asked : collection of str or None
        Fields of which that is asked, such as those walked; None for all of the table.

    Returns
    -------
    PlantingFile
        The plantings by field, and what is worth saying about the file.

    Raises
    ------
    RefusedInput
        If anything in the file is wrong; it names up to 50 problems by row and column.
    """
    sheet = open_sheet(path)
    needed = REQUIRED if need_first_square else REQUIRED[:1]
    hints = {"first_square": "Or give --weather and the day of planting."}
    places, notices = find_columns(sheet, COLUMNS, needed, hints if may_give_weather else {})
    problems: list[Problem] = []
    plantings: dict[str, Planting] = {}
    rows: dict[str, int] = {}
    for row, cells, width_problem in filled_rows(sheet, places, needed):
        if width_problem is not None:
            problems.append(width_problem)
            continue
        text = {column: cells[place].strip() for column, place in places.items()}
        values, faults = read_cells(_READERS, text)
        if asked is None or values.get("field") in asked:
            faults |= _lacking(values, faults, need_first_square=need_first_square)
        if may_give_weather:
            faults |= _weather_instead(values, faults)
        faults |= _contradictions(values, rows, faults)
        problems += [
            Problem(sheet.file, row, column, text.get(column, ""), fault.expected, fault.hint)
            for column in COLUMNS
            if (fault := faults.get(column))
        ]
        if "field" not in faults:
            rows[values["field"]] = row
        if not faults:
            plantings[values["field"]] = _planting(values)
    if not problems and not plantings:
        expected = "a table with at least one field"
        problems.append(Problem(sheet.file, sheet.header_row + 1, "field", "", expected))
    if problems:
        raise RefusedInput(problems[:MOST_PROBLEMS], max(0, len(problems) - MOST_PROBLEMS))
    return PlantingFile(sheet.file, MappingProxyType(plantings), notices, MappingProxyType(rows))


def _lacking(
    values: Mapping[str, Any], faults: Mapping[str, Misread], *, need_first_square: bool
) -> dict[str, Misread]:
    """Find a first square that is blank where it is needed, or can't be worked out."""
    if "first_square" in faults or values["first_square"] is not None:
        return {}
    if need_first_square:
        expected = "a date as YYYY-MM-DD, or a range as YYYY-MM-DD/YYYY-MM-DD"
        return {"first_square": Misread(expected, "The cell is blank.")}
    if {"planted", "replanted"} & set(faults) or values["planted"] or values["replanted"]:
        return {}
    hint = "Without first_square it takes the day of planting to work it out."
    return {"planted": Misread("a date as YYYY-MM-DD", hint)}


def _weather_instead(
    values: Mapping[str, Any], faults: Mapping[str, Misread]
) -> dict[str, Misread]:
    """Say beside a first square that is blank what would do without it."""
    fault = faults.get("first_square")
    if fault is None or "first_square" not in values:  # it is filled in, and can't be read
        return {}
    planted = {"planted", "replanted"} & set(faults) or values["planted"] or values["replanted"]
    give = "--weather" if planted else "--weather and the day of planting"
    hint = f"Give a day, or leave it blank and give {give}."
    return {"first_square": Misread(fault.expected, hint)}


def _contradictions(
    values: Mapping[str, Any], rows: Mapping[str, int], faults: Mapping[str, Misread]
) -> dict[str, Misread]:
    """Find what can be read but can't be: a field twice, dates out of order."""
    found: dict[str, Misread] = {}
    if "field" not in faults and values["field"] in rows:
        before = rows[values["field"]]
        found["field"] = Misread(f"a field that is named once (row {before} is the same field)")
    if "first_square" in faults or values["first_square"] is None:
        return found | _out_of_order(values, faults)
    first, _ = values["first_square"]
    bloom, planted = values.get("bloom"), values.get("planted")
    if bloom is not None and bloom <= first:
        found["bloom"] = Misread(f"a day after first square ({first})")
    if planted is not None and planted >= first:
        found["planted"] = Misread(f"a day before first square ({first})")
    again = values.get("replanted")
    if again is not None and planted is not None and again <= planted:
        found["replanted"] = Misread(f"a day after the first planting ({planted})")
    elif again is not None and again >= first:
        hint = "First square is that of the stand that grows now."
        found["replanted"] = Misread(f"a day before first square ({first})", hint)
    return found


def _out_of_order(values: Mapping[str, Any], faults: Mapping[str, Misread]) -> dict[str, Misread]:
    """Find a bloom that comes no later than planting."""
    if {"bloom", "planted", "replanted"} & set(faults):
        return {}
    again, once = values["replanted"], values["planted"]
    if again is not None and once is not None and again <= once:
        return {"replanted": Misread(f"a day after the first planting ({once})")}
    bloom, planted = values["bloom"], values["replanted"] or values["planted"]
    if bloom is not None and planted is not None and bloom <= planted:
        return {"bloom": Misread(f"a day after planting ({planted})")}
    return {}


def _planting(values: Mapping[str, Any]) -> Planting:
    return Planting(
        field=values["field"],
        planted=values["planted"],
        first_square=values["first_square"],
        bloom=values["bloom"],
        treated=values["treated"],
        variety=values["variety"],
        water=values["water"],
        seed_treatment=values["seed_treatment"],
        replanted=values["replanted"],
        hail=values["hail"],
    )
