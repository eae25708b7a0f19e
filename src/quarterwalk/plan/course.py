"""The course of a walk: what each stretch of it adds, until all is checked."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from quarterwalk.guideline import load_routine
from quarterwalk.plan.plan import Plan, SquaresOn
from quarterwalk.plan.question import Question
from quarterwalk.walk import QUADRANTS


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of a walk between two looks.

    Parameters
    ----------
    stops : int
        Stops of five plants. [count]
    square_plants : int
        Plants on which squares are checked. [count]
    squares : int
        Squares checked on them. [count]
    """

    stops: int
    square_plants: int = 0
    squares: int = 0


@dataclass(frozen=True)
class Course:
    """A whole walk, stretch by stretch.

    Parameters
    ----------
    question : Question
        What it answers.
    stretches : tuple of Stretch
        After each but the last the walk may end.
    """

    question: Question
    stretches: tuple[Stretch, ...]

    @cached_property
    def plants(self) -> tuple[int, ...]:
        """Plants checked after each stretch. [count]"""
        each = load_routine().plants_a_stop
        stops = [stretch.stops for stretch in self.stretches]
        return tuple(each * sum(stops[: i + 1]) for i in range(len(stops)))

    @cached_property
    def squares(self) -> tuple[int, ...]:
        """Squares checked after each stretch. [count]"""
        each = [stretch.squares for stretch in self.stretches]
        return tuple(sum(each[: i + 1]) for i in range(len(each)))

    @cached_property
    def treat_insects(self) -> int:
        """The fewest insects with which the full walk says treat. [count]"""
        return self.question.least_insects(self.plants[-1])

    @cached_property
    def treat_lost(self) -> int:
        """The fewest lost squares with which the full walk says treat. [count]"""
        return self.question.least_lost(self.squares[-1])

    @cached_property
    def cap_insects(self) -> int:
        """A number of insects past which no limit lies, not even one on the sum. [count]"""
        return self.treat_insects + self.treat_lost + 1

    @cached_property
    def cap_lost(self) -> int:
        """A number of lost squares past which no limit lies. [count]"""
        return 0 if self.question.bar is None else self.treat_insects + self.treat_lost + 1


def walked(
    question: Question, loops: tuple[int, ...], squares_on: SquaresOn, first_squares: int
) -> Course:
    """Give the course of a walk in loops.

    Parameters
    ----------
    question : Question
        What it answers.
    loops : tuple of int
        Stops in each quadrant, loop by loop. [count]
    squares_on : SquaresOn
        On which plants squares are counted.
    first_squares : int
        Squares checked in the first loop; where they are counted on every plant the later
        loops have them in proportion, else none. [count]

    Returns
    -------
    Course
        One stretch a loop.
    """
    routine, quarters = load_routine(), len(QUADRANTS)
    stretches = []
    stops_before = 0
    for number, in_quarter in enumerate(loops):
        stops = quarters * in_quarter
        plants = routine.plants_a_stop * stops
        if question.bar is None or squares_on is SquaresOn.NONE:
            stretches.append(Stretch(stops))
        elif squares_on is SquaresOn.EVERY_PLANT:
            so_far = _share(first_squares, stops_before + stops, quarters * loops[0])
            before = _share(first_squares, stops_before, quarters * loops[0])
            stretches.append(Stretch(stops, plants, so_far - before))
        elif number == 0:
            # on fewer plants the same squares are more alike: the harder case is taken
            fewest = min(plants, quarters * routine.square_plants_later)
            stretches.append(Stretch(stops, fewest, first_squares))
        else:
            stretches.append(Stretch(stops))
        stops_before += stops
    return Course(question, tuple(stretches))


def course_of(plan: Plan, row: int) -> Course:
    """Give the course that one row of a plan was made for.

    Parameters
    ----------
    plan : Plan
        A stop plan.
    row : int
        Which row of its looks, from 0.

    Returns
    -------
    Course
        One stretch a loop, with the row's squares.
    """
    first = plan.looks[0].rows[row].squares
    return walked(plan.question, plan.loops, plan.squares_on, first)


def _share(first: int, stops: int, first_stops: int) -> int:
    return (2 * first * stops + first_stops) // (2 * first_stops)
