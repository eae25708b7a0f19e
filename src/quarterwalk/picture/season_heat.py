"""The heat of a season: its sum so far, in other years, and in the days ahead."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from quarterwalk.picture.drawing import element, figure
from quarterwalk.picture.ground import Box
from quarterwalk.picture.scale import Scale, round_below
from quarterwalk.picture.season_drawn import FloatArray, SeasonDrawn
from quarterwalk.picture.season_place import width_of
from quarterwalk.picture.season_room import SMALL, SeasonRoom

_HEADROOM = 1.04  # of the axis above the greatest sum [ratio]
_TICKS = 3  # numbers beside the axis, at least, where the sum allows [count]
_LEAST = 100.0  # of the axis, however cold it was [DD60]


_RISE = 4.0  # of a number above its hair [px]

Tick = tuple[float, float, str]
"""A number beside the axis: x and y of its line [px], and its figures."""


@dataclass(frozen=True, slots=True)
class HeatRoom:
    """Where the sums of a season stand.

    Parameters
    ----------
    drawn : SeasonDrawn
        The season.
    room : SeasonRoom
        Where its days stand.
    box : Box
        Where the sums may lie. [px]
    """

    drawn: SeasonDrawn
    room: SeasonRoom
    box: Box

    @property
    def up(self) -> Scale:
        """From heat units to their place."""
        normal = self.drawn.normal or ()
        arrays = (self.drawn.heat, *self.drawn.ahead, *normal)
        sums = np.concatenate([np.ravel(array) for array in arrays])
        most = float(np.max(sums[np.isfinite(sums)], initial=_LEAST))
        return Scale(0, most * _HEADROOM, self.box.bottom, self.box.top)

    def points(self, sums: FloatArray, since: int = 0) -> FloatArray:
        """Give the places of sums, the first of them so many days after planting.

        Returns
        -------
        ndarray, shape (days, 2)
            NaN where unknown. [px]
        """
        across, up = self.room.scale, self.up
        y = [up(float(each)) if math.isfinite(each) else math.nan for each in sums]
        x = [across(since + i) for i in range(len(y))]
        return np.column_stack([np.array(x, dtype=float), np.array(y, dtype=float)])

    def fan(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Give the places of the days ahead, from the last day whose sum is known."""
        known, days = self.drawn.known, len(self.drawn.heat)
        since = days - 1 if known is None else known
        low, middle, high = (self.points(self._onward(sums), since) for sums in self.drawn.ahead)
        return low, middle, high

    def _onward(self, sums: FloatArray) -> FloatArray:
        """Run from the last known sum to those after today, straight over days between."""
        known, days = self.drawn.known, len(self.drawn.heat)
        if known is None or not sums.size:
            return np.concatenate([self.drawn.heat[-1:], sums])
        ends = (float(self.drawn.heat[known]), float(sums[0]))
        between = np.interp(np.arange(known, days), (known, days), ends)
        return np.concatenate([between, sums])

    def band(self) -> tuple[FloatArray, FloatArray, FloatArray] | None:
        """Give the places of other years."""
        if self.drawn.normal is None:
            return None
        low, middle, high = (self.points(sums) for sums in self.drawn.normal)
        return low, middle, high


def heat_lines(heat: HeatRoom) -> str:
    """Draw the sum so far upon that of other years, and the days ahead as a fan.

    Parameters
    ----------
    heat : HeatRoom
        Where they stand.

    Returns
    -------
    str
    """
    parts, band = [], heat.band()
    if band is not None:
        parts.append(_area(band[0], band[2], "qw-usual"))
        parts.append(_line(band[1], "qw-usual-line"))
        parts += [_line(band[0], "qw-usual-edge"), _line(band[2], "qw-usual-edge")]
    low, middle, high = heat.fan()
    parts.append(_area(low, high, "qw-ahead"))
    parts += [_line(low, "qw-ahead-edge"), _line(high, "qw-ahead-edge")]
    parts.append(_line(middle, "qw-ahead-line"))
    so_far = heat.points(heat.drawn.heat)
    parts += [_line(so_far, "qw-heat-rim"), _line(so_far, "qw-heat")]
    return "".join(parts)


def heat_dot(heat: HeatRoom) -> str:
    """Draw the dot of the last sum that is known; nothing where none is."""
    if heat.drawn.known is None:
        return ""
    x, y = heat.points(heat.drawn.heat)[heat.drawn.known]
    return element("circle", cx=x, cy=y, r=5.5, cls="qw-reading")


def heat_axis(heat: HeatRoom, uprights: Sequence[float]) -> tuple[str, list[Tick]]:
    """Draw a hair at round sums that have room for their number, and tell where that stands.

    Parameters
    ----------
    heat : HeatRoom
        Where they stand.
    uprights : sequence of float
        Where upright lines run; the numbers stand right of one near the left end. [px]

    Returns
    -------
    (str, list of Tick)
    """
    step = round_below(heat.up.last / _TICKS)
    most = heat.up.last * (1 - (SMALL + _RISE) / (heat.box.bottom - heat.box.top))
    sums = [step * i for i in range(1, int(heat.up.last / step) + 1) if step * i <= most]
    hairs = "".join(f"M0,{figure(heat.up(each))}H{figure(heat.room.width)}" for each in sums)
    texts = [(heat.up(each) - _RISE, f"{each:,g}") for each in sums]
    wide = max((width_of(text, SMALL) for _, text in texts), default=0.0)
    x = max((post + 6 for post in uprights if post <= wide), default=0.0)
    hair = element("path", d=hairs, cls="qw-hair") if hairs else ""
    return hair, [(x, y, text) for y, text in texts]


def _line(points: FloatArray, cls: str) -> str:
    data = "".join(_through(run) for run in _runs(points) if len(run) > 1)
    return element("path", d=data, cls=cls) if data else ""


def _area(low: FloatArray, high: FloatArray, cls: str) -> str:
    both = _runs(np.column_stack([low, high]))
    data = "".join(
        _through(np.concatenate([run[:, :2], run[::-1, 2:]])) + "Z" for run in both if len(run) > 1
    )
    return element("path", d=data, cls=cls) if data else ""


def _runs(points: FloatArray) -> Iterator[FloatArray]:
    """Give the stretches of days without a gap."""
    known = np.isfinite(points).all(axis=1)
    starts = np.flatnonzero(np.diff(known.astype(int), prepend=0) == 1)
    stops = np.flatnonzero(np.diff(known.astype(int), append=0) == -1) + 1
    for start, stop in zip(starts, stops, strict=True):
        yield points[start:stop]


def _through(points: FloatArray) -> str:
    return "M" + "L".join(f"{figure(x)},{figure(y)}" for x, y in points)
