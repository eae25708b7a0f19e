"""Reads the crop's clock: heat since planting and what was seen become chances of days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
from scipy.special import ndtr

from quarterwalk.crop.chain import FINE, Chain, Step, steps_of
from quarterwalk.crop.clock import (
    HARDLY,
    RANGE,
    SEASON_DAYS,
    CropClock,
    Disagreement,
    without,
)
from quarterwalk.crop.dates import CropDateError
from quarterwalk.crop.day_odds import DayOdds
from quarterwalk.crop.likeness import Ground, agreement, nodes_windows
from quarterwalk.crop.needs import Event, Needs, load_needs
from quarterwalk.crop.seen import Given, Seen, SetAside, Sign, by_day, flowers_by
from quarterwalk.crop.week_odds import WeekOdds, week_odds
from quarterwalk.crop.window import Window, has_four_leaves, kept, same_look, windows_of
from quarterwalk.weather.ahead import SeasonHeat, season_heat
from quarterwalk.weather.daily import DailyWeather, FloatArray
from quarterwalk.weather.heat_units import HEAT_METHODS

# First-square days of less chance than this change no day of the fourth leaf. [fraction]
_NO_WEIGHT = 1e-12

# Less than this left by what was counted is no chance to go by. [fraction]
_LEFT = 0.02

# Seen less likely than this by weather alone, it is said that the two disagree. [fraction]
_UNLIKELY = 0.1


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
        With the chance of every day of every event.

    Notes
    -----
    No dice: the chance of every day follows exactly from needs, ensemble and what was
    seen. What was seen rules days out and weighs the others; it always beats the model.
    """
    needs, given = needs or load_needs(), given or Given()
    looked = by_day(each for each in seen if each.on <= on)
    too_soon = _too_soon(on, looked, given)
    ground = Ground(heat.first, _summed(heat), needs)
    steps = steps_of(ground.heat, needs)
    alone = None
    if looked or given != Given():
        alone = _odds(_chances(Chain(ground.days, steps, {}).forward()), ground)
    until = None if alone is None else _none_until(looked, given, alone)
    counting = [without(each, too_soon) for each in looked]
    windows = windows_of(heat.first, given, counting, needs, on=on, none_until=until)
    told = _told(ground, steps, windows, counting)
    aside = (*too_soon, *told.aside)
    run = _run(ground, told, on)
    alone = alone or run.odds
    return CropClock(
        planted=heat.first,
        on=on,
        odds=run.odds,
        by_weather=alone,
        four_leaves=run.four_leaves,
        weeks=run.weeks,
        given=_holding(given, aside),
        seen=looked,
        disagreements=_disagreeing((*told.windows, *nodes_windows(ground, told.counted)), alone),
        set_aside=aside,
        heat=heat,
        needs=needs,
    )


def _too_soon(on: date, looked: Sequence[Seen], given: Given) -> tuple[SetAside, ...]:
    """Give the looks at flowers that came too soon after a first square that was given."""
    if given.first_square is None or given.bloom or given.bloom_to_come:
        return ()
    return flowers_by(on, looked, given.first_square[1]).left_out


def _none_until(
    looked: Sequence[Seen], given: Given, alone: Mapping[Event, DayOdds]
) -> date | None:
    """Give the last day on which finding no flower says that bloom is still to come.

    Past the first day on which flowers were seen that can have been there, somebody missed
    them, or the crop has cut out.
    """
    if given.first_square is not None:
        return flowers_by(looked[-1].on, looked, given.first_square[1]).on if looked else None
    bloom = alone[Event.FIRST_BLOOM]
    can_be = (each.on for each in looked if each.flowers and bloom.by(each.on) >= HARDLY)
    return next(can_be, None)


def _holding(given: Given, aside: Sequence[SetAside]) -> Given:
    """Leave out of what was given what is set aside."""
    signs = {each.sign for each in aside}
    if Sign.FIRST_SQUARE in signs:
        given = replace(given, first_square=None)
    if Sign.FIRST_BLOOM in signs:
        given = replace(given, bloom=None)
    return given


def _summed(heat: SeasonHeat) -> FloatArray:
    """Sum the heat after the day of planting, which itself counts for nothing."""
    return heat.summed - heat.heat[:, :1]


@dataclass(frozen=True, slots=True, eq=False)
class _Told:
    """What was seen as the chain takes it, and what it can't."""

    chain: Chain
    ahead: Mapping[Event, FloatArray]
    counted: Sequence[Seen]
    windows: tuple[Window, ...]
    aside: tuple[SetAside, ...]

    @property
    def possible(self) -> bool:
        """Whether any season can hold all of it."""
        return bool(self.ahead[Event.CUTOUT].any())


def _told(
    ground: Ground, steps: Mapping[Event, Step], windows: Sequence[Window], looked: Sequence[Seen]
) -> _Told:
    """Take all that was seen, less what no season can hold: that which holds last goes first.

    What was set aside beside a look that is itself to blame counts again.
    """
    left, blamed = list(windows), list[tuple[Window, Window]]()
    while True:
        held = kept(left)
        pairs = (*held.set_aside, *blamed)
        told = _taken(ground, steps, held.windows, pairs, looked)
        if len(held.windows) == 1 or told.possible:
            return told
        some = held.windows
        while len(some) > 1 and not _taken(ground, steps, some, pairs, looked).possible:
            last = some[-1]
            some = tuple(window for window in some if not same_look(window, last))
        blamed.append((last, some[0]))
        left = [window for window in left if not same_look(window, last)]


def _taken(
    ground: Ground,
    steps: Mapping[Event, Step],
    windows: Sequence[Window],
    pairs: Sequence[tuple[Window, Window]],
    looked: Sequence[Seen],
) -> _Told:
    aside = tuple(SetAside(w.sign, w.on, by.sign, by.on) for w, by in pairs)
    counted = [without(each, aside) for each in looked]
    chain = Chain(ground.days, steps, agreement(ground, windows[1:], counted))
    return _Told(chain, chain.forward(), counted, tuple(windows[1:]), aside)


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
        _four_leaves(ground, weights[square], told.counted),
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


def _four_leaves(ground: Ground, weights: FloatArray, counted: Sequence[Seen]) -> DayOdds:
    """Count back from each first-square day by the heat of the leaves between.

    The day is never before plants can be up, nor after first square, and agrees with the
    leaves that were counted.
    """
    needs = ground.needs
    node_heat = needs.value("node_heat")
    nodes = needs.value("first_branch_node") - needs.value("four_leaves")
    spread = needs.sd("first_branch_node") * node_heat
    up = needs.needs[Event.EMERGENCE].mean
    total, days = weights.sum(), np.arange(ground.days)
    sums = np.rint(FINE * ground.heat).astype(np.intp)
    # chance that the leaf is out so much heat before first square, in parts of a unit
    out = ndtr((nodes * node_heat - np.arange(sums.max() + 1) / FINE) / spread)
    by_day = np.zeros(ground.days)
    for heat, parts, told in zip(ground.heat, sums, weights[:, :-1], strict=True):
        square = np.flatnonzero(told > _NO_WEIGHT * total)
        by = out[np.maximum(parts[square, None] - parts, 0)]
        by[:, heat < up] = 0.0
        by[days >= square[:, None]] = 1.0
        by_day += told[square] @ by
    chance = np.diff(by_day / total, prepend=0.0)
    return DayOdds(
        ground.planted,
        _agreeing_with_leaves(ground, chance, counted),
        float(weights[:, -1].sum() / total),
    )


def _agreeing_with_leaves(
    ground: Ground, chance: FloatArray, counted: Sequence[Seen]
) -> FloatArray:
    """Leave the days that counts of leaves, or a square, allow; else the nearest day to them."""
    first, last = 0, ground.days - 1
    for each in counted:
        four, place = has_four_leaves(each, ground.needs), ground.place(each.on)
        if four is None or not 0 <= place < ground.days - 1:
            continue
        if four:
            last = min(last, place)
        else:
            first = max(first, place + 1)
    last = max(first, last)
    total, told = chance.sum(), np.zeros_like(chance)
    told[first : last + 1] = chance[first : last + 1]
    left = told.sum()
    if left > _LEFT * total:
        return np.asarray(told * (total / left), np.float64)
    nearest = last if chance[last + 1 :].sum() > chance[:first].sum() else first
    told[:] = 0.0
    told[nearest] = total
    return told


def _disagreeing(
    windows: Sequence[Window], alone: Mapping[Event, DayOdds]
) -> tuple[Disagreement, ...]:
    told = []
    for window in windows:
        odds = alone[window.event]
        chance, expected = _in_a_tail(window, odds), odds.within(RANGE)
        if chance < _UNLIKELY and not _meets(window, expected):
            days = (window.first, window.last)
            told.append(Disagreement(window.sign, window.on, window.event, days, expected, chance))
    return tuple(sorted(told, key=lambda one: one.on))


def _meets(window: Window, expected: tuple[date, date] | None) -> bool:
    """Tell whether a window holds a day of those that are printed as expected."""
    if expected is None:
        return window.last is None
    first, last = expected
    early = window.last is not None and window.last < first
    late = window.first is not None and window.first > last
    return not early and not late


def _in_a_tail(window: Window, odds: DayOdds) -> float:
    """Give the chance of all days as early, or as late, as a window leaves."""
    until = 1.0 if window.last is None else odds.by(window.last)
    before = 0.0 if window.first is None else odds.by(window.first - timedelta(days=1))
    return min(until, 1.0 - before)


def clock_for(
    weather: DailyWeather,
    planted: date,
    *,
    on: date,
    given: Given | None = None,
    seen: Sequence[Seen] = (),
    needs: Needs | None = None,
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
    needs : Needs or None
        What the crop needs; None takes the package's own.

    Returns
    -------
    CropClock
        With the chance of every day of every event.

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
    needs = needs or load_needs()
    method = HEAT_METHODS[needs.method]
    heat = season_heat(weather, planted, SEASON_DAYS, until=on, method=method, base=needs.base_f)
    return read_clock(heat, on=on, given=given, seen=seen, needs=needs)
