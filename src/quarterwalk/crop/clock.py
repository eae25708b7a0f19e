"""The crop's clock: where one field's season stands, by heat and by what was seen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from quarterwalk.crop.chain import Chain, Step, steps_of
from quarterwalk.crop.dates import CropDateError, CropDates
from quarterwalk.crop.day_odds import DayOdds
from quarterwalk.crop.likeness import Ground, agreement, nodes_windows
from quarterwalk.crop.needs import Event, Needs, load_needs
from quarterwalk.crop.seen import Given, Seen, Sign
from quarterwalk.crop.stage import Stage, WorkedOut, stage_on
from quarterwalk.crop.week_odds import WeekOdds, week_odds
from quarterwalk.crop.window import Kept, Window, kept, windows_of
from quarterwalk.weather.ahead import SeasonHeat, season_heat
from quarterwalk.weather.daily import DailyWeather, FloatArray
from quarterwalk.weather.heat_units import HEAT_METHODS

SEASON_DAYS = 200
"""Days from planting that a clock runs: past cutout wherever cotton is grown. [days]"""

RANGE = 0.8
"""Chance that a printed range of days holds the event: 8 in 10. [fraction]"""

# The call takes first-square days that leave out 1 in 20 on either side. [fraction]
CALL_TAIL = 0.05

# Seen less likely than this by weather alone, it is said that the two disagree. [fraction]
_UNLIKELY = 0.1


@dataclass(frozen=True, slots=True)
class Disagreement:
    """What was seen against what the weather alone makes likely.

    Parameters
    ----------
    sign : Sign
        What was seen.
    on : date
        When.
    event : Event
        The event that it speaks of.
    window : (date or None, date or None)
        Days that it leaves to the event; None where there is no end.
    expected : (date, date) or None
        Days of the event by weather alone, 8 in 10.
    """

    sign: Sign
    on: date
    event: Event
    window: tuple[date | None, date | None]
    expected: tuple[date, date] | None


@dataclass(frozen=True, slots=True)
class SetAside:
    """Something seen that can't be true beside something that holds before it."""

    sign: Sign
    on: date
    by: Sign
    by_on: date


@dataclass(frozen=True, slots=True, eq=False)
class CropClock:
    """Where one field's season stands on a day.

    Parameters
    ----------
    planted, on : date
        The day of planting, and the day on which the clock was read.
    odds : mapping of Event to DayOdds
        Each event's days, by heat and by what was seen.
    by_weather : mapping of Event to DayOdds
        The same by heat alone.
    four_leaves : DayOdds
        The day of the fourth true leaf.
    weeks : WeekOdds
        Where the crop stands on `on`.
    given : Given
        What was given outright.
    seen : tuple of Seen
        What was seen until `on`, by day.
    disagreements : tuple of Disagreement
        Where what was seen and the weather disagree; what was seen holds.
    set_aside : tuple of SetAside
        What was seen but can't be true beside the rest.
    heat : SeasonHeat
        The heat that it ran on.
    """

    planted: date
    on: date
    odds: Mapping[Event, DayOdds]
    by_weather: Mapping[Event, DayOdds]
    four_leaves: DayOdds
    weeks: WeekOdds
    given: Given
    seen: tuple[Seen, ...]
    disagreements: tuple[Disagreement, ...]
    set_aside: tuple[SetAside, ...]
    heat: SeasonHeat

    @property
    def first_square(self) -> tuple[date, date]:
        """First and last day that first square may have been, for the call: 9 in 10."""
        if self.given.first_square is not None:
            return self.given.first_square
        odds = self.odds[Event.FIRST_SQUARE]
        first, last = odds.reached(CALL_TAIL), odds.reached(1 - CALL_TAIL)
        end = self.planted + timedelta(days=SEASON_DAYS)
        return first or end, last or end

    @property
    def bloom(self) -> date | None:
        """First bloom as given, or its likely day where flowers were seen by now."""
        if self.given.bloom is not None:
            return self.given.bloom
        counted = (_without(each, self.set_aside) for each in self.seen)
        if not any(each.bloom or each.nawf is not None for each in counted):
            return None
        return self.odds[Event.FIRST_BLOOM].likely

    def stage(self) -> Stage:
        """Give the stage on the day on which the clock was read.

        Returns
        -------
        Stage
            With its chances where first square was not given.
        """
        stage = stage_on(self.on, self.dates())
        likely = self.odds[Event.FIRST_SQUARE].likely
        if self.given.first_square is not None or likely is None:
            return stage
        known = self.heat.known_until
        until = known if known < self.on else None
        told = WorkedOut(*self.first_square, likely, self.weeks, until)
        return replace(stage, worked_out=told)

    def dates(self, treated: tuple[date, ...] = ()) -> CropDates:
        """Give the dates that a call needs.

        Parameters
        ----------
        treated : tuple of date
            Days on which something was sprayed against the insects.

        Returns
        -------
        CropDates
        """
        first, last = self.first_square
        bloom = self.bloom
        if bloom is not None:
            last = max(first, min(last, bloom - timedelta(days=1)))
        return CropDates(first, None if last == first else last, bloom, treated)


def read_clock(
    heat: SeasonHeat,
    *,
    on: date,
    given: Given | None = None,
    seen: Sequence[Seen] = (),
    needs: Needs | None = None,
) -> CropClock:
    """Tell where a field's season stands, by heat since planting and by what was seen.

    Parameters
    ----------
    heat : SeasonHeat
        From the day of planting on, `SEASON_DAYS` long; a stand planted again counts from
        that day.
    on : date
        The day; what was seen later is not looked at.
    given : Given or None
        Days given outright.
    seen : sequence of Seen
        What was seen, in any order.
    needs : Needs or None
        What the crop needs; None takes the package's own.

    Returns
    -------
    CropClock

    Notes
    -----
    No dice: the chance of every day follows exactly from needs, ensemble and what was
    seen. What was seen rules days out and weighs the others; it always beats the model.
    """
    needs, given = needs or load_needs(), given or Given()
    looked = tuple(sorted((each for each in seen if each.on <= on), key=lambda one: one.on))
    ground = Ground(heat.first, _summed(heat), needs)
    steps = steps_of(ground.heat, needs)
    told = _told(ground, steps, kept(windows_of(heat.first, given, looked, needs)), looked)
    run = _run(ground, told, on)
    alone = run.odds
    if told.chain.known:
        alone = _odds(_chances(Chain(ground.days, steps, {}).forward()), ground)
    return CropClock(
        planted=heat.first,
        on=on,
        odds=run.odds,
        by_weather=alone,
        four_leaves=run.four_leaves,
        weeks=run.weeks,
        given=given,
        seen=looked,
        disagreements=_disagreeing((*told.windows, *nodes_windows(ground, looked)), alone),
        set_aside=told.aside,
        heat=heat,
    )


def _summed(heat: SeasonHeat) -> FloatArray:
    """Sum the heat after the day of planting, which itself counts for nothing."""
    return heat.summed - heat.heat[:, :1]


@dataclass(frozen=True, slots=True, eq=False)
class _Told:
    """What was seen as the chain takes it, and what it can't."""

    chain: Chain
    ahead: Mapping[Event, FloatArray]
    windows: tuple[Window, ...]
    aside: tuple[SetAside, ...]


def _told(ground: Ground, steps: Mapping[Event, Step], held: Kept, looked: Sequence[Seen]) -> _Told:
    """Take all that was seen, less what no season can hold: that which holds last goes first."""
    windows, pairs = list(held.windows), list(held.set_aside)
    while True:
        aside = tuple(SetAside(w.sign, w.on, by.sign, by.on) for w, by in pairs)
        counted = [_without(each, aside) for each in looked]
        chain = Chain(ground.days, steps, agreement(ground, windows[1:], counted))
        ahead = chain.forward()
        if len(windows) == 1 or ahead[Event.CUTOUT].any():
            return _Told(chain, ahead, tuple(windows[1:]), aside)
        pairs.append((windows.pop(), windows[0]))


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    odds: dict[Event, DayOdds]
    four_leaves: DayOdds
    weeks: WeekOdds


def _run(ground: Ground, told: _Told, on: date) -> _Run:
    chain, ahead = told.chain, told.ahead
    behind = chain.backward()
    weights = {event: ahead[event] * behind[event] for event in Event}
    chances = _chances(weights)
    square, place = Event.FIRST_SQUARE, ground.place(on)
    later = np.zeros((1, ground.days + 1))
    later[:, max(place + 1, 0) :] = 1.0
    # weights of each first-square day with first bloom still to come
    open_bloom = chain.before(Event.FIRST_BLOOM, behind[Event.FIRST_BLOOM] * later)
    squaring = (ahead[square] * open_bloom).sum(axis=0) / weights[square].sum()
    return _Run(
        _odds(chances, ground),
        _four_leaves(ground, weights[square]),
        week_odds(squaring, chances[square], place),
    )


def _chances(weights: Mapping[Event, FloatArray]) -> dict[Event, FloatArray]:
    """Turn weights by member into the chance of each day, shape (days + 1,)."""
    return {event: told.sum(axis=0) / told.sum() for event, told in weights.items()}


def _odds(chances: Mapping[Event, FloatArray], ground: Ground) -> dict[Event, DayOdds]:
    return {
        event: DayOdds(ground.planted, told[:-1], max(0.0, float(told[-1])))
        for event, told in chances.items()
    }


def _four_leaves(ground: Ground, weights: FloatArray) -> DayOdds:
    """Count back from each first-square day by the heat of the leaves between."""
    needs = ground.needs
    nodes = needs.value("first_branch_node") - needs.value("four_leaves")
    back = nodes * needs.value("node_heat")
    chance = np.zeros(ground.days)
    for heat, told in zip(ground.heat, weights, strict=True):
        days = np.searchsorted(heat, np.maximum(heat - back, 0.0))
        np.add.at(chance, days, told[:-1])
    total = weights.sum()
    return DayOdds(ground.planted, chance / total, float(weights[:, -1].sum() / total))


def _disagreeing(
    windows: Sequence[Window], alone: Mapping[Event, DayOdds]
) -> tuple[Disagreement, ...]:
    told = [
        Disagreement(
            window.sign,
            window.on,
            window.event,
            (window.first, window.last),
            alone[window.event].within(RANGE),
        )
        for window in windows
        if _in_a_tail(window, alone[window.event])
    ]
    return tuple(sorted(told, key=lambda one: one.on))


def _in_a_tail(window: Window, odds: DayOdds) -> bool:
    """Tell whether a window leaves only days that are early, or late, by weather alone."""
    until = 1.0 if window.last is None else odds.by(window.last)
    before = 0.0 if window.first is None else odds.by(window.first - timedelta(days=1))
    return until < _UNLIKELY or 1.0 - before < _UNLIKELY


def _without(seen: Seen, aside: Sequence[SetAside]) -> Seen:
    """Take out of what was seen on a day what was set aside."""
    signs = {each.sign for each in aside if each.on == seen.on}
    if Sign.PINHEADS in signs:
        seen = replace(seen, plants=None, pinhead=None)
    if Sign.BRANCHES in signs:
        seen = replace(seen, squaring_branches=None)
    if Sign.FLOWERS in signs:
        seen = replace(seen, bloom=None)
    if Sign.ABOVE_FLOWER in signs:
        seen = replace(seen, nawf=None)
    return seen


def clock_for(
    weather: DailyWeather,
    planted: date,
    *,
    on: date,
    given: Given | None = None,
    seen: Sequence[Seen] = (),
) -> CropClock:
    """Read the clock of a field from the weather of its station.

    Parameters
    ----------
    weather : DailyWeather
        With its gaps filled: this season, and as many other years as there are.
    planted : date
        The day on which the stand that grows now was planted.
    on : date
        The day; what was measured or seen later is not looked at.
    given : Given or None
        Days given outright.
    seen : sequence of Seen
        What was seen, in any order.

    Returns
    -------
    CropClock

    Raises
    ------
    WeatherError
        If weather lacks days that can't be filled, or nothing tells what may come.
    CropDateError
        If the day asked for is not in the season of the planting.
    """
    if not planted <= on < planted + timedelta(days=SEASON_DAYS):
        raise CropDateError(
            f"the day must lie in the season of the planting on {planted}, got {on}."
        )
    needs = load_needs()
    method = HEAT_METHODS[needs.method]
    heat = season_heat(weather, planted, SEASON_DAYS, until=on, method=method, base=needs.base_f)
    return read_clock(heat, on=on, given=given, seen=seen, needs=needs)
