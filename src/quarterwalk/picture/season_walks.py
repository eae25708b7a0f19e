"""The walks of a season as the marks of their calls, and the next look as an empty box."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quarterwalk.call import Verdict
from quarterwalk.picture.drawing import element, words
from quarterwalk.picture.mark import outcome_mark
from quarterwalk.picture.season_drawn import SeasonDrawn, SeasonWalk
from quarterwalk.picture.season_lane import lane_name
from quarterwalk.picture.season_place import Rows, width_of
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
_CLEARED = 6.0  # of an upright line is cleared where a mark stands on it [px]


def walks_lane(
    room: SeasonRoom, drawn: SeasonDrawn, uprights: Sequence[float], top: float
) -> tuple[str, float]:
    """Draw each walk at its day, in as many rows as they need, and the next look.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    drawn : SeasonDrawn
        The season.
    uprights : sequence of float
        Where upright lines run. [px]
    top : float
        [px]

    Returns
    -------
    (str, float)
        The lane, and where it ends; nothing where there is neither. [px]
    """
    walks = sorted((walk for walk in drawn.walks if room.shows(walk.on)), key=lambda w: w.on)
    if not walks and drawn.next_look is None:
        return "", top
    rows, named, y = Rows(_APART), "", top + _ROW / 2
    if walks:
        first = min(x - half for x, half in (_stands(room, walk) for walk in walks))
        named, middle = lane_name(room, phrase("walks"), first, y)
        if middle == y:
            rows.place(0, first - _APART - 1)
        y = middle
    parts = [named]
    for walk in walks:
        x, half = _stands(room, walk)
        at = y + _ROW * rows.place(x - half, x + half)
        parts += [_cleared(x, half, at, uprights), _mark(walk, x, at)]
    if drawn.next_look is not None:
        parts.append(_next(room, drawn.next_look, rows, y))
    return "".join(parts), y + _ROW * (len(rows) - 0.5)


def _stands(room: SeasonRoom, walk: SeasonWalk) -> tuple[float, float]:
    """Give the middle of a walk's mark, held inside the drawing, and half its width. [px]"""
    half = _RING + 2 if walk.verdict is None else _SCALE * _HALF[walk.verdict]
    return min(max(room.at(walk.on), half), room.width - half), half


def _mark(walk: SeasonWalk, x: float, y: float) -> str:
    if walk.verdict is None:
        return element("circle", cx=x, cy=y, r=_RING, cls="qw-stop-2")
    return outcome_mark(walk.verdict, x, y, scale=_SCALE)


def _cleared(x: float, half: float, y: float, uprights: Sequence[float]) -> str:
    """Clear the upright lines that would run through a mark and change its look."""
    return "".join(
        element(
            "rect",
            x=at - _CLEARED / 2,
            y=y - _ROW / 2,
            width=_CLEARED,
            height=_ROW,
            cls="qw-ground",
        )
        for at in dict.fromkeys(uprights)
        if abs(at - x) <= half + 2
    )


def _next(room: SeasonRoom, look: tuple[date, date], rows: Rows, y: float) -> str:
    """Draw the next look as a dashed box, its days at the right or at the left of it."""
    left, right = room.over(*look, least=_LOOK)
    days = dates_short(*look)
    text, at = "", left
    for said in (phrase("next look {days}", days=days), days):
        wide = _NEAR + width_of(said, SMALL)
        places = [right + _NEAR] * (right + wide <= room.width) + [left - wide] * (left >= wide)
        if places:
            text, at = said, places[0]
            break
    ends = min(left, at), max(right, at + width_of(text, SMALL))
    y += _ROW * rows.place(*ends)
    box = element(
        "rect",
        x=left,
        y=y - _LOOK / 2,
        width=right - left,
        height=_LOOK,
        rx=_CORNER,
        cls="qw-next",
    )
    return box + (
        words(at, y + 0.35 * SMALL, text, "qw-words qw-bold qw-halo", SMALL) if text else ""
    )
