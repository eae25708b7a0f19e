"""The events of a crop as a stair: an open box over each range, a full dot where seen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quarterwalk.picture.drawing import element, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_drawn import SeasonDrawn, SeasonMark
from quarterwalk.picture.season_part import Part, crosses
from quarterwalk.picture.season_place import broken, line_box, width_of
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

_MIDDLE = 0.35  # from the line of words to their middle [type size]

_BOLD, _PLAIN = "qw-words qw-bold qw-halo", "qw-words qw-halo"

_Said = tuple[str, float, str, Box]
"""A line of words: its text, the line it stands on [px], its class, and its room."""


@dataclass(frozen=True, slots=True)
class _Step:
    """An event on the paper: where its mark begins and ends, and its middle. [px]"""

    mark: SeasonMark
    left: float
    right: float
    y: float


def planted_mark(drawn: SeasonDrawn) -> SeasonMark:
    """Give the planting of the stand that grows now as the first event."""
    name, day = phrase("replanted") if drawn.replanted else phrase("planted"), drawn.planted
    return SeasonMark(name, day, (day, day), seen=True)


def marks_stair(
    room: SeasonRoom, marks: tuple[SeasonMark, ...], uprights: Sequence[float], top: float
) -> Part:
    """Draw each event a step lower than the one before, its name and days beside it.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    marks : tuple of SeasonMark
        From the earliest on.
    uprights : sequence of float
        Where upright lines run, which words would better not cross. [px]
    top : float
        [px]

    Returns
    -------
    Part
    """
    parts, held = [], list[Box]()
    for mark in marks:
        said, y = _said(room, mark, uprights, top + _STEP / 2)
        parts.append(_drawn(room, _Step(mark, *_ends(room, mark), y)))
        parts += [words(box.left, base, text, cls, SMALL) for text, base, cls, box in said]
        held += [box for *_, box in said]
        top = y + _STEP / 2
    return Part("".join(parts), top, tuple(held))


def _ends(room: SeasonRoom, mark: SeasonMark) -> tuple[float, float]:
    if mark.seen:
        x = room.at(mark.likely)
        return x - _DOT, x + _DOT
    left, right = room.over(*mark.span, least=_NARROW)
    before, after = mark.span[0] < room.planted, mark.span[1] > room.last
    return -_PAST if before else left, room.width + _PAST if after else right


def _drawn(room: SeasonRoom, step: _Step) -> str:
    """Draw a full dot, or an open box; nothing that is off the paper.

    A small dot in the box is its likeliest day; days that were given have none.
    """
    mark, x = step.mark, room.at(step.mark.likely)
    radius = _DOT if mark.seen else _SMALL_DOT
    dot = element("circle", cx=x, cy=step.y, r=radius, cls="qw-plant")
    dot = dot if room.shows(mark.likely) and (mark.seen or not mark.given) else ""
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


def _said(
    room: SeasonRoom, mark: SeasonMark, uprights: Sequence[float], y: float
) -> tuple[list[_Said], float]:
    """Write name and days right or left of the mark, or above; and tell where it stands.

    A place that no upright line crosses is dearer than the fuller wording.
    """
    left, right = _ends(room, mark)
    name, base, beside = " ".join(mark.name.split()), y + _MIDDLE * SMALL, []
    for days in days_told(mark):
        wide = width_of(name, SMALL) + _GAP + width_of(days, SMALL)
        places = (right + _NEAR, left - _NEAR - wide)
        beside += [
            _pair(at, base, name, days) for at in places if at >= 0 and at + wide <= room.width
        ]
    if not beside:
        return _above(room, name, days_told(mark)[-1], (left, y))
    clear = (each for each in beside if not any(crosses(_whole(each), x) for x in uprights))
    return next(clear, beside[0]), y


def days_told(mark: SeasonMark) -> list[str]:
    """Word when an event was or will be, the fullest first.

    Parameters
    ----------
    mark : SeasonMark
        The event.

    Returns
    -------
    list of str
        At least one.
    """
    if mark.seen:
        return [date_word(mark.likely)]
    if mark.given:
        told = dates_long(*mark.span), dates_short(*mark.span)
        return [phrase("given {days}", days=days) for days in told]
    return [phrase("likely {days}", days=dates_long(*mark.span)), dates_short(*mark.span)]


def _pair(x: float, base: float, name: str, days: str) -> list[_Said]:
    after = x + width_of(name, SMALL) + _GAP
    return [
        (name, base, _BOLD, line_box(x, base, name, SMALL)),
        (days, base, _PLAIN, line_box(after, base, days, SMALL)),
    ]


def _whole(said: list[_Said]) -> Box:
    """Give the room of name and days together."""
    first, last = said[0][-1], said[-1][-1]
    return Box(first.left, first.top, last.right, last.bottom)


def _above(
    room: SeasonRoom, name: str, days: str, place: tuple[float, float]
) -> tuple[list[_Said], float]:
    """Write name and days in lines of their own, and the mark below them."""
    left, y = place
    lines = [(line, _BOLD) for line in broken(name, SMALL, room.width)]
    lines += [(line, _PLAIN) for line in broken(days, SMALL, room.width)]
    said, base = list[_Said](), y + _MIDDLE * SMALL
    for line, cls in lines:
        at = max(min(left, room.width - width_of(line, SMALL)), 0.0)
        said.append((line, base, cls, line_box(at, base, line, SMALL)))
        base += _LINE * SMALL
    return said, base - _MIDDLE * SMALL
