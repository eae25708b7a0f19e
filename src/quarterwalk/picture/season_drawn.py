"""What a drawing of one field's season shows: heat, events of the crop, walks, what is next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from quarterwalk.call import Verdict

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SeasonMark:
    """One event of the crop.

    Parameters
    ----------
    name : str
        Worded already, such as ``first square``.
    likely : date
        Its day, or its most likely day.
    span : (date, date)
        Where it lies 8 times in 10; both are the likely day where it was seen.
    seen : bool
        Whether someone saw it.
    given : bool
        Whether its range is one that somebody gave.
    """

    name: str
    likely: date
    span: tuple[date, date]
    seen: bool
    given: bool = False

    def __post_init__(self) -> None:
        first, last = self.span
        if not first <= self.likely <= last:
            raise ValueError(
                f"an event's likely day must lie in its range {first} to {last}, got {self.likely}"
            )
        if self.seen and first != last:
            raise ValueError(f"an event that was seen has one day, got {first} to {last}")


@dataclass(frozen=True, slots=True)
class SeasonWalk:
    """A walk and what it called for; None where no call was made."""

    on: date
    verdict: Verdict | None


@dataclass(frozen=True, slots=True, eq=False)
class SeasonDrawn:
    """All that the drawing of one season shows.

    Parameters
    ----------
    planted, today, last : date
        When it was planted, the day of the drawing, and the last day that is drawn.
    heat : ndarray, shape (days,)
        Heat units summed from planting through each day, up to today; NaN where
        unknown. [DD60]
    ahead : three ndarrays, shape (days,)
        Low, middle and high of that sum for each day after today, up to the last. [DD60]
    normal : three ndarrays, shape (days,), or None
        Low, middle and high of the sum in the station's other years, for each day from
        planting to the last. [DD60]
    marks : tuple of SeasonMark
        Events of the crop, the earliest first.
    walks : tuple of SeasonWalk
        Walks of this season.
    next_look : (date, date) or None
        First and last day of the next look.
    weeks : tuple of (date, date)
        First and last day of each week of squaring.
    treated : tuple of date
        Days of a spray.
    replanted : bool
        Whether it was planted over an earlier stand.
    """

    planted: date
    today: date
    last: date
    heat: FloatArray
    ahead: tuple[FloatArray, FloatArray, FloatArray]
    normal: tuple[FloatArray, FloatArray, FloatArray] | None
    marks: tuple[SeasonMark, ...]
    walks: tuple[SeasonWalk, ...]
    next_look: tuple[date, date] | None
    weeks: tuple[tuple[date, date], ...]
    treated: tuple[date, ...] = ()
    replanted: bool = False

    def __post_init__(self) -> None:
        before, after = (self.today - self.planted).days + 1, (self.last - self.today).days
        if before < 1 or after < 0:
            raise ValueError(
                f"a season runs from planting by today to its last day,"
                f" got {self.planted}, {self.today}, {self.last}"
            )
        _of_days("heat up to today", (self.heat,), before)
        _of_days("heat after today", self.ahead, after)
        _of_days("heat of other years", self.normal or (), before + after)

    @property
    def known(self) -> int | None:
        """Days from planting to the last whose sum is known; None where none is.

        The day of planting counts for nothing, so that its sum alone is none.
        """
        known = np.flatnonzero(np.isfinite(self.heat))
        return (int(known[-1]) or None) if known.size else None


def _of_days(what: str, arrays: tuple[FloatArray, ...], days: int) -> None:
    for array in arrays:
        if array.shape != (days,):
            raise ValueError(f"{what} must be told for {days} days, got shape {array.shape}")
