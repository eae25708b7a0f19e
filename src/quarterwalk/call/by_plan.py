"""How a walk that names a stop plan ended, and what that means for its call."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from quarterwalk.call.figures import listed
from quarterwalk.call.rule import Bounds
from quarterwalk.call.verdict import Reason
from quarterwalk.guideline import Guideline
from quarterwalk.plan import (
    Ended,
    Fault,
    Limit,
    Lost,
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
    text = phrase(
        "The walk ended after {plants} plants, as stop plan {plan} allows {why}.",
        plants=reading.plants,
        plan=ended.plan.short,
        why=_why(ended),
    )
    yield Reason("ended-by-plan", text)


def _why(ended: Ended) -> str:
    """Name what was found so little or so much of that the rest need not be looked at."""
    bar = ended.plan.question.bar
    blasted = bar is not None and bar.lost is Lost.BLASTED
    if ended.limit is Limit.INSECTS_LOW:
        return phrase("with so few insects")
    if ended.limit is Limit.LOST_LOW and blasted:
        return phrase("with so few blasted squares")
    if ended.limit is Limit.LOST_LOW:
        return phrase("with so few lost squares")
    if ended.limit is Limit.SUM_LOW and blasted:
        return phrase("with so few insects and blasted squares together")
    if ended.limit is Limit.SUM_LOW:
        return phrase("with so few insects and lost squares together")
    if blasted:
        return phrase("with so many insects and blasted squares")
    if bar is not None:
        return phrase("with so many insects and lost squares")
    return phrase("with so many insects")


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
    yield Reason("plan-not-kept", _not_kept(ended))


def _not_kept(ended: Ended) -> str:
    plan, plants = ended.plan.short, [str(look.plants) for look in ended.plan.looks]
    if ended.fault is Fault.OTHER_QUESTION:
        return phrase("Stop plan {plan} is for another line or floor.", plan=plan)
    if ended.fault is Fault.NOT_AT_A_LOOK:
        return phrase(
            "Stop plan {plan} lets a walk end after {plants} plants, the same number in every"
            " quarter.",
            plan=plan,
            plants=listed(plants, "or"),
        )
    if ended.fault is Fault.TOO_MANY_PLANTS:
        return phrase(
            "Stop plan {plan} lets a walk end to treat after {plants} plants, and not one more.",
            plan=plan,
            plants=listed(plants, "or"),
        )
    if ended.fault is Fault.NOT_READABLE:
        return phrase(
            "Stop plan {plan} lets a walk end to treat only where square set can be read.",
            plan=plan,
        )
    if ended.fault is Fault.QUARTERS_UNLIKE:
        return phrase(
            "Squares were checked on more plants in one quarter than in another. With every"
            " quarter weighed alike, stop plan {plan} does not end this walk.",
            plan=plan,
        )
    return phrase("By stop plan {plan} these counts did not end the walk.", plan=plan)
