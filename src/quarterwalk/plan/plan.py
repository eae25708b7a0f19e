"""A stop plan: at which counts a walk may end before its hundredth plant."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import Any

from quarterwalk.plan.canonical import canonical
from quarterwalk.plan.question import Lost, Question, SquareBar

Json = dict[str, Any]

LEAST_DIGITS = 8
"""So many digits of a hash name a plan on paper. [count]"""


class Stopping(StrEnum):
    """For what a walk may end early."""

    HOLD_ONLY = "hold-only"  # not to treat; to treat, the walk is finished
    EITHER_WAY = "either-way"


class SquaresOn(StrEnum):
    """On which plants squares are counted."""

    NONE = "none"
    EVERY_PLANT = "every-plant"
    FIRST_LOOP = "first-loop"


class Side(StrEnum):
    """What the counts of a look say."""

    HOLD = "hold"  # end the walk: the field is not to be treated
    GO_ON = "go-on"
    TREAT = "treat"  # end the walk: the field is to be treated


@dataclass(frozen=True, slots=True)
class Row:
    """The limits of one look for one number of squares checked.

    Parameters
    ----------
    squares : int
        Squares checked by then; 0 where insects decide alone. [count]
    insects_low, lost_low, sum_low : int
        So many insects, lost squares, or insects and lost squares together, or fewer, end
        the walk: not to treat. -1 where none is few enough. [count]
    insects_high, lost_high : int or None
        So many insects and so many lost squares, or more, end the walk: to treat. None
        where no number is enough. [count]
    """

    squares: int
    insects_low: int = -1
    lost_low: int = -1
    sum_low: int = -1
    insects_high: int | None = None
    lost_high: int | None = None

    def holds(self, insects: int, lost: int) -> bool:
        """Tell whether the counts end the walk: not to treat."""
        return (
            insects <= self.insects_low or lost <= self.lost_low or insects + lost <= self.sum_low
        )

    def treats(self, insects: int, lost: int) -> bool:
        """Tell whether the counts end the walk: to treat."""
        if self.insects_high is None or self.lost_high is None:
            return False
        return insects >= self.insects_high and lost >= self.lost_high


@dataclass(frozen=True, slots=True)
class Look:
    """The end of one loop, where the counts are looked up.

    Parameters
    ----------
    plants : int
        Plants checked by then, the same number in each quadrant. [count]
    rows : tuple of Row
        With squares rising.
    """

    plants: int
    rows: tuple[Row, ...]

    def row_for(self, squares: int) -> Row | None:
        """Give the limits for a number of squares.

        Parameters
        ----------
        squares : int
            Squares checked so far; 0 where insects decide alone. [count]

        Returns
        -------
        Row or None
            Between two rows each limit lies on the straight line between theirs, those that
            hold rounded down and those that treat rounded up; where only one of them treats,
            the lower limits of the first stand and nothing treats, as they do past the last
            row. None with fewer squares than in the first row.
        """
        fewer = [row for row in self.rows if row.squares <= squares]
        more = [row for row in self.rows if row.squares >= squares]
        if not fewer:
            return None
        if not more:
            return replace(fewer[-1], squares=squares, insects_high=None, lost_high=None)
        return _between(fewer[-1], more[0], squares)

    def side(self, insects: int, lost: int, squares: int) -> Side:
        """Look the counts of a walk up.

        Parameters
        ----------
        insects : int
            Adults and nymphs so far. [count]
        lost : int
            Lost (or blasted) squares so far; 0 where insects decide alone. [count]
        squares : int
            Squares checked so far; 0 where insects decide alone. [count]

        Returns
        -------
        Side
            Go on where there are fewer squares than in the first row.
        """
        row = self.row_for(squares)
        if row is not None and row.holds(insects, lost):
            return Side.HOLD
        if row is not None and row.treats(insects, lost):
            return Side.TREAT
        return Side.GO_ON


def _between(low: Row, high: Row, squares: int) -> Row:
    if low.squares == high.squares:
        return low
    if (low.lost_high is None) != (high.lost_high is None):
        # what holds leans on what treats, and there only one of them treats
        return replace(low, squares=squares, insects_high=None, lost_high=None)
    span, step = high.squares - low.squares, squares - low.squares

    def down(first: int, last: int) -> int:
        return first + (last - first) * step // span

    def up(first: int | None, last: int | None) -> int | None:
        return None if first is None or last is None else first - (first - last) * step // span

    return Row(
        squares,
        down(low.insects_low, high.insects_low),
        down(low.lost_low, high.lost_low),
        down(low.sum_low, high.sum_low),
        up(low.insects_high, high.insects_high),
        up(low.lost_high, high.lost_high),
    )


@dataclass(frozen=True, slots=True)
class Plan:
    """A stop plan.

    Parameters
    ----------
    question : Question
        What it answers.
    stopping : Stopping
        For what a walk may end early.
    squares_on : SquaresOn
        On which plants squares are counted.
    loops : tuple of int
        Stops in each quadrant, loop by loop; the last loop ends the full walk. [count]
    looks : tuple of Look
        One at the end of each loop but the last.
    """

    question: Question
    stopping: Stopping
    squares_on: SquaresOn
    loops: tuple[int, ...]
    looks: tuple[Look, ...]

    @property
    def hash(self) -> str:
        """SHA-256 of what the plan says. [64 hex digits]"""
        return hashlib.sha256(canonical(plan_json(self))).hexdigest()

    @property
    def short(self) -> str:
        """The first digits of the hash, as a card shows them."""
        return self.hash[:LEAST_DIGITS]

    def named(self, name: str) -> bool:
        """Tell whether a hash, or 8 or more of its first digits, names this plan."""
        given = name.strip().lower()
        return len(given) >= LEAST_DIGITS and self.hash.startswith(given)


def plan_json(plan: Plan) -> Json:
    """Write a plan as JSON; numbers that are fractions stand as text.

    Parameters
    ----------
    plan : Plan
        A stop plan.

    Returns
    -------
    dict
        Each row is `[squares, insects_low, lost_low, sum_low, insects_high, lost_high]`.
    """
    bar = plan.question.bar
    return {
        "line": str(plan.question.line),
        "bar": None if bar is None else {"share": str(bar.share), "lost": bar.lost.value},
        "stopping": plan.stopping.value,
        "squares_on": plan.squares_on.value,
        "loops": list(plan.loops),
        "looks": [
            {"plants": look.plants, "rows": [_row_json(row) for row in look.rows]}
            for look in plan.looks
        ],
    }


def _count(limit: Any) -> Any:
    if limit is not None and type(limit) is not int:
        raise TypeError(f"a limit must be a whole number or null, got {limit!r}.")
    return limit


def _row_json(row: Row) -> list[int | None]:
    return [
        row.squares, row.insects_low, row.lost_low, row.sum_low, row.insects_high, row.lost_high,
    ]  # fmt: skip


def plan_from_json(content: Json) -> Plan:
    """Read what `plan_json` wrote.

    Parameters
    ----------
    content : dict
        The JSON.

    Returns
    -------
    Plan
        The same plan, with the same hash.

    Raises
    ------
    KeyError, TypeError, ValueError
        If something lacks or is not what it should be.
    """
    bar = content["bar"]
    return Plan(
        question=Question(
            Fraction(content["line"]),
            None if bar is None else SquareBar(Fraction(bar["share"]), Lost(bar["lost"])),
        ),
        stopping=Stopping(content["stopping"]),
        squares_on=SquaresOn(content["squares_on"]),
        loops=tuple(content["loops"]),
        looks=tuple(
            Look(look["plants"], tuple(Row(*map(_count, row)) for row in look["rows"]))
            for look in content["looks"]
        ),
    )
