"""Wald's sequential test of two densities: its two lines, and what he said of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scipy.optimize import brentq

from quarterwalk.plan.classical.counts import Counts

# Nearer to the slope than this share of it, a mean is taken to lie on it: there the
# formulas are 0/0 and their limits are used. [fraction]
_ON_THE_SLOPE = 1e-7


@dataclass(frozen=True, slots=True)
class WaldLines:
    """Two parallel lines for the running total after n plants.

    Parameters
    ----------
    slope : float
        What both lines rise by a plant. [count per plant]
    below : float
        At or below slope × n - below: the low density. [count]
    above : float
        At or above slope × n + above: the high density. [count]
    """

    slope: float
    below: float
    above: float

    def at(self, plants: int) -> tuple[float, float]:
        """Give the lower and the upper line after so many plants. [count]"""
        return self.slope * plants - self.below, self.slope * plants + self.above


@dataclass(frozen=True, slots=True)
class Approximation:
    """What Wald's formulas say: a walk ends just on a line, and never has to end.

    Parameters
    ----------
    low : float
        Chance to end at the lower line. [fraction]
    plants : float
        Mean number of plants looked at. [count]
    """

    low: float
    plants: float


def wald_lines(counts: Counts, low: float, high: float, alpha: float, beta: float) -> WaldLines:
    """Give the lines that tell a low mean from a high one.

    Parameters
    ----------
    counts : Counts
        What is counted on a plant.
    low, high : float
        The two means; for a binomial, shares. [per plant]
    alpha : float
        Nominal chance to call the low mean high. [fraction]
    beta : float
        Nominal chance to call the high mean low. [fraction]

    Returns
    -------
    WaldLines
        For the running total.

    Raises
    ------
    ValueError
        If the means are not 0 < low < high, or the chances not above 0 with a sum below 1.

    References
    ----------
    .. [1] A. Wald, "Sequential Analysis," Wiley, 1947.
    """
    if not 0 < low < high:
        raise ValueError(f"means must be 0 < low < high, got {low} and {high}.")
    if not (alpha > 0 and beta > 0 and alpha + beta < 1):
        raise ValueError(f"alpha, beta must be above 0, their sum below 1, got {alpha}, {beta}.")
    an_insect, a_plant = counts.weights(low, high)
    return WaldLines(
        slope=a_plant / an_insect,
        below=math.log((1.0 - alpha) / beta) / an_insect,
        above=math.log((1.0 - beta) / alpha) / an_insect,
    )


def wald_approximation(lines: WaldLines, counts: Counts, mean: float) -> Approximation:
    """Give Wald's approximate chance of the low side and mean number of plants.

    Parameters
    ----------
    lines : WaldLines
        The test.
    counts : Counts
        What is counted on a plant.
    mean : float
        The true mean, above 0; a share is below 1. [per plant]

    Returns
    -------
    Approximation
        As if no walk ever jumped over a line.

    References
    ----------
    .. [1] A. Wald, "Sequential Analysis," Wiley, 1947.
    """
    if abs(mean - lines.slope) <= _ON_THE_SLOPE * lines.slope:
        low = lines.above / (lines.below + lines.above)
        return Approximation(low, lines.below * lines.above / counts.variance(mean))
    tilt = _tilt(lines, counts, mean)
    # (e^(tilt above) - 1) / (e^(tilt above) - e^(-tilt below)), without overflow
    if tilt > 0:
        low = -math.expm1(-tilt * lines.above) / -math.expm1(-tilt * (lines.above + lines.below))
    else:
        off = math.exp(tilt * lines.below)
        low = off * math.expm1(tilt * lines.above)
        low /= math.expm1(tilt * (lines.above + lines.below))
    drift = mean - lines.slope
    return Approximation(low, ((1.0 - low) * lines.above - low * lines.below) / drift)


def _tilt(lines: WaldLines, counts: Counts, mean: float) -> float:
    """Find the tilt, not 0, at which exp(tilt × (total - slope × n)) has the mean 1."""

    def gap(tilt: float) -> float:
        return counts.log_moment(mean, tilt) - tilt * lines.slope

    # convex, 0 at 0: the other root lies uphill from there
    most = counts.most_tilt(mean)
    near = far = math.copysign(1e-9, lines.slope - mean)
    while gap(far) <= 0.0:
        near, far = far, far * 2.0 if far * 2.0 < most else (far + most) / 2.0
    return float(brentq(gap, near, far, xtol=1e-15, rtol=1e-14))
