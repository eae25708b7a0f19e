"""How likely the insects of many walks are, when the fields are so and so far apart."""

from __future__ import annotations

import numpy as np

from quarterwalk.guideline import load_routine
from quarterwalk.plan.learn_tally import FieldCounts
from quarterwalk.reading.sums import FloatArray

# The density of a field is summed out over these. [log of insects per plant]
_STEP = 0.1
_LEAST_CHANCE = 1e-300  # of a field too far from all others; its logarithm must be finite
_DENSITIES = np.arange(-12.0, 5.0 + _STEP, _STEP)


class FieldChance:
    """The log likelihood of the insects of many walks, fields being log-normal.

    Parameters
    ----------
    fields : FieldCounts
        What was counted; each field counts as one walk.
    clumping : float
        1/k, as learnt from the same walks. [dimensionless]
    stop_cv : float
        How unlike stops are, as learnt from the same walks. [fraction]

    Notes
    -----
    The sum of a walk is taken as negative binomial with the variance that plants and stops
    give it; that k and the likeness of stops are themselves uncertain is left out.
    """

    def __init__(self, fields: FieldCounts, clumping: float, stop_cv: float) -> None:
        a_stop = load_routine().plants_a_stop
        over = clumping * (1.0 + stop_cv**2) + a_stop * stop_cv**2
        each = np.exp(_DENSITIES)
        n, insects = fields.plants[:, None], (fields.density * fields.plants)[:, None]
        logs = insects * (_DENSITIES - np.log1p(over * each))
        # n plants of one k, or of none
        logs = logs - n * (np.log1p(over * each) / over if over > 0 else each)
        self._top = logs.max(axis=1)
        self._chance = np.exp(logs - self._top[:, None])
        self._part = fields.part

    def log(self, middle: float, spread: float) -> float:
        """Give the log likelihood, less what does not hang on the two values.

        Parameters
        ----------
        middle : float
            Logarithm of the median of insects per plant. [log]
        spread : float
            Standard deviation of the logarithm; less than 0.1 passes for 0.1. [log]

        Returns
        -------
        float
        """
        chance = self._chance @ _weights(middle, spread)
        return float(self._part @ np.log(np.maximum(chance, _LEAST_CHANCE)))


def _weights(middle: float, spread: float) -> FloatArray:
    weight = np.exp(-0.5 * ((_DENSITIES - middle) / max(spread, _STEP)) ** 2)
    return np.asarray(weight / weight.sum())
