"""What a walk says of its field."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from quarterwalk.reading.odds import BetaOdds, GammaOdds
from quarterwalk.walk import Method, Quadrant


@dataclass(frozen=True, slots=True)
class QuadrantReading:
    """What was counted in one quadrant.

    Parameters
    ----------
    quadrant : Quadrant
        Which one.
    plants, insects, sweeps : int
        Insect-checked plants, insects on them, sweeps made. [count]
    square_plants, squares, healthy : int
        Square-checked plants, first positions on them, healthy squares. [count]
    """

    quadrant: Quadrant
    plants: int
    insects: int
    sweeps: int
    square_plants: int
    squares: int
    healthy: int

    @property
    def square_set(self) -> Fraction | None:
        """Healthy squares out of all in this quadrant; None where none was looked at."""
        return Fraction(self.healthy, self.squares) if self.squares else None


@dataclass(frozen=True, slots=True)
class Losses:
    """What became of the squares that are not healthy. [count]"""

    missing: int
    blasted: int
    flared: int

    @property
    def total(self) -> int:
        """All squares lost. [count]"""
        return self.missing + self.blasted + self.flared


@dataclass(frozen=True, slots=True)
class Reading:
    """What a walk says of its field; nothing in it depends on a guideline.

    Parameters
    ----------
    method : Method
        How insects were counted.
    plants, adults, nymphs : int
        Insect-checked plants and the insects on them. [count]
    quadrants : tuple of QuadrantReading
        All four, in the order of `quarterwalk.walk.QUADRANTS`.
    density : Fraction or None
        Mean of the quadrants' means, exact; None without an insect check.
        [insects per plant, or per sweep]
    density_odds : GammaOdds or None
        Where the true density may lie.
    square_plants, squaring_plants : int
        Square-checked plants, and those of them with a first position. [count]
    square_set, blasted_share : Fraction or None
        Exact; None where no first position was looked at. [fraction, 0 to 1]
    set_odds, blasted_odds : BetaOdds or None
        Where the true shares may lie.
    losses : Losses
        What became of the squares that are not healthy.
    set_readable : bool
        Whether square set may be compared with a floor.
    evenness_p : float or None
        Chance of quadrants as unlike as these if insects were spread evenly;
        None with fewer than two quadrants. [fraction]
    plan : str
        Hash of the stop plan that ended the walk early; empty for none.
    """

    method: Method
    plants: int
    adults: int
    nymphs: int
    quadrants: tuple[QuadrantReading, ...]
    density: Fraction | None
    density_odds: GammaOdds | None
    square_plants: int
    squaring_plants: int
    square_set: Fraction | None
    set_odds: BetaOdds | None
    blasted_share: Fraction | None
    blasted_odds: BetaOdds | None
    losses: Losses
    set_readable: bool
    evenness_p: float | None
    plan: str = ""

    @property
    def insects(self) -> int:
        """Adults and nymphs together. [count]"""
        return self.adults + self.nymphs

    @property
    def squares(self) -> int:
        """First positions looked at. [count]"""
        return sum(q.squares for q in self.quadrants)

    @property
    def sweeps(self) -> int:
        """Sweeps made. [count]"""
        return sum(q.sweeps for q in self.quadrants)

    @property
    def per_100(self) -> Fraction | None:
        """Insects per 100 terminals, or per 100 sweeps, exact."""
        return None if self.density is None else 100 * self.density

    def per_100_interval(self, level: float) -> tuple[float, float] | None:
        """Give the range of insects per 100 that holds the true value at a level.

        Parameters
        ----------
        level : float
            Chance that the range holds the true value. [fraction]

        Returns
        -------
        (float, float) or None
            [insects per 100]; None without an insect check.
        """
        if self.density_odds is None:
            return None
        low, high = self.density_odds.interval(level)
        return 100 * low, 100 * high

    def set_interval(self, level: float) -> tuple[float, float] | None:
        """Give the range of square set that holds the true value at a level.

        Parameters
        ----------
        level : float
            Chance that the range holds the true value. [fraction]

        Returns
        -------
        (float, float) or None
            [fraction]; None where no first position was looked at.
        """
        return None if self.set_odds is None else self.set_odds.interval(level)
