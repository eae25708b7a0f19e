"""Walks that end once the mean is known so well: stop totals of Green and of Kuno.

D is standard error over mean. What such a walk is worth as a classifier is worked out with
`PreciseEnough` and `quarterwalk.plan.classical.exact_single.exact_ends`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from quarterwalk.plan.classical.exact_single import GO_ON, HIGH, LOW, SideArray


def green_total(plants: int, a: float, b: float, precision: float) -> float:
    """Give the total at which a walk may end where the variance is a × mean^b.

    Parameters
    ----------
    plants : int
        Plants seen. [count]
    a, b : float
        Of Taylor's power law; b is not 2. [dimensionless]
    precision : float
        D. [fraction]

    Returns
    -------
    float
        Running total, not rounded. [count]

    References
    ----------
    .. [1] R. H. Green, "On fixed precision level sequential sampling," Researches on
       Population Ecology, vol. 12, pp. 249-251, 1970.
    """
    return float((a * plants ** (1.0 - b) / precision**2) ** (1.0 / (2.0 - b)))


def kuno_total(plants: int, k: float, precision: float) -> float:
    """Give the total at which a walk may end where counts are negative binomial.

    Parameters
    ----------
    plants : int
        Plants seen. [count]
    k : float
        Small k: clumped; infinite: Poisson. [dimensionless]
    precision : float
        D. [fraction]

    Returns
    -------
    float
        Running total, not rounded; infinite up to 1/(k D²) plants. [count]

    References
    ----------
    .. [1] E. Kuno, "A new method of sequential sampling to obtain the population estimates
       with a fixed level of precision," Researches on Population Ecology, vol. 11,
       pp. 127-136, 1969.
    """
    left = precision**2 - 1.0 / (k * plants)
    return 1.0 / left if left > 0 else math.inf


@dataclass(frozen=True, slots=True)
class PreciseEnough:
    """A look that ends the walk when its total is large enough; the mean then decides.

    Parameters
    ----------
    plants : int
        Plants seen by then. [count]
    total : int
        At or above: the walk ends. [count]
    least : int
        At or above, a walk that ends is on the high side. [count]
    """

    plants: int
    total: int
    least: int

    @property
    def cap(self) -> int | None:
        """The total from which on all have one fate, and end."""
        return max(self.total, self.least)

    def sides(self, most: int) -> SideArray:
        """Give LOW, GO_ON or HIGH for each total from 0 to `most`, where `most` is or more."""
        totals = np.arange(most + 1)
        ended = np.where(totals >= self.least, HIGH, LOW)
        return np.where(totals >= self.total, ended, GO_ON).astype(np.int8)


def precise_looks(
    stop_total: Callable[[int], float], line: float, looks: Iterable[int], last: int
) -> Iterator[PreciseEnough]:
    """Give the looks of a walk that ends when it is precise enough, or after its last plant.

    Parameters
    ----------
    stop_total : callable
        Gives the total at which a walk may end after so many plants. [count]
    line : float
        A mean at or above it is on the high side. [per plant]
    looks : iterable of int
        Plants seen at each look. [count]
    last : int
        Plants at which every walk ends. [count]

    Yields
    ------
    PreciseEnough
    """
    for plants in looks:
        total = stop_total(plants)
        if plants < last and math.isfinite(total):
            yield PreciseEnough(plants, math.ceil(total), math.ceil(line * plants))
    yield PreciseEnough(last, 0, math.ceil(line * last))
