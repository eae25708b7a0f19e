"""The lane of dates: a tick for each week, months by name, a few days by number."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_part import Part, uprights_drawn
from quarterwalk.picture.season_place import line_box, meet
from quarterwalk.picture.season_room import SMALL, SeasonRoom, upright
from quarterwalk.picture.season_words import month_word

DAYS_HEIGHT = 30.0
"""How tall the lane is. [px]"""

_WEEKS = (8, 15, 22)
"""Days of a month that have a tick, beside its first. [day of the month]"""

_NUMBERED = (_WEEKS, (15, 22), (15,))
"""Which of them may have their number, the fullest first."""

_TICK, _LONG = 5.0, 9.0  # ticks of a week and of a month [px]
_BASE = 21.0  # from the top of the lane to the line of the words [px]
_APART = 8.0  # between two words [px]
_STEPS = (1, 2, 3, 6, 12)  # every so many months may be named [months]


def months_of(room: SeasonRoom) -> list[date]:
    """Give the first days of months that lie on the paper."""
    first = room.planted.replace(day=1)
    months = [date(first.year + i // 12, i % 12 + 1, 1) for i in _numbers(first, room.last)]
    return [month for month in months if room.shows(month)]


def _numbers(first: date, last: date) -> range:
    begin = first.month - 1
    return range(begin, 12 * (last.year - first.year) + last.month)


def month_lines(room: SeasonRoom, top: float, bottom: float, held: Sequence[Box]) -> str:
    """Draw a hair through all lanes where a month begins.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    top, bottom : float
        [px]
    held : sequence of Box
        Where words stand, through which no hair runs.

    Returns
    -------
    str
    """
    falls = [(room.at(month), top) for month in months_of(room)]
    return uprights_drawn(falls, bottom, held, "qw-hair")


def days_lane(room: SeasonRoom, top: float) -> Part:
    """Draw the lane of dates.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    top : float
        Where the axis lies. [px]

    Returns
    -------
    Part
    """
    months = months_of(room)
    weeks = [day for day in _every_day(room) if day.day in _WEEKS]
    data = f"M0,{figure(top)}H{figure(room.width)}"
    data += "".join(upright(room.at(day), top, top + _TICK) for day in weeks)
    data += "".join(upright(room.at(day), top, top + _LONG) for day in months)
    named, taken = _names(room, months, top + _BASE)
    numbered, boxes = _numbers_of(room, taken, top + _BASE)
    axis = element("path", d=data, cls="qw-axis")
    return Part(axis + named + numbered, top + DAYS_HEIGHT, (*taken, *boxes))


def _every_day(room: SeasonRoom) -> list[date]:
    days = (room.last - room.planted).days
    return [room.planted + timedelta(i) for i in range(days + 1)]


def _names(room: SeasonRoom, months: list[date], y: float) -> tuple[str, list[Box]]:
    """Name as many months as have room: each one, or every second, or fewer."""
    for step in _STEPS:
        chosen = [(month, month_word(month)) for month in months if (month.month - 1) % step == 0]
        boxes = [line_box(room.at(month) + 3, y, name, SMALL) for month, name in chosen]
        while boxes and boxes[-1].right > room.width:
            boxes.pop()
        if _apart(boxes):
            said = [
                words(box.left, y, name, "qw-words qw-bold qw-halo", SMALL)
                for box, (_, name) in zip(boxes, chosen, strict=False)
            ]
            return "".join(said), boxes
    return "", []


def _numbers_of(room: SeasonRoom, taken: list[Box], y: float) -> tuple[str, list[Box]]:
    """Number the weeks of a month as far as all months have room for them."""
    for numbered in _NUMBERED:
        boxes = [
            (str(day.day), line_box(room.at(day), y, str(day.day), SMALL, end="middle"))
            for day in _every_day(room)
            if day.day in numbered
        ]
        boxes = [(text, box) for text, box in boxes if box.left >= 0 and box.right <= room.width]
        free = [each for each in boxes if not any(meet(_wider(each[1]), name) for name in taken)]
        if len(free) == len(boxes) and _apart([box for _, box in free]):
            said = "".join(
                words(box.left, y, text, "qw-words qw-quiet qw-halo", SMALL) for text, box in free
            )
            return said, [box for _, box in free]
    return "", []


def _wider(box: Box) -> Box:
    return Box(box.left - _APART, box.top, box.right + _APART, box.bottom)


def _apart(boxes: list[Box]) -> bool:
    return not any(meet(_wider(one), two) for one, two in zip(boxes, boxes[1:], strict=False))
