"""What a walk sheet says besides its rows, in the language spoken."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.call.cautions import care_in_the_field
from quarterwalk.guideline import Guideline
from quarterwalk.walk import COUNTS, Method
from quarterwalk.words import phrase, phrase_as


@dataclass(frozen=True, slots=True)
class Column:
    """One column to write in: the walk table's name for it, and what people call it."""

    name: str
    shown: str


@dataclass(frozen=True, slots=True)
class QuarterNote:
    """One thing to look at once in each quarter.

    Parameters
    ----------
    title : str
        What it is.
    choices : tuple of str
        One box to tick for each.
    numbers : int
        How many numbers are to be written. [count]
    line : bool
        Whether there is room for a word on it.
    """

    title: str
    choices: tuple[str, ...] = ()
    numbers: int = 0
    line: bool = False


@dataclass(frozen=True, slots=True)
class SheetWords:
    """Every printed text that is the same in all fields.

    Parameters
    ----------
    kind : str
        What the paper is.
    date, scout, start, end : str
        Before the lines at the head.
    gate, no, yes, closed, doubt : str
        The question at the gate, its answers, and what follows from them.
    how_head, care_head : str
        Heads of the next two.
    how : tuple of str
        How to fill in the rows.
    care : tuple of str
        Heat, and when a field is closed.
    stop, insects, squares : str
        Heads over the columns.
    columns : tuple of Column
        What is written about a plant, from its number on.
    once, tick : str
        Head of what is looked at once in each quarter, and how to mark it.
    notes : tuple of QuarterNote
        What that is.
    """

    kind: str
    date: str
    scout: str
    start: str
    end: str
    gate: str
    no: str
    yes: str
    closed: str
    doubt: str
    how_head: str
    how: tuple[str, ...]
    care_head: str
    care: tuple[str, ...]
    stop: str
    insects: str
    squares: str
    columns: tuple[Column, ...]
    once: str
    tick: str
    notes: tuple[QuarterNote, ...]


def sheet_words(guideline: Guideline | None, week: int | None, *, marked: bool) -> SheetWords:
    """Word everything that is the same in all fields.

    Parameters
    ----------
    guideline : Guideline or None
        The rule that the walk will be judged by, where it is known.
    week : int or None
        Squaring week, the first is 1; None where it is not known. [count]
    marked : bool
        Whether squares are counted on marked plants only.

    Returns
    -------
    SheetWords
        In the language spoken.
    """
    return SheetWords(
        kind=phrase("Walk sheet"),
        date=phrase("Date (year-month-day)"),
        scout=phrase("Scout"),
        start=phrase("Start"),
        end=phrase("End"),
        gate=phrase("At the gate: any spray, sign or flag since the last visit?"),
        no=phrase_as("box to tick", "no"),
        yes=phrase_as("box to tick", "yes"),
        closed=phrase("Closed until"),
        doubt=phrase("If in doubt, do not enter."),
        how_head=phrase("How to write it"),
        how=(
            phrase("One row a plant, in the order of walking."),
            phrase("Blank: not looked. 0: looked, none there."),
            _insects(guideline),
            _squares(guideline, week, marked=marked),
        ),
        care_head=phrase("Take care"),
        care=care_in_the_field(),
        stop=phrase_as("column", "stop"),
        insects=phrase_as("column", "insects"),
        squares=phrase_as("column", "first-position squares"),
        columns=_columns(),
        once=phrase("Once in each quarter"),
        tick=phrase("Tick what you saw. Blank: not looked."),
        notes=_notes(),
    )


def _insects(guideline: Guideline | None) -> str:
    method = guideline.method if guideline else Method.TERMINAL
    if method is Method.WHOLE_PLANT:
        return phrase("Fleahoppers: look over the whole plant, adults and nymphs apart.")
    if method is Method.BUCKET:
        return phrase("Fleahoppers: beat the plant into the bucket, adults and nymphs apart.")
    if method is Method.SWEEP:
        return phrase("This guideline counts with the sweep net; this sheet holds plants.")
    return phrase("Fleahoppers: on the terminal, adults and nymphs apart.")


def _squares(guideline: Guideline | None, week: int | None, *, marked: bool) -> str:
    if guideline is not None and not guideline.reads_squares:
        return phrase("Squares: this guideline does not ask for them. Count them if you wish.")
    if week is None:
        return phrase(
            "Squares: in week 1 of squaring on every plant, in week 2 on about 10 plants in"
            " each quarter, from week 3 on about 6."
        )
    if marked:
        return phrase(
            "Squares: week {week} of squaring, count them on the plants marked •.", week=week
        )
    return phrase("Squares: week {week} of squaring, count them on every plant.", week=week)


def _columns() -> tuple[Column, ...]:
    shown = (
        phrase_as("column", "plant"),
        phrase_as("column", "adults"),
        phrase_as("column", "nymphs"),
        phrase_as("column", "healthy"),
        phrase_as("column", "missing"),
        phrase_as("column", "blasted"),
        phrase_as("column", "flared"),
        phrase_as("column", "note"),
    )
    return tuple(map(Column, ("plant", *COUNTS, "note"), shown))


def _notes() -> tuple[QuarterNote, ...]:
    amounts = (
        phrase_as("box to tick", "none"),
        phrase_as("box to tick", "some"),
        phrase_as("box to tick", "many"),
    )
    sizes = (phrase_as("box to tick", "small"), phrase_as("box to tick", "large"))
    yes_or_no = (phrase_as("box to tick", "no"), phrase_as("box to tick", "yes"))
    return (
        QuarterNote(phrase("Lost squares were"), sizes),
        QuarterNote(phrase("Standing water"), yes_or_no),
        QuarterNote(phrase("Other pests, which"), amounts, line=True),
        QuarterNote(phrase("Host weeds, which"), amounts, line=True),
        QuarterNote(phrase("Fruiting branches, five plants"), numbers=5),
    )
