"""Upright lines through a season: today, and each spray with its triangle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_drawn import SeasonDrawn
from quarterwalk.picture.season_place import line_box, meet
from quarterwalk.picture.season_room import HEAD, SMALL, SeasonRoom, upright
from quarterwalk.picture.season_words import date_word
from quarterwalk.words import phrase

_ROW = 21.0  # height of a row of words above the heat [px]
_BASE = 15.0  # from the top of a row to the line of its words [px]
_HALF, _DEEP = 6.0, 10.0  # half the width and the depth of a spray's triangle [px]
_NEAR = 10.0  # from a spray's line to its words [px]


@dataclass(frozen=True, slots=True)
class Uprights:
    """What stands above the heat, and the lines that fall from it.

    Parameters
    ----------
    said : str
        The words and the triangles.
    falls : tuple of (float, float, str)
        x, top and class of each line. [px]
    bottom : float
        Where the words end. [px]
    """

    said: str
    falls: tuple[tuple[float, float, str], ...]
    bottom: float

    @property
    def stand(self) -> list[float]:
        """Where the lines run. [px]"""
        return [x for x, _, _ in self.falls]

    def lines(self, bottom: float) -> str:
        """Draw the lines, down to where the drawing ends. [px]"""
        return "".join(
            element("path", d=upright(x, top, bottom), cls=cls) for x, top, cls in self.falls
        )


def uprights(room: SeasonRoom, drawn: SeasonDrawn, headings: list[str]) -> Uprights:
    """Write the headings, today beside or below them, and the sprays in a row of their own.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    drawn : SeasonDrawn
        The season.
    headings : list of str
        Lines of the heading.

    Returns
    -------
    Uprights
    """
    parts = [
        words(0, _BASE + _ROW * i, line, "qw-words qw-bold", HEAD)
        for i, line in enumerate(headings)
    ]
    title = line_box(0, _BASE + _ROW * (len(headings) - 1), headings[-1] + "  ", HEAD)
    text = phrase("today, {day}", day=date_word(drawn.today))
    row = len(headings) - 1
    today = _held(room, text, drawn.today, row)
    if meet(title, today):
        row += 1
        today = _held(room, text, drawn.today, row)
    parts.append(words(today.left, _BASE + _ROW * row, text, "qw-words qw-bold", SMALL))
    falls = [(room.at(drawn.today), _ROW * row + _BASE + 5, "qw-today")]
    sprays = [day for day in sorted(set(drawn.treated)) if room.shows(day)]
    if sprays:
        row += 1
        parts.append(_sprays(room, sprays, row, falls[0][0]))
        falls += [(room.at(day), _ROW * row + 5, "qw-measure") for day in sprays]
    return Uprights("".join(parts), tuple(falls), _ROW * (row + 1))


def _held(room: SeasonRoom, text: str, day: date, row: int) -> Box:
    """Give the place of words over a day, held inside the drawing."""
    box = line_box(room.at(day), _BASE + _ROW * row, text, SMALL, end="middle")
    wide = box.right - box.left
    left = max(min(box.left, room.width - wide), 0.0)
    return Box(left, box.top, left + wide, box.bottom)


def _sprays(room: SeasonRoom, days: list[date], row: int, today: float) -> str:
    """Draw a triangle a spray; in words as far as there is room, the latest first."""
    base = _ROW * row + _BASE
    taken = [_triangle_box(room.at(day), row) for day in days]
    post = Box(today, base, today + 1, base)
    parts = [_triangle(room.at(day), row) for day in days]
    for day in reversed(days):
        places = list(_places(room, day, base))
        clear = [each for each in places if not meet(each[1], post)]
        for text, box in (*clear, *places):
            if not any(meet(box, other) for other in taken):
                taken.append(box)
                parts.append(words(box.left, base, text, "qw-words qw-bold qw-halo", SMALL))
                break
    return "".join(parts)


def _triangle(x: float, row: int) -> str:
    top = _ROW * row + 4
    wide = f"h{figure(2 * _HALF)}l{figure(-_HALF)},{figure(_DEEP)}Z"
    shape = f"M{figure(x - _HALF)},{figure(top)}{wide}"
    return element("path", d=shape, cls="qw-ink")


def _triangle_box(x: float, row: int) -> Box:
    top = _ROW * row + 4
    return Box(x - _HALF - 2, top, x + _HALF + 2, top + _DEEP)


def _places(room: SeasonRoom, day: date, base: float) -> Iterator[tuple[str, Box]]:
    """Give what may stand beside a spray, at its right or its left, the fullest first."""
    x = room.at(day)
    for text in (phrase("sprayed {day}", day=date_word(day)), date_word(day)):
        right = line_box(x + _NEAR, base, text, SMALL)
        left = line_box(x - _NEAR, base, text, SMALL, end="end")
        yield from (
            (text, box) for box in (right, left) if box.left >= 0 and box.right <= room.width
        )
