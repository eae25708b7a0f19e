"""What was found in each quarter, as a sketch shows it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from quarterwalk.reading import Reading
from quarterwalk.walk import Method, Quadrant


@dataclass(frozen=True, slots=True)
class Found:
    """What was found in one quarter.

    Parameters
    ----------
    insects : int
        Insects counted. [count]
    looked : int
        Plants they were looked for on, or sweeps made; 0 where nobody looked. [count]
    square_set : Fraction or None
        Share of the squares that are healthy; None where none was looked at.
        [fraction, 0 to 1]
    """

    insects: int
    looked: int
    square_set: Fraction | None = None

    @property
    def mean(self) -> Fraction | None:
        """Insects on one plant, or in one sweep, exact; None where nobody looked."""
        return Fraction(self.insects, self.looked) if self.looked else None


def found_in(reading: Reading) -> dict[Quadrant, Found]:
    """Say what a walk found in each quarter.

    Parameters
    ----------
    reading : Reading
        What the walk says.

    Returns
    -------
    dict of Quadrant to Found
        All four, in the order of `quarterwalk.walk.QUADRANTS`.
    """
    sweeping = reading.method is Method.SWEEP
    return {
        each.quadrant: Found(
            each.insects, each.sweeps if sweeping else each.plants, each.square_set
        )
        for each in reading.quadrants
    }
