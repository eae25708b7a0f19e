"""A PDF holds what it was given, as it was given, and is the same every time."""

from __future__ import annotations

import io
import pickle
import sys
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

import pytest
from pypdf import PdfReader

from quarterwalk.errors import MissingExtra, UsageError
from quarterwalk.report import typeset as module
from quarterwalk.report.typeset import FONTS, typeset

typst = pytest.importorskip("typst", reason="needs the report extra")

DAY = date(2026, 6, 18)
DOT = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 30">'
    '<text x="5" y="20" font-family="Atkinson Hyperlegible Next">turnrow</text></svg>'
)


def pdf(
    template: str,
    data: Mapping[str, object] | None = None,
    pictures: Mapping[str, str] | None = None,
    *,
    on: date = DAY,
) -> bytes:
    return typeset(template, data or {}, pictures, title="Home 40", on=on, language="es")


def opened(made: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(made))


def text_of(made: bytes) -> str:
    return "\n".join(page.extract_text() for page in opened(made).pages)


def fonts_of(made: bytes) -> Iterator[Any]:
    for page in opened(made).pages:
        for font in page["/Resources"]["/Font"].values():
            yield font.get_object()["/DescendantFonts"][0].get_object()


@pytest.mark.parametrize(
    "name",
    ["#panic()", "*x* _y_", "<b>bold</b>", "$a$ @b `c`", "\\ ~ -- // /* */", '"}], {"', "Peña Ñu"],
)
def test_a_name_that_looks_like_markup_prints_as_itself(name: str) -> None:
    assert name in text_of(pdf("Field: #data.name", {"name": name}))


def test_the_same_page_is_the_same_bytes_and_another_day_is_not() -> None:
    once = pdf("#data.n", {"n": 1}, {"dot": DOT})
    assert pdf("#data.n", {"n": 1}, {"dot": DOT}) == once
    assert pdf("#data.n", {"n": 1}, {"dot": DOT}, on=date(2026, 6, 19)) != once


def test_the_file_says_the_day_it_was_given_and_not_today() -> None:
    told = opened(pdf("x")).metadata
    assert told is not None
    assert told.title == "Home 40"
    assert told.creation_date is not None
    assert told.creation_date.date() == DAY


def test_a_page_can_be_read_aloud() -> None:
    root = opened(pdf("= Head\ntext")).trailer["/Root"]
    assert root["/Lang"] == "es"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert b"pdfuaid:part" in root["/Metadata"].get_object().get_data()


def test_a_character_without_a_letter_in_the_font_costs_the_rest_nothing() -> None:
    made = pdf("#data.name", {"name": "Home \U0001f33f 40"})
    assert text_of(made).startswith("Home ")
    assert text_of(made).endswith(" 40")
    assert opened(made).trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_words_in_a_picture_can_be_selected() -> None:
    made = pdf('#picture("dot", width: 3cm, alt: "a turnrow")', pictures={"dot": DOT})
    # some readers put a space between letters that the drawing sets apart
    assert "turnrow" in text_of(made).replace(" ", "")


def test_a_picture_that_says_nothing_to_those_who_hear_it_is_refused() -> None:
    with pytest.raises(typst.TypstError, match="alt text"):
        pdf('#picture("dot", width: 3cm)', pictures={"dot": DOT})


def test_every_font_is_inside_the_file_and_is_ours() -> None:
    fonts = list(fonts_of(pdf("plain *bold* áéíóúñü¿¡ ½ °")))
    assert len(fonts) == 2
    for font in fonts:
        assert "AtkinsonHyperlegibleNext" in font["/BaseFont"]
        assert "/FontFile2" in font["/FontDescriptor"].get_object()


def test_figures_stand_under_each_other() -> None:
    size = "#context repr((measure[111111].width, measure[888888].width))"
    one, eight = text_of(pdf(size)).strip("()\n").split(", ")
    assert one == eight


def test_a_template_reads_nothing_outside_its_folder() -> None:
    with pytest.raises(typst.TypstError):
        pdf('#read("../typeset.py")')


def test_the_licence_of_the_font_goes_with_it() -> None:
    licence = (FONTS / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert "Reserved Font Name" not in licence.split("-----")[0]


def test_without_the_extra_the_error_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    monkeypatch.setattr(module, "_typst", module._typst.__wrapped__)
    with pytest.raises(MissingExtra) as missing:
        pdf("x")
    assert isinstance(missing.value, UsageError)
    assert "pip install 'quarterwalk[report]'" in str(missing.value)
    assert str(pickle.loads(pickle.dumps(missing.value))) == str(missing.value)
