"""The name of a lane, beside what stands first in it."""

from __future__ import annotations

from quarterwalk.picture.drawing import words
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_place import broken, line_box, width_of
from quarterwalk.picture.season_room import SMALL, SeasonRoom

_NEAR = 8.0  # from the name to what it names [px]
_LINE = 1.25  # from one line of words to the next [type size]
_MIDDLE = 0.35  # from the line of words to their middle [type size]
_QUIET = "qw-words qw-quiet qw-halo"


def lane_name(room: SeasonRoom, text: str, first: float, y: float) -> tuple[str, list[Box], float]:
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
    (str, list of Box, float)
        The words, where they stand, and the middle of the lane, lower where they stand
        above it. [px]
    """
    base, wide = y + _MIDDLE * SMALL, width_of(text, SMALL)
    if first - _NEAR - wide >= 0:
        at = first - _NEAR - wide
        return words(at, base, text, _QUIET, SMALL), [line_box(at, base, text, SMALL)], y
    said, held = [], []
    for line in broken(text, SMALL, room.width):
        said.append(words(0, base, line, _QUIET, SMALL))
        held.append(line_box(0, base, line, SMALL))
        base += _LINE * SMALL
    return "".join(said), held, base - _MIDDLE * SMALL + 2
