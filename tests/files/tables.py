"""Small walk tables for the tests of files: as CSV text and as workbooks."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable, Iterable, Sequence

import pytest
from xlsxwriter import Workbook  # type: ignore[import-untyped]

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.walk_table import WalkFile, read_walks

BASIC = "field,date,scout,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted,flared,note"


def csv_of(*rows: str, header: str = BASIC) -> bytes:
    """Give a CSV file of a header and rows."""
    return "".join(f"{line}\r\n" for line in (header, *rows)).encode()


def short_csv(*rows: str, more: str = "") -> bytes:
    """Give a CSV file with the columns that must be there, and some more."""
    return csv_of(*rows, header="field,date,quadrant,plant,adults,nymphs" + more)


def read(data: bytes) -> WalkFile:
    """Read a table out of bytes, as from standard input."""
    return read_walks("-", stdin=io.BytesIO(data))


def problems(data: bytes) -> tuple[Problem, ...]:
    """Give the problems for which a table is refused."""
    with pytest.raises(RefusedInput) as refused:
        read(data)
    return refused.value.problems


def places(data: bytes) -> list[tuple[int | None, str | None, str]]:
    """Give the row, the column and the value of each problem of a table."""
    return [(p.row, p.column, p.value) for p in problems(data)]


def workbook(rows: Iterable[Sequence[object]], fill: Callable[..., None] | None = None) -> bytes:
    """Give a workbook with one sheet of rows; `fill` may write more into it."""
    data = io.BytesIO()
    with Workbook(data, {"strings_to_formulas": False, "strings_to_urls": False}) as book:
        sheet = book.add_worksheet()
        for at, row in enumerate(rows):
            sheet.write_row(at, 0, row)
        if fill is not None:
            fill(book, sheet)
    return data.getvalue()


def with_part(data: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """Give a workbook with one of its parts changed."""
    changed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(changed, "w") as new:
        for part in old.namelist():
            text = old.read(part)
            new.writestr(part, change(text) if re.fullmatch(name, part) else text)
    return changed.getvalue()
