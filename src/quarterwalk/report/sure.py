"""How sure a call is, as growers are told it: clear, close, can't tell, and never odds."""

from __future__ import annotations

from collections.abc import Iterator

from quarterwalk.call import Call, Sureness, Verdict
from quarterwalk.call.chances import CLOSE_FROM, borne_out
from quarterwalk.words import phrase


def how_sure(call: Call) -> Iterator[str]:
    """Say how sure a call is, what it lacks, and what would settle it.

    Parameters
    ----------
    call : Call
        The call.

    Yields
    ------
    str
        None where there is no call.
    """
    if call.sure is not None:
        yield _sure(call, call.sure)
    if call.provisional:
        yield phrase("The call is provisional: what is still lacking may change it.")
    if call.settle is not None:
        yield call.settle.text


def _sure(call: Call, sure: Sureness) -> str:
    if call.verdict is Verdict.TREAT:
        return _to_treat(sure)
    chance = borne_out(call.chances, call.verdict)
    # the numbers alone point the other way; something else holds the call back
    past = chance is not None and chance <= 1.0 - CLOSE_FROM
    if call.chances.treat is None:
        return _by_insects(sure, past=past)
    return _by_rule(sure, past=past)


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
