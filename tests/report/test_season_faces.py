"""Page, PDF and text say the same of one season."""

from __future__ import annotations

import base64
import hashlib
import io
import re
from dataclasses import replace
from functools import cache

import pytest
from pypdf import PdfReader

from quarterwalk.crop import Seen
from quarterwalk.guideline import load_guideline
from quarterwalk.report import Paper
from quarterwalk.report.season_page import season_html
from quarterwalk.report.season_pdf import season_pdf
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport
from quarterwalk.report.season_text import season_sections, season_text
from quarterwalk.words import LANGUAGES
from tests.report.made_reports import page_words, pdf_pages, shown, squeezed
from tests.report.made_seasons import clock, day, season, unlike

KINDS = [kind for kind, _ in unlike()]
every_season = pytest.mark.parametrize(
    ("language", "kind"), [(language, kind) for language in LANGUAGES for kind in KINDS]
)


@cache
def made(language: str, kind: str) -> SeasonReport:
    return dict(unlike(language))[kind]


def sentences(report: SeasonReport) -> list[str]:
    told = [report.headline, *report.stands, *report.ahead, *report.doubts, *report.settle]
    return [*told, report.days_note, *report.footing, *report.care]


def cells(report: SeasonReport) -> list[str]:
    rows = [
        (each.event, each.likely, each.span, each.known, each.alone, each.code)
        for each in report.days
    ]
    return [cell for row in rows for cell in row if cell]


@every_season
def test_all_that_is_said_stands_on_the_page(language, kind):
    report = made(language, kind)
    on_page = page_words(season_html(report))
    for text in (report.field, report.grower, report.about, *sentences(report), *cells(report)):
        assert squeezed(text) in squeezed(on_page)


@every_season
def test_all_that_is_said_stands_on_the_sheet(language, kind):
    pytest.importorskip("typst", reason="needs the report extra")
    report = made(language, kind)
    (sheet,) = pdf_pages(season_pdf([report]))
    for text in (report.field, report.grower, report.about, *sentences(report), *cells(report)):
        assert squeezed(text) in squeezed(sheet)


@every_season
def test_all_that_is_said_stands_in_the_text(language, kind):
    report = made(language, kind)
    text = season_text(report).casefold()
    for told in (report.field, report.grower, report.about, *sentences(report), *cells(report)):
        assert told.casefold() in text


@every_season
def test_every_sentence_is_whole(language, kind):
    for told in sentences(made(language, kind)):
        assert told == " ".join(told.split())
        assert told.endswith(".")
        assert told[0].isupper() or told[0].isdigit()
        assert not re.search(r"[{}]|  |None|nan|\(\)|!", told)


def test_sections_come_in_the_order_in_which_they_are_needed():
    assert [each.title for each in season_sections(made("en", "at odds"))] == [
        "Where it stands",
        "What comes next",
        "What does not agree",
        "What would settle it",
        "The days of the season",
        "Take care",
        "What this stands on",
    ]


def test_a_section_without_a_sentence_is_left_out():
    titles = [each.title for each in season_sections(made("en", "not up"))]
    assert "What does not agree" not in titles


def test_a_line_of_the_days_reads_aloud():
    days = season_sections(made("en", "given"))[4].sentences
    assert "First square: 12 June; given; by the weather alone 14 to 22 June; BBCH 51." in days


@pytest.mark.parametrize("kind", KINDS)
def test_the_page_runs_nothing_and_its_policy_admits_its_one_style(kind):
    html = season_html(made("en", kind))
    (style,) = re.findall(r"<style>(.*?)</style>", html, flags=re.DOTALL)
    known = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    elements = shown(html).elements
    (policy,) = [a["content"] for tag, a in elements if tag == "meta" and "http-equiv" in a]
    assert f"style-src 'sha256-{known}'" in policy
    for tag, attributes in elements:
        assert tag not in {"script", "link", "iframe", "img", "object", "form", "base"}
        assert "style" not in attributes
        assert not any(name.startswith("on") for name in attributes)


def test_the_page_has_one_title_and_no_id_twice():
    elements = shown(season_html(made("en", "squaring"))).elements
    assert [tag for tag, _ in elements].count("h1") == 1
    ids = [attributes["id"] for _, attributes in elements if "id" in attributes]
    assert len(ids) == len(set(ids))


ODD = [
    '<b>& "quoted"</b> {day} $style #x *y* _z_',
    "مزرعة ٨٠ east",
    "Ñandú\u202e 80\n\tback",
    "W" * 160,
    "Windmill " * 14,
]


@pytest.mark.parametrize("name", ODD)
def test_odd_names_stay_what_they_are_on_every_face(name):
    report = season(clock(day(6, 24)), field=name)
    kept = " ".join(name.replace("\u202e", "").split())
    assert report.field == kept
    assert kept in page_words(season_html(report))
    assert season_text(report).startswith(kept)


@pytest.mark.parametrize("name", ODD)
def test_odd_names_take_one_sheet(name):
    pytest.importorskip("typst", reason="needs the report extra")
    assert len(pdf_pages(season_pdf([season(clock(day(6, 24)), field=name)]))) == 1


def test_a_field_without_a_name_is_called_so():
    assert season(clock(day(6, 24)), field=" ").field == "A field without a name"


@pytest.mark.parametrize(("acres", "said"), [(None, ""), (3.25, "3.2 acres"), (74.2, "74 acres")])
def test_acres_are_told_where_they_are_known(acres, said):
    assert season(clock(day(6, 24)), about=SeasonField("Pump 4", acres=acres)).acres == said


@pytest.mark.parametrize(("treated", "closed"), [(day(6, 22), True), (day(6, 1), False)])
def test_after_a_spray_the_re_entry_time_is_minded(treated, closed):
    report = season(clock(day(6, 24)), done=SeasonDone(treated=(treated,)))
    assert any("re-entry time" in each for each in report.care) == closed


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_season_with_all_in_doubt_takes_one_sheet(language, paper):
    pytest.importorskip("typst", reason="needs the report extra")
    early = [Seen(day(5, 20 + i), true_leaves=9, plants=20, pinhead=18) for i in range(5)]
    late = [Seen(day(6, 9 + i), squaring_branches=9, bloom=bool(i % 2)) for i in range(9)]
    above = [Seen(day(6, 19), nawf=3.0, nodes=9.0)]
    report = season(
        clock(day(6, 20), seen=(*early, *late, *above)),
        language=language,
        guideline=load_guideline("coastal-bend"),
        done=SeasonDone(next_look=(day(6, 22), day(6, 23))),
    )
    assert len(report.doubts) >= 8
    assert len(pdf_pages(season_pdf([report], paper=paper))) == 1


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", LANGUAGES)
def test_seasons_take_a_sheet_each_in_the_order_given(language, paper):
    pytest.importorskip("typst", reason="needs the report extra")
    reports = [replace(made(language, kind), field=f"Field {kind}") for kind in KINDS]
    sheets = pdf_pages(season_pdf(reports, paper=paper))
    assert len(sheets) == len(reports)
    assert all(f"Field {kind}" in sheet for kind, sheet in zip(KINDS, sheets, strict=True))


def test_a_file_is_the_same_every_time_and_says_what_it_holds():
    pytest.importorskip("typst", reason="needs the report extra")
    pdf = season_pdf([made("en", "squaring")])
    assert pdf == season_pdf([made("en", "squaring")])
    read = PdfReader(io.BytesIO(pdf))
    assert read.metadata.title == "Windmill 80: Season, Wednesday 24 June 2026"
    assert read.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_no_season_is_no_file():
    with pytest.raises(ValueError, match="at least one season"):
        season_pdf([])


def test_what_the_catalogue_lacks_stays_english():
    report = made("es", "squaring")
    assert report.language == "es"
    assert "junio" in report.day
    assert report.headline
