"""What a report stands on: the rule and its sources, the walk, and what comes before advice."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from quarterwalk.call import Call, GuidelineUsed
from quarterwalk.call.figures import listed, quarter_word
from quarterwalk.call.seen import squares_found
from quarterwalk.guideline import (
    Guideline,
    Source,
    SourceKind,
    guideline_names,
    load_guideline,
)
from quarterwalk.guideline.rule import SHORT_HASH
from quarterwalk.reading import Reading
from quarterwalk.report.names import plain
from quarterwalk.report.report import Footing
from quarterwalk.walk import WalkHead
from quarterwalk.words import noted, phrase, phrase_for

# A level is told as "so many times in so many", in hundredths at most where that is not
# all of them. [count]
_FINEST = 100


def footing(head: WalkHead, reading: Reading, call: Call, level: float) -> Footing:
    """Say what a report stands on.

    Parameters
    ----------
    head : WalkHead
        Who walked.
    reading : Reading
        How much was looked at.
    call : Call
        By which guideline.
    level : float
        Chance that a printed range holds the true value. [fraction]

    Returns
    -------
    Footing
    """
    rule = shelved(call.guideline)
    return Footing(
        rule=_rule(call.guideline, rule),
        sources="" if rule is None else _sources(call, rule),
        most_likely=_most_likely(level) if reading.density is not None or reading.squares else "",
        walked=" ".join((*_walked(head, reading), *_squares(reading, call, level))),
        prevails=phrase(
            "This page is advice from one walk; the label, local rules"
            " and a licensed applicator prevail."
        ),
    )


def shelved(used: GuidelineUsed) -> Guideline | None:
    """Give the packaged guideline that a call was made by.

    Parameters
    ----------
    used : GuidelineUsed
        What the call says of it.

    Returns
    -------
    Guideline or None
        None for a user's own file, and for an edition that is no longer here.
    """
    if used.own or used.name not in guideline_names():
        return None
    found = _loaded(used.name)
    return found if found.hash == used.hash else None


_loaded = cache(load_guideline)


def _rule(used: GuidelineUsed, rule: Guideline | None) -> str:
    edition, content = used.edition, used.hash[:SHORT_HASH]
    if used.own:
        text = noted("Rule: your advisor's own file {name}, edition {edition}, content {content}.")
        return phrase(text, name=plain(used.name), edition=plain(edition), content=content)
    title = used.name if rule is None else rule.title
    text = noted("Rule: {title}, edition {edition}, content {content}.")
    return phrase(text, title=title, edition=edition, content=content)


def _sources(call: Call, rule: Guideline) -> str:
    weeks = call.stage.squaring_weeks or (None,)
    asked = [s for week in weeks for s in _asked(rule, week)]
    told = "; ".join(dict.fromkeys(_cited(source) for source in asked))
    return phrase("Its numbers come from: {documents}.", documents=told)


def _asked(rule: Guideline, week: int | None) -> Iterator[Source]:
    """Give the source of each number that a call in this week may rest on."""
    yield rule.line_for(week).source
    floor = rule.floor_for(week)
    for asked in (floor, rule.blasted, rule.half_line):
        if asked is not None:
            yield asked.source
    yield rule.season_source


def _cited(source: Source) -> str:
    if source.kind is SourceKind.COMMON_PRACTICE:
        return phrase("common practice")
    return source.citation


def _most_likely(level: float) -> str:
    finest = _FINEST
    while (times := Fraction(level).limit_denominator(finest)) in (0, 1):
        finest *= 10
    return phrase(
        "“Most likely” gives a range; {times} times in {of} the true number lies inside it.",
        times=f"{times.numerator:,}",
        of=f"{times.denominator:,}",
    )


def _walked(head: WalkHead, reading: Reading) -> Iterator[str]:
    if head.scouts:
        yield phrase("Walked by {names}.", names=listed([plain(name) for name in head.scouts]))
    looked = [q.sweeps or q.plants for q in reading.quadrants]
    total, alike = sum(looked), len(set(looked)) == 1
    told = ", ".join(
        f"{quarter_word(q.quadrant)} {count}"
        for q, count in zip(reading.quadrants, looked, strict=True)
    )
    if reading.sweeps and alike:
        yield phrase("{total} sweeps, {each} in each quarter.", total=total, each=looked[0])
    elif reading.sweeps:
        yield phrase_for(total, "{count} sweep: {told}.", "{count} sweeps: {told}.", told=told)
    elif reading.plants and alike:
        text = noted("{total} plants checked for fleahoppers, {each} in each quarter.")
        yield phrase(text, total=total, each=looked[0])
    elif reading.plants:
        yield phrase_for(
            total,
            "{count} plant checked for fleahoppers: {told}.",
            "{count} plants checked for fleahoppers: {told}.",
            told=told,
        )
    if reading.square_plants:
        yield phrase("Plants checked for squares: {count}.", count=reading.square_plants)


def _squares(reading: Reading, call: Call, level: float) -> Iterator[str]:
    """Tell the squares where a rule that halves its line by them leaves their number out."""
    if any(reason.code == "line-halved" for reason in call.reasons):
        yield f"{squares_found(reading, None, level)}."
