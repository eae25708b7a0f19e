"""A call: the verdict on one field, with all that led to it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction

from quarterwalk.crop import Stage
from quarterwalk.words import ENGLISH, noted, phrase, phrase_as, spoken_in


class Verdict(StrEnum):
    """What to do with the field."""

    HOLD = "hold"
    LOOK_SOONER = "look-sooner"
    TREAT = "treat"
    NONE = "none"


class Sureness(StrEnum):
    """How far the walk bears the verdict out."""

    CLEAR = "clear"
    CLOSE = "close"
    CANT_TELL = "can't tell"


@dataclass(frozen=True, slots=True)
class Reason:
    """One rule that fired: a code for programs, a sentence for people."""

    code: str
    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that can hurt someone or something, said where the decision is made."""

    code: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class GuidelineUsed:
    """Which guideline a call rests on, so that it can be explained next year.

    Parameters
    ----------
    name, edition, hash : str
        The guideline's name, edition and content hash.
    own : bool
        Whether it is the user's own file.
    line : Fraction or None
        The line in force for this walk; None for none. [insects per 100]
    floor : Fraction or None
        The square set floor in force; None for none. [fraction, 0 to 1]
    blasted : Fraction or None
        The share of blasted squares it asks for; None where it asks for none. [fraction,
        0 to 1]
    """

    name: str
    edition: str
    hash: str
    own: bool
    line: Fraction | None
    floor: Fraction | None
    blasted: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Chances:
    """Chances that the field's true values are past the lines. [fraction]

    Parameters
    ----------
    over : float or None
        That the true density is at or above the line.
    under : float or None
        That the true square set is below the floor; None without a floor, or
        where set is not readable.
    treat : float or None
        That the rule, applied to the true values, says treat; None where the
        rule needs a set that is not readable.
    """

    over: float | None = None
    under: float | None = None
    treat: float | None = None


@dataclass(frozen=True, slots=True)
class Look:
    """When to come back: the first and the last good day."""

    soonest: date
    latest: date


@dataclass(frozen=True, slots=True)
class Call:
    """A verdict that carries its own evidence.

    Parameters
    ----------
    verdict : Verdict
        What to do.
    sure : Sureness or None
        How far the walk bears it out; None for verdict ``none``.
    provisional : bool
        Whether something is lacking that could change it.
    next_look : Look or None
        When to come back; None after the season.
    reasons : tuple of Reason
        At least one, the weightiest first.
    cautions : tuple of Caution
        What to take care of.
    host_weeds : Reason
        What to do about host weeds at this stage.
    settle : Reason or None
        What would settle a call that is not clear.
    stage : Stage
        Where the crop stands.
    guideline : GuidelineUsed
        The rule that was applied.
    chances : Chances
        How likely the true values are past the lines.
    language : str
        The one its sentences are in.
    """

    verdict: Verdict
    sure: Sureness | None
    provisional: bool
    next_look: Look | None
    reasons: tuple[Reason, ...]
    cautions: tuple[Caution, ...]
    host_weeds: Reason
    settle: Reason | None
    stage: Stage
    guideline: GuidelineUsed
    chances: Chances
    language: str = ENGLISH

    def __post_init__(self) -> None:
        if not self.reasons:
            raise ValueError("a call without a reason is a guess; give at least one Reason")

    def __str__(self) -> str:
        with spoken_in(self.language):
            return f"{verdict_words(self.verdict)}. " + " ".join(r.text for r in self.reasons)


VERDICT_WORDS = {
    Verdict.HOLD: noted("Hold"),
    Verdict.LOOK_SOONER: noted("Look sooner"),
    Verdict.TREAT: noted("Treat"),
    Verdict.NONE: noted("No call"),
}
"""The verdicts as people say them, in English."""


def verdict_words(verdict: Verdict) -> str:
    """Give a verdict as people say it.

    Parameters
    ----------
    verdict : Verdict
        What a call says.

    Returns
    -------
    str
    """
    return phrase(VERDICT_WORDS[verdict])


def sureness_word(sure: Sureness) -> str:
    """Give the word that growers are given for how sure a call is.

    Parameters
    ----------
    sure : Sureness
        How far the walk bears the verdict out.

    Returns
    -------
    str
    """
    if sure is Sureness.CLEAR:
        return phrase_as("how sure", "clear")
    if sure is Sureness.CLOSE:
        return phrase_as("how sure", "close")
    return phrase_as("how sure", "can't tell")
