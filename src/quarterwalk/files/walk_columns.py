"""The columns of a walk table: their names, what their cells may hold, which must be there."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from typing import Any

from quarterwalk.files.cells import day, flag, name, note, required, whole, word
from quarterwalk.files.coded import CodedColumn
from quarterwalk.walk import (
    HIGHEST_NUMBER,
    MOST_A_PLANT,
    MOST_SWEEPS,
    Method,
    Quadrant,
    Sites,
)

REQUIRED = ("field", "date", "quadrant", "plant", "adults", "nymphs")
"""Columns without which a table is no walk table."""

COLUMNS = (
    "field", "date", "scout", "quadrant", "stop", "plant", "adults", "nymphs",
    "healthy", "missing", "blasted", "flared", "note",
    "walk", "sites", "method", "sweeps", "skipped", "plan",
)  # fmt: skip
"""Every column that is read, in the order in which tables are written."""

BASIC = COLUMNS[: COLUMNS.index("note") + 1]
"""Columns that every written table has, blank or not."""


def _count() -> Any:
    return whole(0, MOST_A_PLANT)


@dataclass(frozen=True, slots=True)
class WalkColumns:
    """The columns of one table while it is read; a column that is absent reads as blank."""

    field: CodedColumn[str]
    date: CodedColumn[date]
    scout: CodedColumn[str]
    quadrant: CodedColumn[Quadrant]
    stop: CodedColumn[int | None]
    plant: CodedColumn[int]
    adults: CodedColumn[int | None]
    nymphs: CodedColumn[int | None]
    healthy: CodedColumn[int | None]
    missing: CodedColumn[int | None]
    blasted: CodedColumn[int | None]
    flared: CodedColumn[int | None]
    note: CodedColumn[str]
    walk: CodedColumn[str]
    sites: CodedColumn[Sites | None]
    method: CodedColumn[Method | None]
    sweeps: CodedColumn[int | None]
    skipped: CodedColumn[bool]
    plan: CodedColumn[str]

    @classmethod
    def empty(cls) -> WalkColumns:
        """Make the columns of a table of which nothing has been read."""
        number = f"a whole number from 1 to {HIGHEST_NUMBER}"
        return cls(
            field=CodedColumn("field", required(name, "the name of a field")),
            date=CodedColumn("date", required(day, "a date as YYYY-MM-DD")),
            scout=CodedColumn("scout", name),
            quadrant=CodedColumn("quadrant", required(word(Quadrant), "one of NW, NE, SW, SE")),
            stop=CodedColumn("stop", whole(1, HIGHEST_NUMBER)),
            plant=CodedColumn("plant", required(whole(1, HIGHEST_NUMBER), number)),
            adults=CodedColumn("adults", _count()),
            nymphs=CodedColumn("nymphs", _count()),
            healthy=CodedColumn("healthy", _count()),
            missing=CodedColumn("missing", _count()),
            blasted=CodedColumn("blasted", _count()),
            flared=CodedColumn("flared", _count()),
            note=CodedColumn("note", note),
            walk=CodedColumn("walk", name),
            sites=CodedColumn("sites", word(Sites)),
            method=CodedColumn("method", word(Method)),
            sweeps=CodedColumn("sweeps", whole(1, MOST_SWEEPS)),
            skipped=CodedColumn("skipped", flag),
            plan=CodedColumn("plan", name),
        )

    def all(self) -> list[CodedColumn[Any]]:
        """Give the columns in the order of `COLUMNS`."""
        by_name = {f.name: getattr(self, f.name) for f in fields(self)}
        return [by_name[column] for column in COLUMNS]
