"""A few lines of words that stand together, their beginnings one below the other."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.picture.drawing import words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_place import width_of
from quarterwalk.picture.season_room import SMALL

_LEAD = 1.2  # from one line to the next [type size]
_RISE = 0.86  # of a line above its foot [type size]


@dataclass(frozen=True, slots=True)
class Line:
    """One line: its words, the size of its type [px], and its class."""

    text: str
    size: float
    cls: str


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that stand together."""

    lines: tuple[Line, ...]

    @classmethod
    def of(cls_, *texts: str, cls: str) -> Block:
        """Set small lines of one class."""
        return cls_(tuple(Line(text, SMALL, cls) for text in texts))

    @property
    def size(self) -> tuple[float, float]:
        """Width and height. [px]"""
        wide = max(width_of(line.text, line.size) for line in self.lines)
        return wide, sum(line.size for line in self.lines) * _LEAD

    def at(self, box: Box, *, flush_right: bool = False) -> str:
        """Write the lines into their place, their beginnings or else their ends in line."""
        x, end = (box.right, " qw-end") if flush_right else (box.left, "")
        y, said = box.top, []
        for line in self.lines:
            said.append(words(x, y + line.size * _RISE, line.text, line.cls + end, line.size))
            y += line.size * _LEAD
        return "".join(said)
