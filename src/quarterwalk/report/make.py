"""From a walk and its call to the report: everything is worded here, once."""

from __future__ import annotations

from quarterwalk.call import Call, explain
from quarterwalk.call.clock_told import WEEK_CHANCES
from quarterwalk.call.figures import day_words
from quarterwalk.call.verdict import verdict_words
from quarterwalk.field import Layout
from quarterwalk.reading import Reading
from quarterwalk.report.counted import insects_counted, squares_counted
from quarterwalk.report.footing import footing
from quarterwalk.report.headline import headline
from quarterwalk.report.names import plain
from quarterwalk.report.report import Report
from quarterwalk.report.sure import how_sure
from quarterwalk.walk import WalkHead
from quarterwalk.words import phrase, phrase_as, spoken_in

# Below this an area is told with a decimal, so that it is not rounded by much. [acre]
_SMALL = 10


def make_report(
    head: WalkHead,
    reading: Reading,
    call: Call,
    *,
    layout: Layout | None,
    advisor: str = "",
    contact: str = "",
    level: float = 0.90,
    language: str = "en",
) -> Report:
    """Word what the grower of a field is told of one walk.

    Parameters
    ----------
    head : WalkHead
        Field, day and scouts.
    reading : Reading
        What the walk says.
    call : Call
        What was decided, worded in the same language.
    layout : Layout or None
        The field's shape, its grower and acres; None where no boundary is known.
    advisor : str
        Whom the grower may ask; may be empty.
    contact : str
        How to reach them; may be empty.
    level : float
        Chance that a printed range holds the true value. [fraction]
    language : str
        One of `quarterwalk.words.LANGUAGES`.

    Returns
    -------
    Report
        Ready for any of its faces.

    Raises
    ------
    ValueError
        If the call is worded in another language, or there is no catalogue for it.
    """
    if call.language != language:
        raise ValueError(
            f"a report must be in the language of its call, {call.language}, got {language}."
            " Make the call in the language that the grower reads."
        )
    with spoken_in(language):
        return Report(
            language=language,
            field=plain(head.field) or phrase("A field without a name"),
            grower="" if layout is None else plain(layout.field.grower),
            acres="" if layout is None else _acres(layout.acres),
            day=phrase_as("date", "{day} {year}", day=day_words(head.date), year=head.date.year),
            verdict_words=verdict_words(call.verdict),
            headline=headline(call, reading),
            insects=insects_counted(reading, call.guideline.line, level),
            squares=squares_counted(reading, call, level),
            reasons=tuple(r.text for r in call.reasons if r.code != WEEK_CHANCES),
            sure=tuple(how_sure(call, reading)),
            next_look=_next_look(call),
            host_weeds=call.host_weeds.text,
            care=tuple(caution.text for caution in call.cautions),
            found_note="" if layout is None else _found_note(reading),
            ask=_ask(plain(advisor), plain(contact)),
            footing=footing(head, reading, call, level),
            reading=reading,
            call=call,
            on=head.date,
            layout=layout,
            level=level,
        )


def _acres(acres: float) -> str:
    return phrase("{acres} acres", acres=f"{acres:.{0 if acres >= _SMALL else 1}f}")


def _found_note(reading: Reading) -> str:
    if not reading.squares:
        return phrase("In each quarter: fleahoppers found.")
    return phrase("In each quarter: fleahoppers found, and squares still good.")


def _next_look(call: Call) -> tuple[str, ...]:
    """Give what the call says of the next look, less the host weeds that follow it."""
    weeds = call.host_weeds.text
    told = next(s.sentences for s in explain(call) if weeds in s.sentences)
    return tuple(sentence for sentence in told if sentence != weeds)


def _ask(advisor: str, contact: str) -> str:
    if advisor and contact:
        return phrase("Questions? Ask {advisor}, {contact}.", advisor=advisor, contact=contact)
    if advisor or contact:
        return phrase("Questions? Ask {who}.", who=advisor or contact)
    return phrase("Questions? Ask your scout or advisor.")
