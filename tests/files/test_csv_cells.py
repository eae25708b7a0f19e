"""CSV as spreadsheets and phones write it, and as it is when it is damaged."""

from __future__ import annotations

import codecs

import pytest

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.csv_cells import csv_rows


def rows(data: bytes) -> list[list[str]]:
    return [list(row) for row in csv_rows("walks.csv", data)]


def problem(data: bytes) -> Problem:
    with pytest.raises(RefusedInput) as refused:
        rows(data)
    (found,) = refused.value.problems
    assert found.file == "walks.csv"
    return found


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
def test_any_line_ending_will_do(end: bytes) -> None:
    assert rows(end.join([b"a,b", b"1,2", b"3,4"])) == [["a", "b"], ["1", "2"], ["3", "4"]]
    assert rows(end.join([b"a,b", b"1,2", b""])) == [["a", "b"], ["1", "2"]]


def test_a_byte_order_mark_is_no_part_of_the_first_name() -> None:
    assert rows(codecs.BOM_UTF8 + "fèld,b\n".encode()) == [["fèld", "b"]]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_the_separator_is_told_from_the_header(mark: str) -> None:
    assert rows(f"a{mark}b\n1{mark}x,y;z\tw".replace("x,y;z\tw", "2").encode()) == [
        ["a", "b"],
        ["1", "2"],
    ]


def test_a_separator_in_a_quoted_name_does_not_count() -> None:
    assert rows(b'"a,b,c,d";e\n1,5;2') == [["a,b,c,d", "e"], ["1,5", "2"]]


def test_blank_lines_before_the_header_do_not_tell_the_separator() -> None:
    assert rows(b"\r\n \n a;b\n1;2\n") == [[], [" "], [" a", "b"], ["1", "2"]]


def test_a_file_of_nothing_has_no_rows() -> None:
    assert rows(b"") == []
    assert rows(codecs.BOM_UTF8) == []


def test_a_quoted_cell_may_hold_lines_separators_and_quotation_marks() -> None:
    assert rows(b'a,b\n"x\r\ny","say ""so"", or not"\nc,d') == [
        ["a", "b"],
        ["x\r\ny", 'say "so", or not'],
        ["c", "d"],
    ]


def test_an_open_quotation_mark_is_refused_in_the_row_where_it_opens() -> None:
    found = problem(b'a,b\n"two\nlines",1\n"never closed,2\n3,4\n')
    assert (found.row, found.column, found.value[:13]) == (3, "a", '"never closed')
    assert found.expected == "a cell whose quotation mark is closed"


def test_text_after_a_closing_quotation_mark_is_refused() -> None:
    found = problem(b'a,b\n1,"x"y\n')
    assert (found.row, found.column, found.value) == (2, "b", '"x"')
    assert found.expected == "a cell that is quoted whole or not at all"


def test_a_quotation_mark_inside_a_cell_is_a_letter() -> None:
    assert rows(b'a,b\n5" pipe,1') == [["a", "b"], ['5" pipe', "1"]]


def test_a_cell_of_more_than_131072_letters_is_refused() -> None:
    found = problem(b"a,b\n1,2\n" + b"x" * 131_073 + b",1\n")
    assert (found.row, found.column) == (3, "a")
    assert found.expected == "a cell of at most 131072 letters"
    assert rows(b"x" * 131_072) == [["x" * 131_072]]


def test_utf_16_is_refused_with_a_way_out() -> None:
    found = problem("a,b\n1,2\n".encode("utf-16"))
    assert (found.row, found.value, found.hint) == (1, "UTF-16", "Save the table as CSV UTF-8.")


@pytest.mark.parametrize(
    ("before", "row"),
    [
        (b"", 1),
        (codecs.BOM_UTF8, 1),
        (b"field,", 1),
        (b"field,date\n", 2),
        (b"field,date\r\nHome,", 2),
        (b"field,date\rHome,1\r", 3),
        (b'field,date\n"two\nlines",1\nHome', 3),
        (b'field,date\n"two\nlines', 2),
        (b'field,date\n\n\n"quoted"', 4),
    ],
)
def test_a_byte_that_is_not_utf_8_is_refused_in_its_row(before: bytes, row: int) -> None:
    found = problem(before + b"\xe9t\xe9,2\n")
    assert (found.row, found.value, found.expected) == (row, "byte 0xE9", "text in UTF-8")


def test_a_null_character_is_a_letter_here() -> None:
    assert rows(b"a\x00,b\n") == [["a\x00", "b"]]


def test_a_byte_that_is_not_utf_8_is_named_by_row_and_column() -> None:
    found = problem(b"field,note\nHome,\xe9t\xe9\n")
    assert (found.row, found.column, found.value) == (2, "note", "byte 0xE9")


def test_a_fault_in_the_header_names_the_column_by_its_number() -> None:
    found = problem(b'field,"no\n')
    assert (found.row, found.column) == (1, "2")
