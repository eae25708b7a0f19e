"""Where the true value may lie, given the walk: one distribution gives range and odds alike."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import Self

from scipy.special import betainc, betaincc, betaincinv, gammainc, gammaincc, gammaincinv

# The half count that stands for knowing nothing before the walk (Jeffreys' rule):
# H. Jeffreys, Theory of Probability, 3rd ed., Oxford, 1961. [count]
PRIOR_COUNT = 0.5

# From about here on a range tells of the tails of the estimate, which nobody has checked, and
# no more of the field; past 0.999999999999999 it has no end (this project's rule). [fraction]
HIGHEST_LEVEL = 0.999999


class Odds(ABC):
    """Where a true value of the field may lie, given the walk."""

    __slots__ = ()

    def interval(self, level: float) -> tuple[float, float]:
        """Give the range that holds the true value at the given level.

        Parameters
        ----------
        level : float
            Chance that the range holds the true value, above 0 and at most
            `HIGHEST_LEVEL`; the rest is split evenly between too low and too
            high. [fraction]

        Returns
        -------
        low, high : float
            Ends of the range, in the unit of the value.

        Raises
        ------
        ValueError
            If `level` is not such a chance.
        """
        if not 0.0 < level <= HIGHEST_LEVEL:
            raise ValueError(
                f"level must be above 0 and at most {HIGHEST_LEVEL}, got {level}."
                " Use 0.90 for 90 %."
            )
        return self._at((1.0 - level) / 2.0), self._at((1.0 + level) / 2.0)

    @abstractmethod
    def at_least(self, value: float) -> float:
        """Give the chance that the true value is `value` or more.

        Parameters
        ----------
        value : float
            Line to compare with. [unit of the value]

        Returns
        -------
        float
            Chance. [fraction]
        """

    @abstractmethod
    def below(self, value: float) -> float:
        """Give the chance that the true value is less than `value`.

        Parameters
        ----------
        value : float
            Line to compare with. [unit of the value]

        Returns
        -------
        float
            Chance. [fraction]
        """

    @abstractmethod
    def scaled(self, factor: float) -> Self:
        """Give what a walk `factor` times as long would say if it found the same.

        Parameters
        ----------
        factor : float
            Plants of the longer walk over plants of this one. [ratio]

        Returns
        -------
        Odds
            The same estimate from more plants.
        """

    @abstractmethod
    def _at(self, chance: float) -> float:
        """Give the value that the true one is below with the given chance."""


@dataclass(frozen=True, slots=True)
class GammaOdds(Odds):
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
        _must_be_positive(shape=self.shape, rate=self.rate)

    def at_least(self, value: float) -> float:  # noqa: D102 - said by Odds
        return float(gammaincc(self.shape, self.rate * max(value, 0.0)))

    def below(self, value: float) -> float:  # noqa: D102
        return float(gammainc(self.shape, self.rate * max(value, 0.0)))

    def scaled(self, factor: float) -> Self:  # noqa: D102
        return type(self)(_times(self.shape, factor), self.rate * factor)

    def _at(self, chance: float) -> float:
        return float(gammaincinv(self.shape, chance) / self.rate)


@dataclass(frozen=True, slots=True)
class BetaOdds(Odds):
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
        _must_be_positive(kept=self.kept, lost=self.lost)

    def at_least(self, value: float) -> float:  # noqa: D102
        return float(betaincc(self.kept, self.lost, min(max(value, 0.0), 1.0)))

    def below(self, value: float) -> float:  # noqa: D102
        return float(betainc(self.kept, self.lost, min(max(value, 0.0), 1.0)))

    def scaled(self, factor: float) -> Self:  # noqa: D102
        return type(self)(_times(self.kept, factor), _times(self.lost, factor))

    def _at(self, chance: float) -> float:
        return float(betaincinv(self.kept, self.lost, chance))


def _times(count: float, factor: float) -> float:
    """Multiply the evidence in a parameter, and not the half count put in before it."""
    return factor * (count - PRIOR_COUNT) + PRIOR_COUNT


def _must_be_positive(**parameters: float) -> None:
    for name, got in parameters.items():
        if not 0.0 < got < float("inf"):
            raise ValueError(f"{name} must be above 0 and finite, got {got}. No check, no odds.")
