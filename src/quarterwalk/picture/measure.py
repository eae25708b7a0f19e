"""What the pinch compares: one measure with its range and its line."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from quarterwalk.call import Call
from quarterwalk.reading import Reading

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of a walk beside what the guideline asks for.

    Parameters
    ----------
    value : Fraction or None
        The reading, exact; None where nobody looked. [per 100]
    span : (float, float) or None
        Where the true value may lie. [per 100]
    limit : Fraction or None
        The line or the floor; None where none is in force. [per 100]
    past : bool
        Whether the reading is past its limit, judged on exact fractions.
    readable : bool
        Whether it may be compared with its limit.
    """

    value: Fraction | None
    span: Range | None
    limit: Fraction | None
    past: bool
    readable: bool = True


def insects_of(reading: Reading, call: Call, level: float) -> Measure:
    """Give the insects beside their line.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    call : Call
        What was decided, and by which line.
    level : float
        Chance that a range holds the true value. [fraction]

    Returns
    -------
    Measure
    """
    value, line = reading.per_100, call.guideline.line
    past = value is not None and line is not None and value >= line
    return Measure(value, reading.per_100_interval(level), line, past)


def set_of(reading: Reading, call: Call, level: float) -> Measure:
    """Give square set beside its floor.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    call : Call
        What was decided, and by which floor.
    level : float
        Chance that a range holds the true value. [fraction]

    Returns
    -------
    Measure
    """
    value, floor = reading.square_set, call.guideline.floor
    past = value is not None and floor is not None and value < floor
    span = _hundredfold(reading.set_interval(level))
    return Measure(_times_100(value), span, _times_100(floor), past, reading.set_readable)


def blasted_of(reading: Reading, least: Fraction, level: float) -> Measure:
    """Give the share of squares blasted beside the share that the guideline asks for.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    least : Fraction
        The share that is enough. [fraction, 0 to 1]
    level : float
        Chance that a range holds the true value. [fraction]

    Returns
    -------
    Measure
    """
    value, odds = reading.blasted_share, reading.blasted_odds
    span = None if odds is None else _hundredfold(odds.interval(level))
    past = value is not None and value >= least
    return Measure(_times_100(value), span, _times_100(least), past, reading.set_readable)


def _times_100(share: Fraction | None) -> Fraction | None:
    return None if share is None else 100 * share


def _hundredfold(span: Range | None) -> Range | None:
    return None if span is None else (100 * span[0], 100 * span[1])
