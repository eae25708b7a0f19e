"""Sentences in the language of whoever reads them.

Every sentence is written once, in English, as a whole with its gaps named; a catalogue
gives its wording in another language. A sentence without one stays English.
"""

from __future__ import annotations

import gettext
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from importlib.resources import files

ENGLISH = "en"

LANGUAGES = (ENGLISH, "es")
"""Languages that have a catalogue, and English."""

_SPOKEN: ContextVar[str] = ContextVar("language", default=ENGLISH)


@contextmanager
def spoken_in(language: str) -> Iterator[None]:
    """Word everything inside in one language.

    A public function that words anything takes the language as an argument and opens
    this around its work, so that what it returns depends on its arguments alone.

    Parameters
    ----------
    language : str
        One of `LANGUAGES`.

    Raises
    ------
    ValueError
        If there is no catalogue for it.
    """
    if language not in LANGUAGES:
        raise ValueError(f'language must be one of {", ".join(LANGUAGES)}, got "{language}".')
    token = _SPOKEN.set(language)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def language_spoken() -> str:
    """Give the language in force.

    Returns
    -------
    str
        One of `LANGUAGES`.
    """
    return _SPOKEN.get()


def phrase(text: str, /, **gaps: object) -> str:
    """Word a sentence, or a part that stands by itself.

    Parameters
    ----------
    text : str
        In English, its gaps in braces.
    **gaps : object
        What fills them.

    Returns
    -------
    str
    """
    return _catalogue(_SPOKEN.get()).gettext(text).format(**gaps)


def phrase_as(where: str, text: str, /, **gaps: object) -> str:
    """Word a short text whose meaning depends on where it stands.

    Parameters
    ----------
    where : str
        What tells it from the same English words elsewhere.
    text : str
        In English, its gaps in braces.
    **gaps : object
        What fills them.

    Returns
    -------
    str
    """
    return _catalogue(_SPOKEN.get()).pgettext(where, text).format(**gaps)


def phrase_for(count: int, one: str, many: str, /, **gaps: object) -> str:
    """Word a sentence that counts something.

    Parameters
    ----------
    count : int
        How many; it also fills the gap ``count``.
    one, many : str
        In English, for one and for any other number.
    **gaps : object
        What fills the other gaps.

    Returns
    -------
    str
    """
    worded = _catalogue(_SPOKEN.get()).ngettext(one, many, count)
    return worded.format(count=f"{count:,}", **gaps)


def noted(text: str, /) -> str:
    """Mark a text for the catalogue where it stands, to be worded when it is used.

    Parameters
    ----------
    text : str
        In English; `phrase` gets it later.

    Returns
    -------
    str
        The same text.
    """
    return text


@cache
def _catalogue(language: str) -> gettext.NullTranslations:
    if language == ENGLISH:
        return gettext.NullTranslations()
    path = files("quarterwalk") / "locale" / language / "LC_MESSAGES" / "quarterwalk.mo"
    with path.open("rb") as file:
        return gettext.GNUTranslations(file)
