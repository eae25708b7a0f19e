"""Where the true value may lie, given the walk: one distribution gives range and odds alike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Self

from scipy.special import betainc, betaincc, betaincinv, gammainc, gammaincc, gammaincinv


@dataclass(frozen=True, slots=True)
class GammaOdds:
    """Where the field's true number of insects per plant may lie, given the walk.

    Attributes
    ----------
    shape : float
        Gamma shape; about the number of insects that count as evidence. [count]
    rate : float
        Gamma rate; about the number of plants that count as evidence. [count]
    """

    shape: float
    rate: float

    def __post_init__(self) -> None:
        """Refuse a distribution that can't exist."""
        _must_be_positive(shape=self.shape, rate=self.rate)

    def interval(self, level: float) -> tuple[float, float]:
        """Give the range that holds the true value at the given level.

        Parameters
        ----------
        level : float
            Chance that the range holds the true value, between 0 and 1; the
            rest is split evenly between too low and too high. [fraction]

        Returns
        -------
        low, high : float
            Ends of the range. [per plant]

        Raises
        ------
        ValueError
            If `level` is not between 0 and 1.
        """
        low, high = _tails(level)
        return (
            float(gammaincinv(self.shape, low) / self.rate),
            float(gammaincinv(self.shape, high) / self.rate),
        )

    def at_least(self, value: float) -> float:
        """Give the chance that the true value is `value` or more.

        Parameters
        ----------
        value : float
            Line to compare with. [per plant]

        Returns
        -------
        float
            Chance. [fraction]
        """
        return float(gammaincc(self.shape, self.rate * max(value, 0.0)))

    def below(self, value: float) -> float:
        """Give the chance that the true value is less than `value`.

        Parameters
        ----------
        value : float
            Line to compare with. [per plant]

        Returns
        -------
        float
            Chance. [fraction]
        """
        return float(gammainc(self.shape, self.rate * max(value, 0.0)))

    def scaled(self, factor: float) -> Self:
        """Give what a walk `factor` times as long would say if it found the same.

        Parameters
        ----------
        factor : float
            Plants of the longer walk over plants of this one. [ratio]

        Returns
        -------
        GammaOdds
            The same estimate from more plants.
        """
        shape = factor * (self.shape - PRIOR_COUNT) + PRIOR_COUNT
        return type(self)(shape, self.rate * factor)


@dataclass(frozen=True, slots=True)
class BetaOdds:
    """Where the field's true share may lie, given the walk.

    Attributes
    ----------
    kept : float
        Beta parameter of the squares that count, plus one half. [count]
    lost : float
        Beta parameter of the others, plus one half. [count]
    """

    kept: float
    lost: float

    def __post_init__(self) -> None:
        """Refuse a distribution that can't exist."""
        _must_be_positive(kept=self.kept, lost=self.lost)

    def interval(self, level: float) -> tuple[float, float]:
        """Give the range that holds the true share at the given level.

        Parameters
        ----------
        level : float
            Chance that the range holds the true share, between 0 and 1; the
            rest is split evenly between too low and too high. [fraction]

        Returns
        -------
        low, high : float
            Ends of the range. [fraction]

        Raises
        ------
        ValueError
            If `level` is not between 0 and 1.
        """
        low, high = _tails(level)
        return (
            float(betaincinv(self.kept, self.lost, low)),
            float(betaincinv(self.kept, self.lost, high)),
        )

    def at_least(self, value: float) -> float:
        """Give the chance that the true share is `value` or more.

        Parameters
        ----------
        value : float
            Line to compare with. [fraction]

        Returns
        -------
        float
            Chance. [fraction]
        """
        return float(betaincc(self.kept, self.lost, min(max(value, 0.0), 1.0)))

    def below(self, value: float) -> float:
        """Give the chance that the true share is less than `value`.

        Parameters
        ----------
        value : float
            Line to compare with. [fraction]

        Returns
        -------
        float
            Chance. [fraction]
        """
        return float(betainc(self.kept, self.lost, min(max(value, 0.0), 1.0)))

    def scaled(self, factor: float) -> Self:
        """Give what a walk `factor` times as long would say if it found the same.

        Parameters
        ----------
        factor : float
            Plants of the longer walk over plants of this one. [ratio]

        Returns
        -------
        BetaOdds
            The same estimate from more plants.
        """
        return type(self)(
            factor * (self.kept - PRIOR_COUNT) + PRIOR_COUNT,
            factor * (self.lost - PRIOR_COUNT) + PRIOR_COUNT,
        )


# The half count that stands for knowing nothing before the walk (Jeffreys' rule):
# H. Jeffreys, Theory of Probability, 3rd ed., Oxford, 1961. [count]
PRIOR_COUNT = 0.5


def _tails(level: float) -> tuple[float, float]:
    if not 0.0 < level < 1.0:
        raise ValueError(f"level must lie between 0 and 1, got {level}. Use 0.90 for 90 %.")
    return (1.0 - level) / 2.0, (1.0 + level) / 2.0


def _must_be_positive(**parameters: float) -> None:
    for name, got in parameters.items():
        if not 0.0 < got < float("inf"):
            raise ValueError(f"{name} must be above 0 and finite, got {got}. No check, no odds.")
