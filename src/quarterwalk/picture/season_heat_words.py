"""The words beside the heat of a season: the sum today, other years, the days ahead."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta

import numpy as np

from quarterwalk.picture.drawing import words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_block import Block, Line
from quarterwalk.picture.season_drawn import FloatArray
from quarterwalk.picture.season_heat import HeatRoom, Tick
from quarterwalk.picture.season_place import clearest, line_box, meet
from quarterwalk.picture.season_room import LARGE, SMALL
from quarterwalk.picture.season_words import date_word
from quarterwalk.words import phrase

_NEAR, _CLEAR = 9.0, 5.0  # from words to their mark, across and down [px]
_SIDES = 10.0  # from words to other words beside them [px]
_STEP = 6.0  # from one place that is tried to the next [px]
_RIM, _FAR = 9, 24  # places tried away from a rim, and from the sum today [count]
_EARLY, _HALFWAY = 0.25, 0.45  # of the days on the paper [fraction]
_LATELY = 0.8  # of the days so far, from where on today's range may stand [fraction]
_SPOTS = 24  # marks along a rim that are tried [count]

_EVERY_SIDE = ((1, 1), (-1, -1), (-1, 1), (1, -1))
"""Right below a mark, left above, left below, right above."""

_BOLD = "qw-words qw-bold qw-halo"
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


def heat_words(heat: HeatRoom, ticks: Sequence[Tick], uprights: Sequence[float]) -> str:
    """Write the sum today, the numbers of the axis, other years, and the days ahead.

    Parameters
    ----------
    heat : HeatRoom
        Where the sums stand.
    ticks : sequence of Tick
        Numbers of the axis; one that would meet the sum today is left out.
    uprights : sequence of float
        Where upright lines run, which words would better not cross. [px]

    Returns
    -------
    str
    """
    lines, boxes, said = _lines(heat, uprights), list[Box](), []
    for number, label in enumerate(_labels(heat)):
        found = _settled(label, boxes, lines, heat.box)
        if found is not None:
            boxes.append(_apart(found[1]))
            said.append(found[0].at(found[1]))
        if number == 0:
            free = [tick for tick in ticks if not any(meet(_box(tick), box) for box in boxes)]
            boxes += map(_box, free)
            said += [words(x, y, text, _QUIET, SMALL) for x, y, text in free]
    return "".join(said)


def _apart(box: Box) -> Box:
    """Keep other words off, at the sides more than above and below."""
    return Box(box.left - _SIDES, box.top - 2, box.right + _SIDES, box.bottom + 2)


def _box(tick: Tick) -> Box:
    return line_box(*tick, SMALL)


def _labels(heat: HeatRoom) -> Iterator[_Tried]:
    yield _today(heat)
    band = heat.band()
    if band is not None:
        yield _other_years(heat, band)
    if len(heat.drawn.ahead[0]):
        low, _, high = heat.fan()
        half = len(low) // 2
        yield _each(_beside(low[half:], high[half:]), _ahead(heat))


def _each(groups: tuple[_Group, ...], wordings: tuple[Block, ...]) -> _Tried:
    """Try every wording in a group before the next group."""
    return tuple((block, group) for group in groups for block in wordings)


def _today(heat: HeatRoom) -> _Tried:
    drawn, points = heat.drawn, heat.points(heat.drawn.heat)
    if drawn.known is None:
        spot = np.array([[points[-1, 0], heat.box.bottom]])
        unknown = Block.of(phrase("heat units not known"), cls=_BOLD)
        return _each(_about(spot), (unknown,))
    number = f"{round(float(drawn.heat[drawn.known])):,}"
    whole = [Line(phrase("{number} heat units", number=number), LARGE, _BOLD)]
    brief = [Line(number, LARGE, _BOLD), Line(phrase("heat units"), SMALL, _BOLD)]
    if drawn.known < len(drawn.heat) - 1:
        day = date_word(drawn.planted + timedelta(drawn.known))
        until = Line(phrase("until {day}", day=day), SMALL, _BOLD)
        whole, brief = [*whole, until], [*brief, until]
    spot = points[drawn.known : drawn.known + 1]
    return _each(_about(spot), (Block(tuple(whole)), Block(tuple(brief))))


def _other_years(heat: HeatRoom, band: tuple[FloatArray, FloatArray, FloatArray]) -> _Tried:
    """Tell the range of other years by today, or farther off only what the band is."""
    name, days = phrase("other years"), len(heat.drawn.heat)
    low, _, high = band
    shown = max(days, round(_HALFWAY * len(low)))
    anywhere = _each(_beside(low[:shown], high[:shown]), (Block.of(name, cls=_QUIET),))
    ends = [float(sums[days - 1]) for sums in (heat.drawn.normal or ())[::2]]
    if days < _EARLY * len(low) or not all(map(math.isfinite, ends)):
        return anywhere
    where, since = _range(*ends), round(_LATELY * days)
    wordings = (
        Block.of(phrase("other years {range}", range=where), cls=_QUIET),
        Block.of(name, where, cls=_QUIET),
    )
    return _each(_beside(low[since:days], high[since:days]), wordings) + anywhere


def _ahead(heat: HeatRoom) -> tuple[Block, ...]:
    low, _, high = heat.drawn.ahead
    ends, name = (float(low[-1]), float(high[-1])), phrase("days ahead")
    if not all(map(math.isfinite, ends)):
        return (Block.of(name, cls=_QUIET),)
    where = phrase("likely {range}", range=_range(*ends))
    day = phrase("by {day}", day=date_word(heat.drawn.today + timedelta(len(low))))
    return (Block.of(where, day, cls=_QUIET), Block.of(name, cls=_QUIET))


def _range(low: float, high: float) -> str:
    first, last = round(low), round(high)
    if first == last:
        return phrase("about {number}", number=f"{first:,}")
    return phrase("{first} to {last}", first=f"{first:,}", last=f"{last:,}")


def _about(spot: FloatArray) -> tuple[_Group, ...]:
    """Give every side of one mark, near it and then farther off."""
    return _Group(spot, _EVERY_SIDE, _RIM), _Group(spot, _EVERY_SIDE, _FAR)


def _beside(low: FloatArray, high: FloatArray) -> tuple[_Group, ...]:
    """Give the marks along both rims, from the last day backwards. [px]"""
    return (
        _Group(_backwards(low), ((1, 1), (-1, 1)), _RIM),
        _Group(_backwards(high), ((-1, -1), (1, -1)), _RIM),
    )


def _backwards(rim: FloatArray) -> FloatArray:
    known: FloatArray = rim[np.isfinite(rim).all(axis=1)][::-1]
    thinned: FloatArray = known[:: max(1, len(known) // _SPOTS)]
    return thinned


def _settled(
    tried: _Tried, taken: Sequence[Box], lines: FloatArray, canvas: Box
) -> tuple[Block, Box] | None:
    """Find the first wording that covers no line, or else the place that covers least."""
    least: tuple[Block, Box, int] | None = None
    for block, group in tried:
        found = clearest(group.places(block, canvas), taken, lines, canvas)
        if found is not None and (least is None or found[1] < least[2]):
            least = block, *found
            if found[1] == 0:
                break
    return None if least is None else least[:2]


def _lines(heat: HeatRoom, uprights: Sequence[float]) -> FloatArray:
    """Give points along all that words would better not cover. [px]"""
    band, fan = heat.band() or (), heat.fan()
    y = np.arange(heat.box.top, heat.box.bottom, 3.0)
    posts = [np.column_stack([np.full_like(y, x), y]) for x in uprights]
    known = np.concatenate([heat.points(heat.drawn.heat), *band, *fan, *posts])
    told: FloatArray = known[np.isfinite(known).all(axis=1)]
    return told
