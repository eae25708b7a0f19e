"""The numbers of a walk against their lines, as briefly as they can be read."""

from __future__ import annotations

from fractions import Fraction

from quarterwalk.call import Call
from quarterwalk.call.figures import beside, number, span
from quarterwalk.reading import Reading
from quarterwalk.walk import Method
from quarterwalk.words import noted, phrase

# Counted by sweeps or by plants, and whether exactly 100 of them were looked at.
_WITHOUT_LINE = {
    (False, True): noted("Fleahoppers on 100 plants: {count} ({range})"),
    (False, False): noted("Fleahoppers per 100 plants: {count} ({range})"),
    (True, True): noted("Fleahoppers on 100 sweeps: {count} ({range})"),
    (True, False): noted("Fleahoppers per 100 sweeps: {count} ({range})"),
}
_WITH_LINE = {
    (False, True): noted("Fleahoppers on 100 plants: {count} ({range}), line {line}"),
    (False, False): noted("Fleahoppers per 100 plants: {count} ({range}), line {line}"),
    (True, True): noted("Fleahoppers on 100 sweeps: {count} ({range}), line {line}"),
    (True, False): noted("Fleahoppers per 100 sweeps: {count} ({range}), line {line}"),
}

_BLASTED = frozenset({"blasted-over", "blasted-not-over"})


def insects_counted(reading: Reading, line: Fraction | None, level: float) -> str:
    """Tell how many insects were found, and how many it takes.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    line : Fraction or None
        How many it takes. [insects per 100]
    level : float
        Chance that a printed range holds the true value. [fraction]

    Returns
    -------
    str
        Without a full stop; empty where nobody looked.
    """
    ends = reading.per_100_interval(level)
    if ends is None or reading.per_100 is None:
        return ""
    count, most = beside(reading.per_100, line), span(*ends, line, around=reading.per_100)
    sweep = reading.method is Method.SWEEP
    whole = (reading.sweeps if sweep else reading.plants) == 100
    told = {"count": count, "range": most}
    if line is None:
        return phrase(_WITHOUT_LINE[sweep, whole], **told)
    return phrase(_WITH_LINE[sweep, whole], line=number(line), **told)


def squares_counted(reading: Reading, call: Call, level: float) -> str:
    """Tell how many squares are still good, or blasted, and how many it takes.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    call : Call
        What the squares were read for.
    level : float
        Chance that a printed range holds the true value. [fraction]

    Returns
    -------
    str
        Without a full stop; empty where square set can't be read.
    """
    if not reading.set_readable:
        return ""
    if any(reason.code in _BLASTED for reason in call.reasons):
        return _blasted(reading, call.guideline.blasted, level)
    return _good(reading, call.guideline.floor, level)


def _good(reading: Reading, floor: Fraction | None, level: float) -> str:
    ends = reading.set_interval(level)
    if ends is None or reading.square_set is None:
        return ""
    limit = None if floor is None else 100 * floor
    found = 100 * reading.square_set
    good = beside(found, limit)
    most = span(100 * ends[0], 100 * ends[1], limit, around=found)
    if limit is None:
        return phrase("Squares still good of 100: {good} ({range})", good=good, range=most)
    text = noted("Squares still good of 100: {good} ({range}), floor {floor}")
    return phrase(text, good=good, range=most, floor=number(limit))


def _blasted(reading: Reading, asked: Fraction | None, level: float) -> str:
    if reading.blasted_share is None or reading.blasted_odds is None:
        return ""
    low, high = reading.blasted_odds.interval(level)
    limit = None if asked is None else 100 * asked
    found = 100 * reading.blasted_share
    share = beside(found, limit)
    most = span(100 * low, 100 * high, limit, around=found)
    if limit is None:
        return phrase("Squares blasted of 100: {share} ({range})", share=share, range=most)
    text = noted("Squares blasted of 100: {share} ({range}), asked for {asked}")
    return phrase(text, share=share, range=most, asked=number(limit))
