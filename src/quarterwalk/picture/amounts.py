"""Numbers in a drawing: short, and never rounded across a line."""

from __future__ import annotations

from quarterwalk.call import figures
from quarterwalk.call.figures import number, short
from quarterwalk.picture.measure import Measure


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
    return figures.span(*measure.span, measure.limit, around=measure.value)
