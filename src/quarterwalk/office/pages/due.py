"""When a field is looked at next, and why then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from quarterwalk.call import Verdict
from quarterwalk.call.after_spray import look_after_spray
from quarterwalk.call.clock_told import in_doubt
from quarterwalk.call.verdict import Look
from quarterwalk.crop import CropDates, Event, Stage, StageName
from quarterwalk.guideline import load_routine
from quarterwalk.office.pages.days import days_late, days_range, near_day, short_day
from quarterwalk.office.queries.standing import Standing
from quarterwalk.office.rule_season import season_is_over

SEASON_OVER = "season over"
"""Why no look is due any more."""

CHECK_PLANTING = "check the day of planting"
"""The sign on a field whose weather hardly allows what was seen in it."""

CHECK_FLOWERS = "check the flowers and the day of planting"
"""Why a look is due where a bloom in doubt leaves a call without one: it ends nothing."""


@dataclass(frozen=True, slots=True)
class Due:
    """The day of the next look and the reason, in a few words.

    Parameters
    ----------
    on : date or None
        The last good day; None where no look is due.
    why : str
        Why now, or which day.
    since : str
        What it counts from; before that the day, where it is over.
    soonest : date or None
        The first good day, where it lies before the last one.
    """

    on: date | None
    why: str
    since: str
    soonest: date | None = None

    def may_be(self, today: date) -> bool:
        """Tell whether the look may be done on a day, or is late by then."""
        first = self.soonest or self.on
        return first is not None and first <= today


def due_of(standing: Standing, today: date) -> Due:
    """Say when a field is due.

    Parameters
    ----------
    standing : Standing
        What is known of it.
    today : date
        The day in the district.

    Returns
    -------
    Due
    """
    if season_is_over(standing.field, standing.crop.stage, today):
        return Due(None, SEASON_OVER, _walked(standing, today))
    early = _before_squaring(standing, today)
    if early is not None:
        return early
    walk = standing.walk
    if walk is None or walk.on is None:
        return _first_look(standing.dates, today)
    since = _walked(standing, today)
    sprayed = sprayed_since(standing.dates, walk.on, today)
    look = None if sprayed is None else look_after_spray(walk.on, [sprayed])
    if sprayed is not None and look is not None:
        return _due(look, today, f"sprayed {short_day(sprayed)}")
    if standing.call is None:
        return Due(today, "no call yet", since)
    look = next_look(standing.call, walk.on)
    if look is None:
        why = _doubt(standing.crop.stage)
        return Due(today, why, since) if why else Due(None, "no look due", since)
    return _due(look, today, since)


def _doubt(stage: Stage | None) -> str:
    """Say what to check where the weather hardly allows what was seen; empty where it does."""
    worked = None if stage is None or not in_doubt(stage) else stage.worked_out
    if worked is None or worked.at_odds is None:
        return ""
    return CHECK_FLOWERS if worked.at_odds.event is Event.FIRST_BLOOM else CHECK_PLANTING


def _walked(standing: Standing, today: date) -> str:
    walk = standing.walk
    if walk is None or walk.on is None:
        return "no walk yet"
    return "walked today" if walk.on == today else f"walked {short_day(walk.on)}"


def _before_squaring(standing: Standing, today: date) -> Due | None:
    """Say when a field is looked at that does not square yet, by the crop's clock.

    From four true leaves on; a note of what was seen is a look as a walk is. So it is where the
    crop may square, but most likely does not yet: then the call of a walk says when to look.
    """
    crop, walk = standing.crop, standing.walk
    if crop.worked is None or crop.stage is None or crop.worked.begin is None:
        return None
    may_square = crop.stage.name is not StageName.BEFORE_SQUARING
    if may_square and (walk is not None or not _likely_before(crop.stage)):
        return None
    begin, walked = crop.worked.begin, None if walk is None else walk.on
    if walked is not None and sprayed_since(crop.dates, walked, today) is not None:
        return None
    looks = [day for day in (walked, crop.worked.looked) if day is not None]
    if not looks:
        why = "first look" if begin <= today else near_day(begin)
        since = "no walk yet" if begin <= today else "first look, at four true leaves"
        return Due(max(begin, today), why, since)
    last = max(looks)
    on = max(begin, last + timedelta(days=load_routine().before_squaring))
    verb = "walked" if last == walked else "looked at"
    since = f"{verb} today" if last == today else f"{verb} {short_day(last)}"
    return _due(Look(on, on), today, since)


def _likely_before(stage: Stage) -> bool:
    worked = stage.worked_out
    return worked is not None and worked.weeks.likely == "before"


def _first_look(dates: CropDates | None, today: date) -> Due:
    """Say when a field is looked at for the first time: once it may square."""
    if dates is None or dates.first_square <= today:
        return Due(today, "first look", "no walk yet")
    return Due(dates.first_square, near_day(dates.first_square), "first look, at first square")


def next_look(told: Mapping[str, Any], walked: date) -> Look | None:
    """Give the first and the last good day of the next look that a call asks for.

    What is kept of a call tells the last one only. The other is told by the routine: days of
    looking sooner are the only ones that are a range.

    Parameters
    ----------
    told : mapping
        The call as its JSON tells it.
    walked : date
        The day of its walk.

    Returns
    -------
    Look or None
    """
    told = told["call"]
    if told["next_look"] is None:
        return None
    last = date.fromisoformat(told["next_look"])
    first, most = load_routine().look_sooner
    ranged = told["verdict"] == Verdict.LOOK_SOONER and last == walked + timedelta(days=most)
    return Look(walked + timedelta(days=first) if ranged else last, last)


def sprayed_since(dates: CropDates | None, walked: date, today: date) -> date | None:
    """Give the last treatment since a walk.

    Parameters
    ----------
    dates : CropDates or None
        With the treatments.
    walked, today : date
        The days between which it counts.

    Returns
    -------
    date or None
    """
    treated = () if dates is None else dates.treated
    return max((day for day in treated if walked <= day <= today), default=None)


def asks_to_treat(standing: Standing, today: date) -> bool:
    """Tell whether a field's newest call says treat, and nobody has sprayed since.

    Parameters
    ----------
    standing : Standing
        What is known of it.
    today : date
        The day in the district.

    Returns
    -------
    bool
    """
    told, walk = standing.call, standing.walk
    if told is None or told["call"]["verdict"] != Verdict.TREAT or walk is None or walk.on is None:
        return False
    return sprayed_since(standing.dates, walk.on, today) is None


def _due(look: Look, today: date, since: str) -> Due:
    """Say when a look is or was due: its days always stand there once, ahead or behind."""
    on = look.latest
    if on < today:
        return Due(on, days_late((today - on).days), f"due since {near_day(on)}, {since}")
    if on == today:
        return Due(on, "due today", since)
    if look.soonest == on:
        return Due(on, near_day(on), since)
    return Due(on, days_range(look.soonest, on), since, look.soonest)
