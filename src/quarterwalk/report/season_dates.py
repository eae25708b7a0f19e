"""Days and ranges of days in a season's sentences: those of another year carry it."""

from __future__ import annotations

from datetime import date

from quarterwalk.picture.season_words import date_word, dates_long
from quarterwalk.words import phrase_as


def day_told(day: date, on: date) -> str:
    """Write a day, such as ``24 June``.

    Parameters
    ----------
    day : date
        The day.
    on : date
        The day for which the season is told.

    Returns
    -------
    str
        With its year where that is another one, such as ``3 January 2027``.
    """
    return _with_year(date_word(day), day.year, on)


def days_told(first: date, last: date, on: date) -> str:
    """Write a range of days in words, such as ``14 to 21 July``.

    Parameters
    ----------
    first, last : date
        Its ends.
    on : date
        The day for which the season is told.

    Returns
    -------
    str
        One day where both are the same; with years where they are others.
    """
    if first.year == last.year:
        return _with_year(dates_long(first, last), first.year, on)
    return phrase_as(
        "days", "{first} to {last}", first=day_told(first, on), last=day_told(last, on)
    )


def _with_year(told: str, year: int, on: date) -> str:
    return told if year == on.year else phrase_as("date", "{day} {year}", day=told, year=year)
