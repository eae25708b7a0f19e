"""What a walk is like in a squaring week: where squares are counted, and how many."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.guideline import load_routine
from quarterwalk.plan.numbers import number
from quarterwalk.plan.plan import SquaresOn
from quarterwalk.plan.question import Question
from quarterwalk.walk import QUADRANTS

_SECOND = 2


def squares_on_in(question: Question, week: int | None) -> SquaresOn:
    """Say on which plants squares are counted in a squaring week.

    Parameters
    ----------
    question : Question
        Whether it asks for squares.
    week : int or None
        Squaring week, from 1; None while blooming.

    Returns
    -------
    SquaresOn
        Every plant in week 1; later they are all found in the first loop.
    """
    if question.bar is None:
        return SquaresOn.NONE
    return SquaresOn.EVERY_PLANT if week == 1 else SquaresOn.FIRST_LOOP


def first_square_plants(squares_on: SquaresOn, week: int | None, loops: Sequence[int]) -> int:
    """Say on how many plants of the first loop squares are counted. [count]

    Parameters
    ----------
    squares_on : SquaresOn
        Where they are counted.
    week : int or None
        Squaring week, from 1; None while blooming.
    loops : sequence of int
        Stops in each quadrant, loop by loop. [count]
    """
    routine = load_routine()
    plants = len(QUADRANTS) * loops[0] * routine.plants_a_stop
    if squares_on is SquaresOn.NONE:
        return 0
    if squares_on is SquaresOn.EVERY_PLANT or week == 1:
        return plants
    in_quarter = routine.square_plants_week_2 if week == _SECOND else routine.square_plants_later
    return min(plants, len(QUADRANTS) * in_quarter)


def squares_a_plant_in(week: int | None) -> float:
    """Say how many first positions a plant has in a squaring week.

    Parameters
    ----------
    week : int or None
        Squaring week, from 1; None while blooming.

    Returns
    -------
    float
        [count per plant]
    """
    return number("squares", f"week_{week}" if week in (1, _SECOND) else "later")
