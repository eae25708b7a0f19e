"""The best limits of a walk in two loops: all that there are, compared."""

from __future__ import annotations

import numpy as np

from quarterwalk.plan.course import Course
from quarterwalk.plan.look import Aims, AtLook, aims_for, room_at
from quarterwalk.plan.plan import Row, Stopping
from quarterwalk.plan.points import CRITERION, Criterion
from quarterwalk.plan.regions import Choices, hold_choices, row_of, treat_choices
from quarterwalk.plan.worlds import WORLDS, World

# Errors are sums of many small chances: so much is rounding. [fraction]
ROUNDING = 1e-12


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
    aims = aims_for(course, worlds, criterion)
    at, spare = only_look(aims, stopping), aims.allowed + ROUNDING
    hold = hold_choices(at.room, at.hold, at.saved)
    treat = treat_choices(at.room, at.treat, at.saved)
    best_hold, best_treat = _best_pair(hold, treat, spare)
    return row_of(course.squares[0], hold.limits[best_hold], treat.limits[best_treat])


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


def _best_pair(hold: Choices, treat: Choices, spare: np.ndarray) -> tuple[int, int]:
    """Find the pair that saves most and adds no more than there is to spare.

    What treats may take back at a point what holds has cost there, and the other way round;
    what could not do even with the most that the other may give back is left out first.
    """
    holds = np.flatnonzero((hold.effect + treat.effect.min(axis=0) <= spare).all(axis=1))
    treats = np.flatnonzero((treat.effect + hold.effect.min(axis=0) <= spare).all(axis=1))
    holds = holds[np.argsort(-hold.saved[holds], kind="stable")]
    treats = treats[np.argsort(-treat.saved[treats], kind="stable")]
    best, pair = -1.0, (0, 0)
    most = hold.saved[holds[0]]
    for number in treats:
        if treat.saved[number] + most <= best:
            break
        enough = holds[: np.searchsorted(-hold.saved[holds], treat.saved[number] - best)]
        fits = (hold.effect[enough] + treat.effect[number] <= spare).all(axis=1)
        if fits.any():
            first = int(np.argmax(fits))
            best = float(hold.saved[enough[first]] + treat.saved[number])
            pair = (int(enough[first]), int(number))
    return pair
