"""What holds for every drawing: well formed, told in words, no style of its own."""

from __future__ import annotations

import gettext
import re

import pytest

import quarterwalk.words
from quarterwalk.picture import Theme
from quarterwalk.picture.drawing import Telling, drawing, words
from quarterwalk.words import LANGUAGES
from tests.picture.drawn import (
    SVG,
    every_drawing,
    fresh_drawings,
    parsed,
    size_of,
    text_boxes,
    texts,
)

FIGURES = re.compile(r"[\d.,<–…+\s%]*")


@pytest.mark.parametrize("theme", Theme)
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_drawing_has_a_title_and_tells_a_screen_reader_where(theme: Theme, language: str) -> None:
    seen: set[str] = set()
    for svg in every_drawing(theme, language):
        root = parsed(svg)
        assert root.tag == f"{SVG}svg"
        assert root.get("role") == "img"
        ids = [each.get("id", "") for each in root.iter() if each.get("id")]
        assert root.get("aria-labelledby", "").split() == ids
        assert not seen & set(ids)
        seen |= set(ids)
        assert (root.findtext(f"{SVG}title") or "").strip()


@pytest.mark.parametrize("theme", Theme)
def test_only_a_drawing_for_paper_brings_rules_and_none_has_a_style_attribute(theme: Theme) -> None:
    for svg in every_drawing(theme):
        assert not any("style" in each.attrib for each in parsed(svg).iter())
        assert (parsed(svg).find(f"{SVG}style") is not None) == (theme is Theme.PRINT)
        assert "<script" not in svg


@pytest.mark.parametrize("width", [328, 480, 820])
def test_words_stay_inside_their_drawing(width: int) -> None:
    for svg in every_drawing(Theme.SCREEN, width=width):
        wide, tall = size_of(svg)
        for text, left, top, right, bottom in text_boxes(svg):
            assert left > -3, text
            assert top > -3, text
            assert right < wide + 3, text
            assert bottom < tall + 3, text


def collisions(svg: str) -> list[tuple[str, str]]:
    """Name the lines of words that run into each other; numbers of stops may touch."""
    boxes = [each for each in text_boxes(svg) if not each[0].isdigit()]
    return [
        (one[0], other[0])
        for i, one in enumerate(boxes)
        for other in boxes[:i]
        if one[1] < other[3] and other[1] < one[3] and one[2] < other[4] and other[2] < one[4]
    ]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("width", [328, 820])
def test_words_do_not_run_into_each_other(width: int, language: str) -> None:
    assert not [
        each for svg in every_drawing(Theme.SCREEN, language, width) for each in collisions(svg)
    ]


class Longer(gettext.NullTranslations):
    """A language whose words are a third longer than the English ones."""

    def gettext(self, message: str) -> str:
        return re.sub(r"(?<![{\w])([a-zA-Z]{3,})(?![\w}])", self._longer, message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)

    @staticmethod
    def _longer(word: re.Match[str]) -> str:
        return word[0] + "aeioun"[: -(-len(word[0]) // 3)]


@pytest.mark.parametrize("width", [328, 820])
def test_a_language_a_third_longer_has_room(monkeypatch: pytest.MonkeyPatch, width: int) -> None:
    monkeypatch.setattr(quarterwalk.words, "_catalogue", lambda language: Longer())
    for svg in fresh_drawings(Theme.SCREEN, "en", width):
        assert not collisions(svg)
        assert all(
            left > -3 and right < size_of(svg)[0] + 3 for _, left, _, right, _ in text_boxes(svg)
        )


class Marked(gettext.NullTranslations):
    """A language in which every worded text stands between two signs."""

    def gettext(self, message: str) -> str:
        return f"«{message}»"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"«{msgid1 if n == 1 else msgid2}»"

    def pgettext(self, context: str, message: str) -> str:
        return f"«{message}»"


def test_every_word_goes_through_the_catalogue(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(quarterwalk.words, "_catalogue", lambda language: Marked())
    worded = 0
    for svg in fresh_drawings(Theme.SCREEN, "en", 820):
        for text in texts(svg):
            left = re.sub(r"«[^«»]*»", "", text)
            while left != (left := re.sub(r"«[^«»]*»", "", left)):
                pass
            worded += left != text
            assert "«" in text or "»" in text or FIGURES.fullmatch(left), text
    assert worded > 100


def test_words_are_escaped() -> None:
    bad = '<b>"Tom & Jerry\'s"</b>\x00\x0b\ufffe]]>'
    svg = drawing(
        words(0, 0, bad, "qw-words", 16),
        Telling(bad, bad),
        size=(10, 10),
        theme=Theme.SCREEN,
        id="x",
    )
    told = '<b>"Tom & Jerry\'s"</b>]]>'
    assert texts(svg) == [told]
    assert parsed(svg).findtext(f"{SVG}title") == told
