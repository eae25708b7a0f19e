"""What the card says besides its numbers, in the language spoken."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.call import Verdict
from quarterwalk.call.figures import number
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.plan import Lost, Plan, Question, Row, SquaresOn, Stopping
from quarterwalk.walk import QUADRANTS
from quarterwalk.words import phrase


@dataclass(frozen=True, slots=True)
class Rule:
    """What to do where the counts are so.

    Parameters
    ----------
    verdict : Verdict or None
        Whose mark stands beside it; None where the walk goes on.
    when : str
        How the counts are.
    then : str
        What to do.
    """

    verdict: Verdict | None
    when: str
    then: str


@dataclass(frozen=True, slots=True)
class CardWords:
    """Every text that stands on the front of the card once.

    Parameters
    ----------
    title : str
        What the card answers.
    insects, lost, together : str
        Heads of the three groups of limits.
    checked, low, high, sum : str
        Heads of the columns.
    or_more, between, fewer, any : str
        Over large numbers with which the walk goes on, where insects decide alone.
    go_on : str
        What stands for the next loop where marks stand for the other rules: its plants.
    at_end : str
        The published rule, for the full walk.
    foot : tuple of str
        How to read it.
    names : tuple of str
        Guideline and plan.
    """

    title: str
    insects: str
    lost: str
    together: str
    checked: str
    low: str
    high: str
    sum: str
    or_more: str
    between: str
    fewer: str
    any: str
    go_on: str
    at_end: str
    foot: tuple[str, ...]
    names: tuple[str, ...]


def card_words(plan: Plan, guideline: Guideline, week: int, square_plants: int) -> CardWords:
    """Word the front of a card.

    Parameters
    ----------
    plan : Plan
        Whose limits it shows.
    guideline : Guideline
        The rule that it follows.
    week : int
        Squaring week, from 1.
    square_plants : int
        Plants of the first loop whose squares are counted. [count]

    Returns
    -------
    CardWords
        In the language spoken.
    """
    blasted = _blasted(plan.question)
    return CardWords(
        title=phrase("May I stop yet?"),
        insects=phrase("Insects so far"),
        lost=phrase("Blasted so far") if blasted else phrase("Squares lost so far"),
        together=phrase("Together"),
        checked=phrase("squares checked"),
        low=phrase("LOW or less"),
        high=phrase("HIGH or more"),
        sum=phrase("SUM or less"),
        or_more=phrase("this or more"),
        between=phrase("between them"),
        fewer=phrase("fewer"),
        any=phrase("any number"),
        go_on=_go_on(plan),
        at_end=_at_end(plan.question),
        foot=_foot(plan, square_plants),
        names=(
            phrase(
                "{name}, edition {edition}, week {week} of squaring.",
                name=guideline.name,
                edition=guideline.edition,
                week=week,
            ),
            phrase('Plan {plan}: write it in the column "plan".', plan=plan.short),
        ),
    )


def about(question: Question, week: int) -> tuple[str, ...]:
    """Say for the head which week the card is for, and which line.

    Parameters
    ----------
    question : Question
        What decides.
    week : int
        Squaring week, from 1.

    Returns
    -------
    tuple of str
        Two lines.
    """
    line, bar = number(question.line), question.bar
    if bar is None:
        told = phrase("line {line}", line=line)
    elif bar.lost is Lost.BLASTED:
        told = phrase("line {line}, blasted {share} %", line=line, share=number(100 * bar.share))
    else:
        told = phrase(
            "line {line}, floor {floor} %", line=line, floor=number(100 - 100 * bar.share)
        )
    return phrase("Week {week} of squaring", week=week), told


def look_title(loop: int, plants: int) -> str:
    """Say when a block of the card is looked at.

    Parameters
    ----------
    loop : int
        After which, from 1.
    plants : int
        Checked by then. [count]

    Returns
    -------
    str
        In the language spoken.
    """
    each = plants // len(QUADRANTS)
    if loop == 1:
        return phrase(
            "After the first loop: {plants} plants, {each} in each quarter",
            plants=plants,
            each=each,
        )
    return phrase(
        "After the second loop: {plants} plants, {each} in each quarter", plants=plants, each=each
    )


def rules(question: Question, *, highs: bool) -> tuple[Rule, ...]:
    """Word what to do.

    Parameters
    ----------
    question : Question
        What decides.
    highs : bool
        Whether the walk may end to treat.

    Returns
    -------
    tuple of Rule
        The first that fits holds.
    """
    asked, blasted = question.bar is not None, _blasted(question)
    if not asked:
        few = phrase("Insects LOW or less:")
        many = phrase("Insects HIGH or more:")
    elif blasted:
        few = phrase("Insects LOW, or blasted LOW, or together SUM:")
        many = phrase("Insects HIGH and blasted HIGH:")
    else:
        few = phrase("Insects LOW, or lost LOW, or together SUM:")
        many = phrase("Insects HIGH and lost HIGH:")
    told = [Rule(Verdict.HOLD, few, phrase("stop, do not treat"))]
    if highs:
        told.append(Rule(Verdict.TREAT, many, phrase("stop, treat")))
    told.append(Rule(None, phrase("Anything else:"), phrase("go on with the next loop")))
    return tuple(told)


def _at_end(question: Question) -> str:
    line, bar = number(question.line), question.bar
    if bar is None:
        return phrase("At 100: treat if {line} or more insects", line=line)
    if bar.lost is Lost.BLASTED:
        return phrase(
            "At 100: treat if {line} or more insects and {share} % or more blasted",
            line=line,
            share=number(100 * bar.share),
        )
    return phrase(
        "At 100: treat if {line} or more insects and set under {floor} %",
        line=line,
        floor=number(100 - 100 * bar.share),
    )


def _foot(plan: Plan, square_plants: int) -> tuple[str, ...]:
    told = [phrase("Look at the end of a loop, not before each quarter has its plants.")]
    if plan.question.bar is None:
        return tuple(told)
    if plan.squares_on is SquaresOn.EVERY_PLANT:
        told.append(phrase("Count squares on every plant."))
    else:
        told.append(
            phrase(
                "Count squares on {each} plants in each quarter, all in the first loop.",
                each=square_plants // len(QUADRANTS),
            )
        )
    if _blasted(plan.question):
        told.append(phrase("Only blasted squares count as blasted, not missing or flared ones."))
        told.append(phrase("Together = insects and blasted squares added up."))
    else:
        told.append(phrase("Lost = missing, blasted or flared."))
        told.append(phrase("Together = insects and lost squares added up."))
    if plan.stopping is Stopping.EITHER_WAY:
        told.append(
            phrase(
                "Squares between two rows: of both rows the smaller LOW and SUM, the larger HIGH;"
                " no HIGH where one has a dash."
            )
        )
    else:
        told.append(phrase("Squares between two rows: of both rows the smaller LOW and SUM."))
    told.append(phrase("Fewer or more squares than in all rows: go on."))
    if any(_lacking(row) for look in plan.looks for row in look.rows):
        told.append(phrase("–: no number will do."))
    return tuple(told)


def _lacking(row: Row) -> bool:
    return min(row.insects_low, row.lost_low, row.sum_low) < 0


def _go_on(plan: Plan) -> str:
    """Write the plants of the next loop; a bare sign where later loops differ."""
    a_stop = len(QUADRANTS) * load_routine().plants_a_stop
    later = set(plan.loops[1:])
    return f"+{a_stop * later.pop()}" if len(later) == 1 else "+"


def _blasted(question: Question) -> bool:
    return question.bar is not None and question.bar.lost is Lost.BLASTED
