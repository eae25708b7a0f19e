"""What keeps a call from being firm, as reasons: too few plants, an unsure week, a recent spray."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from quarterwalk.call import by_plan
from quarterwalk.call.evidence import verdict_phrase
from quarterwalk.call.figures import day_words, listed, number, quarter_word
from quarterwalk.call.rule import Judged
from quarterwalk.call.season import InSeason
from quarterwalk.call.verdict import Reason
from quarterwalk.crop import WorkedOut
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.plan import Ended
from quarterwalk.reading import Reading
from quarterwalk.walk import Method, Quadrant
from quarterwalk.words import noted, phrase, phrase_for


def unfinished(reading: Reading, ended: Ended | None = None) -> Reason | None:
    """Say what is lacking before a walk can be judged at all.

    Parameters
    ----------
    reading : Reading
        What the walk says so far.
    ended : Ended or None
        How it ended by the stop plan that it names.

    Returns
    -------
    Reason or None
        None where the walk is complete enough.
    """
    routine = load_routine()
    if reading.method is Method.SWEEP:
        least = routine.least_sweeps_per_quadrant
        thin = [_so_many(q.sweeps, q.quadrant) for q in reading.quadrants if q.sweeps < least]
        if thin:
            text = phrase(
                "Fewer than {least} sweeps in a quarter: {quarters}. Finish the walk.",
                least=least,
                quarters=listed(thin),
            )
            return Reason("finish-walk", text)
        return None
    empty = [quarter_word(q.quadrant) for q in reading.quadrants if not q.plants]
    if empty:
        text = phrase(
            "No plant was checked for insects in {quarters}. Finish the walk.",
            quarters=listed(empty),
        )
        return Reason("finish-walk", text)
    if reading.plants < routine.least_plants and not by_plan.covers(ended):
        text = phrase(
            "Plants checked for insects: {plants}; {least} are the least for any call,"
            " {full} make a full walk. Finish the walk.",
            plants=reading.plants,
            least=routine.least_plants,
            full=routine.full_walk_plants,
        )
        return Reason("finish-walk", text)
    return None


def _so_many(count: int, quadrant: Quadrant) -> str:
    return phrase("{number} in {quarter}", number=count, quarter=quarter_word(quadrant))


def thinness(
    reading: Reading, guideline: Guideline, ended: Ended | None = None
) -> Iterator[Reason]:
    """Say where the walk is thinner than a firm call needs.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    guideline : Guideline
        Whether squares matter to it.
    ended : Ended or None
        How it ended by the stop plan that it names.

    Yields
    ------
    Reason
        Each makes the call provisional.
    """
    routine = load_routine()
    if reading.method is not Method.SWEEP:
        if reading.plants < routine.few_plants and not by_plan.covers(ended):
            text = phrase(
                "Plants checked for insects: {plants}; under {few} the call stays provisional.",
                plants=reading.plants,
                few=routine.few_plants,
            )
            yield Reason("few-plants", text)
            yield from by_plan.not_covered(ended, reading)
        least = routine.least_per_quadrant
        thin = [_so_many(q.plants, q.quadrant) for q in reading.quadrants if q.plants < least]
        if thin:
            text = phrase(
                "Fewer than {least} plants in a quarter: {quarters}. The call stays provisional.",
                least=least,
                quarters=listed(thin),
            )
            yield Reason("thin-quadrant", text)
    if (
        guideline.reads_squares
        and reading.set_readable
        and reading.squares < routine.readable_sites
    ):
        text = phrase(
            "Square set rests on {squares} first positions; {firm} make it firm."
            " The call stays provisional.",
            squares=reading.squares,
            firm=routine.readable_sites,
        )
        yield Reason("few-squares", text)


_LATE = {
    True: noted(
        "First square was more than {days} days ago and no bloom date is given."
        " Give the date of first bloom."
    ),
    False: noted(
        "First square may have been more than {days} days ago and no bloom date is given."
        " Give the date of first bloom."
    ),
}


def unsure_season(
    season: InSeason, guideline: Guideline, worked: WorkedOut | None
) -> Iterator[Reason]:
    """Say what the dates leave open about the season.

    Parameters
    ----------
    season : InSeason
        What the guideline has to go by.
    guideline : Guideline
        The rule.
    worked : WorkedOut or None
        What the crop's clock knows of flowers; None where first square was given.

    Yields
    ------
    Reason
        Each makes the call provisional.
    """
    if season.reaches_outside:
        text = phrase(
            "This day may also lie outside the season of {guideline}."
            " The call is for the days inside it, and not to treat.",
            guideline=guideline.name,
        )
        yield Reason("season-edge", text)
    elif season.too_late:
        text = phrase(
            "First square may even have been more than {days} days ago, and past that there is no"
            " call without a bloom date. The call is for the days before, and not to treat.",
            days=load_routine().no_call_after,
        )
        yield Reason("season-edge", text)
    if season.ask_bloom:
        days, looked = load_routine().ask_bloom_after, None if worked is None else worked.no_flower
        text = phrase(_LATE[season.surely_late], days=days)
        if looked is not None:
            text = phrase(
                "First square may have been more than {days} days ago, and no white flower was"
                " seen by {day}. Make sure of the day of first square, and look for a flower on"
                " every walk.",
                days=days,
                day=day_words(looked),
            )
        yield Reason("bloom-date", text)


def weeks_compared(judged: Sequence[Judged], *, border: bool = False) -> Iterator[Reason]:
    """Say what each possible squaring week makes of the reading.

    Parameters
    ----------
    judged : sequence of Judged
        One for each week that the dates allow.
    border : bool
        Whether first square is known so well that nothing more can be found out of it.

    Yields
    ------
    Reason
        None where the week is known.
    """
    if len(judged) < 2:
        return
    weeks = listed([str(j.bounds.week) for j in judged], "or")
    floors = list(
        dict.fromkeys(number(100 * j.bounds.floor) for j in judged if j.bounds.floor is not None)
    )
    lines = list(dict.fromkeys(number(j.bounds.line) for j in judged))
    if len({j.verdict for j in judged}) == 1:
        yield Reason("weeks-agree", _same_call(weeks, floors))
        return
    text = phrase(
        "The squaring week is not known, and it decides: {each}.",
        each="; ".join(_one_week(j, show_line=len(lines) > 1) for j in judged),
    )
    if not border:
        find_out = phrase("Find out the day of first square.")
        text = f"{text} {find_out}"
    yield Reason("weeks-differ", text)


def _same_call(weeks: str, floors: list[str]) -> str:
    if not floors:
        return phrase(
            "Week {weeks} of squaring, as far as is known; the call is the same.", weeks=weeks
        )
    if len(floors) == 1:
        return phrase(
            "Week {weeks} of squaring, as far as is known; the call is the same (floor {floor}).",
            weeks=weeks,
            floor=floors[0],
        )
    return phrase(
        "Week {weeks} of squaring, as far as is known; the call is the same (floors {floors}).",
        weeks=weeks,
        floors=listed(floors),
    )


def _one_week(judged: Judged, *, show_line: bool) -> str:
    limits = []
    if judged.bounds.floor is not None:
        limits.append(phrase("floor {floor}", floor=number(100 * judged.bounds.floor)))
    if show_line or not limits:
        limits.append(phrase("line {line}", line=number(judged.bounds.line)))
    return phrase(
        "week {week} ({limits}) {verdict}",
        week=judged.bounds.week,
        limits=", ".join(limits),
        verdict=verdict_phrase(judged.verdict),
    )


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
    text = phrase_for(
        days,
        "The field was treated on {day}, the day before this walk."
        " The count speaks of that treatment; do not repeat it yet.",
        "The field was treated on {day}, {count} days before this walk."
        " The count speaks of that treatment; do not repeat it yet.",
        day=day_words(treated),
    )
    return Reason("recently-treated", text)
