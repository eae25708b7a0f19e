"""The quarter mark: a square with its own corner filled."""

from __future__ import annotations

from quarterwalk.call.figures import quarter_word
from quarterwalk.picture.drawing import Telling, drawing, element
from quarterwalk.picture.theme import Theme
from quarterwalk.walk import Quadrant
from quarterwalk.words import spoken_in

_SIDE = 24.0
_RIM = 1.25
_RIGHT = {Quadrant.NE, Quadrant.SE}
_LOWER = {Quadrant.SW, Quadrant.SE}


def quarter_mark(quadrant: Quadrant, *, theme: Theme, id: str, language: str) -> str:
    """Draw a quarter as a small square with its own corner filled.

    Parameters
    ----------
    quadrant : Quadrant
        Whose corner.
    theme : Theme
        Where it will be seen.
    id : str
        Begins every id inside.
    language : str
        Of its title.

    Returns
    -------
    str
        SVG.
    """
    with spoken_in(language):
        told = Telling(quarter_word(quadrant))
    inside = quarter_square(quadrant, 0, 0, _SIDE)
    return drawing(inside, told, size=(_SIDE, _SIDE), theme=theme, id=id)


def quarter_square(quadrant: Quadrant, x: float, y: float, side: float) -> str:
    """Draw the square alone, for use inside a drawing.

    Parameters
    ----------
    quadrant : Quadrant
        Whose corner.
    x, y : float
        Its upper left corner. [px]
    side : float
        [px]

    Returns
    -------
    str
    """
    half = (side - 2 * _RIM) / 2
    middle_x, middle_y = x + side / 2, y + side / 2
    cross = f"M{middle_x:g},{y + _RIM:g}V{y + side - _RIM:g}M{x + _RIM:g},{middle_y:g}"
    cross += f"H{x + side - _RIM:g}"
    return (
        element(
            "rect",
            x=x + _RIM + half * (quadrant in _RIGHT),
            y=y + _RIM + half * (quadrant in _LOWER),
            width=half,
            height=half,
            cls="qw-ink",
        )
        + element("path", d=cross, cls="qw-square")
        + element("rect", x=x + _RIM, y=y + _RIM, width=2 * half, height=2 * half, cls="qw-square")
    )
