"""How well each day of an event agrees with what was counted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from scipy.special import ndtr, ndtri

from quarterwalk.crop.needs import Event, Needs
from quarterwalk.crop.seen import Seen, Sign
from quarterwalk.crop.window import Window, days_for
from quarterwalk.weather.daily import FloatArray

# A rule of this project: no share of plants is quite sure, whatever the heat says. [fraction]
_SLIP = 0.005

# A normal distribution holds 8 in 10 so many standard deviations either way.
_EIGHT_IN_TEN = 1.2816


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What counts are compared with: the season's days and its heat.

    Parameters
    ----------
    planted : date
        Day 0.
    heat : float array, shape (members, days)
        Heat summed from planting through each day. [heat units]
    needs : Needs
        How counts are read.
    """

    planted: date
    heat: FloatArray
    needs: Needs

    @property
    def days(self) -> int:
        """Days of the season. [days]"""
        return int(self.heat.shape[1])

    def place(self, day: date) -> int:
        """Give the place of a day; it may lie outside. [from 0]"""
        return (day - self.planted).days

    def since(self, place: int) -> FloatArray:
        """Heat from each day to one day, below 0 for later days, shape (members, days)."""
        return self.heat[:, place, None] - self.heat


def agreement(
    ground: Ground, windows: Sequence[Window], seen: Sequence[Seen]
) -> dict[Event, FloatArray]:
    """Give how well each day of each event agrees with all that was seen.

    Parameters
    ----------
    ground : Ground
        The season.
    windows : sequence of Window
        Days that are left to events.
    seen : sequence of Seen
        What was counted.

    Returns
    -------
    dict of Event to float array, shape (members, days + 1)
        1 at most; 0 for days that are ruled out. The last column stands for all days
        beyond. Events of which nothing was seen are left out.
    """
    logs: dict[Event, FloatArray] = {}
    for event, told in (*_counted(ground, seen), *_allowed(ground, windows)):
        logs[event] = logs[event] + told if event in logs else told
    return {event: _weights(told) for event, told in logs.items()}


def _weights(logs: FloatArray) -> FloatArray:
    best = logs.max()
    return np.exp(logs - best) if np.isfinite(best) else np.zeros_like(logs)


def _allowed(ground: Ground, windows: Sequence[Window]) -> Iterator[tuple[Event, FloatArray]]:
    for window in windows:
        days = np.zeros((1, ground.days + 1))
        if window.first is not None:
            days[:, : min(max(ground.place(window.first), 0), ground.days)] = -np.inf
        if window.last is not None:
            days[:, max(ground.place(window.last) + 1, 0) :] = -np.inf
        yield window.event, days


def _counted(ground: Ground, seen: Sequence[Seen]) -> Iterator[tuple[Event, FloatArray]]:
    for each in seen:
        if not 0 <= ground.place(each.on) < ground.days:
            continue
        nodes = each.true_leaves if each.nodes is None else each.nodes
        if nodes is not None:
            yield Event.FIRST_SQUARE, _beyond(_nodes(ground, each.on, nodes))
        if each.share is not None:
            yield Event.FIRST_SQUARE, _beyond(_pinheads(ground, each))
        half = ground.needs.value("half")
        if each.squaring_branches is not None and each.squaring_branches >= half:
            yield Event.FIRST_SQUARE, _beyond(_branches(ground, each.on, each.squaring_branches))
        if each.nawf is not None and each.nawf > ground.needs.value("cutout_nodes"):
            yield Event.CUTOUT, _beyond(_above_flower(ground, each.on, each.nawf))


def _beyond(logs: FloatArray) -> FloatArray:
    """Let the days beyond agree as the last day does."""
    return np.concatenate([logs, logs[:, -1:]], axis=1)


def _nodes(ground: Ground, on: date, nodes: float) -> FloatArray:
    off = _nodes_off(ground.needs, ground.since(ground.place(on)), nodes)
    logs: FloatArray = -0.5 * (off / ground.needs.value("node_sd")) ** 2
    return logs


def _nodes_off(needs: Needs, since: FloatArray, nodes: float) -> FloatArray:
    """Give how many nodes are too many for each first-square day."""
    gained = since / needs.value("node_heat")
    off: FloatArray = nodes - needs.value("first_branch_node") - gained
    return off


def nodes_windows(ground: Ground, seen: Sequence[Seen]) -> Iterator[Window]:
    """Give the first-square days that counts of leaves or nodes make likely.

    Parameters
    ----------
    ground : Ground
        The season.
    seen : sequence of Seen
        What was counted.

    Yields
    ------
    Window
        8 in 10 of what the count alone would say; it rules nothing out.
    """
    mean = ground.heat.mean(axis=0)
    for each in seen:
        nodes = each.true_leaves if each.nodes is None else each.nodes
        place = ground.place(each.on)
        if nodes is None or not 0 <= place < ground.days:
            continue
        off = _nodes_off(ground.needs, mean[place] - mean, nodes)
        reach = _EIGHT_IN_TEN * ground.needs.value("node_sd")
        days = np.flatnonzero(np.abs(off) <= reach)
        if not days.size:
            # no day of the season has plants like these: a day before it, or after it, stands in
            days = np.array([-1 if off.min() > reach else ground.days])
        first, last = (ground.planted + timedelta(days=int(days[end])) for end in (0, -1))
        sign = Sign.LEAVES if each.nodes is None else Sign.NODES
        yield Window(Event.FIRST_SQUARE, first, last, sign, each.on)


def _pinheads(ground: Ground, seen: Seen) -> FloatArray:
    """Weigh days by a share of plants; how plants differ is itself unsure."""
    middle, sd = ground.needs.value("plants_heat"), ground.needs.sd("plants_heat")
    told = min(seen.plants or 0, ground.needs.value("most_told"))
    have = told * (seen.share or 0.0)
    since = ground.since(ground.place(seen.on))
    begun = float(ndtri(ground.needs.value("half")))
    spreads = (middle - sd, middle, middle + sd)
    shares = (_SLIP + (1 - 2 * _SLIP) * ndtr(since / spread + begun) for spread in spreads)
    logs = [have * np.log(share) + (told - have) * np.log1p(-share) for share in shares]
    return np.asarray(np.logaddexp.reduce(logs) - np.log(len(logs)), np.float64)


def _branches(ground: Ground, on: date, branches: float) -> FloatArray:
    needs = ground.needs
    days = ground.place(on) - np.arange(ground.days)
    off = (days - days_for(branches, needs)) / needs.value("branch_days")
    return np.asarray(-0.5 * (off / needs.value("branch_sd")) ** 2, np.float64)[None, :]


def _above_flower(ground: Ground, on: date, nawf: float) -> FloatArray:
    needs = ground.needs
    above = nawf - needs.value("cutout_nodes")
    left = above * needs.value("flower_node_heat")
    # half a node of counting stands beside how fields differ
    counted = needs.value("half") * needs.value("flower_node_heat")
    sd = np.hypot(above * needs.sd("flower_node_heat"), counted)
    off: FloatArray = (-ground.since(ground.place(on)) - left) / sd
    return -0.5 * off**2
