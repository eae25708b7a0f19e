"""The words beside the heat of a season: its axis, the sum so far, other years, the days ahead."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

import numpy as np

from quarterwalk.picture.drawing import words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_block import Block
from quarterwalk.picture.season_drawn import FloatArray, SeasonDrawn
from quarterwalk.picture.season_heat import HeatRoom, Tick
from quarterwalk.picture.season_now import (
    FEW,
    dot_of,
    known_day,
    others_range,
    placed_now,
    range_word,
    ring_of,
)
from quarterwalk.picture.season_part import Part
from quarterwalk.picture.season_place import clearest, line_box
from quarterwalk.picture.season_room import SMALL
from quarterwalk.picture.season_words import date_word
from quarterwalk.words import phrase

_NEAR, _CLEAR = 9.0, 5.0  # from words to their mark, across and down [px]
_SIDES = 10.0  # from words to other words beside them [px]
_FINE = 4.0  # points of a line lie so close, across [px]
_STEP = 6.0  # from one place that is tried to the next [px]
_RIM = 9  # places tried away from a rim [count]
_HALFWAY = 0.45  # of the days on the paper [fraction]
_LATELY = 0.8  # of the days so far, from where on their range may stand [fraction]
_SPOTS = 24  # marks along a rim that are tried [count]
_BY_POST = (-7.5, -3.0, 0.0, 3.0, 7.5)  # words so near an upright line count as crossing it [px]

_QUIET = "qw-words qw-quiet qw-halo"


@dataclass(frozen=True, slots=True)
class _Group:
    """Marks [px], the sides words may take, right (1) and below (1), and how far off."""

    spots: FloatArray
    sides: tuple[tuple[int, int], ...]
    reach: int

    def places(self, block: Block, canvas: Box) -> Iterator[Box]:
        """Give places for words, those by the first mark first, the nearest first."""
        wide, tall = block.size
        for x, y in self.spots:
            for step in range(self.reach):
                for across, down in self.sides:
                    left = x + _NEAR if across > 0 else x - _NEAR - wide
                    left = max(min(left, canvas.right - wide), canvas.left)
                    away = _CLEAR + _STEP * step
                    top = y + away if down > 0 else y - away - tall
                    yield Box(left, top, left + wide, top + tall)


_Tried = tuple[tuple[Block, _Group], ...]
"""Wordings of one label with the places of each, the dearest first."""


def heat_words(heat: HeatRoom, ticks: Sequence[Tick], uprights: Sequence[float]) -> Part:
    """Write the numbers of the axis, the sum so far, other years, and the days ahead.

    Parameters
    ----------
    heat : HeatRoom
        Where the sums stand.
    ticks : sequence of Tick
        Numbers of the axis.
    uprights : sequence of float
        Where upright lines run, which words would better not cross. [px]

    Returns
    -------
    Part
    """
    sums, posts = _sums(heat), _posts(heat, uprights)
    lines, held = np.concatenate([sums, posts]), [line_box(*tick, SMALL) for tick in ticks]
    said = [words(x, y, text, _QUIET, SMALL) for x, y, text in ticks]
    taken = [*map(_apart, held), ring_of(heat)]
    now = placed_now(heat, taken, sums, posts)
    if now is not None:
        said.append(now.block.at(now.box, flush_right=now.box.right < dot_of(heat)[0]))
        held.append(now.box)
        taken.append(_apart(now.box))
    labels = _other_years(heat) if now is None or not now.others else ()
    for either in (labels, _days_ahead(heat)):
        settled = (_settled(label, taken, lines, heat.box) for label in either)
        for block, box in islice(filter(None, settled), 1):
            said.append(block.at(box))
            held.append(box)
            taken.append(_apart(box))
    return Part("".join(said), heat.box.bottom, tuple(held))


def _apart(box: Box) -> Box:
    """Keep other words off, at the sides more than above and below."""
    return Box(box.left - _SIDES, box.top - 2, box.right + _SIDES, box.bottom + 2)


@dataclass(frozen=True, slots=True)
class _Label:
    """Wordings with the places of each, the dearest first, and what they must stand by.

    Parameters
    ----------
    tried : tuple of (Block, _Group)
        The dearest first.
    own, others : ndarray, shape (points, 2)
        The edges of what it names, and of what it must not be taken to name. [px]
    clear : bool
        Whether it is left out where it would cover a line.
    """

    tried: tuple[tuple[Block, _Group], ...]
    own: FloatArray
    others: FloatArray
    clear: bool

    def names(self, box: Box) -> bool:
        """Whether words here are nearer to what they name than to anything else."""
        return _gap(box, self.own) <= _gap(box, self.others)


def _days_ahead(heat: HeatRoom) -> Iterator[_Label]:
    """Give the label of the days ahead, the dearest first; none where they are few."""
    drawn, fan = heat.drawn, heat.fan()
    band = heat.band() or ()
    edges, rims = (fan[0], fan[2]), band[::2]
    if (drawn.last - known_day(drawn)).days >= FEW:
        half = len(fan[0]) // 2
        below, above = _beside(fan[0][half:], fan[2][half:])
        named, ranged = (Block.of(phrase("days ahead"), cls=_QUIET),), _ahead(drawn)
        # Below the fan a range with its day is not taken for that of other years.
        yield _Label(_each((below,), ranged), _known(*edges), _known(), clear=True)
        tried = (*_each((above,), ranged), *_each((below, above), named))
        yield _Label(tried, _known(*edges), _known(*rims), clear=True)


def _each(groups: tuple[_Group, ...], wordings: tuple[Block, ...]) -> _Tried:
    """Try every wording in a group before the next group."""
    return tuple((block, group) for group in groups for block in wordings)


def _other_years(heat: HeatRoom) -> Iterator[_Label]:
    """Tell the range of other years by the sum so far, or farther off only what the band is."""
    band, fan = heat.band(), heat.fan()
    if band is None:
        return
    name, where = phrase("other years"), others_range(heat.drawn)
    days = len(heat.drawn.heat) if heat.drawn.known is None else heat.drawn.known + 1
    low, _, high = band
    shown, since = max(days, round(_HALFWAY * len(low))), round(_LATELY * days)
    tried = _each(_beside(low[:shown], high[:shown]), (Block.of(name, cls=_QUIET),))
    if where:
        # away from the number, a range says for which day it is told
        by = phrase("by {day}", day=date_word(known_day(heat.drawn)))
        wordings = (
            Block.of(phrase("other years {range}", range=where), by, cls=_QUIET),
            Block.of(name, where, by, cls=_QUIET),
        )
        tried = (*_each(_beside(low[since:days], high[since:days]), wordings), *tried)
    yield _Label(tried, _known(low, high), _known(fan[0], fan[2]), clear=False)


def _ahead(drawn: SeasonDrawn) -> tuple[Block, ...]:
    """Tell what is likely on the last day; nothing where it is not known."""
    low, _, high = drawn.ahead
    if not len(low) or not math.isfinite(float(low[-1]) + float(high[-1])):
        return ()
    where = phrase("likely {range}", range=range_word(float(low[-1]), float(high[-1])))
    return (Block.of(where, phrase("by {day}", day=date_word(drawn.last)), cls=_QUIET),)


def _beside(low: FloatArray, high: FloatArray) -> tuple[_Group, ...]:
    """Give the marks along both rims, from the last day backwards. [px]"""
    return (
        _Group(_backwards(low), ((1, 1), (-1, 1)), _RIM),
        _Group(_backwards(high), ((-1, -1), (1, -1)), _RIM),
    )


def _backwards(rim: FloatArray) -> FloatArray:
    known = _known(rim)[::-1]
    thinned: FloatArray = known[:: max(1, len(known) // _SPOTS)]
    return thinned


def _known(*lines: FloatArray) -> FloatArray:
    """Give the points of lines, without days that are not known. [px]"""
    points = np.concatenate([np.zeros((0, 2)), *lines])
    told: FloatArray = points[np.isfinite(points).all(axis=1)]
    return told


def _gap(box: Box, points: FloatArray) -> float:
    """Give how far the nearest of some points is from a box; endless where there is none."""
    x, y = points[:, 0], points[:, 1]
    across = np.maximum(np.maximum(box.left - x, x - box.right), 0.0)
    down = np.maximum(np.maximum(box.top - y, y - box.bottom), 0.0)
    return float(np.min(np.hypot(across, down), initial=math.inf))


def _settled(
    label: _Label, taken: Sequence[Box], lines: FloatArray, canvas: Box
) -> tuple[Block, Box] | None:
    """Find the first wording that covers no line, or else the place that covers least."""
    least: tuple[Block, Box, int] | None = None
    for block, group in label.tried:
        places = (box for box in group.places(block, canvas) if label.names(box))
        found = clearest(places, taken, lines, canvas)
        if found is not None and (least is None or found[1] < least[2]):
            least = block, *found
            if found[1] == 0:
                break
    if least is None or (label.clear and least[2]):
        return None
    return least[:2]


def _sums(heat: HeatRoom) -> FloatArray:
    """Give points along the lines of all sums. [px]"""
    drawn = (heat.points(heat.drawn.heat), *(heat.band() or ()), *heat.fan())
    return _known(*map(_filled, drawn))


def _posts(heat: HeatRoom, uprights: Sequence[float]) -> FloatArray:
    """Give points along upright lines and close beside them. [px]"""
    y = np.arange(heat.box.top, heat.box.bottom, 3.0)
    posts = [np.column_stack([np.full_like(y, x + d), y]) for x in uprights for d in _BY_POST]
    return _known(*posts)


def _filled(points: FloatArray) -> FloatArray:
    """Put points between those that lie far apart, so that words find the line between them."""
    if len(points) < 2:
        return points
    fine = math.ceil(float(points[1, 0] - points[0, 0]) / _FINE) or 1
    at, days = np.arange(0, len(points) - 1 + 1e-9, 1 / fine), np.arange(len(points))
    between: FloatArray = np.column_stack([np.interp(at, days, axis) for axis in points.T])
    return between
