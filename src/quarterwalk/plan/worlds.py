"""Ways in which insects and lost squares may lie in a field."""

from __future__ import annotations

import math
from dataclasses import dataclass

from quarterwalk.plan.numbers import load_numbers


@dataclass(frozen=True, slots=True)
class World:
    """How unlike plants and stops of one field are.

    Parameters
    ----------
    name : str
        Its name.
    k : float
        Clumping of insects between plants; infinite where they lie at random. [dimensionless]
    rho : float
        Correlation of two squares of one plant. [fraction]
    stop_cv : float
        Coefficient of variation of a gamma factor that the plants of a stop share. [fraction]

    Raises
    ------
    ValueError
        If `k` is not above 0, `rho` not from 0 to under 1, or `stop_cv` below 0.
    """

    name: str
    k: float
    rho: float = 0.0
    stop_cv: float = 0.0

    def __post_init__(self) -> None:
        if not (self.k > 0 and 0 <= self.rho < 1 and 0 <= self.stop_cv < math.inf):
            raise ValueError(
                f"k must be above 0, rho from 0 to under 1 and stop_cv 0 or more, got {self}."
            )


def _world(name: str) -> World:
    given = load_numbers()["worlds"][name]
    return World(name, given["k"], given["rho"], given["stop_cv"])


NOMINAL = _world("nominal")
"""The one that plans are thought in."""

ROBUST = tuple(_world(name) for name in ("clumped", "patchy", "even"))
"""Those in which a plan must hold as well."""

WORLDS = (NOMINAL, *ROBUST)
"""All four in which the limits are kept."""
