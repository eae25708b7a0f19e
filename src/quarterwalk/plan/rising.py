"""Rows that rise together: with more squares a limit on lost squares never falls."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.one_look import Good
from quarterwalk.plan.plan import Row

# A limit that falls where it should rise reads as a misprint: it is let be only where it ends
# so many more walks (this project's rule). [fraction]
_FALL = 0.05


def rising_rows(good: Sequence[Sequence[Good]]) -> tuple[Row, ...]:
    """Choose one of the good rows for each number of squares, so that limits rise.

    Parameters
    ----------
    good : sequence of sequence of Good
        For each number of squares, rising: the rows that end most walks early.

    Returns
    -------
    tuple of Row
        Those that end most walks together, where the limits that hold and the one on lost
        squares that treats never fall from row to row, and the one on insects that treats
        never rises.
    """
    total = np.array([each.ends for each in good[0]])
    came: list[np.ndarray] = []
    for before, here in zip(good[:-1], good[1:], strict=True):
        falls = _falls([each.row for each in before], [each.row for each in here])
        reached = total[:, None] - _FALL * falls
        came.append(reached.argmax(axis=0))
        total = reached.max(axis=0) + np.array([each.ends for each in here])
    place = int(total.argmax())
    chosen = [good[-1][place].row]
    for number in reversed(range(len(came))):
        place = int(came[number][place])
        chosen.append(good[number][place].row)
    return tuple(reversed(chosen))


def _falls(before: Sequence[Row], here: Sequence[Row]) -> FloatArray:
    """Count the limits that move the wrong way, shape (rows before, rows here)."""
    first, last = _limits(before), _limits(here)
    # what is not there moves no way at all
    return np.asarray((first[:, None, :] > last[None, :, :]).sum(axis=2), dtype=float)


def _limits(rows: Sequence[Row]) -> FloatArray:
    return np.array(
        [
            (
                row.insects_low,
                row.lost_low,
                row.sum_low,
                np.nan if row.lost_high is None else row.lost_high,
                np.nan if row.insects_high is None else -row.insects_high,
            )
            for row in rows
        ]
    )
