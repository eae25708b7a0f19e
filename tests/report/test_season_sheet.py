"""A season on its sheet and its page: words large enough to read, no column without a word."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import pytest
from pypdf import PdfReader

from quarterwalk.call import Verdict
from quarterwalk.crop import Given
from quarterwalk.report import Paper
from quarterwalk.report.html import file_text
from quarterwalk.report.season_columns import cells_of, kept_columns
from quarterwalk.report.season_drawn import season_drawn
from quarterwalk.report.season_page import season_html
from quarterwalk.report.season_pdf import season_pdf
from quarterwalk.report.season_picture import key_of
from quarterwalk.report.season_report import SeasonDone
from quarterwalk.report.season_unbroken import unbroken
from quarterwalk.words import LANGUAGES
from tests.report.made_reports import page_words, pdf_pages, squeezed
from tests.report.made_seasons import clock, day, season, unlike, walks


def sizes(pdf: bytes) -> tuple[set[float], set[float]]:
    """Give the sizes of words in the picture, which is scaled, and of all others. [pt]"""
    pictured, others = set(), set()

    def visit(text, placed, matrix, font, size):
        scale = abs(placed[3] * matrix[3])
        if text.strip():
            (others if scale == pytest.approx(1) else pictured).add(size * scale)

    for page in PdfReader(io.BytesIO(pdf)).pages:
        page.extract_text(visitor_text=visit)
    return pictured, others


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", LANGUAGES)
def test_words_of_the_picture_are_nine_points_and_those_of_the_foot_eight(language, paper):
    pytest.importorskip("typst", reason="needs the report extra")
    for kind, report in unlike(language):
        pictured, others = sizes(season_pdf([report], paper=paper))
        assert min(pictured) >= 8.99, kind
        assert min(others) >= 7.99, kind


def test_a_column_without_a_word_is_left_out_of_page_and_sheet():
    pytest.importorskip("typst", reason="needs the report extra")
    report = season(clock(day(6, 24)))
    assert not any(each.alone for each in report.days)
    assert 4 not in kept_columns(report.days)
    assert "by weather alone" not in page_words(season_html(report))
    (sheet,) = pdf_pages(season_pdf([report]))
    assert squeezed("by weather alone") not in squeezed(sheet)


def test_a_column_with_a_word_stays():
    report = season(clock(day(6, 24), given=Given((day(6, 5), day(6, 5)))))
    assert kept_columns(report.days) == (0, 1, 2, 3, 4, 5)
    assert "by weather alone" in page_words(season_html(report))


def test_every_cell_of_a_row_stands_under_its_head():
    report = season(clock(day(6, 24)))
    rows = re.findall(r'<tr role="row">(.*?)</tr>', season_html(report))
    kept = kept_columns(report.days)
    for told, row in zip(report.days, rows[1:], strict=True):
        cells = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row)
        assert cells == [cells_of(told)[each] for each in kept]


@pytest.mark.parametrize("language", LANGUAGES)
def test_how_the_picture_is_read_stands_on_page_and_sheet(language):
    pytest.importorskip("typst", reason="needs the report extra")
    report = dict(unlike(language))["squaring"]
    assert len(key_of(report)) == 2
    on_page, (sheet,) = page_words(season_html(report)), pdf_pages(season_pdf([report]))
    for told in key_of(report):
        assert squeezed(told) in squeezed(on_page)
        assert squeezed(told) in squeezed(sheet)


def test_without_walks_nothing_is_said_of_them():
    assert len(key_of(season(clock(day(6, 24))))) == 1
    done = SeasonDone(walks((6, 10, Verdict.TREAT)))
    assert key_of(season(clock(day(6, 24)), done=done))[1] == "Walks: one solid leaf = treat."


def test_the_picture_tells_its_days_to_those_who_hear_it():
    html = season_html(season(clock(day(6, 24), given=Given((day(6, 12), day(6, 12))))))
    told = re.findall(r"<desc[^>]*>(.*?)</desc>", html)
    assert len(told) == 3
    assert all("Planted 8 May;" in each and "first square 12 June;" in each for each in told)


def test_a_range_that_was_given_is_drawn_as_it_was_given():
    given = Given((day(6, 5), day(6, 30)))
    (mark,) = [
        each for each in season_drawn(clock(day(6, 24), given=given), SeasonDone()).marks
        if each.given
    ]  # fmt: skip
    assert mark.name == "first square"
    assert mark.span == given.first_square
    assert not mark.seen


def test_sections_do_not_break_over_the_page_when_the_page_is_printed():
    printed = file_text("season.css").partition("@media print")[2]
    assert re.search(r"section, \.sheet \{ break-inside: avoid; \}", printed)


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("about 8 in 10; 1 in 20.", "about 8~in~10; 1~in~20."),
        ("alrededor de 8 posibilidades en 10", "alrededor de 8 posibilidades en~10"),
        ("8 times in 10, in 100 acres", "8 times in~10, in~100 acres"),
        ("in 15 days, begin 10 July", "in 15 days, begin 10 July"),
    ],
)
def test_a_chance_stays_on_one_line(told, kept):
    assert unbroken(told) == kept.replace("~", "\u00a0")


def test_one_part_alone_is_told_over_the_whole_width():
    report = season(clock(day(6, 24)))
    assert not report.doubts
    assert 'class="told in-doubt"' not in season_html(report)
    at_odds = dict(unlike())["at odds"]
    assert 'class="told in-doubt"' in season_html(at_odds)
    alone = replace(at_odds, ahead=(), settle=())
    assert 'class="told in-doubt"' not in season_html(alone)
