"""What was seen on a walk, in sentences that need no rule: insects, squares, losses, corners."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from quarterwalk.call.figures import COUNTED_ON, beside, capital, listed, span
from quarterwalk.call.verdict import Reason
from quarterwalk.guideline import load_routine
from quarterwalk.reading import Reading
from quarterwalk.walk import Method

# Below this chance of quadrants so unlike, they are called uneven (common practice in
# testing). [fraction]
_UNEVEN_BELOW = 0.05


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
        return "Nobody looked for insects"
    unit = COUNTED_ON[reading.method]
    whole = (reading.sweeps if reading.method is Method.SWEEP else reading.plants) == 100
    on = "on" if whole else "per"
    one = " fleahopper " if beside(reading.per_100, line) == "1" else " fleahoppers "
    count = capital(beside(reading.per_100, line))
    return f"{count}{one}{on} 100 {unit}, most likely {span(*ends)}"


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
        return "Nobody looked at squares"
    good = capital(beside(100 * reading.square_set, floor))
    return f"{good} of 100 squares still good, most likely {span(100 * ends[0], 100 * ends[1])}"


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
        return "Square set can't be read: nobody looked at squares."
    if reading.squares < routine.thin_sites:
        return (
            f"Square set can't be read: {reading.squares} first positions were looked at;"
            f" it takes {routine.thin_sites}, better {routine.readable_sites}."
        )
    return (
        "Square set can't be read: fewer than half of the plants looked at are squaring"
        f" ({reading.squaring_plants} of {reading.square_plants})."
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
    kinds = [("missing", lost.missing), ("blasted", lost.blasted), ("flared", lost.flared)]
    there = [(count, kind) for kind, count in kinds if count]
    if lost.total == 1:
        yield Reason("losses", f"One square was lost: it is {there[0][1]}.")
    elif len(there) == 1:
        yield Reason("losses", f"All {lost.total} squares lost are {there[0][1]}.")
    elif there:
        told = listed([f"{count} are {kind}" for count, kind in there])
        yield Reason("losses", f"Of {lost.total} squares lost, {told}.")


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
        text = f"The insects are not spread evenly: {most.insects} of {reading.insects}"
        yield Reason("uneven", f"{text} are in the {most.quadrant} quarter.")
