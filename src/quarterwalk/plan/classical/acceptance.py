"""Acceptance by attributes: a sample from a lot, and the most defective that it may have."""

from __future__ import annotations

from dataclasses import dataclass

from scipy.stats import beta, binom


@dataclass(frozen=True, slots=True)
class SingleSample:
    """A single sampling plan: accept with `most` defective or fewer among `size`.

    Parameters
    ----------
    size : int
        Units looked at. [count]
    most : int
        Acceptance number, under the size. [count]
    """

    size: int
    most: int

    def __post_init__(self) -> None:
        if not 0 <= self.most < self.size:
            raise ValueError(f"most must lie from 0 to under {self.size}, got {self.most}.")


def acceptance(plan: SingleSample, defective: float) -> float:
    """Give the chance that a lot is accepted (its operating characteristic).

    Parameters
    ----------
    plan : SingleSample
        The plan.
    defective : float
        Share defective of a lot much larger than the sample. [fraction]

    Returns
    -------
    float
        Chance. [fraction]
    """
    return float(binom.cdf(plan.most, plan.size, defective))


def defective_at(plan: SingleSample, chance: float) -> float:
    """Give the share defective at which a lot is accepted with a chance.

    Parameters
    ----------
    plan : SingleSample
        The plan.
    chance : float
        Chance of acceptance. [fraction]

    Returns
    -------
    float
        Share defective. [fraction]
    """
    return float(beta.isf(chance, plan.most + 1, plan.size - plan.most))


def mean_inspected(plan: SingleSample, defective: float, lot: int) -> float:
    """Give the mean number of units looked at where a lot not accepted is looked at whole.

    Parameters
    ----------
    plan : SingleSample
        The plan.
    defective : float
        Share defective. [fraction]
    lot : int
        Units of the lot. [count]

    Returns
    -------
    float
        Units. [count]
    """
    return plan.size + (1.0 - acceptance(plan, defective)) * (lot - plan.size)
