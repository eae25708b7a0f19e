"""The crop's clock: where one field's season stands, by heat and by what was seen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from quarterwalk.crop.dates import CropDates
from quarterwalk.crop.day_odds import DayOdds
from quarterwalk.crop.needs import Event, Needs
from quarterwalk.crop.seen import Given, Seen, SetAside, Sign
from quarterwalk.crop.stage import AtOdds, Stage, StageName, WorkedOut, given_standing, stage_on
from quarterwalk.crop.week_odds import WeekOdds
from quarterwalk.guideline import load_routine
from quarterwalk.weather.ahead import SeasonHeat

SEASON_DAYS = 200
"""Days from planting that a clock runs: past cutout wherever cotton is grown. [days]"""

RANGE = 0.8
"""Chance that a printed range of days holds the event: 8 in 10. [fraction]"""

# The call takes first-square days that leave out 1 in 20 on either side. [fraction]
CALL_TAIL = 0.05

HARDLY = 0.01
"""What weather alone gives less than this puts planting, station or count in doubt (a rule of
this project). [fraction]"""


@dataclass(frozen=True, slots=True)
class Disagreement:
    """What was seen against what the weather alone makes likely.

    Parameters
    ----------
    sign : Sign
        What was seen.
    on : date
        When.
    event : Event
        The event that it speaks of.
    window : (date or None, date or None)
        Days that it leaves to the event; None where there is no end.
    expected : (date, date) or None
        Days of the event by weather alone, 8 in 10.
    chance : float
        Of those days, or of earlier or later ones on their side, by weather alone. [fraction]
    """

    sign: Sign
    on: date
    event: Event
    window: tuple[date | None, date | None]
    expected: tuple[date, date] | None
    chance: float


@dataclass(frozen=True, slots=True, eq=False)
class CropClock:
    """Where one field's season stands on a day.

    Parameters
    ----------
    planted, on : date
        The day of planting, and the day on which the clock was read.
    odds : mapping of Event to DayOdds
        Each event's days, by heat and by what was seen.
    by_weather : mapping of Event to DayOdds
        The same by heat alone.
    four_leaves : DayOdds
        The day of the fourth true leaf.
    weeks : WeekOdds
        Where the crop stands on `on`.
    given : Given
        What was given outright, less what can't be true beside the day of planting.
    seen : tuple of Seen
        What was seen until `on`, by day.
    disagreements : tuple of Disagreement
        Where what was seen and the weather disagree; what was seen holds.
    set_aside : tuple of SetAside
        What was seen or given but can't be true beside the rest.
    heat : SeasonHeat
        The heat that it ran on.
    needs : Needs
        What the crop needs, as it was read.
    """

    planted: date
    on: date
    odds: Mapping[Event, DayOdds]
    by_weather: Mapping[Event, DayOdds]
    four_leaves: DayOdds
    weeks: WeekOdds
    given: Given
    seen: tuple[Seen, ...]
    disagreements: tuple[Disagreement, ...]
    set_aside: tuple[SetAside, ...]
    heat: SeasonHeat
    needs: Needs

    @property
    def first_square(self) -> tuple[date, date]:
        """First and last day that first square may have been, for the call: 9 in 10."""
        if self.given.first_square is not None:
            return self.given.first_square
        odds = self.odds[Event.FIRST_SQUARE]
        first, last = odds.reached(CALL_TAIL), odds.reached(1 - CALL_TAIL)
        end = self.planted + timedelta(days=SEASON_DAYS)
        return first or end, last or end

    @property
    def bloom(self) -> date | None:
        """First bloom as given, or its likely day where flowers were seen by now."""
        if self.given.bloom is not None:
            return self.given.bloom
        counted = (without(each, self.set_aside) for each in self.seen)
        if not any(each.bloom or each.nawf is not None for each in counted):
            return None
        return self.odds[Event.FIRST_BLOOM].likely

    @property
    def bloom_days(self) -> tuple[date, date] | None:
        """First and last day that a bloom that has come may have been: 9 in 10."""
        bloom, odds = self.bloom, self.odds[Event.FIRST_BLOOM]
        if bloom is None or bloom == self.given.bloom:
            return None if bloom is None else (bloom, bloom)
        return odds.reached(CALL_TAIL) or bloom, odds.reached(1 - CALL_TAIL) or bloom

    @property
    def squares_seen(self) -> tuple[date, ...]:
        """Days on which any plant was seen with a square: from then on weeds are left alone."""
        looks = (without(each, self.set_aside) for each in self.seen)
        return tuple(each.on for each in looks if each.pinhead or each.squaring_branches)

    def stage(self, distance_km: float | None = None) -> Stage:
        """Give the stage on the day on which the clock was read.

        Parameters
        ----------
        distance_km : float or None
            From the field to the station of the weather; None where not known. [km]

        Returns
        -------
        Stage
            With its chances where first square was not given; else as a call takes it.
        """
        if self.given.first_square is not None:
            first, last = self.given.first_square
            bloom = self.given.bloom or self.given.bloom_to_come
            given = CropDates(first, None if last == first else last, bloom)
            return given_standing(self.on, given, self.seen)[1]
        stage = stage_on(self.on, self.dates())
        if stage.name is StageName.BLOOMING and self.bloom_days is not None:
            first, last = self.bloom_days
            stage = replace(stage, days_blooming=((self.on - last).days, (self.on - first).days))
        likely = self.odds[Event.FIRST_SQUARE].likely
        if likely is None:
            return stage
        known = self.heat.known_until
        until = known if known < self.on else None
        looks = [without(each, self.set_aside) for each in self.seen]
        week = timedelta(days=load_routine().week_days)
        told = WorkedOut(
            *self.first_square,
            likely,
            self.weeks,
            known_until=until,
            nothing_known=not self.heat.known,
            years=len(self.heat.years),
            looked=any(each.tells for each in looks),
            bloom=self.bloom_days if self.given.bloom is None else None,
            station=self.heat.station,
            distance_km=distance_km,
            at_odds=self._at_odds(),
            left_out=self.set_aside,
            squares_seen=bool(self.squares_seen),
            no_flower=max((each.on for each in looks if each.bloom is False), default=None),
            branches_counted=any(
                each.on == self.on and each.squaring_branches is not None for each in looks
            ),
            bloomed_a_week=self.odds[Event.FIRST_BLOOM].by(self.on - week),
        )
        return replace(stage, worked_out=told)

    def _at_odds(self) -> AtOdds | None:
        """Give where what was seen of first square or bloom lies farthest from the weather."""
        events = (Event.FIRST_SQUARE, Event.FIRST_BLOOM)
        told = [each for each in self.disagreements if each.event in events]
        worst = min(told, key=lambda each: each.chance, default=None)
        if worst is None:
            return None
        return AtOdds(worst.on, worst.expected, worst.chance < HARDLY, worst.event, worst.sign)

    def dates(self, treated: tuple[date, ...] = ()) -> CropDates:
        """Give the dates that a call needs.

        Parameters
        ----------
        treated : tuple of date
            Days on which something was sprayed against the insects.

        Returns
        -------
        CropDates
        """
        first, last = self.first_square
        to_come = self.given.bloom_to_come
        bloom = to_come if to_come is not None and to_come > first else self.bloom
        if bloom is not None:
            last = max(first, min(last, bloom - timedelta(days=1)))
        return CropDates(first, None if last == first else last, bloom, treated)


def without(seen: Seen, aside: Sequence[SetAside]) -> Seen:
    """Take out of what was seen on a day what was set aside.

    Parameters
    ----------
    seen : Seen
        What was seen.
    aside : sequence of SetAside
        What can't be true beside the rest.

    Returns
    -------
    Seen
    """
    signs = {each.sign for each in aside if each.on == seen.on}
    if Sign.LEAVES in signs:
        seen = replace(seen, true_leaves=None)
    if Sign.NODES in signs:
        seen = replace(seen, nodes=None)
    if Sign.PINHEADS in signs:
        seen = replace(seen, plants=None, pinhead=None)
    if Sign.BRANCHES in signs:
        seen = replace(seen, squaring_branches=None)
    if Sign.FLOWERS in signs:
        seen = replace(seen, bloom=None)
    if Sign.ABOVE_FLOWER in signs:
        seen = replace(seen, nawf=None)
    return seen
