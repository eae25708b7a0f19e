"""The exact error and length of any plan that goes by one running total.

The chances of all running totals of walks that still go on are carried from look to look;
what passes a limit has ended there. Nothing is simulated and nothing is approximated but
by what is left out: less than one walk in ten million million.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from quarterwalk.plan.classical.counts import Counts, FloatArray

SideArray = NDArray[np.int8]

LOW, GO_ON, HIGH = -1, 0, 1

# When fewer walks than this still go on, a plan without an end is over. [fraction]
_NEGLIGIBLE = 1e-13

# A plan without an end that goes on for longer is no plan. [looks]
_MOST_LOOKS = 100_000

# A line that should lie on a whole number may miss it by this. [count]
_ROUNDING = 1e-9


class Look(Protocol):
    """A look at the running total after so many plants."""

    @property
    def plants(self) -> int:
        """Plants seen by then. [count]"""

    @property
    def cap(self) -> int | None:
        """The total from which on all have one fate, and end; None if some go on."""

    def sides(self, most: int) -> SideArray:
        """Give LOW, GO_ON or HIGH for each total from 0 to `most`, where `most` is or more."""


@dataclass(frozen=True, slots=True)
class Limits:
    """A look with two limits, both inclusive.

    Parameters
    ----------
    plants : int
        Plants seen by then. [count]
    low : int
        At or below: the low side; -1 for none. [count]
    high : int or None
        At or above: the high side; None for none. [count]
    """

    plants: int
    low: int = -1
    high: int | None = None

    def __post_init__(self) -> None:
        if self.high is not None and self.low >= self.high:
            raise ValueError(
                f"after {self.plants} plants low must lie under high, got {self.low}, {self.high}."
            )

    @property
    def cap(self) -> int | None:
        """The total from which on all have one fate, and end; None if some go on."""
        return self.high

    def sides(self, most: int) -> SideArray:
        """Give LOW, GO_ON or HIGH for each total from 0 to `most`, where `most` is or more."""
        totals = np.arange(most + 1)
        sides = np.where(totals <= self.low, LOW, GO_ON).astype(np.int8)
        if self.high is not None:
            sides[self.high :] = HIGH
        return sides


@dataclass(frozen=True, slots=True)
class Ends:
    """How walks by a plan end at one true mean.

    Parameters
    ----------
    low, high : float
        Chance to end on either side. [fraction]
    undecided : float
        Chance to pass the last look without an answer. [fraction]
    plants : float
        Mean number of plants looked at. [count]
    """

    low: float
    high: float
    undecided: float
    plants: float


def limits_at(
    lines: Callable[[int], tuple[float, float]], looks: Iterable[int]
) -> Iterator[Limits]:
    """Give the whole numbers on and outside two lines, look by look.

    Parameters
    ----------
    lines : callable
        Gives the lower and the upper line after so many plants. [count]
    looks : iterable of int
        Plants seen at each look; may go on for ever. [count]

    Yields
    ------
    Limits
    """
    for plants in looks:
        low, high = lines(plants)
        yield Limits(
            plants, max(math.floor(low + _ROUNDING), -1), max(math.ceil(high - _ROUNDING), 0)
        )


def cut_at(looks: Iterable[Limits], plants: int, least: int) -> Iterator[Limits]:
    """End a plan after so many plants, where one limit decides.

    Parameters
    ----------
    looks : iterable of Limits
        The plan.
    plants : int
        Plants of the last look. [count]
    least : int
        At or above: the high side; below: the low side. [count]

    Yields
    ------
    Limits
    """
    for look in looks:
        if look.plants >= plants:
            break
        yield look
    yield Limits(plants, least - 1, least)


def exact_ends(looks: Iterable[Look], counts: Counts, mean: float) -> Ends:
    """Work out how walks by a plan end.

    Parameters
    ----------
    looks : iterable of Look
        The plan, plants rising; may go on for ever.
    counts : Counts
        What is counted on a plant.
    mean : float
        The true mean. [per plant]

    Returns
    -------
    Ends
        Chances of either side, and the mean length.

    Raises
    ------
    ValueError
        If a look has no more plants than the one before, or a plan does not come to an end.
    """
    going, chances = np.ones(1), np.zeros(0)
    seen = batch = 0
    sums = {LOW: 0.0, HIGH: 0.0}
    plants = 0.0
    for number, look in enumerate(looks):
        if number == _MOST_LOOKS:
            raise ValueError(f"{going.sum():.3g} of the walks go on after {number} looks.")
        if look.plants <= seen:
            raise ValueError(f"a look after {look.plants} plants can't follow one after {seen}.")
        cap = counts.beyond(mean, look.plants) if look.cap is None else look.cap
        if look.plants - seen != batch or chances.size <= cap:
            batch = look.plants - seen
            chances = counts.chances(mean, batch, 2 * cap + 1)
        seen = look.plants
        going = _added(going, chances, cap)
        sides = look.sides(cap)
        for side in sums:
            ended = float(going[sides == side].sum())
            sums[side] += ended
            plants += ended * seen
        going[sides != GO_ON] = 0.0
        if going.sum() < _NEGLIGIBLE:
            break
    undecided = float(going.sum())
    return Ends(sums[LOW], sums[HIGH], undecided, plants + undecided * seen)


def _added(going: FloatArray, chances: FloatArray, cap: int) -> FloatArray:
    """Give the chances of totals 0 to cap-or-more after a batch."""
    kept = np.flatnonzero(going)
    first, last = int(kept[0]), int(kept[-1])
    total = np.zeros(cap + 1)
    if first <= cap:
        more = np.convolve(going[first : last + 1], chances[: cap + 1 - first])
        more = more[: cap + 1 - first]
        total[first : first + more.size] = more
    # what is not among the totals counted is above them
    total[cap] += max(float(going.sum() - total.sum()), 0.0)
    return total
