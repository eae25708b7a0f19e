"""Days and ranges of days, as they stand in a drawing of a season."""

from __future__ import annotations

from datetime import date

from quarterwalk.words import noted, phrase, phrase_as

_MONTHS = (
    noted("January"), noted("February"), noted("March"), noted("April"), noted("May"),
    noted("June"), noted("July"), noted("August"), noted("September"), noted("October"),
    noted("November"), noted("December"),
)  # fmt: skip


def month_word(day: date) -> str:
    """Name the month of a day."""
    return phrase(_MONTHS[day.month - 1])


def date_word(day: date) -> str:
    """Write a day, such as ``24 June``."""
    return phrase("{day} {month}", day=day.day, month=month_word(day))


def dates_long(first: date, last: date) -> str:
    """Write a range of days in words, such as ``14 to 21 July``.

    Parameters
    ----------
    first, last : date
        Its ends.

    Returns
    -------
    str
        One day where both are the same.
    """
    if first == last:
        return date_word(first)
    if (first.year, first.month) == (last.year, last.month):
        return phrase(
            "{first} to {last} {month}", first=first.day, last=last.day, month=month_word(last)
        )
    return phrase_as("days", "{first} to {last}", first=date_word(first), last=date_word(last))


def dates_short(first: date, last: date) -> str:
    """Write a range of days with a dash, such as ``14–21 July``.

    Parameters
    ----------
    first, last : date
        Its ends.

    Returns
    -------
    str
        One day where both are the same.
    """
    if first == last:
        return date_word(first)
    if (first.year, first.month) == (last.year, last.month):
        return phrase(
            "{first}–{last} {month}", first=first.day, last=last.day, month=month_word(last)
        )
    return phrase("{first} – {last}", first=date_word(first), last=date_word(last))
