"""The days of a field's season: which squaring week each may be, and where treating may stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from quarterwalk.call.doubts import recent_treatment
from quarterwalk.call.season import InSeason, in_season
from quarterwalk.card.about import CardFor
from quarterwalk.crop import CropDates
from quarterwalk.guideline import load_routine

# Twenty weeks from first square; a bloom date beyond that is a slip of the pen (this
# project's rule). [days]
LONGEST = 140


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of days, both ends in it."""

    first: date
    last: date


@dataclass(frozen=True, slots=True)
class SeasonDays:
    """What the dates of a field make of its days.

    Parameters
    ----------
    weeks : tuple of (int or None, Span)
        The days on which it may be each squaring week; None is the bloom. They overlap
        where first square is a range. [from 1]
    treat : tuple of Span
        Days on which a case to treat may stand: no day outside the season is possible,
        and no treatment is too recent.
    """

    weeks: tuple[tuple[int | None, Span], ...] = ()
    treat: tuple[Span, ...] = ()

    @property
    def whole(self) -> Span | None:
        """From the first day that may be inside the season to the last."""
        if not self.weeks:
            return None
        spans = [span for _, span in self.weeks]
        return Span(min(s.first for s in spans), max(s.last for s in spans))


def season_days(about: CardFor) -> SeasonDays:
    """Ask the core, day by day, what the dates allow.

    Parameters
    ----------
    about : CardFor
        What is known of the field's season, and the rule that says when its season ends.

    Returns
    -------
    SeasonDays
        None of them where the dates or the rule are not there.
    """
    if about.dates is None:
        return SeasonDays()
    weeks: dict[int | None, Span] = {}
    treat: list[date] = []
    for day, season in _inside(about, about.dates):
        for week in season.weeks:
            weeks[week] = Span(weeks[week].first if week in weeks else day, day)
        recent = recent_treatment(day, about.dates.last_treated_before(day))
        if not season.at_edge and recent is None:
            treat.append(day)
    return SeasonDays(tuple(weeks.items()), tuple(_joined(treat)))


def _inside(about: CardFor, dates: CropDates) -> Iterator[tuple[date, InSeason]]:
    for number in range(min((_last(about, dates) - dates.first_square).days, LONGEST) + 1):
        day = dates.first_square + timedelta(days=number)
        stage = about.stage_at(day)
        if stage is None or about.guideline is None:
            return
        season = in_season(stage, about.guideline)
        if season.outside is None:
            yield day, season


def _last(about: CardFor, dates: CropDates) -> date:
    """Give a day past which no season reaches."""
    routine, worked = load_routine(), about.worked_out
    if dates.bloom is None:
        return dates.latest + timedelta(days=routine.no_call_after)
    bloom = dates.bloom if worked is None or worked.bloom is None else worked.bloom[1]
    return bloom + timedelta(days=routine.week_days)


def _joined(days: Iterable[date]) -> Iterator[Span]:
    """Join days that follow each other."""
    span: Span | None = None
    for day in days:
        if span is not None and day == span.last + timedelta(days=1):
            span = Span(span.first, day)
            continue
        if span is not None:
            yield span
        span = Span(day, day)
    if span is not None:
        yield span
