"""A call as a person explains it to a grower: found, meaning, how sure, what next, take care."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from quarterwalk.call.chances import CLOSE_FROM, borne_out
from quarterwalk.call.figures import day_words, odds_words, sure_words
from quarterwalk.call.verdict import VERDICT_WORDS, Call, Look, Verdict
from quarterwalk.guideline import load_routine

FOUND = frozenset({
    "insects-over", "insects-near", "insects-middle", "insects-few", "set-not-under", "set-under",
    "set-well-under", "set-not-readable", "blasted-over", "blasted-not-over", "losses", "uneven",
    "insects-alone", "line-full",
})  # fmt: skip
"""Reasons that say what was found; the others say what it means."""


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and its sentences."""

    title: str
    sentences: tuple[str, ...]


def explain(call: Call) -> tuple[Section, ...]:
    """Put a call in the order in which it is told.

    Parameters
    ----------
    call : Call
        The call.

    Returns
    -------
    tuple of Section
        None of them empty.
    """
    found = tuple(r.text for r in call.reasons if r.code in FOUND)
    means = tuple(r.text for r in call.reasons if r.code not in FOUND)
    if call.verdict is Verdict.NONE:
        title = "Why there is no call"
        sections = [Section(title, means)]
    else:
        sections = [Section("What was found", found), Section("What it means", means)]
        sections.append(Section("How sure", tuple(_sure(call))))
    sections.append(Section("What next", (*_next(call), call.host_weeds.text)))
    sections.append(Section("Take care", tuple(c.text for c in call.cautions)))
    return tuple(section for section in sections if section.sentences)


def _sure(call: Call) -> Iterator[str]:
    chance = borne_out(call.chances, call.verdict)
    if chance is not None:
        what = "the line for insects" if call.chances.treat is None else "what the guideline asks"
        past = "is past" if call.verdict is Verdict.TREAT else "is not past"
        if call.verdict is not Verdict.TREAT and chance <= 1.0 - CLOSE_FROM:
            # the numbers alone point the other way; something else holds the call back
            yield f"The field may well be past {what}: {odds_words(1.0 - chance)}."
        else:
            yield f"{sure_words(call.sure, chance)} that the field {past} {what}."
    if call.provisional:
        yield "Provisional: it may change once what is lacking is there."
    if call.settle is not None:
        yield call.settle.text


def _next(call: Call) -> Iterator[str]:
    look = call.next_look
    if look is None and _asks_for_bloom(call):
        yield "Find out whether the field blooms, and since when."
    elif look is None:
        yield "No further look is due for this insect."
    elif call.verdict is Verdict.TREAT:
        first, last = load_routine().treated
        text = f"If it is treated, look again {first} to {last} days after."
        yield f"{text} If it is not, look again on {day_words(look.latest)}."
    elif call.verdict is Verdict.NONE and call.stage.days[1] >= 0:
        yield "The field is due at once."
    else:
        yield f"Look again {_when(look)}."


def _asks_for_bloom(call: Call) -> bool:
    return any(reason.code == "bloom-date" for reason in call.reasons)


def _when(look: Look) -> str:
    if look.soonest == look.latest:
        return f"on {day_words(look.latest)}"
    return f"on {day_words(look.soonest)} or {day_words(look.latest)}"


def headline(call: Call) -> str:
    """Give the verdict in one or two words, with its doubt.

    Parameters
    ----------
    call : Call
        The call.

    Returns
    -------
    str
    """
    words = VERDICT_WORDS[call.verdict]
    return f"{words} (provisional)" if call.provisional else words
