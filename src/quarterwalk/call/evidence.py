"""What was found against the lines, as reasons: insects, squares, and the rule that joins them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from quarterwalk.call.figures import beside, capital, number, span
from quarterwalk.call.rule import Insects, Judged, Squares
from quarterwalk.call.seen import found, squares_found, why_not_readable
from quarterwalk.call.verdict import Reason, Verdict
from quarterwalk.reading import Reading

_INSECTS = {
    Insects.OVER: ("insects-over", "That is at or past the line of {line}."),
    Insects.NEAR: ("insects-near", "That is close under the line of {line}."),
    Insects.MIDDLE: (
        "insects-middle",
        "That is under the line of {line}, but a third of it or more.",
    ),
    Insects.FEW: ("insects-few", "That is well under the line of {line}."),
}

ONE_WEEK_CONCLUDES = frozenset({
    "both-past", "insects-only", "squares-needed", "squares-only", "other-causes",
})  # fmt: skip
"""Reasons that join the two measures in one squaring week."""

_OTHER_CAUSES = (
    "So few insects do not account for the squares lost. Look for other causes first:"
    " standing water, hot dry wind, cold or long cloud, other pests."
)


_BEFORE_TREATMENT = (
    "So few insects now do not account for the squares lost. They may have been lost before"
    " the treatment; look for other causes too."
)


def evidence(
    reading: Reading, judged: Judged, level: float, *, recently_treated: bool
) -> Iterator[Reason]:
    """Say what was found against the lines of one squaring week.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    judged : Judged
        What the rule made of it.
    level : float
        Chance that a printed range holds the true value. [fraction]
    recently_treated : bool
        Whether a treatment may be why there are few insects.

    Yields
    ------
    Reason
    """
    yield _insects(reading, judged, level)
    if judged.bounds.halved:
        yield _halved(judged)
    if judged.squares is not Squares.NOT_ASKED:
        yield _squares(reading, judged, level)
        yield from _both(judged, recently_treated=recently_treated)
    elif reading.set_readable and judged.bounds.half_at is None:
        yield Reason("insects-alone", _seen_squares(reading, level))
    elif judged.bounds.half_at is not None and not judged.bounds.halved:
        yield _not_halved(reading, judged, level)


def _insects(reading: Reading, judged: Judged, level: float) -> Reason:
    line = judged.bounds.line
    code, meaning = _INSECTS[judged.insects]
    return Reason(code, f"{found(reading, line, level)}. " + meaning.format(line=number(line)))


def _week(judged: Judged) -> str:
    week = judged.bounds.week
    return "in bloom" if week is None else f"in week {week} of squaring"


def _squares(reading: Reading, judged: Judged, level: float) -> Reason:
    if judged.squares is Squares.NOT_READABLE:
        return Reason("set-not-readable", why_not_readable(reading))
    if judged.bounds.blasted is not None:
        return _blasted(reading, judged, level)
    floor = 100 * (judged.bounds.floor or Fraction(0))
    code, meaning = {
        Squares.FINE: ("set-not-under", "not under"),
        Squares.UNDER: ("set-under", "under"),
        Squares.WELL_UNDER: ("set-well-under", "well under"),
    }[judged.squares]
    text = f"{squares_found(reading, floor, level)}. That is {meaning} the floor of {number(floor)}"
    return Reason(code, f"{text} {_week(judged)}.")


def _blasted(reading: Reading, judged: Judged, level: float) -> Reason:
    blasted, odds = judged.bounds.blasted, reading.blasted_odds
    if blasted is None or odds is None or reading.blasted_share is None:
        raise ValueError("a blasted share must be readable to be told, got none.")
    low, high = odds.interval(level)
    limit = 100 * blasted.at_least
    share = capital(beside(100 * reading.blasted_share, limit))
    said = f"{share} of 100 squares blasted, most likely {span(100 * low, 100 * high)}."
    if judged.squares is Squares.FINE:
        return Reason("blasted-not-over", f"{said} The guideline asks for {number(limit)}.")
    past = f"{said} That is at or past the {number(limit)} that the guideline asks for."
    return Reason("blasted-over", past)


def _both(judged: Judged, *, recently_treated: bool) -> Iterator[Reason]:
    """Say what the two measures come to together."""
    under = judged.squares in (Squares.UNDER, Squares.WELL_UNDER)
    lost = "lost" if judged.bounds.blasted is None else "blasted"
    both = f"The guideline asks for both, insects and {lost} squares."
    if judged.insects is Insects.OVER:
        if under:
            yield Reason("both-past", f"{both} Both are past.")
        elif judged.squares is Squares.FINE:
            yield Reason("insects-only", f"{both} Only the insects are past.")
        else:
            yield Reason("squares-needed", f"{both} The squares can't be told yet.")
    elif under and judged.insects is Insects.FEW:
        text = _BEFORE_TREATMENT if recently_treated else _OTHER_CAUSES
        yield Reason("other-causes", text)
    elif under:
        text = "Squares are being lost, and there are insects enough to watch closely."
        yield Reason("squares-only", text)


def _halved(judged: Judged) -> Reason:
    half_at = number(100 * (judged.bounds.half_at or Fraction(0)))
    full, line = number(judged.bounds.full_line), number(judged.bounds.line)
    text = (
        f"Square set is at {half_at} of 100 or under, which halves the line from {full} to {line}."
    )
    return Reason("line-halved", text)


def _not_halved(reading: Reading, judged: Judged, level: float) -> Reason:
    if not reading.set_readable:
        return Reason("set-not-readable", why_not_readable(reading) + " The full line holds.")
    half_at = 100 * (judged.bounds.half_at or Fraction(0))
    said = squares_found(reading, half_at, level)
    return Reason("line-full", f"{said}. Above {number(half_at)} the full line holds.")


def _seen_squares(reading: Reading, level: float) -> str:
    said = squares_found(reading, None, level)
    return f"{said}. This guideline goes by insects alone; the squares are for your own judgement."


def within_range(
    reading: Reading, judged: Judged, low: Fraction, high: Fraction, *, may_treat: bool
) -> Iterator[Reason]:
    """Say what each end of a published range would make of the reading.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    judged : Judged
        What the rule made of it.
    low, high : Fraction
        The range in force. [insects per 100]
    may_treat : bool
        Whether nothing else forbids to treat.

    Yields
    ------
    Reason
        None where the reading does not lie between the ends.
    """
    if reading.per_100 is not None and low <= reading.per_100 < high:
        squares = judged.squares in (Squares.NOT_ASKED, Squares.UNDER, Squares.WELL_UNDER)
        past = "treat" if squares and may_treat else "past the line"
        at = f"at {number(low)} {past}, at {number(high)} not yet"
        text = f"The published range is {number(low)} to {number(high)}: {at}."
        yield Reason("within-range", text)


VERDICT_PHRASES = {
    Verdict.HOLD: "hold",
    Verdict.LOOK_SOONER: "look sooner",
    Verdict.TREAT: "treat",
}
"""The verdicts inside a sentence."""
