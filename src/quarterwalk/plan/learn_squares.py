"""How likely the lost squares of many plants are, when those of one plant are alike."""

from __future__ import annotations

import numpy as np
from scipy.optimize import minimize
from scipy.special import expit

from quarterwalk.plan.learn_tally import SquarePlants
from quarterwalk.reading.sums import FloatArray, IntArray

# The lost share of a quadrant is summed out over these. [logit]
_STEP = 0.2
_SHARES = np.arange(-8.0, 6.0 + _STEP, _STEP)

# How unlike the quadrants of all walks are lies in here: less than a step of the sum can't
# be told from none. [standard deviation of the logit]
_LEAST_SPREAD, _MOST_SPREAD = _STEP, 4.0

_LEAST_CHANCE = 1e-300  # of a quadrant too far from all others; its logarithm must be finite


class SquareChance:
    """The log likelihood of the lost squares of many plants.

    Parameters
    ----------
    plants : SquarePlants
        What was counted.

    References
    ----------
    .. [1] J. G. Skellam, "A probability distribution derived from the binomial
       distribution by regarding the probability of success as variable between
       the sets of trials," J. R. Stat. Soc. B, vol. 10, pp. 257-261, 1948.
    """

    def __init__(self, plants: SquarePlants) -> None:
        pairs, kind = np.unique(
            np.stack((plants.squares, plants.lost)), axis=1, return_inverse=True
        )
        cells, row = np.unique(plants.cell, return_inverse=True)
        shape = (cells.size, pairs.shape[1])
        table = np.bincount(row * shape[1] + kind.ravel(), minlength=shape[0] * shape[1])
        alike, times = np.unique(table.reshape(shape), axis=0, return_counts=True)
        self._squares, self._lost = pairs
        self._plants, self._times = alike.astype(float), times.astype(float)
        share = plants.lost.sum() / plants.squares.sum()
        share = min(max(float(share), 0.01), 0.99)
        self._start = np.array([np.log(share / (1.0 - share)), np.log(0.5)])

    def log(self, rho: float) -> float:
        """Give the log likelihood where the spread of the quadrants fits best.

        Parameters
        ----------
        rho : float
            Correlation of two squares of one plant. [fraction]

        Returns
        -------
        float
        """
        logs = self._plants @ _plant_logs(self._squares, self._lost, rho)
        top = logs.max(axis=1)
        chance = np.exp(logs - top[:, None])

        def loss(where: FloatArray) -> float:
            return -float(
                self._times @ np.log(np.maximum(chance @ _normal_weights(*where), 1e-300))
            )

        best = minimize(
            loss, self._start, method="Nelder-Mead", options={"xatol": 0.01, "fatol": 0.001}
        )
        return float(self._times @ top) - float(best.fun)


def _plant_logs(squares: IntArray, lost: IntArray, rho: float) -> FloatArray:
    """Give the log chance of each kind of plant at each share, shape (kinds, shares)."""
    step = np.arange(int(squares.max()))[:, None]
    gone = _summed(np.log(expit(_SHARES) * (1.0 - rho) + step * rho))
    kept = _summed(np.log(expit(-_SHARES) * (1.0 - rho) + step * rho))
    whole = _summed(np.log(1.0 - rho + step * rho))
    return np.asarray(gone[lost] + kept[squares - lost] - whole[squares])


def _summed(logs: FloatArray) -> FloatArray:
    """Add up from the first on, with 0 before it."""
    return np.concatenate((np.zeros((1, logs.shape[1])), np.cumsum(logs, axis=0)))


def _normal_weights(middle: float, log_spread: float) -> FloatArray:
    spread = np.clip(np.exp(log_spread), _LEAST_SPREAD, _MOST_SPREAD)
    # a middle outside of the sum has nothing near it
    weight = np.exp(-0.5 * ((_SHARES - np.clip(middle, _SHARES[0], _SHARES[-1])) / spread) ** 2)
    return np.asarray(weight / weight.sum())
