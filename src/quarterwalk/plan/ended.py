"""Whether a walk that names a stop plan ended as the plan says."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quarterwalk.plan.plan import Look, Plan, Side
from quarterwalk.plan.question import Lost, Question
from quarterwalk.reading import Reading
from quarterwalk.walk import QUADRANTS


class Fault(StrEnum):
    """Why a plan does not cover the end of a walk."""

    OTHER_QUESTION = "other-question"  # it answers another line or floor
    NOT_AT_A_LOOK = "not-at-a-look"  # the plants are not those of a look, quarter by quarter
    SAID_GO_ON = "said-go-on"  # the counts did not allow an end


@dataclass(frozen=True, slots=True)
class Ended:
    """How a walk ended by a plan.

    Parameters
    ----------
    plan : Plan
        The plan.
    side : Side
        What the counts say at the look that the walk had reached.
    fault : Fault or None
        Why the plan does not cover the end; None where it does.
    """

    plan: Plan
    side: Side
    fault: Fault | None


def ended_by(plan: Plan, question: Question, reading: Reading) -> Ended:
    """Look a walk's counts up in the plan that it names.

    Parameters
    ----------
    plan : Plan
        The plan.
    question : Question
        What the walk is judged by.
    reading : Reading
        Of the walk.

    Returns
    -------
    Ended
        What the counts say, and why the plan does not cover the end, where it does not.
    """
    if plan.question != question:
        return Ended(plan, Side.GO_ON, Fault.OTHER_QUESTION)
    look = next((each for each in plan.looks if _is_at(each, reading)), None)
    if look is None:
        return Ended(plan, Side.GO_ON, Fault.NOT_AT_A_LOOK)
    asked = question.bar is not None
    side = look.side(reading.insects, _lost(question, reading), reading.squares if asked else 0)
    if side is Side.TREAT and not _may_treat(look, reading, asked=asked):
        side = Side.GO_ON
    if side is not Side.GO_ON and (side is Side.TREAT) != _is_past(question, reading):
        side = Side.GO_ON
    return Ended(plan, side, Fault.SAID_GO_ON if side is Side.GO_ON else None)


# A quarter may have one plant more than the look asks for: stops are counted in a row, and
# one too many is soon checked (this project's rule). [count]
_SPARE = 1


def _is_at(look: Look, reading: Reading) -> bool:
    """Tell whether a walk has the plants of a look in every quarter."""
    share = look.plants // len(QUADRANTS)
    return len(reading.quadrants) == len(QUADRANTS) and all(
        share <= each.plants <= share + _SPARE for each in reading.quadrants
    )


def _is_past(question: Question, reading: Reading) -> bool:
    """Tell whether a walk is past the line and the bar, each quarter weighed alike.

    The plan looks at sums; where quarters have unlike numbers of plants the call may see
    something else in the same counts, and a plan must not speak against it.
    """
    if reading.per_100 is None or reading.per_100 < question.line:
        return False
    if question.bar is None:
        return True
    if question.bar.lost is Lost.BLASTED:
        return reading.blasted_share is not None and reading.blasted_share >= question.bar.share
    return reading.square_set is not None and 1 - reading.square_set > question.bar.share


def _may_treat(look: Look, reading: Reading, *, asked: bool) -> bool:
    """Tell whether counts that are high enough stand for treating.

    More plants than the look has reach the same number more easily; and no call says treat
    where the squares that it asks for can't be read.
    """
    return reading.plants == look.plants and (reading.set_readable or not asked)


def _lost(question: Question, reading: Reading) -> int:
    if question.bar is None:
        return 0
    losses = reading.losses
    return losses.blasted if question.bar.lost is Lost.BLASTED else losses.total
