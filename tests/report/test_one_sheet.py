"""A report fills one sheet, never two, whatever there is to say."""

from __future__ import annotations

import io
from collections import Counter
from dataclasses import replace

import pytest
from pypdf import PdfReader

from quarterwalk.errors import MissingExtra
from quarterwalk.report import Paper, report_pdf, reports_pdf, typeset
from quarterwalk.words import LANGUAGES
from tests.report.made_reports import longest, pdf_pages, report, squeezed, unlike

pytest.importorskip("typst", reason="needs the report extra")


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", LANGUAGES)
def test_calls_of_every_kind_take_a_sheet_each(language, paper):
    reports = [made for _, made in unlike(language)]
    assert len(pdf_pages(reports_pdf(reports, paper=paper))) == len(reports)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_longest_calls_take_a_sheet_each_and_lose_nothing(language):
    reports = longest(language)
    assert max(len(made.reasons) for made in reports) >= 10
    sheets = pdf_pages(reports_pdf(reports))
    assert len(sheets) == len(reports)
    for made, sheet in zip(reports, sheets, strict=True):
        for sentence in (*made.reasons, *made.care, made.host_weeds):
            assert squeezed(sentence) in squeezed(sheet)


def type_sizes(pdf: bytes) -> list[float]:
    """Give the size that most of each page's letters are set in. [pt]"""
    found = []
    for sheet in PdfReader(io.BytesIO(pdf)).pages:
        letters: Counter[float] = Counter()

        def count(text, cm, tm, fonts, size, letters=letters):
            letters[round(size * abs(tm[0] * cm[0]), 1)] += len(text.strip())

        sheet.extract_text(visitor_text=count)
        found.append(letters.most_common(1)[0][0])
    return found


def test_what_a_usual_call_has_to_say_is_set_in_twelve_point_or_more():
    pdf = reports_pdf([made for _, made in unlike("en")])
    said = [(kind, size) for (kind, _), size in zip(unlike("en"), type_sizes(pdf), strict=True)]
    # a short report has fewer letters in its body than in its foot
    short = {"hold", "too early", "over", "bloom date", "other method"}
    assert all(size >= 12 for kind, size in said if kind not in short), said


def smallest(pdf: bytes) -> float:
    """Give the size of the smallest letters. [pt]"""
    found = []

    def note(text, cm, tm, fonts, size):
        if text.strip():
            found.append(size * abs(tm[0] * cm[0]))

    for sheet in PdfReader(io.BytesIO(pdf)).pages:
        sheet.extract_text(visitor_text=note)
    return min(found)


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_letter_is_too_small_to_read_with_a_boundary_or_without(language):
    made = [each for _, each in unlike(language)]
    bare = [replace(each, layout=None, found_note="") for each in made]
    assert smallest(reports_pdf(made)) >= 8.5
    assert smallest(reports_pdf(bare)) >= 8.5


def test_reports_stand_in_the_order_given():
    names = ["Pump 4", "Caliche Corner", "Playa East"]
    sheets = pdf_pages(reports_pdf([report(field=name) for name in names]))
    assert [name in sheet for name, sheet in zip(names, sheets, strict=True)] == [True] * 3


def test_the_same_report_gives_the_same_file():
    assert report_pdf(report()) == report_pdf(report())


def test_a_file_says_what_it_holds():
    one = PdfReader(io.BytesIO(report_pdf(report())))
    assert one.metadata.title == "Windmill 80, Saturday 20 June 2026"
    two = PdfReader(io.BytesIO(reports_pdf([report(), report(day=12)])))
    assert two.metadata.title == "Reports of Saturday 20 June to Monday 22 June 2026"


def test_no_report_is_no_file():
    with pytest.raises(ValueError, match="at least one report"):
        reports_pdf([])


def test_without_its_extra_the_pdf_says_what_to_install(monkeypatch):
    def missing(name):
        raise ModuleNotFoundError(name)

    typeset._typst.cache_clear()
    monkeypatch.setattr(typeset, "import_module", missing)
    with pytest.raises(MissingExtra):
        report_pdf(report())
