"""The walks of a season as the marks of their calls, and the next look as an empty box."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.call import Verdict
from quarterwalk.picture.drawing import element, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.mark import outcome_mark
from quarterwalk.picture.season_drawn import SeasonDrawn, SeasonWalk
from quarterwalk.picture.season_lane import lane_name
from quarterwalk.picture.season_part import Part
from quarterwalk.picture.season_place import Rows, broken, line_box, width_of
from quarterwalk.picture.season_room import SMALL, SeasonRoom
from quarterwalk.picture.season_words import dates_short
from quarterwalk.words import phrase

_SCALE = 0.58  # of a walk's mark beside its size in a list [ratio]
_HALF = {Verdict.HOLD: 28.5, Verdict.LOOK_SOONER: 23.5, Verdict.TREAT: 25.0, Verdict.NONE: 10.5}
"""Half the width of each mark, in a list. [px]"""

_RING = 5.0  # radius of a walk without a call [px]
_ROW, _APART = 24.0, 9.0  # height of a row of walks, and between two marks in it [px]
_NEAR = 8.0  # from the box of the next look to its words [px]
_LOOK, _CORNER = 14.0, 3.0  # least size of that box, and its corners [px]
_EVEN = 0.64  # of words that are broken in two, at most in one line [ratio]
_MIDDLE, _LINE = 0.35, 1.25  # from a line of words to their middle, and to the next [type size]


def walks_lane(room: SeasonRoom, drawn: SeasonDrawn, top: float) -> Part:
    """Draw each walk at its day, in as many rows as they need, and the next look.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    drawn : SeasonDrawn
        The season.
    top : float
        [px]

    Returns
    -------
    Part
        Nothing where there is neither. The marks are held too: an upright line through
        one would change its look.
    """
    walks = sorted((walk for walk in drawn.walks if room.shows(walk.on)), key=lambda w: w.on)
    if not walks and drawn.next_look is None:
        return Part("", top)
    rows, parts, held, y = Rows(_APART), list[str](), list[Box](), top + _ROW / 2
    if walks:
        first = min(x - half for x, half in (_stands(room, walk) for walk in walks))
        named, held, middle = lane_name(room, phrase("walks"), first, y)
        parts.append(named)
        if middle == y:
            rows.place(0, first - _APART - 1)
        y = middle
    for walk in walks:
        x, half = _stands(room, walk)
        at = y + _ROW * rows.place(x - half, x + half)
        parts.append(_mark(walk, x, at))
        held.append(Box(x - half, at - _ROW / 2, x + half, at + _ROW / 2))
    bottom = y + _ROW * (len(rows) - 0.5)
    if drawn.next_look is not None:
        look = _next(room, drawn.next_look, rows, y)
        parts.append(look.drawn)
        held += look.held
        bottom = max(look.bottom, y + _ROW * (len(rows) - 0.5))
    return Part("".join(parts), bottom, tuple(held))


def _stands(room: SeasonRoom, walk: SeasonWalk) -> tuple[float, float]:
    """Give the middle of a walk's mark, held inside the drawing, and half its width. [px]"""
    half = _RING + 2 if walk.verdict is None else _SCALE * _HALF[walk.verdict]
    return min(max(room.at(walk.on), half), room.width - half), half


def _mark(walk: SeasonWalk, x: float, y: float) -> str:
    if walk.verdict is None:
        return element("circle", cx=x, cy=y, r=_RING, cls="qw-stop-2")
    return outcome_mark(walk.verdict, x, y, scale=_SCALE)


def _next(room: SeasonRoom, look: tuple[date, date], rows: Rows, y: float) -> Part:
    """Draw the next look as a dashed box, in one line with its words or below two of them."""
    left, right = room.over(*look, least=_LOOK)
    text = phrase("next look {days}", days=dates_short(*look))
    wide = _NEAR + width_of(text, SMALL)
    for at in (right + _NEAR, left - wide):
        ends = min(left, at), max(right, at + wide - _NEAR)
        if ends[0] >= 0 and ends[1] <= room.width:
            middle = y + _ROW * rows.place(*ends)
            said = [_Said(text, at, middle + _MIDDLE * SMALL)]
            return _looked((left, right), middle, said)
    top, said = y + _ROW * (len(rows) - 0.5), []
    for line in broken(text, SMALL, min(room.width / 2, _EVEN * (wide - _NEAR))):
        long = width_of(line, SMALL)
        at = max(min((left + right - long) / 2, room.width - long), 0.0)
        said.append(_Said(line, at, top + SMALL))
        top += _LINE * SMALL
    return _looked((left, right), top + _ROW / 2, said)


@dataclass(frozen=True, slots=True)
class _Said:
    """A line of words: its text, and where it begins. [px]"""

    text: str
    x: float
    base: float


def _looked(ends: tuple[float, float], y: float, said: list[_Said]) -> Part:
    """Draw the box of the next look, and its words."""
    box = element(
        "rect",
        x=ends[0],
        y=y - _LOOK / 2,
        width=ends[1] - ends[0],
        height=_LOOK,
        rx=_CORNER,
        cls="qw-next",
    )
    told = "".join(
        words(each.x, each.base, each.text, "qw-words qw-bold qw-halo", SMALL) for each in said
    )
    held = tuple(line_box(each.x, each.base, each.text, SMALL) for each in said)
    return Part(box + told, y + _ROW / 2, held)
