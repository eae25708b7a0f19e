"""How many insects, and how many lost squares, a stretch of a walk may show."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaln, gammaln, xlog1py, xlogy

from quarterwalk.guideline import load_routine
from quarterwalk.plan.worlds import World

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]

# Nodes of the sum that stands for the gamma factor of a stop: with 24 the chances don't
# change in their twelfth place any more. [count]
_NODES = 24

# Stops less unlike than this are alike: no chance changes in its ninth place. [fraction]
_ALIKE = 1e-6

# Shares are kept this far from 0 and 1, where a beta-binomial can't be written. [fraction]
_EDGE = 1e-12


@lru_cache(maxsize=4096)
def insects_law(world: World, density: float, stops: int, cap: int) -> FloatArray:
    """Give the chances of so many insects on the plants of some stops.

    Parameters
    ----------
    world : World
        How they lie.
    density : float
        Insects per plant. [count per plant]
    stops : int
        Stops of five plants. [count]
    cap : int
        From this number on they are put together. [count]

    Returns
    -------
    float array, shape (cap + 1,)
        Chance of 0, 1, ... and of `cap` or more; not to be changed. [fraction]

    Notes
    -----
    Plants are negative binomial; a sum of n of them with one k is too. The plants of a stop
    share a gamma factor of mean 1, which is summed out by Gauss-Laguerre quadrature [1]_;
    stops are independent of each other.

    References
    ----------
    .. [1] G. H. Golub and J. H. Welsch, "Calculation of Gauss quadrature rules," Math. Comp.,
       vol. 23, pp. 221-230, 1969.
    """
    plants = load_routine().plants_a_stop
    if world.stop_cv < _ALIKE:
        return _closed(_counts(world.k, density, plants * stops, cap))
    shape = world.stop_cv**-2
    # from the recurrence of the polynomials: their own weights overflow where stops are alike
    step = np.arange(1.0, _NODES)
    beside = np.diag(np.sqrt(step * (step + shape - 1.0)), -1)
    nodes, vectors = np.linalg.eigh(np.diag(shape + 2.0 * np.arange(_NODES)) + beside)
    each = [_counts(world.k, density * node / shape, plants, cap) for node in nodes]
    return _closed(_times(vectors[0] ** 2 @ np.array(each), stops))


@lru_cache(maxsize=4096)
def lost_law(world: World, share: float, plants: int, squares: int, cap: int) -> FloatArray:
    """Give the chances of so many lost squares among those checked.

    Parameters
    ----------
    world : World
        How alike the squares of one plant are.
    share : float
        Lost share of the field. [fraction]
    plants : int
        Plants on which squares are checked; they have equally many, or one more. [count]
    squares : int
        Squares checked on them. [count]
    cap : int
        From this number on they are put together. [count]

    Returns
    -------
    float array, shape (cap + 1,)
        Chance of 0, 1, ... and of `cap` or more; not to be changed. [fraction]

    Notes
    -----
    Binomial, or beta-binomial plant by plant, which is the same where `rho` is 0.
    """
    if squares == 0:
        return _closed(np.eye(1, cap + 1)[0])
    found = np.arange(cap + 1)
    share = min(max(share, _EDGE), 1.0 - _EDGE)
    if world.rho == 0.0:
        return _closed(_binomial(found, squares, share))
    few, more = divmod(squares, plants)
    alike = (1.0 - world.rho) / world.rho
    law = np.eye(1, cap + 1)[0]
    for each, so_many in ((few, plants - more), (few + 1, more)):
        if each and so_many:
            one = _beta_binomial(found, each, share * alike, (1.0 - share) * alike)
            law = _joined(law, _times(one, so_many))
    return _closed(law)


def transition(law: FloatArray) -> FloatArray:
    """Give the chances to come from one count to another by what a stretch adds.

    Parameters
    ----------
    law : float array, shape (cap + 1,)
        Chances of what it adds.

    Returns
    -------
    float array, shape (cap + 1, cap + 1)
        From the count of the row to that of the column; the last takes all beyond.
    """
    size = law.size
    matrix = np.zeros((size, size))
    for start in range(size):
        matrix[start, start:] = law[: size - start]
        matrix[start, -1] = max(0.0, 1.0 - matrix[start, :-1].sum())
    return matrix


def _counts(k: float, density: float, plants: int, cap: int) -> FloatArray:
    """Give the chances of counts on so many plants: negative binomial, Poisson without k."""
    found = np.arange(cap + 1)
    mean = plants * density
    law = xlogy(found, mean) - gammaln(found + 1.0)
    if np.isinf(k):
        return np.asarray(np.exp(law - mean))
    # factor by factor: gamma functions of a large k would leave nothing of their difference
    risen = np.concatenate([[0.0], np.cumsum(np.log1p(found[:-1] / (plants * k)))])
    return np.asarray(np.exp(law + risen - (found + plants * k) * np.log1p(density / k)))


def _binomial(found: IntArray, squares: int, share: float) -> FloatArray:
    possible = np.minimum(found, squares)
    chance = np.exp(
        _ways(squares, possible) + xlogy(possible, share) + xlog1py(squares - possible, -share)
    )
    return np.where(found <= squares, chance, 0.0)


def _beta_binomial(found: IntArray, squares: int, lost: float, kept: float) -> FloatArray:
    possible = np.minimum(found, squares)
    chance = np.exp(
        _ways(squares, possible)
        + betaln(possible + lost, squares - possible + kept)
        - betaln(lost, kept)
    )
    return np.where(found <= squares, chance, 0.0)


def _ways(of: int, some: IntArray) -> FloatArray:
    return np.asarray(gammaln(of + 1.0) - gammaln(some + 1.0) - gammaln(of - some + 1.0))


def _times(law: FloatArray, times: int) -> FloatArray:
    """Give the law of the sum of so many alike."""
    whole: FloatArray = np.eye(1, law.size)[0]
    while times:
        if times & 1:
            whole = _joined(whole, law)
        law, times = _joined(law, law), times >> 1
    return whole


def _joined(one: FloatArray, other: FloatArray) -> FloatArray:
    return np.asarray(np.convolve(one, other)[: one.size])


def _closed(law: FloatArray) -> FloatArray:
    """Put all that lies beyond into the last place."""
    law = np.array(law, dtype=float)
    law[-1] = max(0.0, 1.0 - law[:-1].sum())
    law.setflags(write=False)
    return law
