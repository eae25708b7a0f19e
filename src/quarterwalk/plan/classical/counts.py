"""What is counted on one plant: insects (Poisson, negative binomial), or a plant hit or not."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.stats import binom, nbinom, poisson

FloatArray = NDArray[np.float64]

# A total is never above where this chance is left. [fraction]
_NEVER = 1e-16


class Counts(Protocol):
    """The distribution of the count on a plant, all but its mean."""

    def chances(self, mean: float, plants: int, most: int) -> FloatArray:
        """Give the chance of each total from 0 to `most` on so many plants."""

    def beyond(self, mean: float, plants: int) -> int:
        """Give a total that so many plants never pass. [count]"""

    def weights(self, low: float, high: float) -> tuple[float, float]:
        """Give what one insect adds to the log likelihood ratio, and one plant takes off."""

    def variance(self, mean: float) -> float:
        """Give the variance of the count on one plant."""

    def log_moment(self, mean: float, tilt: float) -> float:
        """Give the log of the mean of exp(tilt × count)."""

    def most_tilt(self, mean: float) -> float:
        """Give the tilt up to which that mean is finite."""


@dataclass(frozen=True, slots=True)
class NegativeBinomial:
    """Insects on a plant: variance mean + mean²/k; Poisson where k is infinite.

    Parameters
    ----------
    k : float
        Small k: clumped. The same at every density. [dimensionless]
    """

    k: float = math.inf

    def __post_init__(self) -> None:
        if not self.k > 0:
            raise ValueError(f"k must be above 0, got {self.k}.")

    def chances(self, mean: float, plants: int, most: int) -> FloatArray:
        """Give the chance of each total from 0 to `most` on so many plants."""
        totals = np.arange(most + 1)
        if math.isinf(self.k):
            return np.asarray(poisson.pmf(totals, plants * mean))
        return np.asarray(nbinom.pmf(totals, plants * self.k, self.k / (self.k + mean)))

    def beyond(self, mean: float, plants: int) -> int:
        """Give a total that so many plants never pass. [count]"""
        if math.isinf(self.k):
            return int(poisson.isf(_NEVER, plants * mean)) + 1
        return int(nbinom.isf(_NEVER, plants * self.k, self.k / (self.k + mean))) + 1

    def weights(self, low: float, high: float) -> tuple[float, float]:
        """Give what one insect adds to the log likelihood ratio, and one plant takes off."""
        if math.isinf(self.k):
            return math.log(high / low), high - low
        rest = math.log1p(high / self.k) - math.log1p(low / self.k)
        return math.log(high / low) - rest, self.k * rest

    def variance(self, mean: float) -> float:
        """Give the variance of the count on one plant."""
        return mean + mean**2 / self.k

    def log_moment(self, mean: float, tilt: float) -> float:
        """Give the log of the mean of exp(tilt × count)."""
        if math.isinf(self.k):
            return mean * math.expm1(tilt)
        return -self.k * math.log1p(-mean * math.expm1(tilt) / self.k)

    def most_tilt(self, mean: float) -> float:
        """Give the tilt up to which that mean is finite."""
        return math.log1p(self.k / mean)


@dataclass(frozen=True, slots=True)
class Binomial:
    """A plant is hit (1) or not (0); the mean is the share of plants hit."""

    def chances(self, mean: float, plants: int, most: int) -> FloatArray:
        """Give the chance of each total from 0 to `most` on so many plants."""
        return np.asarray(binom.pmf(np.arange(most + 1), plants, mean))

    def beyond(self, mean: float, plants: int) -> int:
        """Give a total that so many plants never pass. [count]"""
        del mean  # it is the same at every share
        return plants

    def weights(self, low: float, high: float) -> tuple[float, float]:
        """Give what one hit adds to the log likelihood ratio, and one plant takes off."""
        rest = math.log1p(-low) - math.log1p(-high)
        return math.log(high / low) + rest, rest

    def variance(self, mean: float) -> float:
        """Give the variance of the count on one plant."""
        return mean * (1.0 - mean)

    def log_moment(self, mean: float, tilt: float) -> float:
        """Give the log of the mean of exp(tilt × count)."""
        # so written, a large tilt does not overflow
        return float(np.logaddexp(math.log1p(-mean), math.log(mean) + tilt))

    def most_tilt(self, mean: float) -> float:
        """Give the tilt up to which that mean is finite."""
        del mean
        return math.inf
