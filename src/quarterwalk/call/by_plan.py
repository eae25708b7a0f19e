"""How a walk that names a stop plan ended, and what that means for its call."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from quarterwalk.call.figures import listed
from quarterwalk.call.rule import Bounds
from quarterwalk.call.verdict import Reason
from quarterwalk.guideline import Guideline
from quarterwalk.plan import (
    LEAST_DIGITS,
    Ended,
    Fault,
    Plan,
    Side,
    ended_by,
    question_for,
    shelved_named,
)
from quarterwalk.reading import Reading
from quarterwalk.words import phrase


def plan_named(reading: Reading, plans: Sequence[Plan]) -> Plan | None:
    """Find the stop plan that a walk names.

    Parameters
    ----------
    reading : Reading
        Of the walk.
    plans : sequence of Plan
        Known besides those of the package.

    Returns
    -------
    Plan or None
        None where it names none, or one that is not known.
    """
    if not reading.plan:
        return None
    shelved = shelved_named(reading.plan)
    if shelved is not None:
        return shelved.plan
    return next((plan for plan in plans if plan.named(reading.plan)), None)


def how_ended(
    reading: Reading,
    guideline: Guideline,
    bounds: Sequence[Bounds],
    line: Fraction | None,
    plans: Sequence[Plan],
) -> Ended | None:
    """Say how a walk ended by the plan that it names.

    Parameters
    ----------
    reading : Reading
        Of the walk.
    guideline : Guideline
        The region's rule.
    bounds : sequence of Bounds
        One for each squaring week that the dates allow: the plan must answer them all.
    line : Fraction or None
        A line chosen inside the published range. [insects per 100]
    plans : sequence of Plan
        Known besides those of the package.

    Returns
    -------
    Ended or None
        None where the walk names no plan that is known.
    """
    plan = plan_named(reading, plans)
    if plan is None:
        return None
    questions = {question_for(guideline, each.week, line) for each in bounds}
    if questions != {plan.question}:
        return Ended(plan, Side.GO_ON, Fault.OTHER_QUESTION)
    return ended_by(plan, plan.question, reading)


def covers(ended: Ended | None) -> bool:
    """Tell whether a plan stands for the plants that a walk did not check."""
    return ended is not None and ended.fault is None


def told(ended: Ended | None, reading: Reading) -> Iterator[Reason]:
    """Say that a walk ended by its plan.

    Parameters
    ----------
    ended : Ended or None
        How it ended.
    reading : Reading
        Of the walk.

    Yields
    ------
    Reason
        None where the plan does not cover the end.
    """
    if ended is None or ended.fault is not None:
        return
    if ended.side is Side.TREAT:
        text = phrase(
            "The walk ended after {plants} plants, as stop plan {plan} allows:"
            " so much was found that the whole walk would hardly say otherwise.",
            plants=reading.plants,
            plan=ended.plan.short,
        )
    else:
        text = phrase(
            "The walk ended after {plants} plants, as stop plan {plan} allows:"
            " so little was found that the whole walk would hardly say treat.",
            plants=reading.plants,
            plan=ended.plan.short,
        )
    yield Reason("ended-by-plan", text)


def not_covered(ended: Ended | None, reading: Reading) -> Iterator[Reason]:
    """Say why the plan that a short walk names does not stand for the plants it lacks.

    Parameters
    ----------
    ended : Ended or None
        How it ended; None where the plan is not known.
    reading : Reading
        Of the walk.

    Yields
    ------
    Reason
        None where the walk names no plan.
    """
    if not reading.plan or covers(ended):
        return
    if ended is None or ended.fault is None:
        yield Reason("unknown-plan", phrase("The stop plan named in the table is not known here."))
        return
    plan = ended.plan.hash[:LEAST_DIGITS]
    if ended.fault is Fault.OTHER_QUESTION:
        text = phrase("Stop plan {plan} is for another line or floor.", plan=plan)
    elif ended.fault is Fault.NOT_AT_A_LOOK:
        text = phrase(
            "Stop plan {plan} lets a walk end after {plants} plants, the same number in every"
            " quarter.",
            plan=plan,
            plants=listed([str(look.plants) for look in ended.plan.looks], "or"),
        )
    else:
        text = phrase("By stop plan {plan} these counts did not end the walk.", plan=plan)
    yield Reason("plan-not-kept", text)
