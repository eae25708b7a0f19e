"""The best limits of a walk in two loops: all that there are, compared."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from quarterwalk.plan.columns import IntArray
from quarterwalk.plan.course import Course
from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.look import Aims, AtLook, aims_for, room_at
from quarterwalk.plan.plan import Row, Stopping
from quarterwalk.plan.points import CRITERION, Criterion
from quarterwalk.plan.regions import Choices, hold_choices, row_of, treat_choices
from quarterwalk.plan.worlds import WORLDS, World

# Errors are sums of many small chances: so much is rounding. [fraction]
ROUNDING = 1e-12


# Rows within so much of the best are told, and so many at most. [fraction, count]
_SLACK, _MOST = 0.03, 500


@dataclass(frozen=True, slots=True)
class Good:
    """A row that keeps the limits on errors.

    Parameters
    ----------
    row : Row
        Its limits.
    ends : float
        Of the usual spread of fields, the share whose walk ends at the look. [fraction]
    """

    row: Row
    ends: float


def best_row(
    course: Course,
    stopping: Stopping,
    *,
    worlds: tuple[World, ...] = WORLDS,
    criterion: Criterion = CRITERION,
) -> Row:
    """Give the limits that end most walks early within the limits on errors.

    Parameters
    ----------
    course : Course
        A walk of two stretches.
    stopping : Stopping
        For what it may end.
    worlds : tuple of World
        In which the limits on errors are kept.
    criterion : Criterion
        Those limits.

    Returns
    -------
    Row
        The best of all rows of its form; a looser criterion never does worse.
    """
    return good_rows(course, stopping, worlds=worlds, criterion=criterion)[0].row


def good_rows(
    course: Course,
    stopping: Stopping,
    *,
    worlds: tuple[World, ...] = WORLDS,
    criterion: Criterion = CRITERION,
) -> list[Good]:
    """Give the limits that end most walks early, and those that end nearly as many.

    Parameters
    ----------
    course : Course
        A walk of two stretches.
    stopping : Stopping
        For what it may end.
    worlds : tuple of World
        In which the limits on errors are kept.
    criterion : Criterion
        Those limits.

    Returns
    -------
    list of Good
        The best first.
    """
    aims = aims_for(course, worlds, criterion)
    at, spare = only_look(aims, stopping), aims.allowed + ROUNDING
    hold = hold_choices(at.room, at.hold, at.saved)
    treat = treat_choices(at.room, at.treat, at.saved)
    pairs = _near_best(hold, treat, spare, _best(hold, treat, spare) - _SLACK)
    good = [
        Good(
            row_of(course.squares[0], hold.limits[first], treat.limits[second]),
            float(hold.saved[first] + treat.saved[second]),
        )
        for first, second in pairs
    ]
    return sorted(good, key=lambda each: -each.ends)[:_MOST]


def only_look(aims: Aims, stopping: Stopping) -> AtLook:
    """Give what the only look of a walk in two loops can do.

    Parameters
    ----------
    aims : Aims
        Of that walk.
    stopping : Stopping
        For what it may end.

    Returns
    -------
    AtLook
        What is saved is the chance, over the usual spread of fields, to end there.
    """
    reach, ahead = aims.points.first(), aims.points.full_ahead(0)
    sign = aims.sign[:, None, None]
    return AtLook(
        room_at(aims.course, 0, stopping),
        np.zeros(len(aims.sign)),
        -sign * reach * ahead,
        sign * reach * (1.0 - ahead),
        np.tensordot(aims.weight, aims.fields.first(), axes=1),
    )


def _best(hold: Choices, treat: Choices, spare: FloatArray) -> float:
    """Find what the pair saves that saves most and adds no more than there is to spare.

    What treats may take back at a point what holds has cost there, and the other way round.
    """
    holds, treats = _by_saved(hold), _by_saved(treat)
    best = -1.0
    for number in treats:
        if treat.saved[number] + hold.saved[holds[0]] <= best:
            break
        more = holds[: np.searchsorted(-hold.saved[holds], treat.saved[number] - best)]
        fits = (hold.effect[more] + treat.effect[number] <= spare).all(axis=1)
        if fits.any():
            best = float(hold.saved[more[int(np.argmax(fits))]] + treat.saved[number])
    return best


def _near_best(
    hold: Choices, treat: Choices, spare: FloatArray, least: float
) -> Iterator[tuple[int, int]]:
    """Find all pairs that save so much or more, and add no more than there is to spare."""
    holds = _by_saved(hold)
    for number in _by_saved(treat):
        if treat.saved[number] + hold.saved[holds[0]] < least:
            return
        more = holds[: np.searchsorted(-hold.saved[holds], treat.saved[number] - least, "right")]
        fits = (hold.effect[more] + treat.effect[number] <= spare).all(axis=1)
        yield from ((int(each), int(number)) for each in more[fits])


def _by_saved(choices: Choices) -> IntArray:
    return np.argsort(-choices.saved, kind="stable")
