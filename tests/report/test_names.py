"""Whatever people type as a name stands there as a name."""

from __future__ import annotations

import pytest

from quarterwalk.report import Linked, day_page, page, report_pdf, short_text
from quarterwalk.report.names import clipped, plain
from tests.report.made_reports import laid, page_words, pdf_pages, report, shown, squeezed

NAMES = [
    "<script>alert(1)</script>",
    "</style><img src=x onerror=alert(1)>",
    '#panic("here")',
    "#set page(width: 1pt) $x^2$ *bold* _it_ \\ // @ref <label>",
    'O\'Brien & "Sons" ${field} {grower} %s',
    "Läder Ñandú 80",
    "Long " * 40,
]
shown_as_typed = pytest.mark.parametrize("name", NAMES)


@shown_as_typed
def test_a_name_stands_on_the_pages_as_it_was_typed(name):
    made = report(field=name, layout=laid(name, name), advisor=name, contact=name)
    for html in (page(made), day_page([Linked(made, "a.html", "a.pdf")])):
        assert squeezed(plain(name)) in squeezed(page_words(html))
        tags = {tag for tag, _ in shown(html).elements}
        assert not tags & {"script", "img"}


@shown_as_typed
def test_a_name_stands_on_the_sheet_as_it_was_typed(name):
    pytest.importorskip("typst", reason="needs the report extra")
    made = report(field=name, layout=laid(name, name), advisor=name, contact=name)
    (sheet,) = pdf_pages(report_pdf(made))
    assert squeezed(sheet).count(squeezed(plain(name))) >= 3


@shown_as_typed
def test_a_name_of_any_kind_fits_into_a_message(name):
    made = report(field=name, layout=laid(name, name), advisor=name, contact=name)
    assert len(short_text(made)) < 320


def test_turns_of_direction_and_controls_are_taken_out_of_a_name():
    assert plain("North\u202e 08 dlif\u202c\u200f") == "North 08 dlif"
    assert plain("  two\nlines\t and\x00 a null\ufeff ") == "two lines and a null"
    assert plain("שדה 80") == "שדה 80"


def test_a_message_in_letters_that_plain_telephones_lack_keeps_its_numbers():
    text = short_text(report(field="שדה 80"))
    assert text.startswith("??? 80, ")


def test_a_link_cannot_leave_its_quotes():
    html = day_page([Linked(report(), '"><script>x</script>', "a.pdf")])
    assert "script" not in {tag for tag, _ in shown(html).elements}


def test_a_long_name_is_cut_with_three_points():
    assert clipped("Caliche Corner", 14) == "Caliche Corner"
    assert clipped("Caliche Corner", 11) == "Caliche..."
