"""Where no advice can be given: out of season, no line for the method, nobody looked."""

from __future__ import annotations

from datetime import date, timedelta

from quarterwalk.call.cautions import host_weeds
from quarterwalk.call.clock_told import in_doubt, worked_out
from quarterwalk.call.figures import day_words
from quarterwalk.call.season import InSeason, Outside
from quarterwalk.call.verdict import (
    Call,
    Chances,
    GuidelineUsed,
    Look,
    Reason,
    Verdict,
)
from quarterwalk.crop import Stage, StageName
from quarterwalk.guideline import Guideline, SeasonEnd, load_routine
from quarterwalk.reading import Reading
from quarterwalk.walk import Method
from quarterwalk.words import language_spoken, noted, phrase

_ENDS = {
    SeasonEnd.WEEK_3: noted(
        "The season of {guideline} is over: it ends after week 3 of squaring, or at first bloom."
    ),
    SeasonEnd.FIRST_BLOOM: noted("The season of {guideline} is over: it ends at first bloom."),
    SeasonEnd.WEEK_AFTER_BLOOM: noted(
        "The season of {guideline} is over: it ends 7 days after first bloom."
    ),
}

_MADE = {
    Method.TERMINAL: noted("the terminal check"),
    Method.WHOLE_PLANT: noted("the whole-plant check"),
    Method.BUCKET: noted("the beat bucket"),
    Method.SWEEP: noted("the sweep net"),
}


def made_with(method: Method) -> str:
    """Name a way of counting, as it stands inside a sentence.

    Parameters
    ----------
    method : Method
        How insects are counted.

    Returns
    -------
    str
        Such as ``the sweep net``.
    """
    return phrase(_MADE[method])


def no_call(
    reading: Reading, stage: Stage, guideline: Guideline, season: InSeason, on: date
) -> Call | None:
    """Say why no advice can be given, where none can.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    stage : Stage
        Where the crop stood on the day of the walk.
    guideline : Guideline
        The rule.
    season : InSeason
        What the guideline has to go by.
    on : date
        The day of the walk.

    Returns
    -------
    Call or None
        A call with verdict ``none``; None where the rule can be applied.
    """
    why = _why(reading, stage, guideline, season)
    if why is None:
        return None
    reason, days = why
    looked = None if days is None else on + timedelta(days=days)
    return Call(
        verdict=Verdict.NONE,
        sure=None,
        provisional=in_doubt(stage),
        next_look=None if looked is None else Look(looked, looked),
        reasons=(reason, *worked_out(stage)),
        cautions=(),
        host_weeds=host_weeds(stage, squares_seen=reading.squaring_plants > 0),
        settle=None,
        stage=stage,
        guideline=GuidelineUsed(
            guideline.name, guideline.edition, guideline.hash, guideline.own, None, None
        ),
        chances=Chances(),
        language=language_spoken(),
    )


def out_of_season(stage: Stage, guideline: Guideline, season: InSeason) -> Reason | None:
    """Say why a guideline has nothing to say on a day.

    Parameters
    ----------
    stage : Stage
        Where the crop stands on the day.
    guideline : Guideline
        The rule.
    season : InSeason
        What the guideline has to go by.

    Returns
    -------
    Reason or None
        None where the day is inside the season.
    """
    if season.outside is None:
        return None
    if season.outside is Outside.BEFORE:
        text = phrase("The field is not squaring yet, and the guideline begins at first square.")
    elif season.outside is Outside.OVER:
        text = _over(stage, guideline)
    else:
        text = _bloom_asked(stage)
    return Reason(season.outside.value, text)


def _bloom_asked(stage: Stage) -> str:
    """Ask for the date of first bloom, or for what is wrong where no flower stands."""
    looked = None if stage.worked_out is None else stage.worked_out.no_flower
    days = load_routine().no_call_after
    if looked is None:
        return phrase(
            "First square was more than {days} days ago and no bloom date is given."
            " Give the date of first bloom, and this walk gets its call.",
            days=days,
        )
    return phrase(
        "First square was more than {days} days ago, and no white flower was seen by {day}: one of"
        " the two is wrong. Make sure of the day of first square, or give the date of first bloom,"
        " and this walk gets its call.",
        days=days,
        day=day_words(looked),
    )


def _why(
    reading: Reading, stage: Stage, guideline: Guideline, season: InSeason
) -> tuple[Reason, int | None] | None:
    """Give the reason, and the days to the next look (None: none is due)."""
    outside = out_of_season(stage, guideline, season)
    if outside is not None:
        before = season.outside is Outside.BEFORE
        return outside, load_routine().before_squaring if before else None
    if reading.method is not guideline.method:
        text = phrase(
            "{guideline} has a line for {asked} only; this walk was made with {made}.",
            guideline=guideline.name,
            asked=made_with(guideline.method),
            made=made_with(reading.method),
        )
        return Reason("no-line-for-method", text), 0
    if reading.density is None:
        return Reason("no-insect-check", phrase("No plant was checked for insects.")), 0
    return None


def _over(stage: Stage, guideline: Guideline) -> str:
    text = phrase(_ENDS[guideline.season_end], guideline=guideline.name)
    if stage.name is StageName.BLOOMING:
        blooms = phrase("The field blooms.")
        return f"{text} {blooms}"
    return text
