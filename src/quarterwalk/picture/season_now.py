"""The one number of a season: the sum so far, close beside its dot."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_block import Block, Line
from quarterwalk.picture.season_drawn import FloatArray, SeasonDrawn
from quarterwalk.picture.season_heat import HeatRoom
from quarterwalk.picture.season_place import covered, meet
from quarterwalk.picture.season_room import LARGE, SMALL
from quarterwalk.picture.season_words import date_word
from quarterwalk.words import phrase

FEW = 3
"""Days ahead that are fewer are not named. [days]"""

_RING = 8.0  # paper around the dot [px]
_ACROSS, _DOWN = 8.0, 6.0  # from one place that is tried to the next [px]
_CAPS = (48.0, 80.0, 140.0)  # the number stands so far from its dot at most, the least first [px]
_COVERS = 12.0  # a point of a line that is covered weighs as much as this distance [px]
_CROSSES = 40.0  # so does an upright line that is crossed [px]
_BRIEFER = 25.0  # so does a wording that is less whole than the first [px]
_EARLY = 0.25  # of the days on the paper: before, other years lie too close to tell [fraction]

_BOLD, _QUIET = "qw-words qw-bold qw-halo", "qw-words qw-quiet qw-halo"


@dataclass(frozen=True, slots=True)
class Now:
    """The sum so far as it was placed, and whether other years are told with it."""

    block: Block
    box: Box
    others: bool


def known_day(drawn: SeasonDrawn) -> date:
    """Give the last day whose sum is known, or else today."""
    return drawn.today if drawn.known is None else drawn.planted + timedelta(drawn.known)


def others_range(drawn: SeasonDrawn) -> str:
    """Word what other years had on the last day whose sum is known.

    Parameters
    ----------
    drawn : SeasonDrawn
        The season.

    Returns
    -------
    str
        Empty where it is not known, or so early that it tells nothing.
    """
    if drawn.known is None or drawn.normal is None:
        return ""
    low, high = (float(sums[drawn.known]) for sums in drawn.normal[::2])
    if drawn.known + 1 < _EARLY * len(drawn.normal[0]) or not math.isfinite(low + high):
        return ""
    return range_word(low, high)


def range_word(low: float, high: float) -> str:
    """Word a range of sums in whole heat units."""
    first, last = round(low), round(high)
    if first == last:
        return phrase("about {number}", number=f"{first:,}")
    return phrase("{first} to {last}", first=f"{first:,}", last=f"{last:,}")


def sum_word(drawn: SeasonDrawn) -> str:
    """Write the last sum that is known; empty where none is."""
    return "" if drawn.known is None else f"{round(float(drawn.heat[drawn.known])):,}"


def dot_of(heat: HeatRoom) -> tuple[float, float]:
    """Give the place of the dot, or of today on the axis where no sum is known. [px]"""
    points = heat.points(heat.drawn.heat)
    if heat.drawn.known is None:
        return float(points[-1, 0]), heat.box.bottom
    x, y = points[heat.drawn.known]
    return float(x), float(y)


def ring_of(heat: HeatRoom) -> Box:
    """Give the room of the dot, which no words may cover."""
    x, y = dot_of(heat)
    return Box(x - _RING, y - _RING, x + _RING, y + _RING)


def placed_now(
    heat: HeatRoom, taken: Sequence[Box], sums: FloatArray, posts: FloatArray
) -> Now | None:
    """Find the place and the wording of the sum so far.

    Parameters
    ----------
    heat : HeatRoom
        Where the sums stand.
    taken : sequence of Box
        What may not be covered: the dot and the numbers of the axis.
    sums : ndarray, shape (points, 2)
        Lines that would better not be covered. [px]
    posts : ndarray, shape (points, 2)
        Upright lines, which break where words stand. [px]

    Returns
    -------
    Now or None
        None where it has no place at all.
    """
    spot = dot_of(heat)
    least: tuple[bool, float, Now] | None = None
    clear = False
    for cap in _CAPS:
        for number, (block, others) in enumerate(_wordings(heat.drawn)):
            for box in _places(spot, block, heat.box, cap):
                dear = _away(spot, box) + _BRIEFER * number
                if (least and least[:2] <= (False, dear)) or any(meet(box, t) for t in taken):
                    continue
                points, crossed = covered(box, sums), covered(box, posts) > 0
                tried = points > 0, dear + _COVERS * points + _CROSSES * crossed
                if least is None or tried < least[:2]:
                    least, clear = (*tried, Now(block, box, others)), not (points or crossed)
        if clear:
            break
    return None if least is None else least[2]


def _wordings(drawn: SeasonDrawn) -> Iterator[tuple[Block, bool]]:
    """Give wordings, the fullest first, and whether each tells of other years."""
    number, others = sum_word(drawn), others_range(drawn)
    if not number:
        yield Block.of(phrase("heat units not known"), cls=_BOLD), False
        return
    whole = [Line(phrase("{number} heat units", number=number), LARGE, _BOLD)]
    brief = [Line(number, LARGE, _BOLD), Line(phrase("heat units"), SMALL, _BOLD)]
    if known_day(drawn) < drawn.today:
        until = Line(phrase("until {day}", day=date_word(known_day(drawn))), SMALL, _BOLD)
        whole, brief = [*whole, until], [*brief, until]
    if others:
        told = Line(phrase("other years {range}", range=others), SMALL, _QUIET)
        lines = [Line(each, SMALL, _QUIET) for each in (phrase("other years"), others)]
        yield Block((*whole, told)), True
        yield Block((*brief, *lines)), True
    yield Block(tuple(whole)), False
    yield Block(tuple(brief)), False


def _places(spot: tuple[float, float], block: Block, canvas: Box, cap: float) -> Iterator[Box]:
    """Give places on every side of the dot, up to the cap from it."""
    (x, y), (wide, tall) = spot, block.size
    for left in np.arange(x - _RING - cap - wide, x + _RING + cap, _ACROSS):
        held = max(min(float(left), canvas.right - wide), canvas.left)
        for top in np.arange(y - _RING - cap - tall, y + _RING + cap, _DOWN):
            box = Box(held, float(top), held + wide, float(top) + tall)
            if box.top >= canvas.top and box.bottom <= canvas.bottom and _away(spot, box) <= cap:
                yield box


def _away(spot: tuple[float, float], box: Box) -> float:
    """Give how far the nearest point of a box is. [px]"""
    x, y = spot
    across = max(box.left - x, 0.0, x - box.right)
    return math.hypot(across, max(box.top - y, 0.0, y - box.bottom))
