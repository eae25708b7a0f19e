"""What the properties of a feature mean: name, gate, direction of rows, grower, farm.

Each reader takes a text and gives its value, or raises `Misread` with what was expected.
"""

from __future__ import annotations

import math
import re

from quarterwalk.field.field import Place
from quarterwalk.field.rings import FARTHEST_EAST, FARTHEST_NORTH
from quarterwalk.files.boundary_limits import LONGEST_NAME
from quarterwalk.files.cells import name
from quarterwalk.files.coded import Misread

_NUMBER = r"[-+]?(?:[0-9]{1,20}\.?[0-9]{0,30}|\.[0-9]{1,30})(?:[eE][-+]?[0-9]{1,3})?"
_PAIR = re.compile(rf"\[?\s*({_NUMBER})(?:\s*[,;]\s*|\s+)({_NUMBER})\s*\]?")
_HALF_TURN = 180.0

GATE_EXPECTED = "longitude and latitude of the gate in degrees, as [-101.9, 33.4] or -101.9 33.4"


def short_name(text: str) -> str:
    """Read a name of one line that is not too long.

    Parameters
    ----------
    text : str
        As it stands in the file.

    Returns
    -------
    str

    Raises
    ------
    Misread
        If it is too long, or has line ends or control characters.
    """
    if len(text) > LONGEST_NAME or text.startswith(("{", "[")):
        raise Misread(f"a text of at most {LONGEST_NAME} characters")
    return name(text)


def gate(text: str) -> Place | None:
    """Read where a scout enters.

    Parameters
    ----------
    text : str
        Two numbers; empty where nobody said.

    Returns
    -------
    tuple of float or None
        Longitude and latitude, or the other way round if the file has them so. [degrees]

    Raises
    ------
    Misread
        If it is no place on the globe, either way round.
    """
    if not text:
        return None
    found = _PAIR.fullmatch(text[:LONGEST_NAME])
    if not found or text.startswith("[") != text.endswith("]"):
        raise Misread(GATE_EXPECTED)
    first, second = float(found[1]), float(found[2])
    if not any(map(on_globe, ((first, second), (second, first)))):
        raise Misread(GATE_EXPECTED)
    return first, second


def on_globe(place: Place) -> bool:
    """Tell whether two numbers can be longitude and latitude, in that order.

    Parameters
    ----------
    place : tuple of float
        Longitude and latitude. [degrees]

    Returns
    -------
    bool
    """
    return abs(place[0]) <= FARTHEST_EAST and abs(place[1]) <= FARTHEST_NORTH


def rows(text: str) -> float | None:
    """Read the direction of the rows; opposite directions are one.

    Parameters
    ----------
    text : str
        A number; empty where nobody said. [degrees clockwise from north]

    Returns
    -------
    float or None
        0 to under 180. [degrees]

    Raises
    ------
    Misread
        If it is no finite number.
    """
    if not text:
        return None
    if not re.fullmatch(_NUMBER, text) or not math.isfinite(float(text)):
        raise Misread("degrees clockwise from north, as a number", "East is 90.")
    turned = float(text) % _HALF_TURN
    return 0.0 if turned == _HALF_TURN else turned
