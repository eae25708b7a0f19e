"""Hold, look sooner, treat: always in this order, told by shape, word and place."""

from __future__ import annotations

import pytest

from quarterwalk.call import Verdict
from quarterwalk.picture import Theme, three_outcomes, verdict_mark
from tests.picture.drawn import having, parsed, text_boxes, texts

FILLED = {Verdict.HOLD: "qw-hold", Verdict.LOOK_SOONER: "qw-near", Verdict.TREAT: "qw-treat"}


def band(verdict: Verdict, width: int = 820, provisional: bool = False, why: str = "") -> str:
    return three_outcomes(
        verdict,
        theme=Theme.PRINT,
        width=width,
        id="o",
        language="en",
        provisional=provisional,
        why=why,
    )


@pytest.mark.parametrize("verdict", Verdict)
def test_the_outcomes_stand_in_one_order_whatever_the_verdict(verdict: Verdict) -> None:
    said = [text for text in texts(band(verdict)) if text in ("Hold", "Look sooner", "Treat")]
    assert said == ["Hold", "Look sooner", "Treat"]


@pytest.mark.parametrize("verdict", FILLED)
def test_the_verdict_has_the_largest_word_and_stands_on_ink(verdict: Verdict) -> None:
    svg = band(verdict)
    sizes = {t[0]: t[4] - t[2] for t in text_boxes(svg)}
    largest = max(sizes, key=lambda text: sizes[text])
    assert parsed(svg).findtext("{*}title") == largest
    (word,) = having(svg, "qw-on-ink")
    assert word.text == largest


@pytest.mark.parametrize("verdict", FILLED)
def test_a_provisional_verdict_is_outlined_and_says_so(verdict: Verdict) -> None:
    svg = band(verdict, provisional=True)
    assert not having(svg, "qw-on-ink")
    assert len(having(svg, "qw-for-now")) == 1
    assert "for now" in texts(svg)


@pytest.mark.parametrize(
    ("why", "word"),
    [
        ("before-squaring", "too early"),
        ("season-over", "season over"),
        ("no-line-for-method", "no line for this method"),
        ("no-insect-check", "no reading"),
    ],
)
def test_without_a_call_nothing_is_filled_and_the_word_says_why(why: str, word: str) -> None:
    svg = band(Verdict.NONE, why=why, provisional=True)
    assert not having(svg, "qw-on-ink")
    assert not having(svg, "qw-for-now")
    assert {"No call", word} <= set(texts(svg))


def test_marks_tell_the_outcomes_apart_without_colour() -> None:
    marks = {
        verdict: verdict_mark(verdict, theme=Theme.PRINT, id="m", language="en")
        for verdict in Verdict
    }
    posts = {verdict: len(having(svg, "qw-ink", "rect")) for verdict, svg in marks.items()}
    assert posts == {
        Verdict.HOLD: 2,
        Verdict.LOOK_SOONER: 2,
        Verdict.TREAT: 0,
        Verdict.NONE: 2,
    }
    assert not having(marks[Verdict.HOLD], "qw-hold")
    assert len(having(marks[Verdict.LOOK_SOONER], "qw-near")) == 2
    assert len(having(marks[Verdict.TREAT], "qw-treat")) == 1
    assert len(list(parsed(marks[Verdict.NONE]).iter("{*}path"))) == 0
