"""How sure a call is, as growers are told it: clear, close, can't tell, and never odds."""

from __future__ import annotations

from collections.abc import Iterator

from quarterwalk.call import Call, Sureness, Verdict
from quarterwalk.call.chances import CLOSE_FROM, borne_out
from quarterwalk.guideline import load_routine
from quarterwalk.reading import Reading
from quarterwalk.words import phrase


def how_sure(call: Call, reading: Reading) -> Iterator[str]:
    """Say how sure a call is, what it lacks, and what would settle it.

    Parameters
    ----------
    call : Call
        The call.
    reading : Reading
        What it rests on.

    Yields
    ------
    str
        None where there is no call.
    """
    codes = frozenset(reason.code for reason in call.reasons)
    if "finish-walk" in codes:
        yield _not_yet(reading)
    elif call.sure is not None:
        yield _sure(call, call.sure, weeks_differ="weeks-differ" in codes)
    if call.provisional and "finish-walk" not in codes:
        yield phrase("The call is provisional: what is still lacking may change it.")
    if call.settle is not None:
        yield call.settle.text


def _not_yet(reading: Reading) -> str:
    """Say how far an unfinished walk has come; how sure it is means nothing yet."""
    full, done = load_routine().full_walk_plants, reading.sweeps or reading.plants
    if done >= full:
        return phrase("Not yet: a quarter is still to be walked.")
    if reading.sweeps:
        return phrase("Not yet: {count} of {full} sweeps.", count=done, full=full)
    return phrase("Not yet: {count} of {full} plants.", count=done, full=full)


def _sure(call: Call, sure: Sureness, *, weeks_differ: bool) -> str:
    chance = borne_out(call.chances, call.verdict)
    # the numbers alone point the other way; something else holds the call back
    past = chance is not None and chance <= 1.0 - CLOSE_FROM
    if sure is Sureness.CLEAR and weeks_differ:
        # over all weeks it is clear, and one of them decides otherwise
        sure = Sureness.CLOSE
    if sure is Sureness.CLEAR and call.provisional:
        return _clear_so_far(call)
    if call.verdict is Verdict.TREAT:
        return _to_treat(sure)
    if call.chances.treat is None:
        return _by_insects(sure, past=past)
    return _by_rule(sure, past=past)


def _clear_so_far(call: Call) -> str:
    """Say what a clear call that something is lacking to says, without a word of no doubt."""
    if call.verdict is Verdict.TREAT:
        return phrase("Clear by what was found: the rule calls for treating.")
    if call.chances.treat is None:
        return phrase("Clear by what was found: the insects are short of their line.")
    return phrase("Clear by what was found: the rule does not call for treating.")


def _to_treat(sure: Sureness) -> str:
    if sure is Sureness.CLEAR:
        return phrase("Clear. The rule calls for treating, and there is little doubt of it.")
    if sure is Sureness.CLOSE:
        return phrase("Close. The rule likely calls for treating, but that is not certain.")
    return phrase("Can't tell. The walk can't say for certain that the rule calls for treating.")


def _by_rule(sure: Sureness, *, past: bool) -> str:
    if past:
        return phrase(
            "Can't tell. The numbers alone may well call for treating;"
            " the reasons say what holds the call back."
        )
    if sure is Sureness.CLEAR:
        return phrase(
            "Clear. The rule does not call for treating, and there is little doubt of it."
        )
    if sure is Sureness.CLOSE:
        return phrase("Close. The rule likely does not call for treating, but it may.")
    return phrase("Can't tell. The walk can't say whether the rule calls for treating.")


def _by_insects(sure: Sureness, *, past: bool) -> str:
    if past:
        return phrase(
            "Can't tell. The insects may well be past their line;"
            " the reasons say what holds the call back."
        )
    if sure is Sureness.CLEAR:
        return phrase(
            "Clear. The insects are short of their line, and there is little doubt of it."
        )
    if sure is Sureness.CLOSE:
        return phrase("Close. The insects are likely short of their line, but that is not certain.")
    return phrase("Can't tell. The walk can't say on which side of their line the insects are.")
