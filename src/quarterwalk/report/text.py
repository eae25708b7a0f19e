"""A report as a text message: short, and in the letters that every telephone has."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from quarterwalk.call import Verdict
from quarterwalk.call.figures import day_words
from quarterwalk.guideline import load_routine
from quarterwalk.report.names import clipped
from quarterwalk.report.report import Report
from quarterwalk.words import noted, phrase, spoken_in

# Two messages joined into one hold 153 characters each (3GPP TS 23.040, from memory).
# [characters]
_MOST = 306

# The letters of the default alphabet that take one place each; its Greek is left out
# (3GPP TS 23.038, section 6.2.1, from memory).
_LETTERS = frozenset(
    "@£$¥èéùìòÇØøÅåÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡"
    "ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"
)
_SAID_AS = {
    "“": '"', "”": '"', "’": "'", "‘": "'", "–": "-", "—": "-", "…": "...", "{": "(", "}": ")",
    "[": "(", "]": ")", "\\": "/", "|": "/", "~": "-", "€": "EUR",
}  # fmt: skip

# How much of a field's name and of whom to ask is kept, tried in this order. [characters]
_KEPT = ((60, 60), (30, 40), (20, 30), (20, 16))


def short_text(report: Report) -> str:
    """Put a report into a text message.

    Parameters
    ----------
    report : Report
        The report.

    Returns
    -------
    str
        Under 320 characters, all of which a plain telephone can show.
    """
    with spoken_in(report.language):
        for name, ask in _KEPT:
            parts = [_opening(report, name), *_body(report), clipped(report.ask, ask)]
            text = lettered(" ".join(part for part in parts if part))
            if len(text) <= _MOST:
                return text
    return clipped(text, _MOST)


def lettered(text: str) -> str:
    """Write a text in the letters of the default alphabet of text messages.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Accents dropped where the alphabet lacks the letter; what has no likeness there
        becomes a question mark.
    """
    return "".join(_letter(c) for c in text)


def _letter(c: str) -> str:
    if c in _LETTERS:
        return c
    if c in _SAID_AS:
        return _SAID_AS[c]
    bare = unicodedata.normalize("NFKD", c)
    kept = "".join(b for b in bare if b in _LETTERS)
    if kept:
        return kept
    return "" if unicodedata.combining(c) else "?"


def _opening(report: Report, most: int) -> str:
    verdict = report.verdict_words.upper()
    if report.call.provisional:
        text = noted("{field}, {day}: {verdict}, provisional.")
    else:
        text = noted("{field}, {day}: {verdict}.")
    field = clipped(report.field, most)
    return phrase(text, field=field, day=day_words(report.on), verdict=verdict)


def _body(report: Report) -> Iterator[str]:
    if report.verdict is Verdict.NONE:
        yield report.headline
    else:
        yield from (f"{told}." for told in (report.insects, report.squares) if told)
    yield _next_look(report)
    if report.verdict is Verdict.TREAT:
        yield phrase("Label rules come first.")


def _next_look(report: Report) -> str:
    look = report.call.next_look
    if report.verdict is Verdict.TREAT and look is not None:
        first, last = load_routine().treated
        text = noted("Look again {first} to {last} days after treating; if not treated, {day}.")
        return phrase(text, first=first, last=last, day=day_words(look.latest))
    return " ".join(report.next_look)
