"""A season's picture for those who hear it: its sums and its days, in the order of the eye."""

from __future__ import annotations

import math
from collections.abc import Iterator

from quarterwalk.call.figures import capital
from quarterwalk.call.verdict import verdict_words
from quarterwalk.picture.season_drawn import SeasonDrawn
from quarterwalk.picture.season_marks import days_told, planted_mark
from quarterwalk.picture.season_now import known_day, others_range, range_word, sum_word
from quarterwalk.picture.season_words import date_word, dates_long
from quarterwalk.words import phrase


def season_heard(drawn: SeasonDrawn) -> str:
    """Tell what the picture of a season shows.

    Parameters
    ----------
    drawn : SeasonDrawn
        The season.

    Returns
    -------
    str
        A few sentences in the language spoken.
    """
    groups = (_heat(drawn), _events(drawn), _weeks(drawn), _walks(drawn))
    told = ["; ".join(each for each in group if each) for group in groups]
    return " ".join(f"{capital(each)}." for each in told if each)


def _heat(drawn: SeasonDrawn) -> Iterator[str]:
    number, others, (low, _, high) = sum_word(drawn), others_range(drawn), drawn.ahead
    if number:
        told = phrase("{number} heat units", number=number)
        until = phrase("until {day}", day=date_word(known_day(drawn)))
        yield f"{told}, {until}"
    else:
        yield phrase("heat units not known")
    if others:
        yield phrase("other years {range}", range=others)
    if len(low) and math.isfinite(float(low[-1]) + float(high[-1])):
        told = phrase("likely {range}", range=range_word(float(low[-1]), float(high[-1])))
        by = phrase("by {day}", day=date_word(drawn.last))
        yield f"{told} {by}"


def _events(drawn: SeasonDrawn) -> Iterator[str]:
    for mark in (planted_mark(drawn), *drawn.marks):
        yield f"{' '.join(mark.name.split())} {days_told(mark)[0]}"


def _weeks(drawn: SeasonDrawn) -> Iterator[str]:
    week = phrase("squaring week")
    for number, (first, last) in enumerate(drawn.weeks, start=1):
        if first <= drawn.last and last >= drawn.planted:
            yield f"{week} {number}, {dates_long(first, last)}"


def _walks(drawn: SeasonDrawn) -> Iterator[str]:
    """Tell walks, sprays and the next look in the order of their days."""
    shown = (walk for walk in drawn.walks if drawn.planted <= walk.on <= drawn.last)
    days = [
        (
            walk.on,
            phrase("walk {day}", day=date_word(walk.on))
            + ("" if walk.verdict is None else f", {verdict_words(walk.verdict).lower()}"),
        )
        for walk in shown
    ]
    days += [(day, phrase("sprayed {day}", day=date_word(day))) for day in set(drawn.treated)]
    yield from (told for _, told in sorted(days))
    if drawn.next_look is not None:
        yield phrase("next look {days}", days=dates_long(*drawn.next_look))
