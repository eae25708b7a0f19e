"""Page, PDF and short text say the same of one walk."""

from __future__ import annotations

import re
from functools import cache

import pytest

from quarterwalk.call import Verdict
from quarterwalk.report import Report, page, report_pdf, short_text
from quarterwalk.words import LANGUAGES
from tests.report.made_reports import page_words, pdf_pages, report, squeezed, unlike

pytest.importorskip("typst", reason="needs the report extra")

NUMBER = re.compile(r"\d+(?:\.\d+)?")


@cache
def faces(language: str, kind: str) -> tuple[Report, str, str, str]:
    """Give a report and all it shows: on the page, in the PDF, in the text message."""
    made = dict(unlike(language))[kind]
    (sheet,) = pdf_pages(report_pdf(made))
    return made, page_words(page(made)), sheet, short_text(made)


KINDS = [kind for kind, _ in unlike("en")]
every_report = pytest.mark.parametrize(
    ("language", "kind"), [(language, kind) for language in LANGUAGES for kind in KINDS]
)


@every_report
def test_all_that_the_call_says_stands_on_page_and_sheet(language, kind):
    made, on_page, on_sheet, _ = faces(language, kind)
    call = made.call
    told = [each.text for each in (*call.reasons, *call.cautions, call.host_weeds)]
    told += [call.settle.text] if call.settle else []
    for sentence in (*told, *made.next_look, made.headline, *made.sure, made.ask):
        assert squeezed(sentence) in squeezed(on_page)
        assert squeezed(sentence) in squeezed(on_sheet)


@every_report
def test_field_day_grower_acres_and_footing_stand_on_page_and_sheet(language, kind):
    made, on_page, on_sheet, _ = faces(language, kind)
    footing = made.footing
    assert footing.rule
    assert footing.sources
    assert footing.prevails
    for text in ("Windmill 80", "Marlow Teague", made.day, "120 acres", *footing.paragraphs):
        assert squeezed(text) in squeezed(on_page)
        assert squeezed(text) in squeezed(on_sheet)


@every_report
def test_the_three_faces_give_the_same_verdict(language, kind):
    made, on_page, on_sheet, message = faces(language, kind)
    assert made.verdict_words in on_page
    assert made.verdict_words in on_sheet
    # the letters of a text message lack most capital accents
    assert f": {made.verdict_words.upper().replace('Ó', 'O')}" in message


@every_report
def test_every_number_of_the_message_is_a_number_of_page_and_sheet(language, kind):
    _, on_page, on_sheet, message = faces(language, kind)
    numbers = set(NUMBER.findall(message))
    assert numbers <= set(NUMBER.findall(on_page))
    assert numbers <= set(NUMBER.findall(on_sheet))


@every_report
def test_insects_squares_line_and_floor_are_in_the_message(language, kind):
    made, _, _, message = faces(language, kind)
    if made.verdict is Verdict.NONE:
        return
    numbers = NUMBER.findall(message)
    assert str(round(made.reading.per_100)) in numbers
    assert f"{float(made.call.guideline.line):g}" in numbers
    if made.reading.set_readable and made.call.guideline.floor is not None:
        assert f"{float(100 * made.call.guideline.floor):g}" in numbers
        assert str(round(100 * made.reading.square_set)) in numbers


@every_report
def test_a_grower_is_told_no_odds(language, kind):
    made, on_page, _, message = faces(language, kind)
    assert not re.search(r"\d+ (in|de cada) \d+", message)
    meaning = made.footing.most_likely
    assert not re.search(r"\b\d+ (in|de cada) \d+", on_page.replace(meaning, ""))


def test_what_most_likely_means_is_said_once():
    made, on_page, _, _ = faces("en", "treat")
    assert "9 times in 10" in made.footing.most_likely
    assert on_page.count("9 times in 10") == 1


@pytest.mark.parametrize(
    ("level", "said"),
    [
        (0.9, "9 times in 10"),
        (0.99, "99 times in 100"),
        (0.999, "999 times in 1,000"),
        (0.999999, "999,999 times in 1,000,000"),
    ],
)
def test_a_range_is_never_said_to_hold_always(level, said):
    assert f"; {said} the true number" in report(level=level).footing.most_likely


def test_the_source_of_the_numbers_is_cited():
    made, _, _, _ = faces("en", "treat")
    assert "edition 2026.1" in made.footing.rule
    assert made.call.guideline.hash[:12] in made.footing.rule
    assert "County scouting report of 2019-07-05, west Texas" in made.footing.sources
