"""XLSX in: the first sheet on show that has anything in it, as text cells."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from python_calamine import (
    CalamineError,
    CalamineSheet,
    CalamineWorkbook,
    SheetTypeEnum,
    SheetVisibleEnum,
)

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.coded import Unworked
from quarterwalk.files.refusal import DAMAGED
from quarterwalk.files.xlsx_parts import LAST_COLUMN, Place, SheetFacts, no_workbook, sheet_facts


@dataclass(frozen=True, slots=True)
class XlsxTable:
    """The sheet of a workbook that is read, and those that are not.

    Parameters
    ----------
    rows : iterator of list of str
        The cells of one row; whole numbers without a decimal point, dates as ISO 8601,
        errors and formulas that were never worked out as they stand.
    name : str
        What the sheet is called.
    unread : tuple of str
        The other sheets on show that have anything in them.
    left : int
        Columns left of the first one in use. [count]
    """

    rows: Iterator[Sequence[str]]
    name: str = ""
    unread: tuple[str, ...] = ()
    left: int = 0


def xlsx_table(file: str, data: bytes) -> XlsxTable:
    """Give the rows of a workbook's first sheet with anything in it, as text.

    Hidden sheets are passed over: nobody sees what stands in them.

    Parameters
    ----------
    file : str
        The name that errors use.
    data : bytes
        The whole file.

    Returns
    -------
    XlsxTable
        Without rows where no sheet has anything in it.

    Raises
    ------
    RefusedInput
        If it is no workbook, is damaged, is too wide, or unpacks to too much.
    """
    facts = sheet_facts(file, data)
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        shown = [
            (index, told.name, facts[index] if index < len(facts) else SheetFacts())
            for index, told in enumerate(book.sheets_metadata)
            if (told.typ, told.visible) == (SheetTypeEnum.WorkSheet, SheetVisibleEnum.Visible)
        ]
        for place, (index, name, of_sheet) in enumerate(shown):
            _refuse_far_cell(file, of_sheet)
            sheet = book.get_sheet_by_index(index)
            if _has_anything(sheet):
                # the rest is not loaded: a sheet that is not read may be of any size
                unread = tuple(other for _, other, told in shown[place + 1 :] if told.filled)
                _, left = sheet.start or (0, 0)
                return XlsxTable(_rows(sheet, left, of_sheet.unread), name, unread, left)
    except CalamineError:
        raise no_workbook(file, DAMAGED) from None
    return XlsxTable(iter(()))


def _refuse_far_cell(file: str, facts: SheetFacts) -> None:
    if facts.far:
        expected = f"a sheet no wider than column {LAST_COLUMN}"
        hint = "Clear the cells far to the right of the table."
        raise RefusedInput([Problem(file, None, None, facts.far, expected, hint)])


def _has_anything(sheet: CalamineSheet) -> bool:
    if sheet.start is None:
        return False
    return any(str(cell).strip() for row in sheet.iter_rows() for cell in row)


def _rows(sheet: CalamineSheet, left: int, unread: Mapping[Place, str]) -> Iterator[list[str]]:
    """Give the sheet's rows as text, from row 1 and from its first column in use on."""
    rows_with_unread = {row for row, _ in unread}
    for number, row in enumerate(sheet.iter_rows()):
        texts = [_text(cell) for cell in row]
        if number in rows_with_unread:
            texts = [
                text or Unworked(unread.get((number, i), "")) for i, text in enumerate(texts, left)
            ]
        yield texts


def _text(cell: object) -> str:
    """Write a cell as CSV would hold it."""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, bool):
        return str(cell).upper()
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() else repr(cell)
    if isinstance(cell, datetime):
        at_midnight = (cell.hour, cell.minute, cell.second, cell.microsecond) == (0, 0, 0, 0)
        return cell.date().isoformat() if at_midnight else cell.isoformat(sep=" ")
    if isinstance(cell, date):
        return cell.isoformat()
    return str(cell)
