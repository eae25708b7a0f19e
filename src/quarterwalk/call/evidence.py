"""What was found against the lines, as reasons: insects, squares, and the rule that joins them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from quarterwalk.call.figures import beside, capital, number, span
from quarterwalk.call.rule import Insects, Judged, Squares
from quarterwalk.call.seen import found, squares_found, why_not_readable
from quarterwalk.call.verdict import Reason, Verdict
from quarterwalk.reading import Reading
from quarterwalk.words import noted, phrase

_INSECTS = {
    Insects.OVER: Reason("insects-over", noted("{found}. That is at or past the line of {line}.")),
    Insects.NEAR: Reason("insects-near", noted("{found}. That is close under the line of {line}.")),
    Insects.MIDDLE: Reason(
        "insects-middle",
        noted("{found}. That is under the line of {line}, but a third of it or more."),
    ),
    Insects.FEW: Reason("insects-few", noted("{found}. That is well under the line of {line}.")),
}

_SQUARES = {
    Squares.FINE: Reason(
        "set-not-under",
        noted("{squares}. That is not under the floor of {floor} {when}."),
    ),
    Squares.UNDER: Reason(
        "set-under", noted("{squares}. That is under the floor of {floor} {when}.")
    ),
    Squares.WELL_UNDER: Reason(
        "set-well-under",
        noted("{squares}. That is well under the floor of {floor} {when}."),
    ),
}

_RANGE = {
    True: noted("The published range is {low} to {high}: at {low} treat, at {high} not yet."),
    False: noted(
        "The published range is {low} to {high}: at {low} past the line, at {high} not yet."
    ),
}

ONE_WEEK_CONCLUDES = frozenset({
    "both-past", "insects-only", "squares-needed", "squares-only", "other-causes",
})  # fmt: skip
"""Reasons that join the two measures in one squaring week."""

_OTHER_CAUSES = noted(
    "So few insects do not account for the squares lost. Look for other causes first:"
    " standing water, hot dry wind, cold or long cloud, other pests."
)

_BEFORE_TREATMENT = noted(
    "So few insects now do not account for the squares lost. They may have been lost before"
    " the treatment; look for other causes too."
)


def evidence(
    reading: Reading, judged: Judged, level: float, *, recently_treated: bool, week_sure: bool
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
    week_sure : bool
        Whether the dates allow no other week, and no day outside the season.

    Yields
    ------
    Reason
    """
    yield _insects(reading, judged, level)
    if judged.bounds.halved:
        yield _halved(judged)
    if judged.squares is not Squares.NOT_ASKED:
        yield _squares(reading, judged, level, week_sure=week_sure)
        yield from _both(judged, recently_treated=recently_treated)
    elif reading.set_readable and judged.bounds.half_at is None:
        yield Reason("insects-alone", _seen_squares(reading, level))
    elif judged.bounds.half_at is not None and not judged.bounds.halved:
        yield _not_halved(reading, judged, level)


def _insects(reading: Reading, judged: Judged, level: float) -> Reason:
    line = judged.bounds.line
    said = _INSECTS[judged.insects]
    text = phrase(said.text, found=found(reading, line, level), line=number(line))
    return Reason(said.code, text)


def _when(judged: Judged, *, week_sure: bool) -> str:
    week = judged.bounds.week
    if week is None:
        return phrase("in bloom")
    if week_sure:
        return phrase("in week {week} of squaring", week=week)
    return phrase("if it is week {week} of squaring", week=week)


def _squares(reading: Reading, judged: Judged, level: float, *, week_sure: bool) -> Reason:
    if judged.squares is Squares.NOT_READABLE:
        return Reason("set-not-readable", why_not_readable(reading))
    if judged.bounds.blasted is not None:
        return _blasted(reading, judged, level)
    floor = 100 * (judged.bounds.floor or Fraction(0))
    said = _SQUARES[judged.squares]
    squares = squares_found(reading, floor, level)
    when = _when(judged, week_sure=week_sure)
    text = phrase(said.text, squares=squares, floor=number(floor), when=when)
    return Reason(said.code, text)


def _blasted(reading: Reading, judged: Judged, level: float) -> Reason:
    blasted, odds = judged.bounds.blasted, reading.blasted_odds
    if blasted is None or odds is None or reading.blasted_share is None:
        raise ValueError("a blasted share must be readable to be told, got none.")
    low, high = odds.interval(level)
    limit, share = 100 * blasted.at_least, 100 * reading.blasted_share
    said = phrase(
        "{blasted} of 100 squares blasted, most likely {range}",
        blasted=beside(share, limit),
        range=span(100 * low, 100 * high, limit, around=share),
    )
    gaps = {"squares": capital(said), "limit": number(limit)}
    if judged.squares is Squares.FINE:
        text = phrase("{squares}. The guideline asks for {limit}.", **gaps)
        return Reason("blasted-not-over", text)
    text = phrase("{squares}. That is at or past the {limit} that the guideline asks for.", **gaps)
    return Reason("blasted-over", text)


def _both(judged: Judged, *, recently_treated: bool) -> Iterator[Reason]:
    """Say what the two measures come to together."""
    under = judged.squares in (Squares.UNDER, Squares.WELL_UNDER)
    if judged.insects is Insects.OVER:
        yield _past(judged)
    elif under and judged.insects is Insects.FEW:
        text = _BEFORE_TREATMENT if recently_treated else _OTHER_CAUSES
        yield Reason("other-causes", phrase(text))
    elif under:
        text = phrase("Squares are being lost, and there are insects enough to watch closely.")
        yield Reason("squares-only", text)


def _past(judged: Judged) -> Reason:
    if judged.bounds.blasted is None:
        both = phrase("The guideline asks for both, insects and lost squares.")
    else:
        both = phrase("The guideline asks for both, insects and blasted squares.")
    if judged.squares is Squares.FINE:
        past = Reason("insects-only", phrase("Only the insects are past."))
    elif judged.squares is Squares.NOT_READABLE:
        past = Reason("squares-needed", phrase("The squares can't be told yet."))
    else:
        past = Reason("both-past", phrase("Both are past."))
    return Reason(past.code, f"{both} {past.text}")


def _halved(judged: Judged) -> Reason:
    text = phrase(
        "Square set is at {half_at} of 100 or under, which halves the line from {full} to {line}.",
        half_at=number(100 * (judged.bounds.half_at or Fraction(0))),
        full=number(judged.bounds.full_line),
        line=number(judged.bounds.line),
    )
    return Reason("line-halved", text)


def _not_halved(reading: Reading, judged: Judged, level: float) -> Reason:
    if not reading.set_readable:
        full = phrase("The full line holds.")
        return Reason("set-not-readable", f"{why_not_readable(reading)} {full}")
    half_at = 100 * (judged.bounds.half_at or Fraction(0))
    text = phrase(
        "{squares}. Above {half_at} the full line holds.",
        squares=squares_found(reading, half_at, level),
        half_at=number(half_at),
    )
    return Reason("line-full", text)


def _seen_squares(reading: Reading, level: float) -> str:
    return phrase(
        "{squares}. This guideline goes by insects alone; the squares are for your own judgement.",
        squares=squares_found(reading, None, level),
    )


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
        text = _RANGE[squares and may_treat]
        yield Reason("within-range", phrase(text, low=number(low), high=number(high)))


_VERDICTS = {
    Verdict.HOLD: noted("hold"),
    Verdict.LOOK_SOONER: noted("look sooner"),
    Verdict.TREAT: noted("treat"),
}


def verdict_phrase(verdict: Verdict) -> str:
    """Give a verdict as it stands inside a sentence.

    Parameters
    ----------
    verdict : Verdict
        Hold, look sooner or treat.

    Returns
    -------
    str
    """
    return phrase(_VERDICTS[verdict])
