"""How likely the insects of many stops are, whatever the density of each quadrant.

The likelihood has two factors. How the insects of a stop share out over its plants hangs
on k alone: given their sum, neither density nor stop matters. How the insects of a
quadrant share out over its stops hangs on k and on how unlike stops are; the density of
the quadrant is integrated out, every order of magnitude alike, which is the same as taking
the sum of the quadrant as given.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg import eigh_tridiagonal
from scipy.sparse import csr_array
from scipy.special import gammainc, gammainccinv, gammaincinv, gammaln

from quarterwalk.plan.learn_tally import Stops
from quarterwalk.reading.sums import FloatArray, IntArray

# Densities run from where two insects in a quadrant are hardly likely to so many times the
# fullest quadrant, in steps no wider than one insect in its root, within two bounds. [log]
_FEWEST, _MOST_TIMES = 0.02, 30.0
_LEAST_STEP, _WIDEST_STEP = 0.05, 0.2

# The gamma factor of a stop is summed out in the same steps where it is wider than two of
# them, by so many Gauss-Laguerre nodes where it is narrower. Left out are so small a chance
# of a smaller or larger factor; factors under exp(-12) are taken together. [count; chance; log]
_NODES, _LEFT_OUT, _LEAST_FACTOR = 16, 1e-10, -12.0


@dataclass(frozen=True, slots=True)
class _Quadrants:
    """Quadrants with two stops and two insects or more, equal ones together."""

    plants: IntArray  # of each kind of stop
    insects: IntArray  # of each kind of stop
    stops: csr_array  # of each kind (column) in each quadrant (row): few of many kinds
    times: FloatArray  # so many quadrants are like this row
    step: float  # of the logarithm of the densities
    densities: FloatArray


class InsectChance:
    """The log likelihood of the insects on many stops.

    Parameters
    ----------
    stops : Stops
        What was counted.

    References
    ----------
    .. [1] J. E. Mosimann, "On the compound multinomial distribution, the multivariate
       beta-distribution, and correlations among proportions," Biometrika, vol. 49,
       pp. 65-82, 1962 (negative binomial counts, given their sum).
    .. [2] G. H. Golub and J. H. Welsch, "Calculation of Gauss quadrature rules,"
       Mathematics of Computation, vol. 23, pp. 221-230, 1969.
    """

    def __init__(self, stops: Stops) -> None:
        self._plants_over = stops.plants_over
        self._stop_kinds = _kinds(stops.plants, stops.insects)
        self._quadrants = _quadrants(stops)

    def log(self, clumping: float, stop_cv: float) -> float:
        """Give the log likelihood, less what does not hang on the two values.

        Parameters
        ----------
        clumping : float
            1/k; 0 where insects lie at random. [dimensionless]
        stop_cv : float
            Coefficient of variation of the factor of a stop. [fraction]

        Returns
        -------
        float
        """
        return self._within(clumping) + self._between(clumping, stop_cv)

    def _within(self, clumping: float) -> float:
        step = np.arange(self._plants_over.size)
        told = float((self._plants_over * np.log1p(clumping * step)).sum())
        plants, insects, times = self._stop_kinds
        return told - float((times * _risen(plants, insects, clumping)).sum())

    def _between(self, clumping: float, stop_cv: float) -> float:
        quadrants = self._quadrants
        if quadrants is None:
            return 0.0
        kinds = _stop_logs(quadrants, clumping, stop_cv)
        logs = np.asarray(quadrants.stops @ kinds)
        top = logs.max(axis=1)
        whole = top + np.log(np.exp(logs - top[:, None]).sum(axis=1))
        return float(quadrants.times @ whole)


def _stop_logs(quadrants: _Quadrants, clumping: float, stop_cv: float) -> FloatArray:
    """Give the log chance of each kind of stop at each density, shape (kinds, densities)."""
    if stop_cv < 2.0 * quadrants.step:
        factors, weights = _gamma_nodes(stop_cv)
        logs = _count_logs(quadrants, quadrants.densities[:, None] * factors, clumping)
        top = logs.max(axis=2)
        return np.asarray(top + np.log(np.exp(logs - top[:, :, None]) @ weights))
    first, weights = _gamma_steps(stop_cv, quadrants.step)
    size = quadrants.densities.size
    steps = first + np.arange(size + weights.size - 1)
    means = quadrants.densities[0] * np.exp(quadrants.step * steps)
    spread = np.zeros((means.size, size))
    for i in range(size):
        spread[i : i + weights.size, i] = weights
    logs = _count_logs(quadrants, means, clumping)
    top = logs.max(axis=1, keepdims=True)
    mixed = np.exp(logs - top) @ spread
    return np.asarray(top + np.log(np.maximum(mixed, np.finfo(float).tiny)))


def _count_logs(quadrants: _Quadrants, mean: FloatArray, clumping: float) -> FloatArray:
    """Give the log chance of each kind of stop at each mean of a plant, kinds first."""
    shape = (-1,) + (1,) * mean.ndim
    n, insects = quadrants.plants.reshape(shape), quadrants.insects.reshape(shape)
    lone = mean * _log1p_over(clumping * mean)  # k log(1 + mean / k)
    risen = _risen(quadrants.plants, quadrants.insects, clumping).reshape(shape)
    return np.asarray(risen + insects * (np.log(mean) - np.log1p(clumping * mean)) - n * lone)


def _risen(plants: IntArray, insects: IntArray, clumping: float) -> FloatArray:
    """Give log of n (n + a) (n + 2 a) ... with as many factors as insects, a being 1/k."""
    step = np.arange(int(insects.max(initial=0)))
    rises = np.log(plants[:, None] + clumping * step)
    return np.asarray(np.where(step < insects[:, None], rises, 0.0).sum(axis=1))


def _log1p_over(x: FloatArray) -> FloatArray:
    """Give log(1 + x)/x, 1 at 0."""
    safe = np.where(x > 0, x, 1.0)
    return np.asarray(np.where(x > 0, np.log1p(safe) / safe, 1.0))


def _gamma_nodes(cv: float) -> tuple[FloatArray, FloatArray]:
    """Give nodes and weights of a narrow gamma distribution with mean 1."""
    if cv < 1e-4:
        return np.ones(1), np.ones(1)
    shape = 1.0 / cv**2
    i = np.arange(_NODES)
    beside = np.sqrt(i[1:] * (i[1:] + shape - 1.0))
    at, vectors = eigh_tridiagonal(2.0 * i + shape, beside)
    return np.asarray(at / shape), np.asarray(vectors[0] ** 2)


def _gamma_steps(cv: float, step: float) -> tuple[int, FloatArray]:
    """Give the weights of a wide gamma distribution with mean 1 at equal steps of the log.

    The first of them is given in steps from a factor of 1; it takes all smaller factors.
    """
    shape = 1.0 / cv**2
    low = max(np.log(gammaincinv(shape, _LEFT_OUT) / shape), _LEAST_FACTOR)
    high = np.log(gammainccinv(shape, _LEFT_OUT) / shape)
    first, last = int(np.floor(low / step)), int(np.ceil(high / step))
    at = step * np.arange(first, last + 1)
    weights = step * np.exp(shape * (np.log(shape) + at - np.exp(at)) - gammaln(shape))
    weights[0] += gammainc(shape, shape * np.exp(at[0] - step / 2.0))
    return first, np.asarray(weights / weights.sum())


def _kinds(plants: IntArray, insects: IntArray) -> tuple[IntArray, IntArray, IntArray]:
    pairs, times = np.unique(np.stack((plants, insects)), axis=1, return_counts=True)
    return pairs[0], pairs[1], times


def _quadrants(stops: Stops) -> _Quadrants | None:
    _, cell = np.unique(stops.cell, return_inverse=True)
    total = np.bincount(cell, weights=stops.insects)
    told = ((total >= 2) & (np.bincount(cell) >= 2))[cell]
    if not told.any():
        return None
    pairs, kind = np.unique(
        np.stack((stops.plants[told], stops.insects[told])), axis=1, return_inverse=True
    )
    rows, row = np.unique(cell[told], return_inverse=True)
    table = np.bincount(row * pairs.shape[1] + kind.ravel(), minlength=rows.size * pairs.shape[1])
    alike, times = np.unique(table.reshape(rows.size, -1), axis=0, return_counts=True)
    plants, insects = alike @ pairs[0], alike @ pairs[1]
    low = np.log(_FEWEST / plants.max())
    high = np.log(_MOST_TIMES * (insects / plants).max())
    step = float(np.clip(1.0 / np.sqrt(insects.max()), _LEAST_STEP, _WIDEST_STEP))
    densities = np.exp(np.arange(low, high + step, step))
    return _Quadrants(
        pairs[0], pairs[1], csr_array(alike.astype(float)), times.astype(float), step, densities
    )
