"""Numbers, dates and odds as people say them, never rounded across a line."""

from __future__ import annotations

import math
import re
from datetime import date
from fractions import Fraction

from quarterwalk.call.verdict import Sureness, sureness_word
from quarterwalk.walk import Method, Quadrant
from quarterwalk.words import noted, phrase, phrase_as, phrase_for

_EDGE_ODDS = ((0.99, noted("better than 99 in 100")), (0.95, noted("better than 19 in 20")))

# Past this a range has no upper end worth telling (this project's rule). [per 100]
_WIDE_OPEN = 1000

COUNTED_ON = {
    Method.TERMINAL: "plants",
    Method.WHOLE_PLANT: "plants",
    Method.BUCKET: "plants",
    Method.SWEEP: "sweeps",
}
"""What insects are counted on, for each way of counting; `counted` words it."""

# A line is read and written with so many digits, which a float holds exactly. [count]
_DIGITS = 15
_DECIMAL = re.compile(r"\+?(?:[0-9]{1,6}(?:\.[0-9]{0,9})?|\.[0-9]{1,9})")

_WEEKDAYS = (
    noted("Monday"), noted("Tuesday"), noted("Wednesday"), noted("Thursday"), noted("Friday"),
    noted("Saturday"), noted("Sunday"),
)  # fmt: skip

_MONTHS = (
    noted("January"), noted("February"), noted("March"), noted("April"), noted("May"),
    noted("June"), noted("July"), noted("August"), noted("September"), noted("October"),
    noted("November"), noted("December"),
)  # fmt: skip

# How a word begins that takes another joining word before it: in Spanish "e" for "y" before
# the sound of i, "u" for "o" before the sound of o. Numbers are read aloud: 8, 80 and 11.
_LIKE_I = re.compile(r"h?[ií](?![aeouáéó])", re.IGNORECASE)
_LIKE_O = re.compile(r"h?[oó]|8|11(\d{3})?(?!\d)", re.IGNORECASE)


def number(value: Fraction) -> str:
    """Write a line or a floor as it is published.

    Parameters
    ----------
    value : Fraction
        The number.

    Returns
    -------
    str
        Without a decimal point where it is whole; what `exact` reads is written in full, since
        24.9999999 is under a line of 25.
    """
    return str(value.numerator) if value.denominator == 1 else f"{float(value):.{_DIGITS}g}"


def exact(text: str) -> Fraction:
    """Read a line as an advisor writes it.

    Parameters
    ----------
    text : str
        Such as ``25`` or ``27.5``.

    Returns
    -------
    Fraction
        Exactly what is written.

    Raises
    ------
    ValueError
        If it is no number from 0 on of at most 6 digits and 9 decimals: thirds, powers of ten
        and more digits are no lines that anybody publishes.
    """
    if not _DECIMAL.fullmatch(text):
        raise ValueError(f'must be a number such as 25 or 27.5, got "{text}"')
    return Fraction(text)


def plain_number(value: Fraction) -> int | float:
    """Give a line or a floor as it is published, for programs to read.

    Parameters
    ----------
    value : Fraction
        The number.

    Returns
    -------
    int or float
        Whole where it is whole.
    """
    return int(value) if value.denominator == 1 else float(value)


def beside(value: Fraction, limit: Fraction | None = None) -> str:
    """Write a measured number beside the limit it is compared with.

    Parameters
    ----------
    value : Fraction
        What was measured.
    limit : Fraction or None
        The line or floor; rounding must not carry the number across it.

    Returns
    -------
    str
        A whole number, or words where that would mislead.
    """
    near = round(value)
    if limit is not None and value < limit <= near:
        return phrase("just under {limit}", limit=number(limit))
    if limit is not None and near < limit <= value:
        return f"{float(value):.1f}"
    if near == 0 and value > 0:
        return phrase("fewer than 1")
    return str(near)


def insects_beside(value: Fraction, limit: Fraction | None = None) -> str:
    """Write a measured number of fleahoppers beside the line.

    Parameters
    ----------
    value : Fraction
        What was measured. [insects per 100]
    limit : Fraction or None
        The line; rounding must not carry the number across it. [insects per 100]

    Returns
    -------
    str
        Such as ``34 fleahoppers``.
    """
    said = beside(value, limit)
    if said == phrase("fewer than 1"):
        return phrase("fewer than 1 fleahoppers")
    many = 1 if said == "1" else 2
    return phrase_for(many, "{insects} fleahopper", "{insects} fleahoppers", insects=said)


def short(value: Fraction, limit: Fraction | None = None) -> str:
    """Write a measured number beside its limit where there is room for figures only.

    Parameters
    ----------
    value : Fraction
        What was measured.
    limit : Fraction or None
        The line or floor; rounding must not carry the number across it.

    Returns
    -------
    str
        With as many decimals as keep it on its side.
    """
    for decimals in range(4):
        shown = f"{float(value):.{decimals}f}"
        if limit is None or (Fraction(shown) < limit) == (value < limit):
            return shown
    return f"<{number(limit)}" if limit is not None and value < limit else shown


def capital(text: str) -> str:
    """Begin a sentence with a capital.

    Parameters
    ----------
    text : str
        The sentence, or its beginning.

    Returns
    -------
    str
    """
    return text[:1].upper() + text[1:]


def counted(count: int, what: str) -> str:
    """Write a count with its noun.

    Parameters
    ----------
    count : int
        How many. [count]
    what : {"plants", "sweeps"}
        What was counted.

    Returns
    -------
    str
        Such as ``1 plant`` or ``40 plants``.
    """
    if what == "sweeps":
        return phrase_for(count, "{count} sweep", "{count} sweeps")
    return phrase_for(count, "{count} plant", "{count} plants")


def more(count: int, what: str) -> str:
    """Write how many more are asked for.

    Parameters
    ----------
    count : int
        How many. [count]
    what : {"plants", "sweeps"}
        What is counted.

    Returns
    -------
    str
        Such as ``40 more plants``.
    """
    if what == "sweeps":
        return phrase_for(count, "{count} more sweep", "{count} more sweeps")
    return phrase_for(count, "{count} more plant", "{count} more plants")


def quarter_word(quadrant: Quadrant) -> str:
    """Name a quarter of a field by its corner.

    Parameters
    ----------
    quadrant : Quadrant
        Which.

    Returns
    -------
    str
        Such as ``NW``.
    """
    if quadrant is Quadrant.NW:
        return phrase_as("quarter", "NW")
    if quadrant is Quadrant.NE:
        return phrase_as("quarter", "NE")
    if quadrant is Quadrant.SW:
        return phrase_as("quarter", "SW")
    return phrase_as("quarter", "SE")


def span(
    low: float, high: float, limit: Fraction | None = None, *, around: Fraction | None = None
) -> str:
    """Write a range in whole numbers, as near as its limit lets them be.

    Parameters
    ----------
    low, high : float
        Its ends, in the unit that is shown.
    limit : Fraction or None
        The line or floor; rounding must not carry an end across it.
    around : Fraction or None
        What was measured, in the same unit. Where none or all is found, the range of the true
        value begins above or ends below it; nobody understands that, so the words reach to it.

    Returns
    -------
    str
        An end that rounding would carry across is told outwards by a tenth.
    """
    if around is not None:
        low, high = min(low, float(around)), max(high, float(around))
    first, last = _end(low, limit, up=False), _end(high, limit, up=True)
    if round(high) >= _WIDE_OPEN:
        if first == "0":  # "0 or more" would tell nothing
            return phrase("0 to {number} or more", number=f"{_WIDE_OPEN:,}")
        return phrase("{first} or more", first=first)
    if first == last:
        return phrase("about {number}", number=first)
    return phrase("{first} to {last}", first=first, last=last)


def _end(end: float, limit: Fraction | None, *, up: bool) -> str:
    near = round(end)
    if limit is None or (near < limit) == (end < limit):
        return str(near)
    tenths = math.ceil(10 * end) if up else math.floor(10 * end)
    return f"{tenths / 10:g}"


def day_words(day: date) -> str:
    """Write a date as a person says it.

    Parameters
    ----------
    day : date
        The day.

    Returns
    -------
    str
        Such as ``Saturday 4 July``.
    """
    weekday, month = phrase(_WEEKDAYS[day.weekday()]), phrase(_MONTHS[day.month - 1])
    return phrase("{weekday} {day} {month}", weekday=weekday, day=day.day, month=month)


def odds_words(chance: float) -> str:
    """Write a chance as odds.

    Parameters
    ----------
    chance : float
        [fraction, 0 to 1]

    Returns
    -------
    str
        Such as ``about 7 in 10``.
    """
    for edge, words in _EDGE_ODDS:
        if chance >= edge:
            return phrase(words)
    # downwards, so that no doubt is rounded away; the sum of floats may fall short of a tenth
    tenths = int(10 * chance + 1e-9)
    if not tenths:
        return phrase("less than 1 in 10")
    return phrase_for(tenths, "about {count} in 10", "about {count} in 10")


def chance_words(chance: float) -> str:
    """Write a chance of where a field stands as odds.

    Parameters
    ----------
    chance : float
        [fraction, 0 to 1]

    Returns
    -------
    str
        Such as ``about 8 in 10``: to the nearest tenth, since no side of it is the doubt.
    """
    tenths = round(10 * chance)
    if chance >= _EDGE_ODDS[-1][0] or not tenths:
        return odds_words(chance)
    return odds_words(min(tenths, 9) / 10)


def sure_words(sure: Sureness | None, chance: float | None) -> str:
    """Say how sure a call is, to a scout or an advisor.

    Parameters
    ----------
    sure : Sureness or None
        The word for growers.
    chance : float or None
        That the true values bear the verdict out. [fraction]

    Returns
    -------
    str
    """
    if sure is None or chance is None:
        return ""
    return f"{capital(sureness_word(sure))}: {odds_words(chance)}"


def listed(items: list[str], last: str = "and") -> str:
    """Join words as a sentence does.

    Parameters
    ----------
    items : list of str
        The words.
    last : {"and", "or"}
        What stands before the last of them.

    Returns
    -------
    str
    """
    if len(items) < 2:
        return "".join(items)
    joins = _and_before(items[-1]) if last == "and" else _or_before(items[-1])
    return f"{', '.join(items[:-1])} {joins} {items[-1]}"


def _and_before(item: str) -> str:
    if _LIKE_I.match(item):
        return phrase_as("before a word that begins with the sound of i", "and")
    return phrase_as("before the last of a list", "and")


def _or_before(item: str) -> str:
    if _LIKE_O.match(item):
        return phrase_as("before a word that begins with the sound of o", "or")
    return phrase_as("before the last of a list", "or")
