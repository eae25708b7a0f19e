"""A call as a person explains it to a grower: found, meaning, how sure, what next, take care."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from quarterwalk.call.chances import CLOSE_FROM, borne_out
from quarterwalk.call.figures import capital, day_words, odds_words
from quarterwalk.call.verdict import Call, Look, Verdict, sureness_word, verdict_words
from quarterwalk.guideline import load_routine
from quarterwalk.words import noted, phrase, spoken_in

FOUND = frozenset({
    "insects-over", "insects-near", "insects-middle", "insects-few", "set-not-under", "set-under",
    "set-well-under", "set-not-readable", "blasted-over", "blasted-not-over", "losses", "uneven",
    "insects-alone", "line-full",
})  # fmt: skip
"""Reasons that say what was found; the others say what it means."""

# Whether the guideline asks for more than insects can be told, and whether the call is to treat.
_SURE = {
    (False, True): noted("{sure}: {odds} that the field is past the line for insects."),
    (False, False): noted("{sure}: {odds} that the field is not past the line for insects."),
    (True, True): noted("{sure}: {odds} that the field is past what the guideline asks."),
    (True, False): noted("{sure}: {odds} that the field is not past what the guideline asks."),
}

_MAY_BE_PAST = {
    False: noted("The field may well be past the line for insects: {odds}."),
    True: noted("The field may well be past what the guideline asks: {odds}."),
}


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
        None of them empty; in the language of the call.
    """
    with spoken_in(call.language):
        return _told(call)


def _told(call: Call) -> tuple[Section, ...]:
    found = tuple(r.text for r in call.reasons if r.code in FOUND)
    means = tuple(r.text for r in call.reasons if r.code not in FOUND)
    if call.verdict is Verdict.NONE:
        sections = [Section(phrase("Why there is no call"), means)]
    else:
        sections = [
            Section(phrase("What was found"), found),
            Section(phrase("What it means"), means),
            Section(phrase("How sure"), tuple(_sure(call))),
        ]
    sections.append(Section(phrase("What next"), (*_next(call), call.host_weeds.text)))
    sections.append(Section(phrase("Take care"), tuple(c.text for c in call.cautions)))
    return tuple(section for section in sections if section.sentences)


def _sure(call: Call) -> Iterator[str]:
    chance = borne_out(call.chances, call.verdict)
    if chance is not None and call.sure is not None:
        asks, treat = call.chances.treat is not None, call.verdict is Verdict.TREAT
        if not treat and chance <= 1.0 - CLOSE_FROM:
            # the numbers alone point the other way; something else holds the call back
            yield phrase(_MAY_BE_PAST[asks], odds=odds_words(1.0 - chance))
        else:
            sure = capital(sureness_word(call.sure))
            yield phrase(_SURE[asks, treat], sure=sure, odds=odds_words(chance))
    if call.provisional:
        yield phrase("Provisional: it may change once what is lacking is there.")
    if call.settle is not None:
        yield call.settle.text


def _next(call: Call) -> Iterator[str]:
    look = call.next_look
    if look is None and _asks_for_bloom(call):
        yield phrase("Find out whether the field blooms, and since when.")
    elif look is None and call.provisional:
        yield phrase("If the flowers are right, no further look is due for this insect.")
    elif look is None:
        yield phrase("No further look is due for this insect.")
    elif call.verdict is Verdict.TREAT:
        first, last = load_routine().treated
        yield phrase(
            "If it is treated, look again {first} to {last} days after."
            " If it is not, look again on {day}.",
            first=first,
            last=last,
            day=day_words(look.latest),
        )
    elif call.verdict is Verdict.NONE and call.stage.days[1] >= 0:
        yield phrase("The field is due at once.")
    else:
        yield _look_again(look)


def _asks_for_bloom(call: Call) -> bool:
    return any(reason.code == "bloom-date" for reason in call.reasons)


def _look_again(look: Look) -> str:
    soonest, latest = day_words(look.soonest), day_words(look.latest)
    if soonest == latest:
        return phrase("Look again on {day}.", day=latest)
    return phrase("Look again on {day} or {latest}.", day=soonest, latest=latest)


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
    with spoken_in(call.language):
        words = verdict_words(call.verdict)
        return phrase("{verdict} (provisional)", verdict=words) if call.provisional else words
