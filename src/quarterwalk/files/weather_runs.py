"""Runs of days, and the level of the days beside them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from quarterwalk.files.weather_days import FloatArray

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.intp]

AROUND = 10
"""Days beside a run that tell its surroundings; a rule of this project. [days]"""

WARM_F = 65.0
"""Highs of days beside a run, in the middle, from which on it is judged: among winter's days a
spell of cold may look like a code for missing or like another unit. A rule of this project.
[°F]"""

# Runs whose surroundings are held in memory together. [count]
_AT_ONCE = 20_000


def runs(mask: BoolArray) -> Iterator[tuple[int, int]]:
    """Give the first place and the one after the last of each run. [from 0]"""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], mask, [False]]).astype(np.int8)))
    yield from zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)


def levels(
    values: FloatArray, starts: IntArray, stops: IntArray, apart: float = np.inf
) -> FloatArray:
    """Give the middle of up to `AROUND` days from each start on.

    Parameters
    ----------
    values : float array, shape (2, days)
        Lowest and highest, none of them NaN.
    starts, stops : int array, shape (n,)
        The first day and the one behind the last; a stop before its start goes backward.
        [from 0]
    apart : float
        Days on which both extremes lie so far from those of the first, or farther, are
        left out. [degrees]

    Returns
    -------
    float array, shape (2, n)
        NaN where there is no day.
    """
    if starts.size > _AT_ONCE:
        parts = [slice(at, at + _AT_ONCE) for at in range(0, starts.size, _AT_ONCE)]
        return np.hstack([levels(values, starts[p], stops[p], apart) for p in parts])
    way = np.sign(stops - starts)
    count = np.minimum(np.abs(stops - starts), AROUND)
    reach = np.arange(AROUND)
    places = starts[:, None] + way[:, None] * reach
    inside = (reach < count[:, None]) & (places >= 0) & (places < values.shape[1])
    beside = values[:, np.where(inside, places, 0)]
    far = np.all(np.abs(beside - beside[:, :, :1]) >= apart, axis=0)
    beside = np.where(inside & ~far, beside, np.nan)
    # NaN is sorted behind the others, so that the middle stands at half their count
    beside.sort(axis=2)
    known = np.count_nonzero(~np.isnan(beside), axis=2)
    lower, upper = (np.maximum(known - 1, 0) // 2)[..., None], (known // 2)[..., None]
    middle = np.take_along_axis(beside, lower, 2) + np.take_along_axis(
        beside, np.minimum(upper, np.maximum(known - 1, 0)[..., None]), 2
    )
    level: FloatArray = middle[..., 0] / 2.0
    return level
