"""Drawings for templates: made by the core's picture package, safe to put in as they are."""

from __future__ import annotations

import re

from django.utils.safestring import SafeString, mark_safe

from quarterwalk.call import Verdict
from quarterwalk.picture import Theme, quarter_mark, verdict_mark
from quarterwalk.picture.ladder import Rung, ladder_rung
from quarterwalk.walk import Quadrant

ENGLISH = "en"
"""What pages are worded in. [language]"""


def safe_drawing(svg: str) -> SafeString:
    """Let a drawing pass into a template; the picture package has escaped its words.

    Parameters
    ----------
    svg : str
        From the picture package.

    Returns
    -------
    SafeString
    """
    return mark_safe(svg)


def beside_its_word(svg: str) -> SafeString:
    """Hide a mark from those who hear the page: its word stands beside it.

    Parameters
    ----------
    svg : str
        From the picture package, with a title and no description.

    Returns
    -------
    SafeString
    """
    untitled = re.sub(r"<title[^>]*>[^<]*</title>", "", svg)
    hidden = re.sub(r'role="img" aria-labelledby="[^"]*"', 'aria-hidden="true"', untitled)
    return safe_drawing(hidden)


def mark_of(verdict: str, id: str) -> SafeString:
    """Draw a verdict as its small mark.

    Parameters
    ----------
    verdict : str
        As a call's JSON names it. [text]
    id : str
        Begins every id inside. [text]

    Returns
    -------
    SafeString
    """
    mark = verdict_mark(Verdict(verdict), theme=Theme.SCREEN, id=id, language=ENGLISH)
    return beside_its_word(mark)


def rung_drawn(rung: Rung, told: str, id: str) -> SafeString:
    """Draw a row of the ladder.

    Parameters
    ----------
    rung : Rung
        What was found.
    told : str
        What it says to someone who hears it. [text]
    id : str
        Begins every id inside. [text]

    Returns
    -------
    SafeString
    """
    return safe_drawing(ladder_rung(rung, told=told, theme=Theme.SCREEN, id=id))


def quarter_drawn(quadrant: str, id: str) -> SafeString:
    """Draw a quarter as its small mark.

    Parameters
    ----------
    quadrant : str
        NW, NE, SW or SE. [text]
    id : str
        Begins every id inside. [text]

    Returns
    -------
    SafeString
    """
    mark = quarter_mark(Quadrant(quadrant), theme=Theme.SCREEN, id=id, language=ENGLISH)
    return beside_its_word(mark)
