"""Which week of squaring it is, as a chance for each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from quarterwalk.guideline import load_routine
from quarterwalk.weather.daily import FloatArray

Stretch = Literal["before", "squaring", "blooming"]
"""A stretch of the season: before squaring, all weeks of squaring together, or blooming."""


@dataclass(frozen=True, slots=True)
class WeekOdds:
    """Where a crop stands on a day, as chances that add up to 1.

    Parameters
    ----------
    before : float
        That first square is still to come. [fraction]
    weeks : tuple of float
        Of each squaring week from the first on, none of them blooming. [fraction]
    blooming : float
        That first bloom has come. [fraction]
    """

    before: float
    weeks: tuple[float, ...]
    blooming: float

    @property
    def stretches(self) -> tuple[tuple[Stretch, float], ...]:
        """Each stretch of the season with its chance, the likeliest first. [fraction]

        A week is no stretch: set against blooming, each week alone may be the less likely
        while the crop most likely squares.
        """
        squaring = min(1.0, sum(self.weeks))
        told: tuple[tuple[Stretch, float], ...] = (
            ("before", self.before),
            ("squaring", squaring),
            ("blooming", self.blooming),
        )
        return tuple(sorted(told, key=lambda pair: -pair[1]))

    @property
    def likely(self) -> Stretch:
        """The stretch of the season that the crop is most likely in."""
        return self.stretches[0][0]

    @property
    def likely_week(self) -> int | None:
        """The likeliest week; None where the crop most likely does not square. [from 1]"""
        if self.likely != "squaring":
            return None
        return int(np.argmax(self.weeks)) + 1


def week_odds(squaring: FloatArray, square: FloatArray, place: int) -> WeekOdds:
    """Share out the days of first square over the weeks that they make of a day.

    Parameters
    ----------
    squaring : float array, shape (days + 1,)
        Chance of each first-square day together with first bloom still to come. [fraction]
    square : float array, shape (days + 1,)
        Chance of each first-square day. [fraction]
    place : int
        The day asked for. [days from planting]

    Returns
    -------
    WeekOdds
    """
    come = max(0, min(place + 1, square.size - 1))
    before = min(1.0, float(square[come:].sum()))
    weeks = (place - np.arange(come)) // load_routine().week_days
    told = np.bincount(weeks, squaring[:come]) if come else np.zeros(0)
    last = int(np.flatnonzero(told > 0)[-1]) + 1 if np.any(told > 0) else 0
    blooming = float(max(0.0, square[:come].sum() - squaring[:come].sum()))
    return WeekOdds(before, tuple(float(chance) for chance in told[:last]), blooming)
