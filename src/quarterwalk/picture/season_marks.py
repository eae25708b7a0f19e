"""The events of a crop as a stair: an open box over each range, a full dot where seen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.picture.drawing import element, words
from quarterwalk.picture.season_drawn import SeasonMark
from quarterwalk.picture.season_place import broken, width_of
from quarterwalk.picture.season_room import SMALL, SeasonRoom
from quarterwalk.picture.season_words import date_word, dates_long, dates_short
from quarterwalk.words import phrase

_STEP = 23.0  # from one step of the stair to the next [px]
_BOX, _CORNER = 12.0, 3.0  # height of an open box, and its corners [px]
_DOT, _SMALL_DOT = 5.5, 3.0  # radius of a day that was seen, and of a likely one [px]
_PAST = 6.0  # off the paper, where the end of a box is that runs on [px]
_NARROW = 12.0  # an open box is drawn at least so wide [px]
_NEAR, _GAP = 7.0, 6.0  # from a mark to its words, and between name and days [px]
_LINE = 1.25  # from one line of words to the next [type size]

_BOLD, _PLAIN = "qw-words qw-bold qw-halo", "qw-words qw-halo"


@dataclass(frozen=True, slots=True)
class _Step:
    """An event on the paper: where its mark begins and ends, and its middle. [px]"""

    mark: SeasonMark
    left: float
    right: float
    y: float


def planted_mark(day: date) -> SeasonMark:
    """Give planting as the first event."""
    return SeasonMark(phrase("planted"), day, (day, day), seen=True)


def marks_stair(room: SeasonRoom, marks: tuple[SeasonMark, ...], top: float) -> tuple[str, float]:
    """Draw each event a step lower than the one before, its name and days beside it.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    marks : tuple of SeasonMark
        From the earliest on.
    top : float
        [px]

    Returns
    -------
    (str, float)
        The stair, and where it ends. [px]
    """
    parts = []
    for mark in marks:
        said, y = _said(room, mark, top + _STEP / 2)
        step = _Step(mark, *_ends(room, mark), y)
        parts += [_drawn(room, step), said]
        top = y + _STEP / 2
    return "".join(parts), top


def _ends(room: SeasonRoom, mark: SeasonMark) -> tuple[float, float]:
    if mark.seen:
        x = room.at(mark.likely)
        return x - _DOT, x + _DOT
    left, right = room.over(*mark.span, least=_NARROW)
    before, after = mark.span[0] < room.planted, mark.span[1] > room.last
    return -_PAST if before else left, room.width + _PAST if after else right


def _drawn(room: SeasonRoom, step: _Step) -> str:
    """Draw a full dot, or an open box around a small one; nothing that is off the paper."""
    mark, x = step.mark, room.at(step.mark.likely)
    radius = _DOT if mark.seen else _SMALL_DOT
    dot = element("circle", cx=x, cy=step.y, r=radius, cls="qw-plant")
    dot = dot if room.shows(mark.likely) else ""
    if mark.seen or mark.span[0] > room.last or mark.span[1] < room.planted:
        return dot
    box = element(
        "rect",
        x=step.left,
        y=step.y - _BOX / 2,
        width=step.right - step.left,
        height=_BOX,
        rx=_CORNER,
        cls="qw-plant-open",
    )
    return box + dot


def _said(room: SeasonRoom, mark: SeasonMark, y: float) -> tuple[str, float]:
    """Write name and days at the right of the mark, or left, or above; and where it stands."""
    left, right = _ends(room, mark)
    name, base = " ".join(mark.name.split()), y + 0.35 * SMALL
    for days in _days(mark):
        wide = width_of(name, SMALL) + _GAP + width_of(days, SMALL)
        if right + _NEAR + wide <= room.width:
            at = right + _NEAR
        elif left - _NEAR - wide >= 0:
            at = left - _NEAR - wide
        else:
            continue
        return _pair(at, base, name, days), y
    return _above(room, name, _days(mark)[-1], (left, y))


def _days(mark: SeasonMark) -> list[str]:
    """Word when it was or will be, the fullest first."""
    if mark.seen:
        return [date_word(mark.likely)]
    return [phrase("likely {days}", days=dates_long(*mark.span)), dates_short(*mark.span)]


def _pair(x: float, base: float, name: str, days: str) -> str:
    after = x + width_of(name, SMALL) + _GAP
    return words(x, base, name, _BOLD, SMALL) + words(after, base, days, _PLAIN, SMALL)


def _above(room: SeasonRoom, name: str, days: str, place: tuple[float, float]) -> tuple[str, float]:
    """Write name and days in lines of their own, and the mark below them."""
    left, y = place
    lines = [(line, _BOLD) for line in broken(name, SMALL, room.width)]
    lines += [(line, _PLAIN) for line in broken(days, SMALL, room.width)]
    said, base = [], y + 0.35 * SMALL
    for line, cls in lines:
        at = max(min(left, room.width - width_of(line, SMALL)), 0.0)
        said.append(words(at, base, line, cls, SMALL))
        base += _LINE * SMALL
    return "".join(said), base - 0.35 * SMALL
