"""All limits that one look could have, with what each would do: summed, not simulated."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from quarterwalk.plan.columns import IntArray
from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.plan import Row


class Span(NamedTuple):
    """Numbers from the first to the last, both included."""

    first: int
    last: int

    def since(self, first: int) -> Span:
        """Give the part from a number on."""
        return Span(max(self.first, first), self.last)

    def around(self, middle: int, reach: int) -> Span:
        """Give the part that lies within `reach` of a number."""
        return Span(max(self.first, middle - reach), min(self.last, middle + reach))


@dataclass(frozen=True, slots=True)
class Room:
    """Between which numbers the limits of a look may lie.

    Parameters
    ----------
    insects_low, lost_low, sum_low : Span
        Limits that hold; under what the rule itself would call treat. -1 is none. [count]
    insects_high, lost_high : Span or None
        Limits that treat; None where the walk may not end to treat. [count]
    """

    insects_low: Span
    lost_low: Span
    sum_low: Span
    insects_high: Span | None
    lost_high: Span | None

    def over(self, row: Row) -> Room:
        """Give the room in which limits on lost squares lie that rise from those of a row."""
        room = replace(
            self,
            lost_low=self.lost_low.since(row.lost_low),
            sum_low=self.sum_low.since(row.sum_low),
        )
        if row.lost_high is None or self.lost_high is None:
            return room
        return replace(room, lost_high=self.lost_high.since(row.lost_high))

    def around(self, row: Row, reach: int) -> Room:
        """Give the room within `reach` of a row's limits; a limit that is none stays open."""
        room = replace(
            self,
            insects_low=self.insects_low.around(row.insects_low, reach),
            lost_low=self.lost_low.around(row.lost_low, reach),
        )
        if row.sum_low >= 0:
            room = replace(room, sum_low=self.sum_low.around(row.sum_low, reach))
        if row.insects_high is None or row.lost_high is None:
            return room
        if self.insects_high is None or self.lost_high is None:
            return room
        return replace(
            room,
            insects_high=self.insects_high.around(row.insects_high, reach),
            lost_high=self.lost_high.around(row.lost_high, reach),
        )


@dataclass(frozen=True)
class Choices:
    """Limits side by side.

    Parameters
    ----------
    limits : int array, shape (choices, numbers)
        Insects, lost and sum that hold, or insects and lost that treat. [count]
    effect : float array, shape (choices, points)
        What each adds to the error at each point. [fraction]
    saved : float array, shape (choices,)
        What each saves, in the unit of the cost.
    """

    limits: IntArray
    effect: FloatArray
    saved: FloatArray

    def only(self, which: IntArray) -> Choices:
        """Give some of them, in that order."""
        return Choices(self.limits[which], self.effect[which], self.saved[which])


def hold_choices(room: Room, effect: FloatArray, saved: FloatArray) -> Choices:
    """Sum over all regions that hold.

    Parameters
    ----------
    room : Room
        Where the limits may lie.
    effect : float array, shape (points, insects, lost)
        What ending at single counts adds to the error. [fraction]
    saved : float array, shape (insects, lost)
        What ending at single counts saves.

    Returns
    -------
    Choices
        The first is not to hold at all, where the room has it.

    Notes
    -----
    A region is all counts with few insects, few lost squares, or few of both together; its
    sum is put together from the rows, the columns and the triangle that are new each time.
    """
    both = np.concatenate([effect, saved[None]])
    both = both[:, : _edge(room, both.shape[1]), : _edge(room, both.shape[2])]
    rows = np.concatenate([np.zeros((len(both), 1)), _whole_rows(effect, saved, room)], axis=1)
    limits: list[tuple[int, int, int]] = []
    sums: list[FloatArray] = []
    for few in range(room.insects_low.first, room.insects_low.last + 1):
        more = both[:, few + 1 :, :]
        by_lost = np.concatenate(
            [np.zeros((len(both), 1)), more.sum(axis=1).cumsum(axis=1)], axis=1
        )
        # what lies past the edge in the rows with more insects is small change, but counted
        beyond = _beyond(effect, saved, few + 1, both.shape)
        for lost in range(room.lost_low.first, room.lost_low.last + 1):
            corner = rows[:, few + 1] + by_lost[:, lost + 1] + beyond[:, lost + 1]
            limits.append((few, lost, -1))
            sums.append(corner)
            triangle = _diagonals(more[:, :, lost + 1 :], room.sum_low.last - few - lost - 2)
            first = max(room.sum_low.first, few + lost + 2)
            for total in range(first, room.sum_low.last + 1):
                limits.append((few, lost, total))
                sums.append(corner + triangle[:, total - few - lost - 2])
    table = np.array(sums)
    return Choices(np.array(limits), table[:, :-1], table[:, -1])


def treat_choices(room: Room, effect: FloatArray, saved: FloatArray) -> Choices:
    """Sum over all regions that treat; see `hold_choices`."""
    nothing = Choices(np.full((1, 2), -1), np.zeros((1, len(effect))), np.zeros(1))
    if room.insects_high is None or room.lost_high is None:
        return nothing
    both = np.concatenate([effect, saved[None]])
    corner = both[:, ::-1, ::-1].cumsum(axis=1).cumsum(axis=2)[:, ::-1, ::-1]
    insects = np.arange(room.insects_high.first, room.insects_high.last + 1)
    lost = np.arange(room.lost_high.first, room.lost_high.last + 1)
    grid = np.stack(np.meshgrid(insects, lost, indexing="ij"), axis=-1).reshape(-1, 2)
    table = corner[:, grid[:, 0], grid[:, 1]].T
    return Choices(
        np.concatenate([nothing.limits, grid]),
        np.concatenate([nothing.effect, table[:, :-1]]),
        np.concatenate([nothing.saved, table[:, -1]]),
    )


def row_of(squares: int, hold: IntArray, treat: IntArray) -> Row:
    """Write chosen limits as a row.

    Parameters
    ----------
    squares : int
        Squares checked by then. [count]
    hold, treat : int arrays, shapes (3,) and (2,)
        As `Choices` has them.

    Returns
    -------
    Row
    """
    insects, lost, total = (int(limit) for limit in hold)
    if treat[0] < 0:
        return Row(squares, insects, lost, total)
    return Row(squares, insects, lost, total, int(treat[0]), int(treat[1]))


def _edge(room: Room, size: int) -> int:
    return min(size, max(room.sum_low.last, room.insects_low.last, room.lost_low.last) + 2)


def _whole_rows(effect: FloatArray, saved: FloatArray, room: Room) -> FloatArray:
    """Sum all counts with so many insects or fewer, whatever the squares."""
    last = room.insects_low.last + 1
    both = np.concatenate([effect[:, :last].sum(axis=2), saved[None, :last].sum(axis=2)])
    return both.cumsum(axis=1)


def _beyond(
    effect: FloatArray, saved: FloatArray, start: int, shape: tuple[int, ...]
) -> FloatArray:
    """Sum the columns of few lost squares over the insects past the edge of the table."""
    start = max(start, shape[1])
    both = np.concatenate(
        [effect[:, start:, : shape[2]].sum(axis=1), saved[None, start:, : shape[2]].sum(axis=1)]
    )
    return np.concatenate([np.zeros((shape[0], 1)), both.cumsum(axis=1)], axis=1)


def _diagonals(block: FloatArray, last: int) -> FloatArray:
    """Sum the corner of a block up to each of its diagonals, 0 to `last`."""
    if last < 0:
        return np.zeros((len(block), 0))
    sums = np.zeros((len(block), last + 1))
    for row in range(min(block.shape[1], last + 1)):
        part = block[:, row, : last + 1 - row]
        sums[:, row : row + part.shape[1]] += part
    return sums.cumsum(axis=1)
