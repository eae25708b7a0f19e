"""Questions, limits and plans made to order for the tests of stop plans."""

from __future__ import annotations

from fractions import Fraction

from quarterwalk.plan import (
    Look,
    Lost,
    Plan,
    Question,
    Row,
    SquareBar,
    SquaresOn,
    Stopping,
)
from quarterwalk.plan.course import Course, Stretch

FLOOR_85 = Question(Fraction(25), SquareBar(Fraction(15, 100)))
"""25 insects per 100 plants, and set under 85 %."""

BLASTED_10 = Question(Fraction(25), SquareBar(Fraction(1, 10), Lost.BLASTED))
"""25 insects per 100 plants, and a tenth of the squares blasted or more."""

ALONE_15 = Question(Fraction(15))
"""15 insects per 100 plants, whatever the squares."""

# A rotation: 20 plants, then five at a time, three squares on each.
ROTATION = Course(FLOOR_85, (Stretch(4, 20, 60), *(Stretch(1, 5, 15),) * 16))

# Limits of walks in loops with three squares a plant, found by hand for the .85 floor.
HOLD_BY_EITHER = Row(120, 5, 18)
HOLD_BY_SUM = Row(120, 5, 13, 25)
EITHER_WAY = Row(120, 5, 15, 27, 13, 21)
THREE_LOOP_ROWS = (Row(60, 0, 5, 10, 9, 13), Row(180, 10, 25, 41, 18, 29))


def two_loops(
    question: Question,
    *rows: Row,
    stopping: Stopping = Stopping.EITHER_WAY,
    squares_on: SquaresOn = SquaresOn.EVERY_PLANT,
) -> Plan:
    """Give a plan with one look after 40 plants."""
    squares_on = squares_on if question.bar else SquaresOn.NONE
    return Plan(question, stopping, squares_on, (2, 3), (Look(40, rows),))


def three_loops(question: Question, first: Row, second: Row) -> Plan:
    """Give a plan with looks after 20 and 60 plants and one row at each."""
    squares_on = SquaresOn.EVERY_PLANT if question.bar else SquaresOn.NONE
    looks = (Look(20, (first,)), Look(60, (second,)))
    return Plan(question, Stopping.EITHER_WAY, squares_on, (1, 2, 2), looks)
