"""Walk tables out: CSV or XLSX, one row a plant, in the form in which they are read."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any, BinaryIO

import numpy as np
from xlsxwriter import Workbook  # type: ignore[import-untyped]

from quarterwalk.errors import UsageError
from quarterwalk.files.walk_columns import BASIC, COLUMNS
from quarterwalk.files.whole_file import whole_file
from quarterwalk.walk import COUNTS, QUADRANTS, Method, RecordError, Sites, WalkTable

# What a sheet and a cell hold ("Excel specifications and limits", Microsoft support
# page, from memory).
MOST_SHEET_ROWS = 1_048_576
"""Rows of a sheet, with its header. [count]"""
LONGEST_CELL = 32_767
"""Letters of a cell. [count]"""

Cells = list[Any]
"""One column: whole numbers, texts, and None for a blank cell."""


def write_walks(table: WalkTable, path: str | Path) -> None:
    """Write walks as a table that `read_walks` reads back equal.

    Parameters
    ----------
    table : WalkTable
        The walks.
    path : str or Path
        A name that ends in ``.xlsx`` makes a workbook, any other CSV. [file name]

    Raises
    ------
    RecordError
        If two walks would be read back as one: the same id, or one field on one day
        without an id.
    UsageError
        If a workbook can't hold so many plants, or so long a text.
    OSError
        If the file can't be written.
    """
    path = Path(path)
    _refuse_twin_walks(table)
    columns = _columns(table)
    as_workbook = path.suffix.lower() == ".xlsx"
    if as_workbook:
        _refuse_too_large(columns, len(table.rows))
    with whole_file(path) as file:
        (_write_xlsx if as_workbook else _write_csv)(columns, file)


def _refuse_twin_walks(table: WalkTable) -> None:
    keys = Counter((h.id,) if h.id else ("", h.field, h.date) for h in table.heads)
    for key, times in keys.items():
        if times > 1:
            raise RecordError("walk", "told from the others by its id, or field and date", key)


def _columns(table: WalkTable) -> dict[str, Cells]:
    """Lay the table out as columns of cells; optional ones that are wholly blank are left out."""
    found = {**_of_walks(table), **_of_plants(table)}
    return {name: found[name] for name in COLUMNS if name in BASIC or any(found[name])}


def _of_walks(table: WalkTable) -> dict[str, Cells]:
    """Give the columns that say the same in every row of a walk."""
    heads = table.heads
    methods = [head.method.value for head in heads]
    sites = [head.sites.value for head in heads]
    each: dict[str, list[str]] = {
        "field": [head.field for head in heads],
        "walk": [head.id for head in heads],
        "method": [] if set(methods) <= {Method.TERMINAL.value} else methods,
        "sites": [] if set(sites) <= {Sites.ALL.value} else sites,
        "plan": [head.plan for head in heads],
    }
    walk = table.rows.walk.tolist()
    return {name: [texts[i] for i in walk] if any(texts) else [] for name, texts in each.items()}


def _of_plants(table: WalkTable) -> dict[str, Cells]:
    rows = table.rows
    days = {day: date.fromordinal(day).isoformat() for day in np.unique(rows.day).tolist()}
    quadrants = [quadrant.value for quadrant in QUADRANTS]
    notes: Cells = [None] * len(rows)
    for row, note in table.notes.items():
        notes[row] = note
    found: dict[str, Cells] = {
        "date": [days[day] for day in rows.day.tolist()],
        "scout": [table.scouts[code] for code in rows.scout.tolist()],
        "quadrant": [quadrants[code] for code in rows.quadrant.tolist()],
        "stop": _blank_zeros(rows.stop.tolist()),
        "plant": rows.plant.tolist(),
        "note": notes,
        "sweeps": _blank_zeros(rows.sweeps.tolist()),
        "skipped": _blank_zeros(rows.skipped.astype(np.int64).tolist()),
    }
    for place, name in enumerate(COUNTS):
        looked = rows.insects_looked if name in ("adults", "nymphs") else rows.squares_looked
        counts = rows.counts[:, place].astype(object)
        counts[~looked] = None
        found[name] = counts.tolist()
    return found


def _blank_zeros(numbers: Iterable[int]) -> Cells:
    return [number or None for number in numbers]


def _refuse_too_large(columns: dict[str, Cells], rows: int) -> None:
    if rows >= MOST_SHEET_ROWS:
        expected = f"at most {MOST_SHEET_ROWS - 1:,} plants in a workbook"
        raise UsageError(f"there must be {expected}, got {rows:,}. Write CSV.")
    for name, cells in columns.items():
        longest = max((len(cell) for cell in cells if isinstance(cell, str)), default=0)
        if longest > LONGEST_CELL:
            expected = f"at most {LONGEST_CELL:,} letters in a cell of a workbook"
            raise UsageError(
                f"column {name}: there must be {expected}, got {longest:,}. Write CSV."
            )


def _write_csv(columns: dict[str, Cells], file: BinaryIO) -> None:
    text = io.TextIOWrapper(file, encoding="utf-8", newline="", write_through=True)
    writer = csv.writer(text)
    writer.writerow(columns)
    writer.writerows(zip(*columns.values(), strict=True))
    text.detach()


def _write_xlsx(columns: dict[str, Cells], file: BinaryIO) -> None:
    options = {"constant_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    with Workbook(file, options) as book:
        sheet = book.add_worksheet("walks")
        sheet.freeze_panes(1, 0)
        sheet.write_row(0, 0, list(columns))
        for row, cells in enumerate(zip(*columns.values(), strict=True), start=1):
            for place, cell in enumerate(cells):
                if isinstance(cell, str) and cell:
                    sheet.write_string(row, place, cell)
                elif isinstance(cell, int):
                    sheet.write_number(row, place, cell)
