"""What stands under the pinch: the number, what it counts, where it may lie, the line."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from quarterwalk.picture.amounts import amount, limit, span
from quarterwalk.picture.measure import Measure
from quarterwalk.walk import Method
from quarterwalk.words import noted, phrase, phrase_for


class Kind(Enum):
    """What a side of the pinch measures."""

    INSECTS = "insects"
    SET = "set"
    BLASTED = "blasted"


@dataclass(frozen=True, slots=True)
class SideWords:
    """The words of one side, long and short.

    Parameters
    ----------
    headline : str
        The number with what it counts.
    figures, unit : str
        The same in two, for a narrow drawing.
    range_long : str
        Where the true value may lie, and the line.
    range_short, range_bare : str
        The same without the line, which its flag says too; and the range alone.
    end : str
        What the end of the axis means.
    flag : str
        The line, for its flag; empty where none is in force.
    """

    headline: str
    figures: str
    unit: str
    range_long: str
    range_short: str
    range_bare: str
    end: str
    flag: str


def side_words(kind: Kind, measure: Measure, method: Method, *, whole: bool) -> SideWords:
    """Word one side of the pinch.

    Parameters
    ----------
    kind : Kind
        What it measures.
    measure : Measure
        What was found, beside its line.
    method : Method
        How the insects were counted.
    whole : bool
        Whether they were counted on exactly 100 plants, or in so many sweeps.

    Returns
    -------
    SideWords
    """
    number, flag = amount(measure), limit(measure)
    if kind is Kind.INSECTS:
        return SideWords(
            _insects(number, method, seen=measure.value is not None, whole=whole),
            number,
            phrase(_UNITS[method is Method.SWEEP, whole]),
            *_ranges(kind, measure),
            phrase("0 insects"),
            flag,
        )
    good = kind is Kind.SET
    ranges = _ranges(kind, measure)
    return SideWords(
        _squares(number, good=good, seen=measure.value is not None),
        f"{number} %" if measure.value is not None else number,
        phrase("of squares still good") if good else phrase("of squares blasted"),
        *ranges,
        phrase("100 % still good") if good else phrase("0 % blasted"),
        f"{flag} %" if flag else "",
    )


# Counted by sweeps or by plants, and whether exactly 100 of them were looked at.
_COUNTED = {
    (False, True): noted("{insects} on 100 plants"),
    (False, False): noted("{insects} per 100 plants"),
    (True, True): noted("{insects} on 100 sweeps"),
    (True, False): noted("{insects} per 100 sweeps"),
}
_UNITS = {
    (False, True): noted("insects on 100 plants"),
    (False, False): noted("insects per 100 plants"),
    (True, True): noted("insects on 100 sweeps"),
    (True, False): noted("insects per 100 sweeps"),
}


def _insects(number: str, method: Method, *, seen: bool, whole: bool) -> str:
    if not seen:
        return phrase("insects not looked for")
    insects = phrase_for(
        1 if number == "1" else 2,
        "{insects} fleahopper",
        "{insects} fleahoppers",
        insects=number,
    )
    return phrase(_COUNTED[method is Method.SWEEP, whole], insects=insects)


def _squares(number: str, *, good: bool, seen: bool) -> str:
    if not seen:
        return phrase("squares not looked at")
    if good:
        return phrase("{number} of 100 squares still good", number=number)
    return phrase("{number} of 100 squares blasted", number=number)


def _ranges(kind: Kind, measure: Measure) -> tuple[str, str, str]:
    """Word the range with its line, without it, and bare."""
    where, line = span(measure), limit(measure)
    if where and not measure.readable:
        few = phrase("too few squares to judge by")
        return few, few, few
    likely = phrase("most likely {range}", range=where) if where else ""
    if not line:
        return likely, likely, where
    if not where:
        alone = phrase("the floor is {floor}", floor=line)
        alone = alone if kind is Kind.SET else phrase("the line is {line}", line=line)
        return alone, alone, alone
    if kind is Kind.SET:
        long = phrase("most likely {range}; the floor is {floor}", range=where, floor=line)
    else:
        long = phrase("most likely {range}; the line is {line}", range=where, line=line)
    return long, likely, where
