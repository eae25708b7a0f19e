"""The likeliest value of one or two quantities, and how far off each may be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline, RectBivariateSpline
from scipy.stats import chi2

from quarterwalk.reading.sums import BoolArray, FloatArray

LEVEL = 0.90
"""How often an interval is to hold. [fraction]"""

_DROP = float(chi2.ppf(LEVEL, df=1)) / 2.0
"""So far under its top the profile of the log likelihood may lie inside an interval."""

# What lies further under the top than this is of no interest. [log likelihood]
_NEAR = 4.0

# Points along each axis of a search grid, of the last grid, and of its interpolation; so
# many steps of a search grid must lie near the top before the last one is made. [count]
_SEARCH, _LAST, _FINE, _ENOUGH = 7, 13, 601, 4
_MOST_ROUNDS = 30

Box = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Likeliest:
    """The top of a profile with the ends of its interval."""

    value: float
    low: float
    high: float


def likeliest(height: Callable[[float], float], box: Box) -> Likeliest:
    """Find the top of a log likelihood of one quantity, and the interval round it.

    Parameters
    ----------
    height : callable
        Log likelihood at a value, with the log of what was expected before; one top.
    box : tuple of float
        Where the top is looked for.

    Returns
    -------
    Likeliest
        An end of `box` where the likelihood there is still inside.
    """
    found = box
    for _ in range(_MOST_ROUNDS):
        at = np.linspace(*found, _SEARCH)
        near = _near(np.array([height(float(x)) for x in at]))
        found = _searched(at, near, box)
        if _settled(at, near, box):
            break
    at = np.linspace(*found, _LAST)
    fine = np.linspace(*found, _FINE)
    return _ends(fine, CubicSpline(at, [height(float(x)) for x in at])(fine))


def likeliest_two(
    height: Callable[[float, float], float], box: tuple[Box, Box]
) -> tuple[Likeliest, Likeliest]:
    """Find the top of a log likelihood of two quantities, and the interval of each.

    Parameters
    ----------
    height : callable
        Log likelihood at two values, with the log of what was expected before; one top.
    box : two tuples of float
        Where the top is looked for.

    Returns
    -------
    tuple of Likeliest
        Each from its own profile: the other one wherever it is likeliest. An end of
        `box` where the likelihood there is still inside.

    References
    ----------
    .. [1] Y. Pawitan, In All Likelihood: Statistical Modelling and Inference Using
       Likelihood, Oxford University Press, 2001 (profile likelihood).
    """
    first, second = box
    for _ in range(_MOST_ROUNDS):
        xs, ys = np.linspace(*first, _SEARCH), np.linspace(*second, _SEARCH)
        near = _near(_heights(height, xs, ys))
        near_x, near_y = near.max(axis=1), near.max(axis=0)
        first, second = _searched(xs, near_x, box[0]), _searched(ys, near_y, box[1])
        if _settled(xs, near_x, box[0]) and _settled(ys, near_y, box[1]):
            break
    xs, ys = np.linspace(*first, _LAST), np.linspace(*second, _LAST)
    fine_x, fine_y = np.linspace(*first, _FINE), np.linspace(*second, _FINE)
    fine = RectBivariateSpline(xs, ys, _heights(height, xs, ys))(fine_x, fine_y)
    return _ends(fine_x, fine.max(axis=1)), _ends(fine_y, fine.max(axis=0))


def _heights(height: Callable[[float, float], float], xs: FloatArray, ys: FloatArray) -> FloatArray:
    return np.array([[height(float(x), float(y)) for y in ys] for x in xs])


def _near(heights: FloatArray) -> BoolArray:
    return np.asarray(heights >= heights.max() - _NEAR)


def _searched(at: FloatArray, near: BoolArray, box: Box) -> Box:
    """Take in what is near the top and a step beside it; half as much again past an edge.

    A coarse grid of two quantities can show the top where it is not; then it stands at an
    edge of the next one, which is widened again.
    """
    inside = np.flatnonzero(near)
    step, wide = at[1] - at[0], (at[-1] - at[0]) / 2.0
    low = at[inside[0]] - (wide if inside[0] == 0 else step)
    high = at[inside[-1]] + (wide if inside[-1] == at.size - 1 else step)
    return max(float(low), box[0]), min(float(high), box[1])


def _settled(at: FloatArray, near: BoolArray, box: Box) -> bool:
    """Tell whether all that is near the top lies on a grid, and on enough of its points."""
    cut_low = near[0] and at[0] > box[0]
    cut_high = near[-1] and at[-1] < box[1]
    return bool(near.sum() >= _ENOUGH and not cut_low and not cut_high)


def _ends(at: FloatArray, profile: FloatArray) -> Likeliest:
    floor = profile.max() - _DROP
    inside = np.flatnonzero(profile >= floor)
    first, last = int(inside[0]), int(inside[-1])
    low = at[0] if first == 0 else _crossing(at, profile, first - 1, floor)
    high = at[-1] if last == at.size - 1 else _crossing(at, profile, last, floor)
    return Likeliest(float(at[profile.argmax()]), float(low), float(high))


def _crossing(at: FloatArray, profile: FloatArray, left: int, floor: float) -> float:
    """Give where a straight line between two neighbours meets the floor."""
    part = (floor - profile[left]) / (profile[left + 1] - profile[left])
    return float(at[left] + part * (at[left + 1] - at[left]))
