"""The card "May I stop yet?": the limits of a stop plan on paper, front and back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from quarterwalk.call import Verdict
from quarterwalk.guideline import Guideline
from quarterwalk.picture import Theme, verdict_mark
from quarterwalk.plan import Cost, Look, Plan, Row, Stopping
from quarterwalk.report.names import clipped, plain
from quarterwalk.report.stop_card_back import CardBack, Place, card_back
from quarterwalk.report.stop_card_words import CardWords, Rule, about, card_words, look_title, rules
from quarterwalk.words import spoken_in

ONE_LOOK_ROWS, EACH_LOOK_ROWS = 11, 5
"""Rows that fit at 24 points or more: on a card with one look, and for each of two. [count]"""

# What fits at the head of the card. [characters]
_LONGEST_NAME = 44


@dataclass(frozen=True, slots=True)
class Box:
    """A large number, where insects decide alone.

    Parameters
    ----------
    head : str
        What the number is.
    number : str
        One limit, or two with a dash.
    then : str
        What to do.
    high : bool
        Whether it is printed white on black.
    """

    head: str
    number: str
    then: str
    high: bool = False


@dataclass(frozen=True, slots=True)
class CardLook:
    """One look of the card.

    Parameters
    ----------
    title : str
        After which loop, and on how many plants.
    rows : tuple of Row
        The limits, with squares rising; one row where insects decide alone.
    boxes : tuple of Box
        The same as large numbers, where insects decide alone; else empty.
    """

    title: str
    rows: tuple[Row, ...]
    boxes: tuple[Box, ...] = ()


@dataclass(frozen=True, slots=True)
class StopCard:
    """A card as it will be printed, on paper or as a page; every text is worded already.

    Parameters
    ----------
    language : str
        What it is worded in.
    on : date
        The day that it was made for.
    field : str
        Name of the field, or what stands for one.
    about : tuple of str
        Week, and line with floor, for the head.
    plan : Plan
        Whose limits it shows.
    looks : tuple of CardLook
        In the order of walking.
    highs : bool
        Whether the walk may end to treat.
    squares : bool
        Whether squares decide too.
    rules : tuple of Rule
        What to do, from the first that fits.
    marks : tuple of str
        A drawing, as SVG, for each rule; empty where it has none.
    words : CardWords
        All that is the same for every number.
    back : CardBack
        How far the card may be trusted.
    """

    language: str
    on: date
    field: str
    about: tuple[str, ...]
    plan: Plan
    looks: tuple[CardLook, ...]
    highs: bool
    squares: bool
    rules: tuple[Rule, ...]
    marks: tuple[str, ...]
    words: CardWords
    back: CardBack


def stop_card(
    cost: Cost,
    guideline: Guideline,
    week: int,
    *,
    place: Place,
    square_plants: int,
    on: date,
    language: str = "en",
) -> StopCard:
    """Make the card of one plan.

    Parameters
    ----------
    cost : Cost
        The plan, the row of the usual number of squares, and the minutes.
    guideline : Guideline
        The rule that it follows.
    week : int
        Squaring week, from 1.
    place : Place
        The field and the scout, for the minutes on the back.
    square_plants : int
        Plants of the first loop whose squares are counted. [count]
    on : date
        The day that it is made for.
    language : str
        What the card is worded in, ``en`` or ``es``.

    Returns
    -------
    StopCard
        Worded, and ready for paper or page.
    """
    plan = cost.shelved.plan
    asked = plan.question.bar is not None
    field = clipped(plain(place.field), _LONGEST_NAME)
    highs = plan.stopping is Stopping.EITHER_WAY
    most = ONE_LOOK_ROWS if len(plan.looks) == 1 else EACH_LOOK_ROWS
    with spoken_in(language):
        told = rules(plan.question, highs=highs)
        words = card_words(plan, guideline, week, square_plants)
        looks = tuple(
            CardLook(
                look_title(loop, look.plants),
                _shown(look, cost.row, most),
                () if asked else _boxes(look.rows[0], words, told),
            )
            for loop, look in enumerate(plan.looks, start=1)
        )
        return StopCard(
            language=language,
            on=on,
            field=field,
            about=about(plan.question, week),
            plan=plan,
            looks=looks,
            highs=highs,
            squares=asked,
            rules=told,
            marks=tuple(_mark(rule.verdict, language) for rule in told),
            words=words,
            back=card_back(cost, replace(place, field=field)),
        )


def runs(values: Sequence[int | None]) -> list[tuple[int | None, int]]:
    """Gather equal numbers that follow one another, so that each is printed once.

    Parameters
    ----------
    values : sequence of int or None
        Limits, row by row. [count]

    Returns
    -------
    list of (int or None, int)
        Each number and over how many rows it holds.
    """
    found: list[tuple[int | None, int]] = []
    for value in values:
        if found and found[-1][0] == value:
            found[-1] = (value, found[-1][1] + 1)
        else:
            found.append((value, 1))
    return found


def low(limit: int) -> int | None:
    """Give a lower limit; None where no count is few enough. [count]"""
    return None if limit < 0 else limit


def said(limit: int | None) -> str:
    """Write a limit; a dash where there is none."""
    return "–" if limit is None else str(limit)


def _boxes(row: Row, words: CardWords, told: Sequence[Rule]) -> tuple[Box, ...]:
    """Set the limits on insects side by side, and between them where the walk goes on."""
    first, high = row.insects_low + 1, row.insects_high
    boxes = [Box(words.low, str(row.insects_low), told[0].then)] if first > 0 else []
    if high is None:
        number = str(first) if boxes else words.go_on
        boxes.append(Box(words.or_more if boxes else words.any, number, told[-1].then))
        return tuple(boxes)
    if first < high:
        number = str(first) if first == high - 1 else f"{first}–{high - 1}"
        boxes.append(Box(words.between if boxes else words.fewer, number, told[-1].then))
    return (*boxes, Box(words.high, str(high), told[1].then, high=True))


def _shown(look: Look, usual: int, most: int) -> tuple[Row, ...]:
    """Take the rows around the usual one."""
    first = max(0, min(usual - most // 2, len(look.rows) - most))
    return look.rows[first : first + most]


def _mark(verdict: Verdict | None, language: str) -> str:
    if verdict is None:
        return ""
    return verdict_mark(verdict, theme=Theme.PRINT, id=f"mark-{verdict.value}", language=language)
