"""How well each day of an event agrees with what was counted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import ArrayLike
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
    """Weigh days by each kind of count: those of one field share what is its own."""
    looks = [each for each in seen if 0 < ground.place(each.on) < ground.days]
    nodes = [(each, told) for each in looks if (told := _nodes_of(each)) is not None]
    if nodes:
        yield Event.FIRST_SQUARE, _beyond(_nodes(ground, nodes))
    pinheads = [each for each in looks if each.share is not None]
    if pinheads:
        yield Event.FIRST_SQUARE, _beyond(_pinheads(ground, pinheads))
    # none may be any day before first square, which its window tells
    branches = [(each, told) for each in looks if (told := each.squaring_branches or 0.0) > 0]
    if branches:
        yield Event.FIRST_SQUARE, _beyond(_branches(ground, branches))
    least = ground.needs.value("cutout_nodes")
    above = [(each, told) for each in looks if (told := each.nawf or 0.0) > least]
    if above:
        yield Event.CUTOUT, _beyond(_above_flower(ground, above))


def _nodes_of(seen: Seen) -> float | None:
    """Give the nodes of a look, or its leaves; no node beside leaves was not counted."""
    leaves_alone = seen.nodes is None or (seen.nodes == 0 and seen.true_leaves)
    return seen.true_leaves if leaves_alone else seen.nodes


def _agreeing(off: Sequence[FloatArray], shared: Sequence[ArrayLike], own: float) -> FloatArray:
    """Weigh days by how far off counts are that err alike.

    Parameters
    ----------
    off : sequence of float array, shape (members, days)
        How far each count is off, on each day.
    shared : sequence of float or float array, shape (members, days)
        Standard deviation of what all counts of a field have in common, in each of them; 0 on
        days of which a count says nothing.
    own : float
        Standard deviation of what is each count's own.

    Returns
    -------
    float array, shape (members, days)
        Log of the normal density of all of them together, but for a constant.

    Notes
    -----
    The covariance is own² on the diagonal plus shared sharedᵀ; its inverse by Sherman and
    Morrison. A single count is off²/(own² + shared²).
    """
    loads = [np.asarray(load, np.float64) for load in shared]
    alone = sum(each**2 for each in off) / own**2
    along = sum(each * load for each, load in zip(off, loads, strict=True)) / own**2
    weight = 1 + sum(load**2 for load in loads) / own**2
    return np.asarray(-0.5 * (alone - along**2 / weight), np.float64)


def _beyond(logs: FloatArray) -> FloatArray:
    """Let the days beyond agree as the last day does."""
    return np.concatenate([logs, logs[:, -1:]], axis=1)


def _nodes(ground: Ground, counts: Sequence[tuple[Seen, float]]) -> FloatArray:
    """Weigh days by counts of nodes or leaves; the node of the first branch is the field's."""
    off = [_nodes_off(ground.needs, ground.since(ground.place(s.on)), n) for s, n in counts]
    shared = ground.needs.sd("first_branch_node")
    own = np.sqrt(ground.needs.value("node_sd") ** 2 - shared**2)
    # no node says nothing of days on which none would be expected
    loads = [
        np.where((count > 0) | (days < 0), shared, 0.0)
        for (_, count), days in zip(counts, off, strict=True)
    ]
    return _agreeing(off, loads, float(own))


def _nodes_off(needs: Needs, since: FloatArray, nodes: float) -> FloatArray:
    """Give how many nodes are too many for each first-square day."""
    gained = since / needs.value("node_heat")
    off: FloatArray = nodes - needs.value("first_branch_node") - gained
    # no plant has fewer than none, so none is no sign of a day too early for one
    return off if nodes else np.minimum(off, 0.0)


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
        nodes, place = _nodes_of(each), ground.place(each.on)
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


def _pinheads(ground: Ground, looks: Sequence[Seen]) -> FloatArray:
    """Weigh days by shares of plants; how plants of the field differ is itself unsure."""
    middle, sd = ground.needs.value("plants_heat"), ground.needs.sd("plants_heat")
    spreads = (middle - sd, middle, middle + sd)
    logs = [np.sum([_share(ground, each, spread) for each in looks], axis=0) for spread in spreads]
    return np.asarray(np.logaddexp.reduce(logs) - np.log(len(logs)), np.float64)


def _share(ground: Ground, seen: Seen, spread: float) -> FloatArray:
    """Weigh days by one share of plants, where plants differ by so much heat."""
    told = min(seen.plants or 0, ground.needs.value("most_told"))
    have = told * (seen.share or 0.0)
    begun = float(ndtri(ground.needs.value("half")))
    since = ground.since(ground.place(seen.on))
    share = _SLIP + (1 - 2 * _SLIP) * ndtr(since / spread + begun)
    return np.asarray(have * np.log(share) + (told - have) * np.log1p(-share), np.float64)


def _branches(ground: Ground, counts: Sequence[tuple[Seen, float]]) -> FloatArray:
    """Weigh days by counts of squaring branches; most of what they are off by is the field's."""
    needs = ground.needs
    days = np.arange(ground.days)
    off = [
        np.asarray(ground.place(each.on) - days - days_for(told, needs), np.float64)[None]
        / needs.value("branch_days")
        for each, told in counts
    ]
    own = needs.value("branch_count_sd")
    shared = float(np.sqrt(needs.value("branch_sd") ** 2 - own**2))
    return _agreeing(off, [shared] * len(off), own)


def _above_flower(ground: Ground, counts: Sequence[tuple[Seen, float]]) -> FloatArray:
    """Weigh days of cutout by nodes above white flower; the heat of a node is the field's."""
    needs = ground.needs
    above = [told - needs.value("cutout_nodes") for _, told in counts]
    off = [
        -ground.since(ground.place(each.on)) - nodes * needs.value("flower_node_heat")
        for (each, _), nodes in zip(counts, above, strict=True)
    ]
    own = needs.value("flower_count_sd") * needs.value("flower_node_heat")
    return _agreeing(off, [nodes * needs.sd("flower_node_heat") for nodes in above], own)
