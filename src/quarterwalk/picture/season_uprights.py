"""Upright lines through a season: today, and each spray with its triangle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_drawn import SeasonDrawn
from quarterwalk.picture.season_part import crosses, uprights_drawn
from quarterwalk.picture.season_place import FALL, line_box, meet
from quarterwalk.picture.season_room import HEAD, SMALL, SeasonRoom
from quarterwalk.picture.season_words import date_word
from quarterwalk.words import phrase

_ROW = 21.0  # height of a row of words above the heat [px]
_BASE = 15.0  # from the top of a row to the line of its words [px]
_HALF, _DEEP = 6.0, 10.0  # half the width and the depth of a spray's triangle [px]
_NEAR = 10.0  # from a spray's line to its words [px]
_APART = 1.0  # between the words of a spray and what stands beside them [px]


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
    held : tuple of Box
        Where the words stand.
    """

    said: str
    falls: tuple[tuple[float, float, str], ...]
    bottom: float
    held: tuple[Box, ...]

    @property
    def stand(self) -> list[float]:
        """Where the lines run. [px]"""
        return [x for x, _, _ in self.falls]

    def lines(self, bottom: float, held: Sequence[Box]) -> str:
        """Draw the lines down to where the drawing ends, broken where words stand. [px]"""
        return "".join(
            uprights_drawn([(x, top)], bottom, (*self.held, *held), cls)
            for x, top, cls in self.falls
        )


@dataclass(frozen=True, slots=True)
class _Spray:
    """The triangle of a spray with its words: their rows counted from the top."""

    x: float
    row: int
    text: str
    box: Box

    @property
    def triangle(self) -> Box:
        top = _ROW * self.row + 4
        return Box(self.x - _HALF - 2, top, self.x + _HALF + 2, top + _DEEP)

    def drawn(self) -> str:
        x, top = self.x, _ROW * self.row + 4
        wide = f"h{figure(2 * _HALF)}l{figure(-_HALF)},{figure(_DEEP)}Z"
        shape = element("path", d=f"M{figure(x - _HALF)},{figure(top)}{wide}", cls="qw-ink")
        base = self.box.bottom - FALL * SMALL
        return shape + words(self.box.left, base, self.text, "qw-words qw-bold qw-halo", SMALL)


def uprights(room: SeasonRoom, drawn: SeasonDrawn, headings: list[str]) -> Uprights:
    """Write the headings, today beside or below them, and the sprays in rows of their own.

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
    days = [day for day in sorted(set(drawn.treated)) if room.shows(day)]
    sprays = _in_a_row(room, days, row + 1, falls[0][0]) or _in_rows(room, days, row + 1)
    parts += [spray.drawn() for spray in sprays]
    falls += [(spray.x, _ROW * spray.row + 5, "qw-measure") for spray in sprays]
    bottom = _ROW * (max([row, *(spray.row for spray in sprays)]) + 1)
    return Uprights("".join(parts), tuple(falls), bottom, tuple(spray.box for spray in sprays))


def _held(room: SeasonRoom, text: str, day: date, row: int) -> Box:
    """Give the place of words over a day, held inside the drawing."""
    box = line_box(room.at(day), _BASE + _ROW * row, text, SMALL, end="middle")
    wide = box.right - box.left
    left = max(min(box.left, room.width - wide), 0.0)
    return Box(left, box.top, left + wide, box.bottom)


def _in_a_row(room: SeasonRoom, days: list[date], row: int, today: float) -> list[_Spray]:
    """Give all sprays in one row, each with its words; none where one had to go without."""
    triangles = [_Spray(room.at(day), row, "", Box(0, 0, 0, 0)).triangle for day in days]
    taken, sprays = list(triangles), list[_Spray]()
    for day in reversed(days):
        places = [each for each in _places(room, day, row) if not _meets(each.box, taken)]
        places.sort(key=lambda each: crosses(each.box, today))
        if not places:
            return []
        sprays.append(places[0])
        taken.append(places[0].box)
    return sprays[::-1]


def _in_rows(room: SeasonRoom, days: list[date], row: int) -> list[_Spray]:
    """Give each spray a row of its own, so that its words keep clear of the lines before it."""
    sprays = []
    for day in days:
        spray = next(_places(room, day, row), None)
        if spray is None:
            spray = _Spray(room.at(day), row + 1, _said(day), _held(room, _said(day), day, row))
        sprays.append(spray)
        row = spray.row + 1
    return sprays


def _meets(box: Box, taken: list[Box]) -> bool:
    wider = Box(box.left - _APART, box.top, box.right + _APART, box.bottom)
    return any(meet(wider, other) for other in taken)


def _said(day: date) -> str:
    return phrase("sprayed {day}", day=date_word(day))


def _places(room: SeasonRoom, day: date, row: int) -> Iterator[_Spray]:
    """Give a spray with its words at the right or at the left of it, as far as there is room."""
    x, base, text = room.at(day), _BASE + _ROW * row, _said(day)
    right = line_box(x + _NEAR, base, text, SMALL)
    left = line_box(x - _NEAR, base, text, SMALL, end="end")
    yield from (
        _Spray(x, row, text, box)
        for box in (right, left)
        if box.left >= 0 and box.right <= room.width
    )
