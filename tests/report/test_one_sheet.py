"""A report fills one sheet, never two, whatever there is to say."""

from __future__ import annotations

import pytest

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


def test_reports_stand_in_the_order_given():
    names = ["Pump 4", "Caliche Corner", "Playa East"]
    sheets = pdf_pages(reports_pdf([report(field=name) for name in names]))
    assert [name in sheet for name, sheet in zip(names, sheets, strict=True)] == [True] * 3


def test_the_same_report_gives_the_same_file():
    assert report_pdf(report()) == report_pdf(report())


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
