"""Which day an event falls on, as a chance for each day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from quarterwalk.weather.daily import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class DayOdds:
    """The chance of each day that something falls on it.

    Parameters
    ----------
    first : date
        The first day.
    chance : float array, shape (days,)
        Of each day. [fraction]
    beyond : float
        Chance that it falls later than all of them. [fraction]
    """

    first: date
    chance: FloatArray
    beyond: float = 0.0

    def by(self, day: date) -> float:
        """Give the chance that it falls on a day or before.

        Parameters
        ----------
        day : date
            The day.

        Returns
        -------
        float
            [fraction]
        """
        days = (day - self.first).days + 1
        return 0.0 if days <= 0 else min(1.0, float(self.chance[:days].sum()))

    def reached(self, share: float) -> date | None:
        """Give the day by which it has fallen with some chance.

        Parameters
        ----------
        share : float
            Such as 0.5 for the middle day. [fraction]

        Returns
        -------
        date or None
            None where that is beyond all days.
        """
        place = int(np.searchsorted(np.cumsum(self.chance), share - 1e-12))
        return None if place >= self.chance.size else self._day(place)

    @property
    def likely(self) -> date | None:
        """The middle day: as likely before as after."""
        return self.reached(0.5)

    def within(self, level: float) -> tuple[date, date] | None:
        """Give the days that hold it with some chance, as few of them as will do.

        Parameters
        ----------
        level : float
            Such as 0.8 for 8 in 10. [fraction]

        Returns
        -------
        (date, date) or None
            The first and the last, with a chance as near `level` as whole days allow; None
            where it lies beyond all days.
        """
        total = np.concatenate([[0.0], np.cumsum(self.chance)])
        if self.likely is None or total[-1] < level:
            return None
        starts = np.arange(self.chance.size)
        ends = np.searchsorted(total, total[:-1] + level - 1e-12)
        fits = ends <= self.chance.size
        shortest = int((ends - starts)[fits].min())
        runs = [_best_run(total, length) for length in (shortest - 1, shortest) if length > 0]
        start, length, _ = min(runs, key=lambda run: (abs(run[2] - level), run[1]))
        middle = (self.likely - self.first).days
        possible = np.flatnonzero(self.chance[start : start + length]) + start
        first, last = min(int(possible[0]), middle), max(int(possible[-1]), middle)
        return self._day(first), self._day(last)

    def _day(self, place: int) -> date:
        return self.first + timedelta(days=place)


def _best_run(total: FloatArray, length: int) -> tuple[int, int, float]:
    """Give the likeliest run of so many days: its start, length and chance."""
    held = total[length:] - total[:-length]
    start = int(np.argmax(held))
    return start, length, float(held[start])
