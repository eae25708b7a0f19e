"""What was seen of the crop, in: rows a field and day, such as one a quadrant, joined."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Any

from quarterwalk.crop.seen import Seen
from quarterwalk.errors import Problem
from quarterwalk.files.cells import day, name, note, required, whole
from quarterwalk.files.coded import Misread
from quarterwalk.files.header import find_columns
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.files.seen_joined import SeenRow, joined
from quarterwalk.files.sheet import open_sheet
from quarterwalk.files.table_rows import filled_rows, read_cells
from quarterwalk.files.weather_cells import number

REQUIRED = ("field", "date")
"""Columns that must be there."""

# A plant has no more main-stem nodes at the end of a season (from memory). [count]
_MOST_COUNTED = 30
# More plants than anybody looks at on a day; past it a number is a slip of the pen. A rule
# of this project. [count]
_MOST_PLANTS = 9999


def _count(text: str) -> float | None:
    """Read how many there are on a plant, or a mean of plants."""
    expected = f"a number from 0 to {_MOST_COUNTED}, such as 4 or 4.5"
    return number(expected, 0.0, float(_MOST_COUNTED))(text) if text else None


def _flowers(text: str) -> bool | None:
    """Read whether white flowers stand in the field."""
    if not text:
        return None
    if text not in ("0", "1", "0.0", "1.0"):
        raise Misread("1 where white flowers stand, 0 where there are none, or blank")
    return text.startswith("1")


_READERS: dict[str, Callable[[str], Any]] = {
    "field": required(name, "the name of a field"),
    "date": required(day, "a date as YYYY-MM-DD"),
    "true_leaves": _count,
    "nodes": _count,
    "plants": whole(1, _MOST_PLANTS),
    "pinhead": whole(0, _MOST_PLANTS),
    "squaring_branches": _count,
    "bloom": _flowers,
    "nawf": _count,
    "note": note,
}
COLUMNS = tuple(_READERS)
"""Every column that is read."""

_SIGNS = ("true_leaves", "nodes", "pinhead", "squaring_branches", "bloom", "nawf")
"""Columns that tell where the crop stands; one of them must be filled in."""


@dataclass(frozen=True, slots=True)
class SeenLine:
    """One row of the table as it stands, before rows of one field and day are joined."""

    row: int
    field: str
    on: date
    told: SeenRow
    note: str


@dataclass(frozen=True, slots=True)
class SeenFile:
    """What was seen, by field name and in the order of days, and what is worth saying."""

    file: str
    seen: Mapping[str, tuple[Seen, ...]]
    notices: tuple[str, ...]
    lines: tuple[SeenLine, ...] = ()


def read_seen(path: str | Path) -> SeenFile:
    """Read what somebody saw of the crop.

    Parameters
    ----------
    path : str or Path
        A CSV or XLSX file, one row or more a field and day. [file name]

    Returns
    -------
    SeenFile
        Rows of one field and day are joined into one.

    Raises
    ------
    RefusedInput
        If anything in the file is wrong; it names up to 50 problems by row and column.
    """
    sheet = open_sheet(path)
    places, notices = find_columns(sheet, COLUMNS, REQUIRED)
    problems: list[Problem] = []
    lines: list[SeenLine] = []
    for row, cells, width_problem in filled_rows(sheet, places, REQUIRED):
        if width_problem is not None:
            problems.append(width_problem)
            continue
        text = {column: cells[place].strip() for column, place in places.items()}
        values, faults = read_cells(_READERS, text)
        if not {*_SIGNS, "plants"} & set(faults):
            faults |= row_faults(values)
        problems += _problems(sheet.file, row, text, faults)
        if not faults:
            lines.append(_line(row, values))
    if not problems and not lines:
        expected = "a table with at least one field"
        problems.append(Problem(sheet.file, sheet.header_row + 1, "field", "", expected))
    refuse_if_any(problems)
    return SeenFile(sheet.file, MappingProxyType(_by_field(lines)), notices, tuple(lines))


def row_faults(values: Mapping[str, Any]) -> dict[str, Misread]:
    """Find what can be read but can't be in a row, or on a form that asks for the same.

    Parameters
    ----------
    values : mapping of str to object
        By column, as `SeenRow` has them; None where nobody looked. [counts, or means of plants]

    Returns
    -------
    dict of str to Misread
        By column; where nothing was seen at all, of the first sign.
    """
    if all(values[sign] is None for sign in _SIGNS):
        expected = "filled in, or one of " + ", ".join(_SIGNS[1:])
        return {_SIGNS[0]: Misread(expected, "Nothing was seen in this row.")}
    found: dict[str, Misread] = {}
    plants, pinhead = values["plants"], values["pinhead"]
    if pinhead is not None and plants is None:
        found["plants"] = Misread(
            "how many plants were looked at", "Without it pinhead says nothing."
        )
    elif pinhead is not None and pinhead > plants:
        found["pinhead"] = Misread(f"at most the {plants} plants that were looked at")
    if values["nawf"] is not None and values["bloom"] is False:
        found["nawf"] = Misread(
            "blank where bloom is 0", "Without a white flower there are no nodes above one."
        )
    return found


def _problems(
    file: str, row: int, text: Mapping[str, str], faults: Mapping[str, Misread]
) -> list[Problem]:
    return [
        Problem(file, row, column, text.get(column, ""), fault.expected, fault.hint)
        for column in COLUMNS
        if (fault := faults.get(column))
    ]


def _line(row: int, values: Mapping[str, Any]) -> SeenLine:
    told = SeenRow(**{sign: values[sign] for sign in (*_SIGNS, "plants")})
    return SeenLine(row, values["field"], values["date"], told, values["note"] or "")


def _by_field(lines: Sequence[SeenLine]) -> dict[str, tuple[Seen, ...]]:
    rows: dict[tuple[str, date], list[SeenRow]] = {}
    for line in lines:
        rows.setdefault((line.field, line.on), []).append(line.told)
    told: dict[str, tuple[Seen, ...]] = {}
    for field, on in sorted(rows, key=lambda key: key[1]):
        told[field] = (*told.get(field, ()), joined(on, rows[field, on]))
    return told
