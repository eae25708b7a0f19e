"""Scales: where a number stands, and round numbers to write beside it."""

from __future__ import annotations

import math
from dataclasses import dataclass

_ROUND = (1, 2, 5, 10)


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight axis; numbers past its ends are held at them.

    Parameters
    ----------
    first, last : float
        Numbers at its two ends.
    start, stop : float
        Where the two ends lie; it may run either way. [px]
    """

    first: float
    last: float
    start: float
    stop: float

    def __post_init__(self) -> None:
        if self.first == self.last:
            raise ValueError(f"a scale must run from one number to another, got {self.first} only")

    def __call__(self, value: float) -> float:
        """Give the place of a number. [px]"""
        low, high = sorted((self.start, self.stop))
        return min(max(self.on(value), low), high)

    def on(self, value: float) -> float:
        """Give the place of a number, past the ends too. [px]"""
        part = (value - self.first) / (self.last - self.first)
        return self.start + part * (self.stop - self.start)


def round_below(most: float) -> float:
    """Give the largest of 1, 2, 5, 10, 20, 50 … that is not more.

    Parameters
    ----------
    most : float
        Above 0.

    Returns
    -------
    float
        Of the same unit.
    """
    if not 0 < most < math.inf:
        raise ValueError(f"a round number must be sought below one above 0, got {most}")
    power = 10.0 ** math.floor(math.log10(most))
    return max(step * power for step in (0.5, *_ROUND) if step * power <= most * (1 + 1e-12))
