"""What was seen on a walk, in sentences that need no rule: insects, squares, losses, corners."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from quarterwalk.call.figures import beside, capital, insects_beside, listed, quarter_word, span
from quarterwalk.call.verdict import Reason
from quarterwalk.guideline import load_routine
from quarterwalk.reading import Reading
from quarterwalk.walk import Method
from quarterwalk.words import noted, phrase, phrase_for

# Below this chance of quadrants so unlike, they are called uneven (common practice in
# testing). [fraction]
_UNEVEN_BELOW = 0.05

# Counted by sweeps or by plants, and whether exactly 100 of them were looked at.
_FOUND = {
    (False, True): noted("{insects} on 100 plants, most likely {range}"),
    (False, False): noted("{insects} per 100 plants, most likely {range}"),
    (True, True): noted("{insects} on 100 sweeps, most likely {range}"),
    (True, False): noted("{insects} per 100 sweeps, most likely {range}"),
}

_ONE_LOST = {
    "missing": noted("Of {squares} squares checked, one is lost: it is missing."),
    "blasted": noted("Of {squares} squares checked, one is lost: it is blasted."),
    "flared": noted("Of {squares} squares checked, one is lost: it is flared."),
}

_ALL_LOST = {
    "missing": noted("Of {squares} squares checked, {total} are lost, all of them missing."),
    "blasted": noted("Of {squares} squares checked, {total} are lost, all of them blasted."),
    "flared": noted("Of {squares} squares checked, {total} are lost, all of them flared."),
}


def found(reading: Reading, line: Fraction | None, level: float) -> str:
    """Say how many insects were found, with their range.

    Parameters
    ----------
    reading : Reading
        With an insect check.
    line : Fraction or None
        Rounding must not carry the number across it. [insects per 100]
    level : float
        Chance that the range holds the true value. [fraction]

    Returns
    -------
    str
        Without a full stop.
    """
    ends = reading.per_100_interval(level)
    if ends is None or reading.per_100 is None:
        return phrase("Nobody looked for insects")
    sweep = reading.method is Method.SWEEP
    whole = (reading.sweeps if sweep else reading.plants) == 100
    insects = insects_beside(reading.per_100, line)
    where = span(*ends, line, around=reading.per_100)
    return capital(phrase(_FOUND[sweep, whole], insects=insects, range=where))


def squares_found(reading: Reading, floor: Fraction | None, level: float) -> str:
    """Say how many squares are still good, with their range.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    floor : Fraction or None
        Rounding must not carry the number across it. [percent]
    level : float
        Chance that the range holds the true value. [fraction]

    Returns
    -------
    str
        Without a full stop.
    """
    ends = reading.set_interval(level)
    if ends is None or reading.square_set is None:
        return phrase("Nobody looked at squares")
    good = 100 * reading.square_set
    said = phrase(
        "{good} of 100 squares still good, most likely {range}",
        good=beside(good, floor),
        range=span(100 * ends[0], 100 * ends[1], floor, around=good),
    )
    return capital(said)


def why_not_readable(reading: Reading) -> str:
    """Say why square set can't be compared with a floor.

    Parameters
    ----------
    reading : Reading
        Whose set is not readable.

    Returns
    -------
    str
    """
    routine = load_routine()
    if not reading.square_plants:
        return phrase("Square set can't be read: nobody looked at squares.")
    if reading.squares < routine.thin_sites:
        return phrase_for(
            reading.squares,
            "Square set can't be read: {count} first positions were looked at;"
            " it takes {least}, better {firm}.",
            "Square set can't be read: {count} first positions were looked at;"
            " it takes {least}, better {firm}.",
            least=routine.thin_sites,
            firm=routine.readable_sites,
        )
    return phrase(
        "Square set can't be read: fewer than half of the plants looked at are squaring"
        " ({squaring} of {looked}).",
        squaring=reading.squaring_plants,
        looked=reading.square_plants,
    )


def losses(reading: Reading) -> Iterator[Reason]:
    """Say what became of the squares lost.

    Parameters
    ----------
    reading : Reading
        What the walk says.

    Yields
    ------
    Reason
        None where no square was lost.
    """
    lost = reading.losses
    kinds = {"missing": lost.missing, "blasted": lost.blasted, "flared": lost.flared}
    there = {kind: count for kind, count in kinds.items() if count}
    of = {"squares": reading.squares, "total": lost.total}
    if lost.total == 1:
        yield Reason("losses", phrase(_ONE_LOST[next(iter(there))], squares=reading.squares))
    elif len(there) == 1:
        yield Reason("losses", phrase(_ALL_LOST[next(iter(there))], **of))
    elif there:
        kinds_told = listed([_lost_so(kind, count) for kind, count in there.items()])
        text = noted("Of {squares} squares checked, {total} are lost: {kinds}.")
        yield Reason("losses", phrase(text, kinds=kinds_told, **of))


def _lost_so(kind: str, count: int) -> str:
    if kind == "missing":
        return phrase_for(count, "{count} missing", "{count} missing")
    if kind == "blasted":
        return phrase_for(count, "{count} blasted", "{count} blasted")
    return phrase_for(count, "{count} flared", "{count} flared")


def unevenness(reading: Reading) -> Iterator[Reason]:
    """Say where most insects are, if the quarters differ more than chance.

    Parameters
    ----------
    reading : Reading
        What the walk says.

    Yields
    ------
    Reason
        None where the quarters do not differ more than chance would make them.
    """
    if reading.evenness_p is not None and reading.evenness_p < _UNEVEN_BELOW:
        most = max(reading.quadrants, key=lambda q: q.insects / max(q.sweeps or q.plants, 1))
        text = phrase(
            "The insects are not spread evenly: {most} of {total} are in the {quarter} quarter.",
            most=most.insects,
            total=reading.insects,
            quarter=quarter_word(most.quadrant),
        )
        yield Reason("uneven", text)
