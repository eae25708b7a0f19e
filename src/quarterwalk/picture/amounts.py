"""Numbers in a drawing: short, and never rounded across a line."""

from __future__ import annotations

import math
from fractions import Fraction

from quarterwalk.call.figures import number, short
from quarterwalk.picture.measure import Measure
from quarterwalk.words import phrase

# Past this a range has no upper end worth telling, as in the words of a call. [per 100]
WIDE_OPEN = 1000


def amount(measure: Measure) -> str:
    """Write a reading so that it stays on its side of the line.

    Parameters
    ----------
    measure : Measure
        What was found.

    Returns
    -------
    str
        Figures only; a dash where nobody looked.
    """
    if measure.value is None:
        return "–"
    said = short(measure.value, measure.limit)
    return "<1" if said == "0" and measure.value > 0 else said


def limit(measure: Measure) -> str:
    """Write a line or a floor as it is published.

    Parameters
    ----------
    measure : Measure
        With its limit.

    Returns
    -------
    str
        Empty where none is in force.
    """
    return "" if measure.limit is None else number(measure.limit)


def span(measure: Measure) -> str:
    """Write where the true value may lie.

    Parameters
    ----------
    measure : Measure
        With its range.

    Returns
    -------
    str
        Empty where there is none.
    """
    if measure.span is None:
        return ""
    low, high = (_end(end, measure.limit, up=up) for up, end in enumerate(measure.span))
    if measure.span[1] >= WIDE_OPEN:
        return phrase("{first} or more", first=low)
    if low == high:
        return phrase("about {number}", number=low)
    return phrase("{first} to {last}", first=low, last=high)


def _end(end: float, limit: Fraction | None, *, up: int) -> str:
    """Write an end of a range: whole, or outwards by a tenth where that crosses the line."""
    near = round(end)
    if limit is None or (near < limit) == (end < limit):
        return str(near)
    tenths = math.ceil(10 * end) if up else math.floor(10 * end)
    return f"{tenths / 10:g}"
