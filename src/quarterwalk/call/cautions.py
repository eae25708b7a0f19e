"""What to take care of, said where the decision is made. Nothing here is a rate or an interval."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from quarterwalk.call.clock_told import in_doubt
from quarterwalk.call.figures import day_words
from quarterwalk.call.verdict import Caution, Reason, Verdict
from quarterwalk.crop import Event, Stage, StageName
from quarterwalk.words import noted, phrase

_COMMON = noted("common practice")

_LABEL = Caution(
    "label",
    noted(
        "The label and local rules decide what may be used, how much and when, before anything"
        " said here; a licensed applicator has the last word."
    ),
    _COMMON,
)
_BEES = Caution(
    "bees",
    noted("Look for bees and for anything in flower, in the field and beside it, before spraying."),
    _COMMON,
)
_DRIFT = Caution(
    "drift",
    noted("Mind wind and still evening air: spray must stay on the field."),
    _COMMON,
)
_RE_ENTRY = Caution(
    "re-entry",
    noted(
        "Nobody walks the field after a spray until the re-entry time on the label has passed;"
        " of several products the longest holds."
    ),
    _COMMON,
)
_FLARE = Caution(
    "flare",
    noted("A broad spray also kills the insects that keep aphids and bollworms down."),
    _COMMON,
)

# From here on weeds may be cleared after bloom, as in a season: 19 in 20 (a rule of this
# project). [fraction]
NEARLY_SURE = 0.95


def cautions_for(verdict: Verdict, *, recently_treated: bool) -> tuple[Caution, ...]:
    """Give the cautions that go with a verdict.

    Parameters
    ----------
    verdict : Verdict
        What the call says.
    recently_treated : bool
        Whether the field was treated in the last days.

    Returns
    -------
    tuple of Caution
    """
    if verdict is Verdict.TREAT:
        return tuple(map(_worded, (_LABEL, _BEES, _DRIFT, _RE_ENTRY, _FLARE)))
    return (_worded(_RE_ENTRY),) if recently_treated else ()


def _worded(caution: Caution) -> Caution:
    return replace(caution, text=phrase(caution.text), source=phrase(caution.source))


def prevails() -> str:
    """Say what stands above anything that is said here.

    Returns
    -------
    str
        The caution of the label.
    """
    return phrase(_LABEL.text)


def care_in_the_field() -> tuple[str, ...]:
    """Say what whoever walks a field takes care of (common practice).

    Returns
    -------
    tuple of str
        Heat, and when a field is closed.
    """
    return (
        phrase("Heat: carry water, drink before you are thirsty, rest in the shade."),
        phrase("After a spray nobody enters before the time on the label is over."),
    )


def host_weeds(stage: Stage, *, squares_seen: bool = False, on: date | None = None) -> Reason:
    """Say what to do about host weeds at a stage (common practice).

    Parameters
    ----------
    stage : Stage
        Where the crop stands.
    squares_seen : bool
        Whether any plant has a square already, before first square.
    on : date or None
        The day of the stage, where what is said of it may be read on later days too: then the
        last day to clear weeds is named.

    Returns
    -------
    Reason
    """
    worked = stage.worked_out
    if worked is not None and worked.squares_seen:
        squares_seen = True
    if stage.name is StageName.BEFORE_SQUARING and squares_seen:
        text = phrase(
            "The first squares are there: leave host weeds standing until after bloom,"
            " since cutting or spraying them now sends the insects into the cotton."
        )
    elif stage.name is StageName.BEFORE_SQUARING and on is not None:
        # so many days after first square, so below 0
        last = on - timedelta(days=stage.days[1] + 1)
        text = phrase(
            "Clear host weeds by {day} at the latest: once there are squares, clearing them"
            " sends the insects into the cotton.",
            day=day_words(last),
        )
    elif stage.name is StageName.BEFORE_SQUARING:
        text = phrase(
            "Clear host weeds now, while there is no square yet;"
            " once squaring has begun, leave them until after bloom."
        )
    elif stage.name is StageName.SQUARING and _blooms_by_weather(stage):
        text = phrase(
            "The field most likely blooms by now, so host weeds around it may be cleared;"
            " look for a white flower first."
        )
    elif stage.name is StageName.BLOOMING and bloom_in_doubt(stage):
        text = weeds_in_doubt()
    elif stage.name is StageName.SQUARING:
        text = phrase(
            "Leave host weeds standing until after bloom:"
            " cutting or spraying them now sends the insects into the cotton."
        )
    else:
        text = phrase("The field blooms, so host weeds around it may be cleared.")
    return Reason(f"host-weeds-{stage.name}", text)


def _blooms_by_weather(stage: Stage) -> bool:
    """Tell whether first bloom has come 19 times in 20, though nobody saw a flower."""
    worked = stage.worked_out
    return worked is not None and not stage.bloom_known and worked.weeks.blooming >= NEARLY_SURE


def weeds_in_doubt() -> str:
    """Say what to do about host weeds where flowers were seen that weather hardly allows.

    Returns
    -------
    str
    """
    return phrase(
        "Leave host weeds standing for now: flowers were seen, but by the weather they hardly can"
        " be here yet. Make sure of the flowers and of the day of planting first."
    )


def bloom_in_doubt(stage: Stage) -> bool:
    """Tell whether the bloom that was seen lies too far from the weather to act on.

    Parameters
    ----------
    stage : Stage
        Where the crop stands.

    Returns
    -------
    bool
    """
    odds = None if stage.worked_out is None else stage.worked_out.at_odds
    return in_doubt(stage) and odds is not None and odds.event is Event.FIRST_BLOOM
