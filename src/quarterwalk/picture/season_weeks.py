"""The weeks of squaring as a ribbon, open where they are yet to come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.picture.drawing import element, words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_drawn import SeasonDrawn
from quarterwalk.picture.season_lane import lane_name
from quarterwalk.picture.season_part import Part
from quarterwalk.picture.season_place import line_box, width_of
from quarterwalk.picture.season_room import SMALL, SeasonRoom
from quarterwalk.words import phrase

_TALL = 11.0  # height of a week [px]
_SEAM = 2.0  # of paper between two weeks [px]
_RIBBON, _NUMBERS = 22.0, 17.0  # height of the ribbon, and of the numbers below it [px]
_RISE = 0.78  # of a number above its foot [type size]
_APART = 4.0  # between two numbers [px]
_ROUND = 4.0  # a last week that is wider than its number by less than this is not drawn [px]


@dataclass(frozen=True, slots=True)
class _Week:
    """A week on the paper, and up to where it is over. [px]"""

    number: int
    left: float
    right: float
    over: float

    def drawn(self, y: float) -> str:
        """Draw what is over full, and what is to come open."""
        over = min(max(self.over, self.left), self.right)
        parts = []
        if over < self.right:
            inset = 1.0  # half the line around it
            parts.append(_bar(self.left, self.right, y, inset=inset))
        if over > self.left:
            parts.append(_bar(self.left, over, y))
        return "".join(parts)


def _bar(left: float, right: float, y: float, *, inset: float = 0.0) -> str:
    return element(
        "rect",
        x=left + inset,
        y=y - _TALL / 2 + inset,
        width=max(right - left - 2 * inset, 0.5),
        height=_TALL - 2 * inset,
        cls="qw-plant-open" if inset else "qw-plant",
    )


def weeks_lane(room: SeasonRoom, drawn: SeasonDrawn, top: float) -> Part:
    """Draw the weeks of squaring with their numbers, without a last one of a few days.

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
        Nothing where no week is on the paper.
    """
    weeks = [
        _placed(room, number, week, drawn.today)
        for number, week in enumerate(drawn.weeks, start=1)
        if week[0] <= drawn.last and week[1] >= drawn.planted
    ]
    if not weeks:
        return Part("", top)
    named, held, y = lane_name(room, phrase("squaring week"), weeks[0].left, top + _RIBBON / 2)
    weeks = _whole(weeks)
    ribbon = "".join(week.drawn(y) for week in weeks)
    numbers, boxes = _numbers(room, weeks, y + _RIBBON / 2 + _RISE * SMALL)
    return Part(named + ribbon + numbers, y + _RIBBON / 2 + _NUMBERS, (*held, *boxes))


def _placed(room: SeasonRoom, number: int, week: tuple[date, date], today: date) -> _Week:
    left, right = room.over(*week, least=_SEAM + 2)
    return _Week(number, left + _SEAM / 2, right - _SEAM / 2, room.over(today, today)[1])


def _whole(weeks: list[_Week]) -> list[_Week]:
    """Leave out a last week that has no room for its number."""
    if len(weeks) == 1:
        return weeks
    *before, last = weeks
    wide, usual = last.right - last.left, before[-1].right - before[-1].left
    if wide >= min(usual, width_of(str(last.number), SMALL) + _ROUND):
        return weeks
    return before


def _numbers(room: SeasonRoom, weeks: list[_Week], base: float) -> tuple[str, list[Box]]:
    """Number as many weeks as have room: each one, or every second, or fewer."""
    for step in range(1, len(weeks) + 1):
        placed = []
        for week in weeks[::step]:
            half = width_of(str(week.number), SMALL) / 2
            x = (week.left + week.right) / 2
            placed.append((week.number, min(max(x, half), room.width - half), half))
        pairs = zip(placed, placed[1:], strict=False)
        if all(b - a >= one + two + _APART for (_, a, one), (_, b, two) in pairs):
            break
    cls = "qw-words qw-quiet qw-middle qw-halo"
    said = "".join(words(x, base, str(number), cls, SMALL) for number, x, _ in placed)
    return said, [line_box(x, base, str(number), SMALL, end="middle") for number, x, _ in placed]
