"""What a grower is told of one walk: sentences ready to print, and what the pictures need."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.call import Call, Verdict
from quarterwalk.field import Layout
from quarterwalk.reading import Reading


@dataclass(frozen=True, slots=True)
class Footing:
    """What a report stands on, for its foot.

    Parameters
    ----------
    rule : str
        Which guideline, in which edition.
    sources : str
        Where its numbers come from; empty where that is not known here.
    most_likely : str
        What "most likely" means; empty where no range is shown.
    walked : str
        Who walked, and how much was looked at.
    prevails : str
        What stands above this advice.
    """

    rule: str
    sources: str
    most_likely: str
    walked: str
    prevails: str

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """What it holds, in the order in which it is printed."""
        walk = " ".join(part for part in (self.walked, self.most_likely) if part)
        rule = " ".join(part for part in (self.rule, self.sources) if part)
        return (walk, rule, self.prevails)


@dataclass(frozen=True, slots=True)
class Report:
    """One walk's call as its grower reads it; page, PDF and short text show the same.

    Every text is worded already, in one language, and is plain text: whatever shows it
    escapes it in its own way.

    Parameters
    ----------
    language : str
        What it is worded in.
    field, grower, acres : str
        Which field, for whom, how large; grower and acres may be empty.
    day : str
        The day of the walk in words, with the year.
    verdict_words : str
        The verdict as people say it.
    headline : str
        The call in one or two plain sentences.
    insects, squares : str
        The numbers against their lines, in brief; empty where there is none.
    reasons : tuple of str
        All reasons of the call, in its order.
    sure : tuple of str
        How sure it is, without odds; what is lacking, what would settle it.
    next_look : tuple of str
        When to come back.
    host_weeds : str
        What to do about host weeds at this stage.
    care : tuple of str
        All cautions of the call.
    found_note : str
        What the numbers on the field's shape are; empty where no shape is known.
    ask : str
        Whom to ask.
    footing : Footing
        What it stands on.
    reading : Reading
        What the walk says.
    call : Call
        The call.
    on : date
        The day of the walk.
    layout : Layout or None
        The field's shape, where it is known.
    level : float
        Chance that a printed range holds the true value. [fraction]
    """

    language: str
    field: str
    grower: str
    acres: str
    day: str
    verdict_words: str
    headline: str
    insects: str
    squares: str
    reasons: tuple[str, ...]
    sure: tuple[str, ...]
    next_look: tuple[str, ...]
    host_weeds: str
    care: tuple[str, ...]
    found_note: str
    ask: str
    footing: Footing
    reading: Reading
    call: Call
    on: date
    layout: Layout | None
    level: float

    @property
    def verdict(self) -> Verdict:
        """What to do."""
        return self.call.verdict

    @property
    def about(self) -> str:
        """The day, and how large the field is where that is known."""
        return ", ".join(part for part in (self.day, self.acres) if part)
