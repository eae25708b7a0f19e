"""Verdicts of stored calls as pages say them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from quarterwalk.call import Verdict
from quarterwalk.call.verdict import verdict_words
from quarterwalk.office.pages.may import May
from quarterwalk.picture.why import no_call_word

Told = Mapping[str, Any]


def verdict_said(told: Told | None) -> str:
    """Say a verdict in a word or two.

    Parameters
    ----------
    told : mapping or None
        The call as its JSON tells it; None where there is none.

    Returns
    -------
    str
        In lower case; where there is no call, why.
    """
    if told is None:
        return "no reading"
    verdict = Verdict(told["call"]["verdict"])
    if verdict is Verdict.NONE:
        return no_call_word(told["call"]["reasons"][0]["code"])
    return verdict_words(verdict).lower()


def verdict_class(told: Told | None) -> str:
    """Name a verdict for the style sheet.

    Parameters
    ----------
    told : mapping or None
        The call as its JSON tells it.

    Returns
    -------
    str
    """
    return "none" if told is None else str(told["call"]["verdict"])


def doubt_words(told: Told | None, may: May) -> str:
    """Say in a word or two how far a call is to be trusted.

    Parameters
    ----------
    told : mapping or None
        The call as its JSON tells it.
    may : May
        Who reads it.

    Returns
    -------
    str
        Empty where there is nothing to say.
    """
    if told is None:
        return ""
    if told["call"]["provisional"] or told.get("office", {}).get("provisional"):
        return "for now"
    return "" if may.odds else str(told["call"]["sure"] or "")
