"""The name of a lane, beside what stands first in it."""

from __future__ import annotations

from quarterwalk.picture.drawing import words
from quarterwalk.picture.season_place import broken, width_of
from quarterwalk.picture.season_room import SMALL, SeasonRoom

_NEAR = 8.0  # from the name to what it names [px]
_LINE = 1.25  # from one line of words to the next [type size]
_MIDDLE = 0.35  # from the line of words to their middle [type size]
_QUIET = "qw-words qw-quiet qw-halo"


def lane_name(room: SeasonRoom, text: str, first: float, y: float) -> tuple[str, float]:
    """Name a lane left of what stands first in it, or else in lines above.

    Parameters
    ----------
    room : SeasonRoom
        Where days stand.
    text : str
        The name.
    first : float
        Where the first mark begins. [px]
    y : float
        The middle of the lane. [px]

    Returns
    -------
    (str, float)
        The words, and the middle of the lane, lower where they stand above it. [px]
    """
    base, wide = y + _MIDDLE * SMALL, width_of(text, SMALL)
    if first - _NEAR - wide >= 0:
        return words(first - _NEAR - wide, base, text, _QUIET, SMALL), y
    said = []
    for line in broken(text, SMALL, room.width):
        said.append(words(0, base, line, _QUIET, SMALL))
        base += _LINE * SMALL
    return "".join(said), base - _MIDDLE * SMALL + 2
