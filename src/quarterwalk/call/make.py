"""From a reading, a stage and a guideline to a call: a pure function."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from quarterwalk.call import by_plan, clock_told, doubts
from quarterwalk.call.cautions import cautions_for, host_weeds
from quarterwalk.call.chances import borne_out, chances_of, sureness
from quarterwalk.call.evidence import ONE_WEEK_CONCLUDES, evidence, within_range
from quarterwalk.call.figures import more, number
from quarterwalk.call.nothing import no_call
from quarterwalk.call.rule import Bounds, Judged, bounds_for, judge
from quarterwalk.call.season import InSeason, in_season
from quarterwalk.call.seen import losses, unevenness
from quarterwalk.call.settle import MOST_WALKS, plants_to_settle, square_plants_to_read
from quarterwalk.call.verdict import (
    Call,
    GuidelineUsed,
    Look,
    Reason,
    Sureness,
    Verdict,
)
from quarterwalk.crop import Stage, WorkedOut
from quarterwalk.errors import LineOutsideRange
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.plan import Ended, Plan
from quarterwalk.reading import Reading
from quarterwalk.words import ENGLISH, phrase, phrase_for, spoken_in


@dataclass(frozen=True, slots=True)
class CallOptions:
    """What an advisor may choose.

    Parameters
    ----------
    line : Fraction or None
        A line inside the published range; None takes its lower end. [insects per 100]
    level : float
        Chance that a printed range holds the true value. [fraction]
    language : str
        The one that the call is worded in: ``en`` or ``es``.
    plans : tuple of Plan
        Stop plans that walks may name, besides those of the package.
    """

    line: Fraction | None = None
    level: float = 0.90
    language: str = ENGLISH
    plans: tuple[Plan, ...] = ()


DEFAULT_OPTIONS = CallOptions()

_OVERRULES = frozenset({"finish-walk", "recently-treated", "weeks-differ", "season-edge"})


def check_line(guideline: Guideline, line: Fraction) -> None:
    """Refuse a line that the guideline does not publish.

    Parameters
    ----------
    guideline : Guideline
        The region's rule.
    line : Fraction
        The line chosen. [insects per 100]

    Raises
    ------
    LineOutsideRange
        If it lies outside the published range, or there is no one range.
    """
    allowed = guideline.allowed_line()
    if allowed is None:
        raise LineOutsideRange(guideline.name, number(line), "left out: the line changes by week")
    low, high = allowed
    if not low <= line <= high:
        words = number(low) if low == high else f"from {number(low)} to {number(high)}"
        raise LineOutsideRange(guideline.name, number(line), words)


def make_call(
    reading: Reading,
    stage: Stage,
    guideline: Guideline,
    *,
    on: date,
    treated: date | None = None,
    options: CallOptions = DEFAULT_OPTIONS,
) -> Call:
    """Decide on one field: hold, look sooner, treat, or no call, and say why.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    stage : Stage
        Where the crop stood on the day of the walk.
    guideline : Guideline
        The region's published rule, or one's own.
    on : date
        The day of the walk.
    treated : date or None
        The last treatment before the walk.
    options : CallOptions
        What the advisor chose.

    Returns
    -------
    Call
        The verdict with all that led to it.

    Raises
    ------
    LineOutsideRange
        If the chosen line lies outside the published range.
    """
    if options.line is not None:
        check_line(guideline, options.line)
    with spoken_in(options.language):
        return _called(reading, stage, guideline, _Day(on, treated, stage), options)


@dataclass(frozen=True, slots=True)
class _Day:
    """The day of the walk, the last treatment before it, and where the crop stood."""

    on: date
    treated: date | None
    stage: Stage


def _called(
    reading: Reading, stage: Stage, guideline: Guideline, day: _Day, options: CallOptions
) -> Call:
    season = in_season(stage, guideline)
    nothing = no_call(reading, stage, guideline, season, day.on)
    if nothing is not None:
        return nothing
    bounds = [bounds_for(reading, guideline, week, options.line) for week in season.weeks]
    judged = [judge(reading, guideline, each) for each in bounds]
    ended = by_plan.how_ended(reading, guideline, bounds, options.line, options.plans)
    decided = _decide(reading, guideline, season, judged, day, ended)
    chances = chances_of(reading, guideline, bounds)
    sure = sureness(borne_out(chances, decided.verdict))
    soonest, latest = (day.on + timedelta(days=n) for n in decided.days)
    return Call(
        verdict=decided.verdict,
        sure=sure,
        provisional=decided.provisional or clock_told.in_doubt(stage),
        next_look=Look(soonest, latest),
        reasons=(
            *_reasons(reading, guideline, judged, decided, options),
            *by_plan.told(ended, reading),
            *clock_told.look_for_bloom(
                stage, asked=season.ask_bloom or clock_told.bloom_likely(stage)
            ),
            *clock_told.worked_out(stage),
        ),
        cautions=cautions_for(decided.verdict, recently_treated=decided.recent),
        host_weeds=host_weeds(stage, squares_seen=reading.squaring_plants > 0),
        settle=_settle(reading, guideline, bounds, decided, sure, stage.worked_out),
        stage=stage,
        guideline=GuidelineUsed(
            guideline.name,
            guideline.edition,
            guideline.hash,
            guideline.own,
            bounds[0].line,
            bounds[0].floor,
            None if bounds[0].blasted is None else bounds[0].blasted.at_least,
        ),
        chances=chances,
        language=options.language,
    )


@dataclass(frozen=True, slots=True)
class _Decided:
    """A verdict on its way: `first` are reasons that come first, `doubts` those that follow."""

    verdict: Verdict
    days: tuple[int, int]
    provisional: bool = False
    unfinished: bool = False
    recent: bool = False
    first: tuple[Reason, ...] = ()
    doubts: tuple[Reason, ...] = ()


def _decide(
    reading: Reading,
    guideline: Guideline,
    season: InSeason,
    judged: Sequence[Judged],
    day: _Day,
    ended: Ended | None,
) -> _Decided:
    """Apply what stands above the table: unsure weeks, recent sprays, unfinished walks."""
    sooner = load_routine().look_sooner
    decided = _merge(judged, border=clock_told.at_border(day.stage.worked_out))
    if season.at_edge and decided.verdict is Verdict.TREAT:
        decided = replace(decided, verdict=Verdict.LOOK_SOONER, days=sooner)
    recent = doubts.recent_treatment(day.on, day.treated)
    if recent is not None:
        decided = replace(decided, recent=True, first=(*decided.first, recent))
        if decided.verdict is Verdict.TREAT:
            decided = replace(decided, verdict=Verdict.LOOK_SOONER, days=sooner)
    thin = tuple(doubts.thinness(reading, guideline, ended))
    edges = tuple(doubts.unsure_season(season, guideline, day.stage.worked_out))
    lacking = doubts.unfinished(reading, ended)
    if lacking is not None:
        finish = load_routine().finish
        return replace(
            decided,
            verdict=Verdict.LOOK_SOONER,
            days=(finish, finish),
            provisional=True,
            unfinished=True,
            first=(lacking, *decided.first),
            doubts=edges,
        )
    provisional = decided.provisional or bool(thin) or bool(edges)
    return replace(decided, provisional=provisional, doubts=(*edges, *thin))


def _merge(judged: Sequence[Judged], *, border: bool) -> _Decided:
    """Join the verdicts of the weeks that the dates allow."""
    compared = tuple(doubts.weeks_compared(judged, border=border))
    if len({each.verdict for each in judged}) == 1:
        days = min((each.days for each in judged), key=lambda span: span[1])
        return _Decided(judged[0].verdict, days, first=compared)
    sooner = load_routine().look_sooner
    return _Decided(Verdict.LOOK_SOONER, sooner, provisional=True, first=compared)


def _reasons(
    reading: Reading,
    guideline: Guideline,
    judged: Sequence[Judged],
    decided: _Decided,
    options: CallOptions,
) -> tuple[Reason, ...]:
    """Put all that led to the verdict in order, the weightiest first."""
    published = guideline.line_for(judged[0].bounds.week)
    recent = decided.recent
    sure = len(judged) == 1 and "season-edge" not in {r.code for r in decided.doubts}
    found = evidence(reading, judged[0], options.level, recently_treated=recent, week_sure=sure)
    reasons = [*found]
    if not judged[0].bounds.halved:
        may_treat = _OVERRULES.isdisjoint(r.code for r in (*decided.first, *decided.doubts))
        reasons += within_range(
            reading, judged[0], published.low, published.high, may_treat=may_treat
        )
    if options.line is not None and options.line != published.low:
        text = phrase(
            "The line of {line} was chosen inside the published range {low} to {high}.",
            line=number(options.line),
            low=number(published.low),
            high=number(published.high),
        )
        reasons.append(Reason("line-chosen", text))
    if guideline.own:
        text = phrase(
            "This call rests on your own guideline file ({guideline}, edition {edition}).",
            guideline=guideline.name,
            edition=guideline.edition,
        )
        reasons.append(Reason("own-guideline", text))
    if any(reason.code == "weeks-differ" for reason in decided.first):
        # what one week alone would conclude is not what is concluded
        reasons = [reason for reason in reasons if reason.code not in ONE_WEEK_CONCLUDES]
    told = (*reasons, *losses(reading), *unevenness(reading), *decided.doubts)
    return (*decided.first, *told)


def _settle(
    reading: Reading,
    guideline: Guideline,
    bounds: Sequence[Bounds],
    decided: _Decided,
    sure: Sureness | None,
    worked: WorkedOut | None,
) -> Reason | None:
    """Say what would settle a call that is not clear."""
    full, sweep = load_routine().full_walk_plants, reading.sweeps > 0
    what = "sweeps" if sweep else "plants"
    if decided.unfinished:
        return _finish(full - (reading.sweeps if sweep else reading.plants), what)
    if any(reason.code == "weeks-differ" for reason in decided.first):
        weeks = tuple(each.week for each in bounds if each.week)
        return clock_told.settle_week(weeks, worked)
    if guideline.needs_set and not reading.set_readable:
        plants = square_plants_to_read(reading)
        if plants:
            text = phrase(
                "Squares counted on about {more} would make square set readable.",
                more=more(plants, "plants"),
            )
            return Reason("settle-squares", text)
    if sure is Sureness.CLEAR:
        return None
    enough = plants_to_settle(reading, guideline, bounds)
    if enough is None:
        text = phrase(
            "Even {more} are not likely to settle it.", more=more(MOST_WALKS * full, what)
        )
        if decided.verdict is not Verdict.TREAT:
            later = phrase("The next look will tell more.")
            text = f"{text} {later}"
        return Reason("settle-wait", text)
    if enough == 0:
        return None
    text = phrase_for(
        enough,
        "About {more} would settle it, if it shows the same.",
        "About {more} would settle it, if they show the same.",
        more=more(enough, what),
    )
    return Reason("settle-plants", text)


def _finish(left: int, what: str) -> Reason:
    """Say how much of a walk is left."""
    text = phrase("Walk every quarter.")
    if left > 0:
        text = phrase_for(
            left,
            "About {more} finishes the walk.",
            "About {more} finish the walk.",
            more=more(left, what),
        )
    return Reason("settle-finish", text)
