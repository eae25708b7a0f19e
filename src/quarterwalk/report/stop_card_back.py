"""The back of the card: how often it gives the other answer, and what it saves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from quarterwalk.call.figures import listed
from quarterwalk.plan import (
    NOMINAL,
    USUAL_PACE,
    Cost,
    Lost,
    Pace,
    Question,
    course_of,
    outcomes,
)
from quarterwalk.plan.columns import columns
from quarterwalk.units import FOOT_M
from quarterwalk.words import phrase, phrase_as

# True values told on the back: insects as a multiple of the line, square set as its distance
# from the floor. From a clear field over both sides of the lines to a bad one (this project's
# rule).
_TOLD = (
    (0.2, 0.07), (0.4, -0.08), (0.8, -0.04), (0.96, -0.04), (1.04, -0.04),
    (1.2, 0.03), (1.4, -0.08), (2.0, -0.15),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class TrueField:
    """What the full walk and the card come to in a field with known true values.

    Parameters
    ----------
    density : float
        Insects per plant. [count per plant]
    share : float
        Lost share of the squares. [fraction]
    treat : bool
        Whether it is truly to be treated.
    by_full_walk, by_card : float
        Chance that the answer is to treat. [fraction]
    plants, minutes : float
        Means by the card. [count, minutes]
    """

    density: float
    share: float
    treat: bool
    by_full_walk: float
    by_card: float
    plants: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Place:
    """For which field and which scout the minutes are.

    Parameters
    ----------
    field : str
        The field's name; empty for a square field.
    acres : float
        Its size. [acre]
    pace : Pace
        Of the scout.
    """

    field: str
    acres: float
    pace: Pace = USUAL_PACE


@dataclass(frozen=True, slots=True)
class Told:
    """Sentences under a head."""

    head: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CardBack:
    """The back, worded.

    Parameters
    ----------
    title : str
        What it tells.
    group : str
        Over the two columns of answers.
    heads : tuple of str
        Of the columns of the table.
    rows : tuple of tuple of str
        One for each true field.
    told : tuple of Told
        Under the table.
    """

    title: str
    group: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    told: tuple[Told, ...]


def true_fields(cost: Cost) -> tuple[TrueField, ...]:
    """Work out what the full walk and the card come to, field by field.

    Parameters
    ----------
    cost : Cost
        The plan, its row, and the minutes by each look.

    Returns
    -------
    tuple of TrueField
        From a clear field to one that is surely to be treated.
    """
    plan, row = cost.shelved.plan, cost.row
    question = plan.question
    found: dict[tuple[float, float], None] = {}
    for times, set_off in _TOLD:
        share = 0.0 if question.bar is None else float(question.bar.share) - set_off
        density = times * float(question.line) / 100.0
        found[density, min(max(round(share, 12), 0.0), 1.0)] = None
    densities, shares = (np.array(each) for each in zip(*found, strict=True))
    by_card = outcomes(plan, row, densities, shares)
    by_full_walk = columns(course_of(plan, row), (NOMINAL,), densities, shares).full_walk()
    plants, minutes = by_card.mean(by_card.plants), by_card.mean(cost.by_look)
    return tuple(
        TrueField(d, q, question.treat(d, q), *map(float, rest))
        for (d, q), *rest in zip(
            found, by_full_walk, by_card.says_treat, plants, minutes, strict=True
        )
    )


def card_back(cost: Cost, place: Place) -> CardBack:
    """Word the back of a card.

    Parameters
    ----------
    cost : Cost
        The plan, its row and the minutes.
    place : Place
        For which field and scout the minutes are.

    Returns
    -------
    CardBack
        In the language spoken.
    """
    question = cost.shelved.plan.question
    asked = question.bar is not None
    squares = () if not asked else (_squares_head(question),)
    return CardBack(
        title=phrase("How far this card can be trusted"),
        group=phrase("Of 100 walks, so many say treat"),
        heads=(
            phrase("insects per 100"),
            *squares,
            phrase("right answer"),
            phrase_as("of 100 walks", "the full walk"),
            phrase_as("of 100 walks", "this card"),
            phrase_as("mean", "plants"),
            phrase_as("mean", "minutes"),
        ),
        rows=tuple(_row(each, question) for each in true_fields(cost)),
        told=(
            Told(phrase("Against the full walk"), _against(cost)),
            Told(phrase("What it saves"), _saves(cost, place)),
            Told(phrase("What is assumed"), _assumed(place.pace, asked=asked)),
            Told(
                phrase("What it does not say"),
                (
                    phrase("The call on the counts still decides between hold and look sooner."),
                    phrase(
                        "An early end tells less of how many insects there are than 100 plants do."
                    ),
                ),
            ),
        ),
    )


def _squares_head(question: Question) -> str:
    blasted = question.bar is not None and question.bar.lost is Lost.BLASTED
    return phrase("squares blasted") if blasted else phrase("square set")


def _row(field: TrueField, question: Question) -> tuple[str, ...]:
    squares = (
        () if question.bar is None else (f"{100 * squares_shown(question, field.share):.3g} %",)
    )
    return (
        f"{100 * field.density:.3g}",
        *squares,
        phrase_as("the right answer for a field", "treat")
        if field.treat
        else phrase_as("the right answer for a field", "do not treat"),
        of_100_walks(field.by_full_walk),
        of_100_walks(field.by_card),
        f"{field.plants:.0f}",
        f"{field.minutes:.0f}",
    )


def squares_shown(question: Question, share: float) -> float:
    """Give what people call a lost share: square set, or the blasted share itself. [fraction]"""
    blasted = question.bar is not None and question.bar.lost is Lost.BLASTED
    return share if blasted else 1.0 - share


def of_100_walks(chance: float) -> str:
    """Write a chance as walks out of 100; one decimal where few are on one side. [fraction]"""
    walks = 100.0 * chance
    if 0.05 <= walks < 9.95 or 90.05 < walks <= 99.95:
        return f"{walks:.1f}"
    return f"{walks:.0f}"


def of_100(shares: Sequence[float]) -> list[int]:
    """Write shares of a whole as walks out of 100.

    Parameters
    ----------
    shares : sequence of float
        They sum to 1. [fraction]

    Returns
    -------
    list of int
        They sum to 100: what rounding leaves goes to the largest remainders. [count]
    """
    whole = [int(100 * share) for share in shares]
    rest = sorted(range(len(shares)), key=lambda i: whole[i] - 100 * shares[i])
    for i in rest[: 100 - sum(whole)]:
        whole[i] += 1
    return whole


def _against(cost: Cost) -> tuple[str, ...]:
    figures = cost.shelved.figures
    ways = (
        phrase("That is the worst of four ways in which insects may lie in a field.")
        if cost.shelved.plan.question.bar is None
        else phrase(
            "That is the worst of four ways in which insects and lost squares may lie in a field,"
            " and of all rows of the plan."
        )
    )
    return (
        phrase(
            "In clear fields at most {clear} more walks in 100 give the wrong answer than full"
            " walks do; near the lines at most {near} more.",
            clear=f"{max(0.0, *(row.worst_clear for row in figures)):.1f}",
            near=f"{max(0.0, *(row.worst_near for row in figures)):.1f}",
        ),
        ways,
    )


# Fields smaller than this are told to a tenth of an acre. [acre]
_SMALL = 10.0


def _saves(cost: Cost, place: Place) -> tuple[str, ...]:
    figures, plan = cost.shelved.figures[cost.row], cost.shelved.plan
    counts = (*(look.plants for look in plan.looks), 100)
    ends = [
        phrase("{walks} end at {plants} plants", walks=walks, plants=plants)
        for walks, plants in zip(of_100(figures.ends), counts, strict=True)
        if walks
    ]
    acres = f"{place.acres:.0f}" if place.acres >= _SMALL else f"{place.acres:.1f}"
    if place.field:
        where = phrase("In {field}, {acres} acres", field=place.field, acres=acres)
    else:
        where = phrase("In a field of {acres} acres, as long as wide", acres=acres)
    return (
        phrase("Of 100 walks over the usual spread of fields, {ends}.", ends=listed(ends)),
        phrase(
            "{where}, that takes {minutes} minutes on average, {clear} in a clear field. The full"
            " walk in one tour takes {full}.",
            where=where,
            minutes=f"{cost.minutes:.0f}",
            clear=f"{cost.clear_minutes:.0f}",
            full=f"{cost.full_minutes:.0f}",
        ),
    )


def _assumed(pace: Pace, *, asked: bool) -> tuple[str, ...]:
    if asked:
        ways = (
            phrase(
                "The table: insects clumped from plant to plant as is usual, squares and"
                " stops no more alike than chance makes them."
            ),
            phrase(
                "The four ways: this one, and three in which squares of a plant and plants of a"
                " stop are alike, with insects twice as clumped, as clumped, or at random."
            ),
        )
        paced = phrase(
            "Minutes: {squares} seconds for a plant with its squares, {insects} for a terminal"
            " alone, {feet} feet a minute.",
            squares=f"{pace.seconds_with_squares:g}",
            insects=f"{pace.seconds_insects:g}",
            feet=f"{pace.metres_a_minute / float(FOOT_M):.0f}",
        )
    else:
        ways = (
            phrase(
                "The table: insects clumped from plant to plant as is usual, stops no"
                " more alike than chance makes them."
            ),
            phrase(
                "The four ways: this one, and three in which plants of a stop are alike, with"
                " insects twice as clumped, as clumped, or at random."
            ),
        )
        paced = phrase(
            "Minutes: {insects} seconds for a terminal, {feet} feet a minute.",
            insects=f"{pace.seconds_insects:g}",
            feet=f"{pace.metres_a_minute / float(FOOT_M):.0f}",
        )
    return (
        *ways,
        paced,
        phrase(
            "The usual spread of fields and the seconds are assumptions. They change plants and"
            " minutes, not the errors."
        ),
    )
