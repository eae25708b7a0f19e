"""The order in which a loop passes its stops, so that the way is short."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]

# A loop is begun anew from so many orders drawn by chance. [count]
_STARTS = 8
# A change that gains less than this is none. [share of the way]
_GAIN = 1e-9
# Longer stretches are not moved. [stops]
_LONGEST_MOVED = 3


def short_tour(ways: FloatArray, rng: np.random.Generator) -> list[int]:
    """Find a short closed way through all places, from the first and back to it.

    From several orders, stretches of the way are turned round, and stretches of up to three
    stops moved, for as long as that shortens it; the shortest end is taken.

    Parameters
    ----------
    ways : float array, shape (places, places)
        Lengths between the places, the same both ways. [m]
    rng : numpy.random.Generator
        For the orders to begin from.

    Returns
    -------
    list of int
        The places in order, beginning with 0, each once.

    References
    ----------
    G. A. Croes, "A method for solving traveling-salesman problems", Operations Research
    6(6), 791-812, 1958. I. Or, "Traveling salesman-type combinatorial problems", thesis,
    1976 (cited from memory).
    """
    count = len(ways)
    orders = [_nearest_first(ways), *(rng.permutation(count) for _ in range(_STARTS))]
    ends = [_shortened(ways, order) for order in orders]
    best = min(ends, key=lambda order: tour_length(ways, order))
    at_first = int(np.flatnonzero(best == 0)[0])
    return np.roll(best, -at_first).tolist()  # type: ignore[no-any-return]


def tour_length(ways: FloatArray, order: IntArray | list[int]) -> float:
    """Give the length of a closed way.

    Parameters
    ----------
    ways : float array, shape (places, places)
        Lengths between the places. [m]
    order : sequence of int
        The places in order.

    Returns
    -------
    float
        [m]
    """
    stops = np.asarray(order)
    return float(ways[stops, np.roll(stops, -1)].sum())


def _nearest_first(ways: FloatArray) -> IntArray:
    """Begin at the first place and always go on to the nearest."""
    order, left = [0], set(range(1, len(ways)))
    while left:
        order.append(min(left, key=lambda place: (ways[order[-1], place], place)))
        left.remove(order[-1])
    return np.array(order)


def _shortened(ways: FloatArray, order: IntArray) -> IntArray:
    """Change an order for as long as that shortens the way."""
    least = _GAIN * float(ways.max())
    while True:
        for change in (_turned_round, _moved):
            changed, gain = change(ways, order)
            if gain > least:
                order = changed
                break
        else:
            return order


def _turned_round(ways: FloatArray, order: IntArray) -> tuple[IntArray, float]:
    """Turn the stretch round that gains most."""
    after = np.roll(order, -1)
    here = ways[order, after]
    turned = ways[np.ix_(order, order)] + ways[np.ix_(after, after)]
    gains = np.triu(here[:, None] + here[None, :] - turned, k=1)
    first, last = np.unravel_index(np.argmax(gains), gains.shape)
    changed = order.copy()
    changed[first + 1 : last + 1] = changed[first + 1 : last + 1][::-1]
    return changed, float(gains[first, last])


def _moved(ways: FloatArray, order: IntArray) -> tuple[IntArray, float]:
    """Move the stretch of up to three stops that gains most, either way round."""
    count = len(order)
    # each row is the same round, begun at another place
    begun = order[(np.arange(count)[:, None] + np.arange(count)) % count]
    best, gain = order, 0.0
    for size in range(1, min(_LONGEST_MOVED, count - 2) + 1):
        first, last, rest = begun[:, 0], begun[:, size - 1], begun[:, size:]
        lifted = ways[rest[:, -1], first] + ways[last, rest[:, 0]] - ways[rest[:, -1], rest[:, 0]]
        before, after = rest[:, :-1], rest[:, 1:]
        kept = ways[before, after] + lifted[:, None]
        for ends in ((first, last), (last, first)):
            head, tail = (end[:, None] for end in ends)
            gains = kept - ways[before, head] - ways[tail, after]
            start, at = np.unravel_index(np.argmax(gains), gains.shape)
            if gains[start, at] > gain:
                gain = float(gains[start, at])
                piece = begun[start, :size][:: 1 if ends[0] is first else -1]
                best = np.concatenate([rest[start, : at + 1], piece, rest[start, at + 1 :]])
    return best, gain
