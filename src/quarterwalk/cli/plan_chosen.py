"""What ``plan`` and ``card`` were asked: the rule, the week, and the plans that may serve."""

from __future__ import annotations

import argparse
from dataclasses import dataclass

from quarterwalk.call.figures import number
from quarterwalk.call.make import check_line
from quarterwalk.cli.chosen import chosen_guideline
from quarterwalk.cli.plan_cache import plan_for
from quarterwalk.cli.plan_options import DESIGNS
from quarterwalk.errors import UsageError
from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, Guideline, SeasonEnd
from quarterwalk.plan import (
    USUAL_PACE,
    Pace,
    Question,
    Shelved,
    SquaresOn,
    Stopping,
    Wanted,
    question_for,
    squares_a_plant_in,
    squares_on_in,
)
from quarterwalk.plan.usual import first_square_plants
from quarterwalk.walk import Method

_TWO_LOOPS = DESIGNS[0]


@dataclass(frozen=True, slots=True)
class Chosen:
    """The rule, the week and the plans.

    Parameters
    ----------
    guideline : Guideline
        The region's rule.
    week : int
        Squaring week, from 1.
    question : Question
        What decides under the rule in that week.
    stopping : Stopping
        For what a walk may end early.
    squares_on : SquaresOn
        On which plants squares are counted.
    squares_a_plant : float
        First positions on a plant; 0 where squares are not asked. [count per plant]
    pace : Pace
        Of the scout.
    plans : tuple of Shelved
        One for each design of loops that may serve, the fewest loops first.
    """

    guideline: Guideline
    week: int
    question: Question
    stopping: Stopping
    squares_on: SquaresOn
    squares_a_plant: float
    pace: Pace
    plans: tuple[Shelved, ...]

    def square_plants(self, loops: tuple[int, ...]) -> int:
        """Say on how many plants of the first loop squares are counted. [count]"""
        return first_square_plants(self.squares_on, self.week, loops)


def chosen_plans(options: argparse.Namespace) -> Chosen:
    """Find the plans that the command line asks for, or say why there are none.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk plan`` or ``quarterwalk card``.

    Returns
    -------
    Chosen
        With one plan or more.

    Raises
    ------
    UsageError
        If no stop plan can follow the rule, or what was asked does not fit it.
    """
    guideline = chosen_guideline(options.guideline)
    question = _question(guideline, options)
    squares_on = squares_on_in(question, options.week)
    stopping = Stopping(options.stop)
    designs = _designs(squares_on, options.loops)
    each = _squares_a_plant(question, options)
    plans = tuple(plan_for(Wanted(question, stopping, squares_on, loops)) for loops in designs)
    pace = Pace(
        options.seconds_squares or USUAL_PACE.seconds_with_squares,
        options.seconds_insects or USUAL_PACE.seconds_insects,
        options.pace or USUAL_PACE.metres_a_minute,
    )
    chosen = Chosen(guideline, options.week, question, stopping, squares_on, each, pace, plans)
    _refuse_few_squares(chosen)
    return chosen


def _question(guideline: Guideline, options: argparse.Namespace) -> Question:
    """Give what decides, or refuse the rule, the week or the line."""
    name = guideline.name
    if guideline.method is not Method.TERMINAL:
        raise UsageError(
            f"no walk of {name} may end early: a stop plan needs insects counted on terminals,"
            f" this rule has the {_METHODS[guideline.method]}. Walk all of it."
        )
    if guideline.half_line is not None:
        raise UsageError(
            f"no walk of {name} may end early: low square set halves its line, and a stop plan"
            " needs one line. Walk all of it."
        )
    last = CLOSEST_WATCH_WEEKS
    if guideline.season_end is SeasonEnd.WEEK_3 and options.week > last:
        raise UsageError(
            f"--week must be 1 to {last} for {name}, whose rule ends after week {last},"
            f" got {options.week}."
        )
    if options.line is not None:
        check_line(guideline, options.line)
    question = question_for(guideline, options.week, options.line)
    if question is None:
        raise UsageError(f"no stop plan can follow {name}. Walk all of it.")
    return question


_METHODS = {
    Method.SWEEP: "sweep net",
    Method.WHOLE_PLANT: "whole plant",
    Method.BUCKET: "bucket",
}


def _designs(squares_on: SquaresOn, asked: tuple[int, ...] | None) -> tuple[tuple[int, ...], ...]:
    """Give the designs of loops that may serve."""
    if squares_on is not SquaresOn.FIRST_LOOP:
        return DESIGNS if asked is None else (asked,)
    if asked not in (None, _TWO_LOOPS):
        raise UsageError(
            "--loops must be 2+3 from week 2 on: squares are counted in the first loop, and one"
            " of 20 plants has too few."
        )
    return (_TWO_LOOPS,)


def _squares_a_plant(question: Question, options: argparse.Namespace) -> float:
    asked: float | None = options.squares_a_plant
    if question.bar is None:
        if asked is not None:
            raise UsageError(
                f"--squares-a-plant must be left out: {options.guideline} asks for no squares."
            )
        return 0.0
    return squares_a_plant_in(options.week) if asked is None else asked


def _refuse_few_squares(chosen: Chosen) -> None:
    """Refuse fewer squares than any row has: no walk could end early."""
    if chosen.question.bar is None:
        return
    loops = chosen.plans[0].plan.loops
    plants = chosen.square_plants(loops)
    least = chosen.plans[0].plan.looks[0].rows[0].squares
    if round(plants * chosen.squares_a_plant) < least:
        raise UsageError(
            f"--squares-a-plant must come to {least} squares or more on the {plants} plants of"
            f" the first loop whose squares are counted, got {chosen.squares_a_plant:g}"
            f" a plant: {plants * chosen.squares_a_plant:g} squares."
        )


def bar_words(question: Question, joiner: str = "and") -> str:
    """Say what the squares must show, after what the insects must."""
    bar = question.bar
    if bar is None:
        return ""
    if bar.lost.value == "blasted":
        return f" {joiner} {number(100 * bar.share)} % or more of the squares blasted"
    return f" {joiner} square set under {number(100 * (1 - bar.share))} %"
