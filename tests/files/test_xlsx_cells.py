"""Workbooks as spreadsheets save them, and as they are when they are damaged."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from datetime import date, datetime, time
from typing import Any

import openpyxl
import pytest

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files import xlsx_parts
from quarterwalk.files.xlsx_cells import xlsx_table
from quarterwalk.walk import InsectCount
from tests.files.tables import places, problems, read, with_part, workbook

HEADER = ["field", "date", "quadrant", "plant", "adults", "nymphs"]
ROW = ["Home", "2026-06-18", "NW", 1, 0, 2]


def rows(data: bytes) -> list[list[str]]:
    return [list(row) for row in xlsx_table("walks.xlsx", data).rows]


def problem(data: bytes) -> Problem:
    with pytest.raises(RefusedInput) as refused:
        rows(data)
    (found,) = refused.value.problems
    assert found.file == "walks.xlsx"
    return found


def by_openpyxl(fill: Callable[[Any], object]) -> bytes:
    book = openpyxl.Workbook()
    fill(book.active)
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def test_numbers_texts_and_dates_read_as_csv_would_hold_them() -> None:
    days = [date(2026, 6, 18), datetime(2026, 6, 18), datetime(2026, 6, 18, 14, 30)]  # noqa: DTZ001 - a cell has no zone
    data = by_openpyxl(
        lambda sheet: sheet.append(["a", 3, 3.0, 2.5, -1, True, *days, time(14, 30)])
    )
    assert rows(data) == [
        ["a", "3", "3", "2.5", "-1", "TRUE", "2026-06-18", "2026-06-18", "2026-06-18 14:30:00",
         "14:30:00"]
    ]  # fmt: skip


def test_a_walk_is_read_from_a_workbook_with_real_dates_and_numbered_fields() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(HEADER)
        sheet.append([12, date(2026, 6, 18), "nw", 1, 0, 2])
        sheet.append([12, date(2026, 6, 18), "nw", 2.0, None, None])

    (walk,) = read(by_openpyxl(fill)).table
    assert (walk.field, walk.date) == ("12", date(2026, 6, 18))
    assert [check.insects for check in walk.checks] == [InsectCount(0, 2), None]


def test_rows_and_columns_left_blank_before_the_table_keep_the_row_numbers() -> None:
    def fill(sheet: Any) -> None:
        for at, text in enumerate(HEADER):
            sheet.cell(4, 3 + at, text)
            sheet.cell(7, 3 + at, ROW[at])
        sheet.cell(7, 3 + 5, "2O")

    assert places(by_openpyxl(fill)) == [(7, "nymphs", "2O")]


@pytest.mark.parametrize("error", ["#N/A", "#DIV/0!", "#REF!"])
def test_an_error_cell_is_not_a_blank_one(error: str) -> None:
    def fill(sheet: Any) -> None:
        sheet.append(HEADER)
        sheet.append(ROW)
        sheet.append([*ROW[:4], error, ""])

    assert places(by_openpyxl(fill)) == [(3, "adults", error)]


def test_an_error_that_a_formula_gave_is_not_a_blank_cell() -> None:
    data = workbook(
        [HEADER, ROW], lambda _, sheet: sheet.write_formula("E2", "=1/0", None, "#DIV/0!")
    )
    assert places(data) == [(2, "adults", "#DIV/0!")]


def test_a_formula_reads_as_the_value_that_was_worked_out() -> None:
    data = workbook([HEADER, ROW], lambda _, sheet: sheet.write_formula("E2", "=1+2", None, 3))
    assert read(data).table.walk(0).checks[0].insects == InsectCount(3, 2)


def test_a_formula_that_was_never_worked_out_is_not_a_blank_cell() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(HEADER)
        sheet.append([*ROW[:4], "=1+1", '=IF("a"<"b",1,2)'])

    assert places(by_openpyxl(fill)) == [
        (2, "adults", "=1+1"),
        (2, "nymphs", '=IF("a"<"b",1,2)'),
    ]


def test_a_formula_is_told_to_be_one_in_every_column() -> None:
    def fill(sheet: Any) -> None:
        sheet.append([*HEADER, "scout", "note"])
        sheet.append(["=A9", "=TODAY()", *ROW[2:4], "=1+1", 0, "=B9", "=C9"])

    found = problems(by_openpyxl(fill))
    columns = ["field", "date", "scout", "adults", "note"]
    assert [problem.column for problem in found] == columns
    assert all(p.hint.startswith("A formula that was not worked out") for p in found)
    assert found[1].expected == "a date as YYYY-MM-DD"


def test_the_error_of_a_lookup_is_no_field() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(HEADER)
        sheet.append(["#N/A", *ROW[1:]])

    (found,) = problems(by_openpyxl(fill))
    assert (found.column, found.value) == ("field", "#N/A")
    assert found.hint == "A formula with an error: mend it, or clear the cell."


def test_a_name_that_only_looks_like_one_is_a_name() -> None:
    data = workbook([HEADER, ["=2 North", *ROW[1:]], ["#N/A", *ROW[1:]]])
    assert [walk.field for walk in read(data).table] == ["=2 North", "#N/A"]


def with_cells(xml: bytes, rows: list[list[object]]) -> bytes:
    """Give a workbook with more rows in its sheet, as XML."""
    end = b"</sheetData>"
    return with_part(
        workbook(rows), "xl/worksheets/sheet1.xml", lambda part: part.replace(end, xml + end)
    )


def test_a_formula_that_gives_no_text_is_a_blank_cell() -> None:
    cells = [f'<c r="{letter}2" t="inlineStr"><is><t>{text}</t></is></c>'
             for letter, text in zip("ABCD", ROW, strict=False)]  # fmt: skip
    formula = '<c r="E2" t="str"><f>""</f><v></v></c><c r="F2"><v>2</v></c>'
    data = with_cells(f'<row r="2">{"".join(cells)}{formula}</row>'.encode(), [HEADER])
    assert read(data).table.walk(0).checks[0].insects == InsectCount(0, 2)


def test_the_errors_of_another_sheet_are_left_alone() -> None:
    def fill(book: Any, _: Any) -> None:
        book.add_worksheet("sums").write_formula("E2", "=1/0", None, "#DIV/0!")

    assert len(read(workbook([HEADER, ROW], fill)).table) == 1


def test_a_cell_merged_over_several_rows_says_something_of_the_first_only() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(HEADER)
        sheet.append(ROW)
        sheet.append([*ROW[:3], 2, 0, 0])
        sheet.merge_cells("A2:A3")

    assert places(by_openpyxl(fill)) == [(3, "field", "")]


def test_the_first_sheet_on_show_with_anything_in_it_is_read() -> None:
    def fill(book: Any, first: Any) -> None:
        hidden, table = book.add_worksheet("old"), book.add_worksheet("walks")
        hidden.write("A1", "hidden")
        hidden.hide()
        table.write("A1", "on show")
        table.activate()
        first.write("A1", " ")
        book.add_worksheet("later").write("A1", "later")

    assert rows(workbook([], fill)) == [["on show"]]


def test_a_workbook_of_nothing_is_refused() -> None:
    (found,) = problems(workbook([]))
    assert (found.row, found.expected) == (1, "a table with a header row")


def test_a_workbook_with_macros_is_read_like_any_other() -> None:
    data = with_part(
        workbook([HEADER, ROW]),
        r"\[Content_Types\].xml",
        lambda part: part.replace(
            b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
            b"application/vnd.ms-excel.sheet.macroEnabled.main+xml",
        ),
    )
    assert len(read(data).table) == 1


def stray(cell: str, row: int) -> bytes:
    xml = f'<row r="{row}"><c r="{cell}{row}"><v>7</v></c></row>'
    return with_cells(xml.encode(), [HEADER, ROW])


@pytest.mark.parametrize(("column", "row"), [("BA", 3), ("XFD", 1_048_576)])
def test_a_stray_cell_far_to_the_right_is_named(column: str, row: int) -> None:
    found = problem(stray(column, row))
    assert (found.value, found.expected) == (f"{column}{row}", "a sheet no wider than column AZ")


def test_a_remark_beside_the_table_is_refused_by_its_place() -> None:
    data = workbook([HEADER, ROW], lambda _, sheet: sheet.write("AZ2", "x"))
    assert places(data) == [(2, "52", "x")]


def test_a_blank_column_beside_the_table_is_no_fault() -> None:
    data = workbook([HEADER, ROW], lambda _, sheet: sheet.write("AZ2", " "))
    assert len(read(data).table) == 1


def test_a_column_is_numbered_from_the_left_of_the_sheet() -> None:
    def fill(sheet: Any) -> None:
        for at, text in enumerate(HEADER):
            sheet.cell(1, 3 + at, text)
            sheet.cell(2, 3 + at, ROW[at])
        sheet.cell(2, 3 + len(HEADER), "so it was")

    assert places(by_openpyxl(fill)) == [(2, f"{3 + len(HEADER)}", "so it was")]


def test_a_stray_cell_far_down_is_named_by_its_row() -> None:
    found = problems(stray("E", 1_048_576))
    assert [(p.row, p.column) for p in found] == [
        (1_048_576, name) for name in ("field", "date", "quadrant", "plant")
    ]


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    data = with_part(workbook([HEADER, ROW]), "xl/styles.xml", lambda part: part + b" " * 3_000_000)
    assert len(rows(data)) == 2
    monkeypatch.setattr(xlsx_parts, "MOST_BYTES", 2 << 20)
    found = problem(data)
    assert (found.value, found.expected) == (
        "xl/styles.xml",
        "a workbook that unpacks to at most 2 MB",
    )


def test_a_locked_or_old_workbook_is_told_from_a_table() -> None:
    (found,) = problems(bytes.fromhex("D0CF11E0A1B11AE1") + bytes(512))
    assert found.expected == "a CSV or XLSX file without a password"
    assert found.hint == "Save the table as XLSX."


def zipped(**parts: bytes) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as book:
        for name, text in parts.items():
            book.writestr(name.replace("_", "."), text)
    return data.getvalue()


@pytest.mark.parametrize(
    "data",
    [
        zipped(notes_txt=b"no workbook"),
        zipped(content_xml=b"<x/>", mimetype=b"application/vnd.oasis.opendocument.spreadsheet"),
        zipped(),
        b"PK\x03\x04",
        b"PK\x03\x04" + bytes(100),
        workbook([HEADER, ROW])[:-200],
        workbook([HEADER, ROW])[:900],
    ],
    # said here, since a workbook holds the second in which it was made
    ids=["a note", "another program's", "nothing", "a beginning", "zeros", "late", "early"],
)
def test_a_zip_that_is_no_workbook_or_is_cut_off_is_refused(data: bytes) -> None:
    with pytest.raises(RefusedInput) as refused:
        read(data)
    assert refused.value.problems[0].expected == "an XLSX workbook that is whole"


@pytest.mark.parametrize("part", ["xl/worksheets/sheet1.xml", "xl/workbook.xml"])
def test_a_workbook_whose_part_is_cut_off_is_refused(part: str) -> None:
    found = problem(with_part(workbook([HEADER, ROW]), part, lambda text: text[: len(text) // 2]))
    assert found.expected == "an XLSX workbook that is whole"
