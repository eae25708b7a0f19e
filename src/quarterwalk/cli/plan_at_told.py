"""Where a walk stands, in plain words on the screen."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.call.figures import capital, odds_words
from quarterwalk.cli.plan_at import Counts, Standing, Stands
from quarterwalk.cli.plan_chosen import Chosen
from quarterwalk.cli.plan_ground import Ground
from quarterwalk.cli.plan_told import DESIGN_WORDS, lost_word
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.plan import Question, Side

_SIDES = {Side.HOLD: "stop, do not treat.", Side.TREAT: "stop, treat."}


def say_standing(walk: Standing, chosen: Chosen, ground: Sequence[Ground]) -> None:
    """Say by each plan whether a walk ends at its counts, and what lies ahead if not.

    Parameters
    ----------
    walk : Standing
        The counts, and where they leave the walk.
    chosen : Chosen
        The rule.
    ground : sequence of Ground
        The fields.
    """
    say()
    print(f"  {inked('Where this walk stands', Ink.HEAD)}")
    say(f"After loop {walk.counts.look}: {_found(walk.counts, chosen.question)}.", indent=4)
    for each in walk.plans:
        loops = DESIGN_WORDS[each.plan.loops].capitalize()
        told = " ".join(_told(each, walk.counts, ground))
        say(f"{loops}, {each.checked} plants checked: {told}", indent=4, hanging=6)


def _found(counts: Counts, question: Question) -> str:
    insects = "1 insect" if counts.insects == 1 else f"{counts.insects} insects"
    if question.bar is None:
        return insects
    return f"{insects}, {counts.lost} of {counts.squares} squares {lost_word(question)}"


def _told(stands: Stands, counts: Counts, ground: Sequence[Ground]) -> list[str]:
    if stands.side in _SIDES:
        return [_SIDES[stands.side]]
    told = [f"go on with loop {counts.look + 1}."]
    if counts.squares < stands.least_squares:
        told.append(f"With fewer than {stands.least_squares} squares the plan ends no walk here.")
    if stands.plants is not None and stands.minutes is not None:
        told.append(_ahead(stands.plants, stands.minutes, ground, mean=stands.settled is not None))
    if stands.settled is not None:
        odds = odds_words(stands.settled)
        told.append(f"How likely loop {counts.look + 1} settles it: {odds}.")
    return told


def _ahead(plants: float, minutes: Sequence[float], ground: Sequence[Ground], *, mean: bool) -> str:
    """Say what lies ahead: a mean where a later look may end the walk, else just so much."""
    told = f"{minutes[0]:.0f} minutes"
    if len(ground) > 1:
        told += f" in {ground[0].name}"
    for each, spent in zip(ground[1:], minutes[1:], strict=True):
        told += f", {spent:.0f} in {each.name}"
    joined = f"{plants:.0f} plants lie ahead, {told}"
    return f"On average {joined}." if mean else f"{capital(joined)}."
