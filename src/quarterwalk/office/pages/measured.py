"""What a stored call says was measured, exact enough to be drawn beside its lines."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.picture.amounts import amount, limit
from quarterwalk.picture.ladder import Rung
from quarterwalk.picture.measure import Measure

Told = Mapping[str, Any]

NOTHING = "–"
"""What stands in place of a number that is not known."""

# The counts behind a number are small: this finds the fraction that it was written from.
_LARGEST = 1_000_000


def rung_of(told: Told) -> Rung:
    """Give what a list shows of a call.

    Parameters
    ----------
    told : mapping
        The call as its JSON tells it.

    Returns
    -------
    Rung
        Empty where the call has no line.
    """
    used, reading = told["call"]["guideline"], told["reading"]
    line = _exact(used["line"])
    if told["call"]["verdict"] == "none" or line is None:
        return Rung()
    insects = _exact(reading["per_100"])
    over = insects is not None and insects >= line
    span = _span(reading["per_100_low"], reading["per_100_high"], 1)
    blasted = _blasted(told)
    squares = blasted if blasted is not None else _set(told)
    return Rung(Measure(insects, span, line, over), squares, falling=blasted is None)


def insects_words(told: Told | None) -> tuple[str, str]:
    """Write the insects of a call and their line, in figures.

    Parameters
    ----------
    told : mapping or None
        The call as its JSON tells it; None where there is none.

    Returns
    -------
    (str, str)
        Insects per 100 and the line; a dash, and nothing, where they are not known.
    """
    if told is None:
        return NOTHING, ""
    line = _exact(told["call"]["guideline"]["line"])
    measure = Measure(_exact(told["reading"]["per_100"]), None, line, past=False)
    return amount(measure), limit(measure)


def insects_unit(insects: str) -> str:
    """Say what a number of insects counts, where no head of a column does.

    Parameters
    ----------
    insects : str
        From `insects_words`. [text]

    Returns
    -------
    str
        Empty where there is no number.
    """
    return "insects" if insects != NOTHING else ""


def squares_unit(squares: str) -> str:
    """Say what a share of squares is, where no head of a column does.

    Parameters
    ----------
    squares : str
        From `squares_words`. [text]

    Returns
    -------
    str
        Empty where there is no number, or it says so itself.
    """
    return "square set" if squares.endswith(" %") else ""


def squares_words(told: Told | None) -> tuple[str, str]:
    """Write the squares of a call and their floor, in figures.

    Parameters
    ----------
    told : mapping or None
        The call as its JSON tells it; None where there is none.

    Returns
    -------
    (str, str)
        Square set, or the share blasted, and what the rule asks of it.
    """
    if told is None:
        return NOTHING, ""
    blasted = _blasted(told)
    if blasted is not None:
        return f"{amount(blasted)} % blasted", limit(blasted)
    measure = _set(told) or _bare_set(told)
    return (f"{amount(measure)} %" if measure.value is not None else NOTHING), limit(measure)


def _set(told: Told) -> Measure | None:
    return None if told["call"]["guideline"]["floor"] is None else _bare_set(told)


def _bare_set(told: Told) -> Measure:
    reading = told["reading"]
    value, floor = _exact(reading["square_set"]), _exact(told["call"]["guideline"]["floor"])
    under = value is not None and floor is not None and value < floor
    span = _span(reading["square_set_low"], reading["square_set_high"], 100)
    readable = bool(reading["set_readable"])
    return Measure(_hundredfold(value), span, _hundredfold(floor), under, readable)


def _blasted(told: Told) -> Measure | None:
    """Give the share blasted where the rule reads it; its range is not kept with a call."""
    used = told["call"]["guideline"]
    if used["own"] or used["name"] not in guideline_names():
        return None
    rule = load_guideline(used["name"]).blasted
    if rule is None:
        return None
    value, least = _exact(told["reading"]["blasted_share"]), rule.at_least
    past = value is not None and value >= least
    readable = bool(told["reading"]["set_readable"])
    return Measure(_hundredfold(value), None, 100 * least, past, readable)


def _exact(value: float | None) -> Fraction | None:
    return None if value is None else Fraction(value).limit_denominator(_LARGEST)


def _hundredfold(value: Fraction | None) -> Fraction | None:
    return None if value is None else 100 * value


def _span(low: float | None, high: float | None, times: int) -> tuple[float, float] | None:
    return None if low is None or high is None else (times * low, times * high)
