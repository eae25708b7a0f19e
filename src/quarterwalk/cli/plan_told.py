"""A stop plan in plain words, on the screen."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.call.figures import capital, listed, number
from quarterwalk.cli.plan_chosen import Chosen, bar_words
from quarterwalk.cli.plan_ground import Ground
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.plan import (
    Cost,
    Look,
    Lost,
    Question,
    Row,
    RowFigures,
    SquaresOn,
    Stopping,
    clear_field,
)
from quarterwalk.report.stop_card_back import of_100
from quarterwalk.walk import QUADRANTS

DESIGN_WORDS = {(2, 3): "two loops", (1, 2, 2): "three loops"}
"""What people call the designs."""

# Columns of a field's name in the table of minutes. [characters]
_NAME = 18


def say_question(chosen: Chosen) -> None:
    """Say what decides, where squares are counted, and what a walk may end for.

    Parameters
    ----------
    chosen : Chosen
        The rule, the week and the plans.
    """
    own = " (your own file)" if chosen.guideline.own else ""
    print(inked(f"{chosen.guideline.name}{own}, week {chosen.week} of squaring", Ink.HEAD))
    question = chosen.question
    say(
        f"Treat at {number(question.line)} insects or more per 100 plants{bar_words(question)}.",
        indent=2,
    )
    say(_squares(chosen), indent=2)
    if chosen.stopping is Stopping.HOLD_ONLY:
        say("A walk may end early for one answer only: not to treat.", indent=2)
    else:
        say("A walk may end early for either answer: not to treat, or to treat.", indent=2)


def _squares(chosen: Chosen) -> str:
    if chosen.question.bar is None:
        return "Squares are not asked for: insects decide alone."
    each = f"about {chosen.squares_a_plant:g} on a plant"
    if chosen.squares_on is SquaresOn.EVERY_PLANT:
        return f"Squares are counted on every plant, {each}."
    plants = chosen.square_plants(chosen.plans[0].plan.loops)
    return (
        f"Squares are counted on {plants} plants, {plants // len(QUADRANTS)} in each quarter,"
        f" all in the first loop, {each}."
    )


def say_plan(cost: Cost) -> None:
    """Say at which counts a walk may end, how many do, and what that costs in errors.

    Parameters
    ----------
    cost : Cost
        A plan, with the row of the usual number of squares.
    """
    plan, row = cost.shelved.plan, cost.row
    loops = " + ".join(str(20 * stops) for stops in plan.loops)
    say()
    head = f"{DESIGN_WORDS[plan.loops].capitalize()}, {loops} plants: plan {plan.short}"
    print(f"  {inked(head, Ink.HEAD)}")
    for number_, look in enumerate(plan.looks, start=1):
        _say_look(plan.question, look, look.rows[row], number_)
    _say_figures(plan.question, cost.shelved.figures[row], [look.plants for look in plan.looks])


def _say_look(question: Question, look: Look, row: Row, loop: int) -> None:
    squares = "" if question.bar is None else f", with {row.squares} squares checked"
    say(
        f"After loop {loop}: {look.plants} plants, {look.plants // len(QUADRANTS)} in each"
        f" quarter{squares}:",
        indent=4,
    )
    ends = ends_told(question, row)
    for each in ends:
        say(each, indent=6, hanging=8)
    say(f"{'Anything else: go' if ends else 'Go'} on with loop {loop + 1}.", indent=6)


def ends_told(question: Question, row: Row) -> list[str]:
    """Say at which counts a walk ends at a look.

    Parameters
    ----------
    question : Question
        What is answered.
    row : Row
        The limits.

    Returns
    -------
    list of str
        A sentence for each answer that the walk may end with; none where it always goes on.
    """
    low, high = _low(question, row), _high(question, row)
    not_to_treat = [f"{low}: stop, do not treat."] if low else []
    return [*not_to_treat, f"{high}: stop, treat."] if high else not_to_treat


def _low(question: Question, row: Row) -> str:
    limits = {"insects": row.insects_low}
    if question.bar is not None:
        limits |= {f"{lost_word(question)} squares": row.lost_low, "together": row.sum_low}
    told = [f"{what} {most} or fewer" for what, most in limits.items() if most >= 0]
    return capital(", or ".join(told))


def _high(question: Question, row: Row) -> str:
    if row.insects_high is None or row.lost_high is None:
        return ""
    told = f"Insects {row.insects_high} or more"
    if question.bar is None:
        return told
    return f"{told} and {lost_word(question)} squares {row.lost_high} or more"


def lost_word(question: Question) -> str:
    """Say what the squares that count against the bar are: lost, or blasted."""
    blasted = question.bar is not None and question.bar.lost is Lost.BLASTED
    return "blasted" if blasted else "lost"


def _say_figures(question: Question, figures: RowFigures, plants: Sequence[int]) -> None:
    usual = _ends(figures.ends, plants)
    clear = _ends(figures.clear_ends, plants)
    say(f"Of 100 walks over the usual spread of fields (assumed), {usual}.", indent=4, hanging=6)
    say(f"In a clear field ({_field(question)}), {clear}.", indent=4, hanging=6)
    say(
        f"Plants checked: {figures.plants:.0f} on average, {figures.clear_plants:.0f} in a clear"
        " field.",
        indent=4,
    )
    say(
        f"Wrong answers: in clear fields at most {_more(figures.worst_clear)} more in 100 walks"
        f" than by full walks, near the lines at most {_more(figures.worst_near)} more, in the"
        " worst of four ways in which insects and lost squares may lie.",
        indent=4,
        hanging=6,
    )


def _ends(ends: Sequence[float], plants: Sequence[int]) -> str:
    told = [
        f"{walks} end at {count} plants"
        for walks, count in zip(of_100(ends), (*plants, 100), strict=True)
        if walks
    ]
    return listed(told)


def _more(points: float) -> str:
    return f"{max(0.0, points):.1f}"


def _field(question: Question) -> str:
    density, share = clear_field(question)
    insects = f"{100 * density:.3g} insects per 100"
    if question.bar is None:
        return insects
    if question.bar.lost is Lost.BLASTED:
        return f"{insects}, {100 * share:.0f} % of the squares blasted"
    return f"{insects}, square set {100 * (1 - share):.0f} %"


def say_minutes(ground: Sequence[Ground], chosen: Chosen) -> None:
    """Say the minutes of each plan in each field, and which is picked.

    Parameters
    ----------
    ground : sequence of Ground
        The fields.
    chosen : Chosen
        The plans.
    """
    designs = [each.plan.loops for each in chosen.plans]
    pace = chosen.pace
    say()
    print(f"  {inked('Minutes, on average over the usual spread of fields', Ink.HEAD)}")
    heads = "".join(f"{DESIGN_WORDS[loops]:>13}" for loops in designs)
    print(inked(f"    {'field':<{_NAME}}{'acres':>6}{'full walk':>11}{heads}  picked", Ink.QUIET))
    for each in ground:
        _say_field(each)
    if any(each.picked is None for each in ground):
        say("Walk all 100: no plan saves minutes there.", indent=4)
    squares = f"{pace.seconds_with_squares:g} seconds for a plant with its squares, "
    say(
        f"{squares if chosen.question.bar else ''}{pace.seconds_insects:g} seconds for a terminal"
        f" alone, {pace.metres_a_minute:g} metres a minute. The full walk is one tour through all"
        " stops; each loop of a plan comes back to the entry.",
        indent=4,
    )


def _say_field(ground: Ground) -> None:
    name = ground.name or "a square field"
    name = name if len(name) < _NAME else name[: _NAME - 2] + "…"
    full = ground.costs[0].full_minutes
    each = "".join(f"{cost.minutes:>13.0f}" for cost in ground.costs)
    print(f"    {name:<{_NAME}}{ground.acres:>6.0f}{full:>11.0f}{each}  {_picked(ground.picked)}")


def _picked(cost: Cost | None) -> str:
    if cost is None:
        return "walk all 100"
    return DESIGN_WORDS[cost.shelved.plan.loops]
