"""Walks judged one after another, and how calls look on a screen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from quarterwalk.call import Call, CallOptions, Verdict, explain, make_call
from quarterwalk.call.explain import headline
from quarterwalk.call.figures import listed, short
from quarterwalk.call.verdict import VERDICT_WORDS
from quarterwalk.cli.heading import heading
from quarterwalk.cli.plan_cache import plan_named
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.cli.standing import Standing
from quarterwalk.crop import Stage, StageName
from quarterwalk.guideline import Guideline
from quarterwalk.plan import Plan
from quarterwalk.reading import Reading
from quarterwalk.walk import WalkHead

_INKS = {
    Verdict.HOLD: Ink.HOLD,
    Verdict.LOOK_SOONER: Ink.LOOK_SOONER,
    Verdict.TREAT: Ink.TREAT,
    Verdict.NONE: Ink.NONE,
}
_URGENCY = (Verdict.TREAT, Verdict.LOOK_SOONER, Verdict.NONE, Verdict.HOLD)
_LAST = "9999-12-31"


@dataclass(frozen=True, slots=True)
class Judgement:
    """One walk, its reading and its call."""

    head: WalkHead
    reading: Reading
    call: Call


def judge_walks(
    heads: Sequence[WalkHead],
    readings: Sequence[Reading],
    standings: Sequence[Standing],
    guideline: Guideline,
    options: CallOptions,
) -> list[Judgement]:
    """Make a call on every walk of a file.

    Parameters
    ----------
    heads : sequence of WalkHead
        Fields and days.
    readings : sequence of Reading
        What was counted on each walk.
    standings : sequence of Standing
        Where each walk's field stood.
    guideline : Guideline
        The region's rule.
    options : CallOptions
        What the advisor chose.

    Returns
    -------
    list of Judgement
        In the order of the file.
    """
    options = replace(options, plans=_plans_named(readings))
    judged = []
    for head, reading, standing in zip(heads, readings, standings, strict=True):
        call = make_call(
            reading,
            standing.stage,
            guideline,
            on=head.date,
            treated=standing.dates.last_treated_before(head.date),
            options=options,
        )
        judged.append(Judgement(head, reading, call))
    return judged


def _plans_named(readings: Sequence[Reading]) -> tuple[Plan, ...]:
    """Find the stop plans that walks name, also those made on this machine."""
    names = dict.fromkeys(reading.plan for reading in readings if reading.plan)
    found = (plan_named(name) for name in names)
    return tuple(each.plan for each in found if each is not None)


def print_call(judged: Judgement, about: str = "") -> None:
    """Print one call as a person explains it.

    Parameters
    ----------
    judged : Judgement
        The walk and its call.
    about : str
        What is known of the field, such as its area; may be empty.
    """
    call = judged.call
    heading(judged.head, judged.reading, stage=stage_words(call.stage), about=about)
    print()
    print(f"  {inked(headline(call).upper(), _INKS[call.verdict])}")
    for section in explain(call):
        print()
        print(f"  {inked(section.title, Ink.HEAD)}")
        for sentence in section.sentences:
            say(sentence, indent=4)
    used = call.guideline
    own = " (your own file)" if used.own else ""
    print()
    say(f"Guideline: {used.name}, edition {used.edition}{own}, content {used.hash[:12]}.", indent=2)
    print()


def stage_words(stage: Stage) -> str:
    """Say where the crop stands.

    Parameters
    ----------
    stage : Stage
        On the day of the walk.

    Returns
    -------
    str
    """
    if stage.name is StageName.SQUARING:
        weeks = listed([str(week) for week in stage.squaring_weeks], "or")
        perhaps = "perhaps " if stage.days[0] < 0 else ""
        return f"{perhaps}week {weeks} of squaring"
    return {StageName.BEFORE_SQUARING: "before squaring"}.get(stage.name, "blooming")


def print_brief(judged: Sequence[Judgement]) -> None:
    """Print one line a walk, the most urgent first, and how many there are of each.

    Parameters
    ----------
    judged : sequence of Judgement
        The walks and their calls.
    """
    ordered = sorted(judged, key=_urgency)
    width = max(map(len, ["field", *(j.head.field for j in judged)]))
    print(
        inked(
            f"{'field':<{width}}  {'walked':<10}  {'insects':>8}  {'set':>5}  "
            f"{'call':<13}  {'sure':<10}  look again",
            Ink.QUIET,
        )
    )
    for j in ordered:
        _brief_line(j, width)
    counts = Counter(j.call.verdict for j in judged)
    told = [f"{counts[v]} {VERDICT_WORDS[v].lower()}" for v in _URGENCY if counts[v]]
    noun = "walk" if len(judged) == 1 else "walks"
    print(f"\n{len(judged)} {noun}: {', '.join(told)}. * marks a provisional call.")


def _urgency(judged: Judgement) -> tuple[int, str, str]:
    look = judged.call.next_look
    due = _LAST if look is None else look.latest.isoformat()
    return _URGENCY.index(judged.call.verdict), due, judged.head.field


def _brief_line(judged: Judgement, width: int) -> None:
    call, reading = judged.call, judged.reading
    used = call.guideline
    insects = "–" if reading.per_100 is None else short(reading.per_100, used.line)
    floor = None if used.floor is None else 100 * used.floor
    good = "–" if reading.square_set is None else short(100 * reading.square_set, floor) + " %"
    word = VERDICT_WORDS[call.verdict].lower() + ("*" if call.provisional else "")
    sure = "" if call.sure is None else call.sure.value
    look = "–" if call.next_look is None else call.next_look.latest.isoformat()
    print(
        f"{judged.head.field:<{width}}  {judged.head.date.isoformat()}  {insects:>8}  {good:>5}  "
        f"{inked(f'{word:<13}', _INKS[call.verdict])}  {sure:<10}  {look}"
    )
