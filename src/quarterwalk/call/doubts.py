"""What keeps a call from being firm, as reasons: too few plants, an unsure week, a recent spray."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from quarterwalk.call.evidence import VERDICT_PHRASES
from quarterwalk.call.figures import day_words, listed, number
from quarterwalk.call.rule import Judged
from quarterwalk.call.season import InSeason
from quarterwalk.call.verdict import Reason
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.reading import Reading
from quarterwalk.walk import Method


def unfinished(reading: Reading) -> Reason | None:
    """Say what is lacking before a walk can be judged at all.

    Parameters
    ----------
    reading : Reading
        What the walk says so far.

    Returns
    -------
    Reason or None
        None where the walk is complete enough.
    """
    routine = load_routine()
    if reading.method is Method.SWEEP:
        least = routine.least_sweeps_per_quadrant
        thin = [f"{q.sweeps} in {q.quadrant}" for q in reading.quadrants if q.sweeps < least]
        if thin:
            text = f"Fewer than {least} sweeps in a quarter: {listed(thin)}. Finish the walk."
            return Reason("finish-walk", text)
        return None
    empty = [q.quadrant.value for q in reading.quadrants if not q.plants]
    if empty:
        where = listed(empty)
        text = f"No plant was checked for insects in {where}. Finish the walk."
        return Reason("finish-walk", text)
    if reading.plants < routine.least_plants:
        text = (
            f"Plants checked for insects: {reading.plants}; {routine.least_plants} are the"
            f" least for any call, {routine.full_walk_plants} make a full walk. Finish the walk."
        )
        return Reason("finish-walk", text)
    return None


def thinness(reading: Reading, guideline: Guideline) -> Iterator[Reason]:
    """Say where the walk is thinner than a firm call needs.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    guideline : Guideline
        Whether squares matter to it.

    Yields
    ------
    Reason
        Each makes the call provisional.
    """
    routine = load_routine()
    if reading.method is not Method.SWEEP:
        if reading.plants < routine.few_plants:
            text = f"Plants checked for insects: {reading.plants}; under {routine.few_plants} the"
            yield Reason("few-plants", f"{text} call stays provisional.")
            if reading.plan:
                text = "The stop plan named in the table is not known here."
                yield Reason("unknown-plan", text)
        least = routine.least_per_quadrant
        thin = [f"{q.plants} in {q.quadrant}" for q in reading.quadrants if q.plants < least]
        if thin:
            text = f"Fewer than {least} plants in a quarter: {listed(thin)}."
            yield Reason("thin-quadrant", f"{text} The call stays provisional.")
    if (
        guideline.reads_squares
        and reading.set_readable
        and reading.squares < routine.readable_sites
    ):
        text = f"Square set rests on {reading.squares} first positions; {routine.readable_sites}"
        yield Reason("few-squares", f"{text} make it firm. The call stays provisional.")


def unsure_season(season: InSeason, guideline: Guideline) -> Iterator[Reason]:
    """Say what the dates leave open about the season.

    Parameters
    ----------
    season : InSeason
        What the guideline has to go by.
    guideline : Guideline
        The rule.

    Yields
    ------
    Reason
        Each makes the call provisional.
    """
    if season.reaches_outside:
        text = f"The dates given also allow days outside the season of {guideline.name}."
        yield Reason("season-edge", f"{text} The call is for the days inside it, and not to treat.")
    if season.ask_bloom:
        asked = load_routine().ask_bloom_after
        text = f"First square was more than {asked} days ago and no bloom date is given."
        yield Reason("bloom-date", f"{text} Give the date of first bloom.")


def weeks_compared(judged: Sequence[Judged]) -> Iterator[Reason]:
    """Say what each possible squaring week makes of the reading.

    Parameters
    ----------
    judged : sequence of Judged
        One for each week that the dates allow.

    Yields
    ------
    Reason
        None where the week is known.
    """
    if len(judged) < 2:
        return
    weeks = listed([str(j.bounds.week) for j in judged], "or")
    floors = [number(100 * j.bounds.floor) for j in judged if j.bounds.floor is not None]
    lines = list(dict.fromkeys(number(j.bounds.line) for j in judged))
    if len({j.verdict for j in judged}) == 1:
        text = f"Week {weeks} of squaring, by the dates given; the call is the same"
        if floors:
            text += f" (floors {listed(floors)})"
        yield Reason("weeks-agree", f"{text}.")
        return
    each = "; ".join(
        f"week {j.bounds.week} ({_limits(j, show_line=len(lines) > 1)}) "
        + VERDICT_PHRASES[j.verdict]
        for j in judged
    )
    text = f"The squaring week is not known, and it decides: {each}."
    yield Reason("weeks-differ", f"{text} Find out the day of first square.")


def _limits(judged: Judged, *, show_line: bool) -> str:
    limits = []
    if judged.bounds.floor is not None:
        limits.append(f"floor {number(100 * judged.bounds.floor)}")
    if show_line or not limits:
        limits.append(f"line {number(judged.bounds.line)}")
    return ", ".join(limits)


def recent_treatment(on: date, treated: date | None) -> Reason | None:
    """Say that a treatment is too recent for the count to call for another.

    Parameters
    ----------
    on : date
        The day of the walk.
    treated : date or None
        The last treatment before it.

    Returns
    -------
    Reason or None
        None where the last treatment is older, or there was none.
    """
    first, last = load_routine().recently_treated
    days = 0 if treated is None else (on - treated).days
    if treated is None or not first <= days <= last:
        return None
    ago = "the day before" if days == 1 else f"{days} days before"
    text = f"The field was treated on {day_words(treated)}, {ago} this walk."
    return Reason(
        "recently-treated", f"{text} The count speaks of that treatment; do not repeat it yet."
    )
