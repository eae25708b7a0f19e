"""The plans that the package should have: every packaged guideline, week and design."""

from __future__ import annotations

from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, guideline_names, load_guideline
from quarterwalk.plan.make import THREE_LOOPS, TWO_LOOPS, Wanted
from quarterwalk.plan.plan import SquaresOn, Stopping
from quarterwalk.plan.question import Question, question_for


def packaged_questions() -> tuple[Question, ...]:
    """Give what the packaged guidelines ask by their default lines, each once.

    Returns
    -------
    tuple of Question
        Rising by line and bar; nothing of a guideline that no plan can follow.
    """
    found: set[Question] = set()
    for name in guideline_names():
        for week in range(1, CLOSEST_WATCH_WEEKS + 1):
            question = question_for(load_guideline(name), week)
            if question is not None:
                found.add(question)
    return tuple(sorted(found, key=_order))


def packaged_plans() -> tuple[Wanted, ...]:
    """Give all plans that the package should have.

    Returns
    -------
    tuple of Wanted
        For each question both ways of stopping and both designs of loops; with squares in the
        first loop only, two loops, since a first loop of 20 plants has too few squares.
    """
    return tuple(
        Wanted(question, stopping, squares_on, loops)
        for question in packaged_questions()
        for stopping in Stopping
        for squares_on, loops in _designs(question)
    )


def _designs(question: Question) -> tuple[tuple[SquaresOn, tuple[int, ...]], ...]:
    if question.bar is None:
        return (SquaresOn.NONE, TWO_LOOPS), (SquaresOn.NONE, THREE_LOOPS)
    return (
        (SquaresOn.EVERY_PLANT, TWO_LOOPS),
        (SquaresOn.EVERY_PLANT, THREE_LOOPS),
        (SquaresOn.FIRST_LOOP, TWO_LOOPS),
    )


def _order(question: Question) -> tuple[object, ...]:
    bar = question.bar
    return (question.line, "" if bar is None else bar.lost.value, 0 if bar is None else bar.share)
