"""Iwao's plan: go on while the confidence interval of the mean still holds the line."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class IwaoLines:
    """Two curves for the running total, t standard errors to either side of the line.

    Parameters
    ----------
    line : float
        Critical mean. [per plant]
    alpha, beta : float
        Mean crowding is alpha + beta × mean, so the variance of a count is
        (alpha + 1) mean + (beta - 1) mean². A negative binomial has alpha 0 and beta
        1 + 1/k. [dimensionless]
    t : float
        Standard errors. [dimensionless]

    References
    ----------
    .. [1] S. Iwao, "A new method of sequential sampling to classify populations relative to
       a critical density," Researches on Population Ecology, vol. 16, pp. 281-288, 1975.
    """

    line: float
    alpha: float
    beta: float
    t: float

    def at(self, plants: int) -> tuple[float, float]:
        """Give the lower and the upper curve after so many plants. [count]"""
        variance = (self.alpha + 1.0) * self.line + (self.beta - 1.0) * self.line**2
        half = self.t * math.sqrt(plants * variance)
        return plants * self.line - half, plants * self.line + half
