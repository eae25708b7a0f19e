"""The words that stand in a quarter of a sketch: its name, and what was found there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from quarterwalk.call.figures import quarter_word
from quarterwalk.picture.drawing import words
from quarterwalk.picture.found import Found
from quarterwalk.picture.ground import Box
from quarterwalk.picture.lettering import room
from quarterwalk.walk import Quadrant
from quarterwalk.words import phrase, phrase_for

_LEAD = 1.1  # from one line to the next [type size]
_STEPS = 4
"""Grey steps of what was found. [count]"""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a label."""

    text: str
    size: float
    cls: str


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of words set one below the other, about one middle."""

    lines: tuple[Line, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height. [px]"""
        wide = max(room(line.text, line.size) for line in self.lines)
        return wide + 4, sum(line.size for line in self.lines) * _LEAD

    def at(self, box: Box, more: str = "") -> str:
        """Write the lines into their place; `more` names a class that all of them take."""
        middle, y, said = (box.left + box.right) / 2, box.top, []
        for line in self.lines:
            said.append(
                words(
                    middle, y + line.size * 0.86, line.text, f"{line.cls} {more}".strip(), line.size
                )
            )
            y += line.size * _LEAD
        return "".join(said)


def name_labels(quadrant: Quadrant) -> list[Label]:
    """Give the name of a quarter, the largest first.

    Parameters
    ----------
    quadrant : Quadrant
        Which.

    Returns
    -------
    list of Label
    """
    name = quarter_word(quadrant)
    return [Label((Line(name, size, _cls("qw-bold")),)) for size in (20.0, 17.0, 14.0)]


def found_labels(quadrant: Quadrant, found: Found) -> list[Label]:
    """Give what was found in a quarter, the fullest wording first.

    Parameters
    ----------
    quadrant : Quadrant
        Which.
    found : Found
        What was found there.

    Returns
    -------
    list of Label
    """
    name, share = quarter_word(quadrant), _share(found)
    if found.mean is None:
        unseen = Line(phrase("not walked"), 14, _cls())
        return [
            Label((Line(name, 14, _cls("qw-quiet")), unseen)),
            Label((Line(name, 14, _cls("qw-quiet")), Line("–", 20, _cls("qw-bold")))),
        ]
    insects = phrase_for(found.insects, "{count} insect", "{count} insects")
    good = phrase("{share} good", share=share) if share else ""
    return [
        _stack(name, insects, good, (15, 24, 16)),
        _stack(name, insects, good, (14, 19, 14)),
        _stack(name, str(found.insects), share, (14, 24, 15)),
        _stack(name, str(found.insects), share, (14, 16, 14)),
        Label(
            (
                Line(f"{name} {found.insects}", 16, _cls("qw-bold")),
                *([Line(share, 14, _cls())] if share else []),
            )
        ),
    ]


def ground_class(found: Found, most: Fraction) -> str:
    """Give the grey step of a quarter: the more insects on a plant, the darker.

    Parameters
    ----------
    found : Found
        What was found there.
    most : Fraction
        The most of any quarter. [insects per plant, or per sweep]

    Returns
    -------
    str
        A class; plain paper where nobody looked or nothing was found.
    """
    if not found.mean:
        return "qw-ground"
    step = -(-_STEPS * found.mean // most)  # rounded up, so that the most is darkest
    return f"qw-ground-{int(step)}"


def most_found(found: Mapping[Quadrant, Found]) -> Fraction:
    """Give the most insects on a plant of any quarter.

    Parameters
    ----------
    found : mapping of Quadrant to Found
        What was found.

    Returns
    -------
    Fraction
        [insects per plant, or per sweep]
    """
    return max((each.mean for each in found.values() if each.mean), default=Fraction(0))


def _stack(name: str, number: str, share: str, sizes: tuple[float, float, float]) -> Label:
    lines = [
        Line(name, sizes[0], _cls("qw-quiet")),
        Line(number, sizes[1], _cls("qw-bold")),
        Line(share, sizes[2], _cls()),
    ]
    return Label(tuple(line for line in lines if line.text))


def _share(found: Found) -> str:
    if found.square_set is None:
        return ""
    return phrase("{number} %", number=round(100 * found.square_set))


def _cls(*more: str) -> str:
    return " ".join(("qw-words", *more, "qw-middle"))
