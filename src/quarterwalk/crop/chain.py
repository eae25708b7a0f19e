"""Emergence, first square, first bloom, cutout as a chain of days, computed without dice.

Each event follows the one before once enough heat has come. Fields differ in how much is
enough, and members of the weather ensemble differ in when it comes; so the chance of each
day is a sum over all days of the event before, for every member.

References
----------
Rabiner, L. R., 1989, A tutorial on hidden Markov models and selected applications in speech
recognition, Proceedings of the IEEE 77(2) (from memory): the sums forward and backward.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt
from numpy.lib.stride_tricks import sliding_window_view
from scipy.special import ndtr

from quarterwalk.crop.needs import Event, Need, Needs
from quarterwalk.weather.daily import FloatArray

# How late an event may come after the one before where it follows no published need: far
# past anything published (a rule of this project). [days]
LATEST = {
    Event.EMERGENCE: 45,
    Event.FIRST_SQUARE: 80,
    Event.FIRST_BLOOM: 75,
    Event.CUTOUT: 75,
}

# The fewest days in which an event can well follow the one before: half of the least that is
# published (National Cotton Council growth table: 4, 27 and 20 days), and a third of the
# usual three weeks to cutout (from memory). Sooner is not ruled out, but has a hundredth of
# the chance below (a rule of this project). [days], [fraction]
EARLIEST = {
    Event.EMERGENCE: 2,
    Event.FIRST_SQUARE: 13,
    Event.FIRST_BLOOM: 10,
    Event.CUTOUT: 7,
}
TOO_SOON = 0.01

# Past these nothing is told of cutout: no crop that blooms so late, or that goes on so long,
# is cut out before the cold ends it (a rule of this project). [days]
LATEST_BLOOM, LONGEST_BLOOM = 150, 100

# A rule of this project: one field in fifty follows no published need, and any day in reach
# is as likely as another for it; so what was seen can always outweigh the model. [fraction]
UNLIKE = 0.02

_ROUNDING = 1e-12  # a chance under this is what rounding leaves
_TAIL = 8.0  # heat so many standard deviations past the mean is always enough
_FAR = 4.0  # heat so many past it is enough in all but one field of thirty thousand
FINE = 8
"""Heat is taken to the eighth of a unit, a hundredth of the narrowest need's spread."""


@dataclass(frozen=True, slots=True, eq=False)
class Step:
    """From one event to the next.

    Parameters
    ----------
    chance : float array, shape (members, starts, days on)
        Chance that the next event comes so many days on (the first column is one day on),
        from each day on which the event before can be.
    beyond : float array, shape (members, starts)
        Chance that it comes later than that.
    """

    chance: FloatArray
    beyond: FloatArray

    @property
    def starts(self) -> int:
        """Days from planting on which the event before can be. [days]"""
        return int(self.beyond.shape[1])

    def onward(self, before: FloatArray) -> FloatArray:
        """Carry weights of the days of one event on to the next.

        Parameters
        ----------
        before : float array, shape (members, days + 1)
            The last column stands for all days beyond.

        Returns
        -------
        float array, shape (members, days + 1)
        """
        starts, reach, days = self.starts, self.chance.shape[2], before.shape[1] - 1
        carried = np.zeros((before.shape[0], days + reach + 1))
        inside = before[:, :starts]
        for on in range(reach):
            carried[:, on + 1 : on + 1 + starts] += inside * self.chance[:, :, on]
        after = np.empty_like(before)
        after[:, :days] = carried[:, :days]
        late = carried[:, days:].sum(axis=1) + (inside * self.beyond).sum(axis=1)
        after[:, days] = late + before[:, starts:].sum(axis=1)
        return after

    def back(self, after: FloatArray) -> FloatArray:
        """Carry what is known of the next event's days back to the event before.

        Parameters
        ----------
        after : float array, shape (members, days + 1)
            How well each day of the next event agrees with what is known.

        Returns
        -------
        float array, shape (members, days + 1)
        """
        starts, reach, days = self.starts, self.chance.shape[2], after.shape[1] - 1
        late = after[:, days:]
        padded = np.concatenate([after[:, :days], np.repeat(late, reach + 1, axis=1)], axis=1)
        total = self.beyond * late
        for on in range(reach):
            total = total + self.chance[:, :, on] * padded[:, on + 1 : on + 1 + starts]
        before = np.repeat(late, days + 1, axis=1)
        before[:, :starts] = total
        return before


def steps_of(heat: FloatArray, needs: Needs) -> dict[Event, Step]:
    """Work out every step of the chain for each member of the ensemble.

    Parameters
    ----------
    heat : float array, shape (members, days)
        Heat summed from planting through each day. [heat units]
    needs : Needs
        What each event needs.

    Returns
    -------
    dict of Event to Step
        The step to each event; that to emergence starts on the day of planting alone.
    """
    steps = np.rint(heat * FINE).astype(np.int32)
    starts, told, sure, spread = 1, {}, 0.0, 0.0
    for event, latest in LATEST.items():
        need = needs.needs[event]
        reach = max(latest, _reach(heat, sure + _FAR * math.sqrt(spread), need))
        if event is Event.CUTOUT:
            starts, reach = min(starts, LATEST_BLOOM + 1), min(reach, LONGEST_BLOOM)
        told[event] = _step(steps, starts, need, reach, _unlike(event))
        starts = min(starts + reach, heat.shape[1])
        sure, spread = sure + need.mean, spread + need.sd**2
    return told


def _reach(heat: FloatArray, before: float, need: Need) -> int:
    """Give the most days that heat may take from an event to the next, in any member.

    `before` is heat from planting by which the event before has come in all but very few.
    """
    enough = need.mean + _FAR * need.sd
    most, days = 1, int(heat.shape[1])
    for sums in heat:
        last = min(int(np.searchsorted(sums, before)), sums.size - 1)
        starts = np.arange(last + 1)
        ends = np.searchsorted(sums, sums[: last + 1] + enough)
        most = max(most, int((ends - starts).max()))
    return min(most, days)


def _unlike(event: Event) -> FloatArray:
    """Share out the field that follows no need over the days on, shape (latest,)."""
    latest, early = LATEST[event], EARLIEST[event] - 1
    shares = np.full(latest, (1 - TOO_SOON) / (latest - early))
    shares[:early] = TOO_SOON / early
    return shares


def _step(
    heat: npt.NDArray[np.int32], starts: int, need: Need, most: int, unlike: FloatArray
) -> Step:
    """Work out one step of at most so many days; `unlike` is where no need is followed."""
    latest = unlike.size
    last = heat.shape[1] - 1
    padded = np.pad(heat, ((0, 0), (0, most)), mode="edge")
    later = sliding_window_view(padded, most + 1, axis=1)[:, :starts]
    enough = _table(need).take(later - heat[:, :starts, None], mode="clip")
    chance = np.diff(enough, axis=2)
    chance *= 1 - UNLIKE
    chance[:, :, :latest] += UNLIKE * unlike
    past = np.arange(starts)[:, None] + np.arange(1, most + 1) > last
    chance[:, past] = 0.0
    beyond = 1.0 - chance.sum(axis=2)
    # what rounding leaves of a whole is no chance: it would let through what can't be
    beyond[beyond < _ROUNDING] = 0.0
    return Step(chance, beyond)


@cache
def _table(need: Need) -> FloatArray:
    """Chance that so much heat was enough, by the eighth of a heat unit."""
    most = int(FINE * (need.mean + _TAIL * need.sd)) + 1
    enough: FloatArray = ndtr((np.arange(most + 1) / FINE - need.mean) / need.sd)
    enough[0], enough[-1] = 0.0, 1.0
    return enough


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """The chain of events of one season, with what is known of each event's days.

    Parameters
    ----------
    days : int
        Days of the season, from planting. [days]
    steps : mapping of Event to Step
        As `steps_of` gives them.
    known : mapping of Event to float array, shape (members or 1, days + 1)
        How well each day of an event agrees with what was seen; left out where nothing was.
    """

    days: int
    steps: Mapping[Event, Step]
    known: Mapping[Event, FloatArray]

    @property
    def _members(self) -> int:
        return int(self.steps[Event.CUTOUT].beyond.shape[0])

    def _agreeing(self, event: Event, weights: FloatArray) -> FloatArray:
        seen = self.known.get(event)
        return weights if seen is None else weights * seen

    def forward(self) -> dict[Event, FloatArray]:
        """Give weights of each event's days by what came before, shape (members, days + 1)."""
        start = np.zeros((self._members, self.days + 1))
        start[:, 0] = 1.0
        weights = self.steps[Event.EMERGENCE].onward(start)
        told = {Event.EMERGENCE: self._agreeing(Event.EMERGENCE, weights)}
        for before, event in _pairs():
            told[event] = self._agreeing(event, self.steps[event].onward(told[before]))
        return told

    def backward(self) -> dict[Event, FloatArray]:
        """Give how well each event's days agree with what was seen of later ones."""
        told = {Event.CUTOUT: np.ones((self._members, self.days + 1))}
        for before, event in reversed(_pairs()):
            told[before] = self.before(event, told[event])
        return told

    def before(self, event: Event, later: FloatArray) -> FloatArray:
        """Carry what is known after an event back to the one before it.

        Parameters
        ----------
        event : Event
            Not the first.
        later : float array, shape (members, days + 1)
            How well each of its days agrees with what was seen of later events.

        Returns
        -------
        float array, shape (members, days + 1)
        """
        return self.steps[event].back(self._agreeing(event, later))


def _pairs() -> Sequence[tuple[Event, Event]]:
    order = list(Event)
    return list(zip(order[:-1], order[1:], strict=True))
