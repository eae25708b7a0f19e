"""The headings of a season, and of the columns of its days."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.words import phrase, phrase_as, spoken_in


@dataclass(frozen=True, slots=True)
class SeasonTitles:
    """What stands above each part; `grower` keeps a gap for the name."""

    kind: str
    grower: str
    stands: str
    ahead: str
    doubts: str
    settle: str
    days: str
    footing: str
    care: str
    columns: tuple[str, ...]


def season_titles(language: str) -> SeasonTitles:
    """Give the headings in a language.

    Parameters
    ----------
    language : str
        One of `quarterwalk.words.LANGUAGES`.

    Returns
    -------
    SeasonTitles
        `columns` in the order of `SeasonDay`: event, likely, span, known, alone, code.
    """
    with spoken_in(language):
        return SeasonTitles(
            kind=phrase_as("heading of a season", "Season"),
            grower=phrase("for {grower}", grower="{grower}"),
            stands=phrase_as("heading of a season", "Where it stands"),
            ahead=phrase_as("heading of a season", "What comes next"),
            doubts=phrase_as("heading of a season", "What does not agree"),
            settle=phrase_as("heading of a season", "What would settle it"),
            days=phrase_as("heading of a season", "The days of the season"),
            footing=phrase_as("heading of a season", "What this stands on"),
            care=phrase_as("heading of a report", "Take care"),
            columns=(
                phrase_as("column of a season", "event"),
                phrase_as("column of a season", "likely"),
                phrase_as("column of a season", "8 times in 10"),
                phrase_as("column of a season", "how it is known"),
                phrase_as("column of a season", "by weather alone"),
                phrase_as("column of a season", "BBCH"),
            ),
        )
