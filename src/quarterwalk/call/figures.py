"""Numbers, dates and odds as people say them, never rounded across a line."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from quarterwalk.call.verdict import Sureness
from quarterwalk.walk import Method

_EDGE_ODDS = ((0.99, "better than 99 in 100"), (0.95, "better than 19 in 20"))

# Past this a range has no upper end worth telling (this project's rule). [per 100]
_WIDE_OPEN = 1000

COUNTED_ON = {
    Method.TERMINAL: "plants",
    Method.WHOLE_PLANT: "plants",
    Method.BUCKET: "plants",
    Method.SWEEP: "sweeps",
}
"""What insects are counted on, for each way of counting."""


def number(value: Fraction) -> str:
    """Write a line or a floor as it is published.

    Parameters
    ----------
    value : Fraction
        The number.

    Returns
    -------
    str
        Without a decimal point where it is whole.
    """
    return str(value.numerator) if value.denominator == 1 else f"{float(value):g}"


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
        return f"just under {number(limit)}"
    if limit is not None and near < limit <= value:
        return f"{float(value):.1f}"
    if near == 0 and value > 0:
        return "fewer than 1"
    return str(near)


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
    what : str
        The noun, in the plural with an s.

    Returns
    -------
    str
        Such as ``1 plant`` or ``40 plants``.
    """
    return f"{count} {what.removesuffix('s') if count == 1 else what}"


def span(low: float, high: float) -> str:
    """Write a range in whole numbers.

    Parameters
    ----------
    low, high : float
        Its ends, in the unit that is shown.

    Returns
    -------
    str
    """
    first, last = round(low), round(high)
    if last >= _WIDE_OPEN:
        return f"{first} or more"
    return f"{first} to {last}" if first != last else f"about {first}"


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
    return f"{day:%A} {day.day} {day:%B}"


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
            return words
    # downwards, so that no doubt is rounded away; the sum of floats may fall short of a tenth
    tenths = int(10 * chance + 1e-9)
    return f"about {tenths} in 10" if tenths else "less than 1 in 10"


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
    return f"{capital(sure.value)}: {odds_words(chance)}"


def listed(items: list[str], last: str = "and") -> str:
    """Join words as a sentence does.

    Parameters
    ----------
    items : list of str
        The words.
    last : str
        What stands before the last of them.

    Returns
    -------
    str
    """
    return (
        f" {last} ".join([", ".join(items[:-1]), items[-1]]) if len(items) > 1 else "".join(items)
    )
