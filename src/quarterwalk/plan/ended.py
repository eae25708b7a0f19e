"""Whether a walk that names a stop plan ended as the plan says."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quarterwalk.plan.plan import Look, Plan, Row, Side
from quarterwalk.plan.question import Lost, Question
from quarterwalk.reading import Reading
from quarterwalk.walk import QUADRANTS


class Fault(StrEnum):
    """Why a plan does not cover the end of a walk."""

    OTHER_QUESTION = "other-question"  # it answers another line or floor
    NOT_AT_A_LOOK = "not-at-a-look"  # the plants are not those of a look, quarter by quarter
    SAID_GO_ON = "said-go-on"  # the counts did not allow an end
    TOO_MANY_PLANTS = "too-many-plants"  # they reach the same number more easily
    NOT_READABLE = "not-readable"  # no call says treat where the squares can't be read
    QUARTERS_UNLIKE = "quarters-unlike"  # weighed alike, they say something else


class Limit(StrEnum):
    """By which limit a walk ended."""

    INSECTS_LOW = "insects-low"
    LOST_LOW = "lost-low"
    SUM_LOW = "sum-low"
    HIGH = "high"


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
    limit : Limit or None
        By which limit it ended; None where the counts do not allow an end.
    """

    plan: Plan
    side: Side
    fault: Fault | None
    limit: Limit | None = None


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
    lost = _lost(question, reading)
    squares = 0 if question.bar is None else reading.squares
    side = look.side(reading.insects, lost, squares)
    limit = _limit(look.row_for(squares), reading.insects, lost)
    return Ended(plan, side, _fault(side, look, question, reading), limit)


def _fault(side: Side, look: Look, question: Question, reading: Reading) -> Fault | None:
    if side is Side.GO_ON:
        return Fault.SAID_GO_ON
    if side is Side.TREAT and reading.plants != look.plants:
        return Fault.TOO_MANY_PLANTS
    if side is Side.TREAT and question.bar is not None and not reading.set_readable:
        return Fault.NOT_READABLE
    if (side is Side.TREAT) != _is_past(question, reading):
        return Fault.QUARTERS_UNLIKE
    return None


def _limit(row: Row | None, insects: int, lost: int) -> Limit | None:
    if row is None:
        return None
    if insects <= row.insects_low:
        return Limit.INSECTS_LOW
    if lost <= row.lost_low:
        return Limit.LOST_LOW
    if insects + lost <= row.sum_low:
        return Limit.SUM_LOW
    return Limit.HIGH if row.treats(insects, lost) else None


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


def _lost(question: Question, reading: Reading) -> int:
    if question.bar is None:
        return 0
    losses = reading.losses
    return losses.blasted if question.bar.lost is Lost.BLASTED else losses.total
