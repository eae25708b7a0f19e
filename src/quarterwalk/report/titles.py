"""The headings of a report."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.words import phrase, phrase_as, spoken_in


@dataclass(frozen=True, slots=True)
class Titles:
    """What stands above each part; `grower` keeps a gap for the name."""

    grower: str
    why: str
    where: str
    sure: str
    next_look: str
    care: str


def titles(language: str) -> Titles:
    """Give the headings in a language.

    Parameters
    ----------
    language : str
        One of `quarterwalk.words.LANGUAGES`.

    Returns
    -------
    Titles
    """
    with spoken_in(language):
        return Titles(
            grower=phrase("for {grower}", grower="{grower}"),
            why=phrase_as("heading of a report", "Why"),
            where=phrase_as("heading of a report", "Where"),
            sure=phrase_as("heading of a report", "How sure"),
            next_look=phrase_as("heading of a report", "When we look again"),
            care=phrase_as("heading of a report", "Take care"),
        )
