"""Where the crop stands on a day: before squaring, squaring (which week), or blooming."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from quarterwalk.crop.dates import CropDates
from quarterwalk.crop.needs import Event
from quarterwalk.crop.seen import Flowers, Seen, SetAside, Sign, flowers_by
from quarterwalk.crop.week_odds import WeekOdds
from quarterwalk.guideline import load_routine


class StageName(StrEnum):
    """The three stretches of the season that a call tells apart."""

    BEFORE_SQUARING = "before-squaring"
    SQUARING = "squaring"
    BLOOMING = "blooming"


# Floral buds detectable, first flowers (Munger et al. 1998, Journal of Agronomy and Crop
# Science 180).
_BBCH = {StageName.SQUARING: 51, StageName.BLOOMING: 60}


@dataclass(frozen=True, slots=True)
class AtOdds:
    """What was seen of first square or first bloom, against the weather.

    Parameters
    ----------
    on : date
        The day of the look.
    expected : (date, date) or None
        The event by weather alone, 8 in 10; None where it lies past the season.
    hardly : bool
        Whether the weather leaves it less than 1 in 100, so that the day of planting, the
        station or the count is in doubt.
    event : Event
        First square, or first bloom.
    sign : Sign
        What was seen.
    """

    on: date
    expected: tuple[date, date] | None
    hardly: bool
    event: Event = Event.FIRST_SQUARE
    sign: Sign = Sign.PINHEADS


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """First square as the crop's clock has it, where nobody gave it.

    Parameters
    ----------
    first, last : date
        Days that it may have been: 9 in 10.
    likely : date
        The middle day.
    weeks : WeekOdds
        Where the crop stands, as chances.
    known_until : date or None
        The last day of weather that it rests on, where that is before the day itself; a day
        before planting where no day of the season is known.
    nothing_known : bool
        Whether no day of the season is known.
    years : int
        Other years that tell what may come; with none the last days are carried on. [count]
    looked : bool
        Whether anything seen counts.
    bloom : (date, date) or None
        Days that first bloom may have been, 9 in 10, where it was seen and not given.
    station : str
        Where that weather was measured; empty where that is not told.
    distance_km : float or None
        From the field to the station; None where either place is not known. [km]
    at_odds : AtOdds or None
        Where what was seen and the weather disagree most about first square or first bloom.
    left_out : tuple of SetAside
        What was seen or given but can't be true beside the rest, and does not count.
    squares_seen : bool
        Whether any plant was seen with a square.
    no_flower : date or None
        The last day on which somebody looked for a white flower and saw none.
    branches_counted : bool
        Whether squaring branches were counted on the day.
    bloomed_a_week : float
        Chance that first bloom came a week ago or before. [fraction]
    """

    first: date
    last: date
    likely: date
    weeks: WeekOdds
    known_until: date | None = None
    nothing_known: bool = False
    years: int = 1
    looked: bool = True
    bloom: tuple[date, date] | None = None
    station: str = ""
    distance_km: float | None = None
    at_odds: AtOdds | None = None
    left_out: tuple[SetAside, ...] = ()
    squares_seen: bool = False
    no_flower: date | None = None
    branches_counted: bool = False
    bloomed_a_week: float = 0.0


@dataclass(frozen=True, slots=True)
class Stage:
    """Where one field's crop stands on one day.

    Parameters
    ----------
    name : StageName
        Which stretch of the season.
    days : tuple of int
        Fewest and most days since first square that the dates allow; below 0
        where first square may be still to come. [days]
    bloom_known : bool
        Whether the day of first bloom is known.
    days_blooming : (int, int)
        Fewest and most days since first bloom while blooming, else 0. [days]
    worked_out : WorkedOut or None
        Where first square comes from the crop's clock; None where it was given.
    flowers : Flowers
        What flowers tell where first square was given and first bloom was not.
    """

    name: StageName
    days: tuple[int, int]
    bloom_known: bool = False
    days_blooming: tuple[int, int] = (0, 0)
    worked_out: WorkedOut | None = None
    flowers: Flowers = Flowers()

    @property
    def bbch(self) -> int | None:
        """The code of the BBCH scale that the stage has reached; None before squaring."""
        return _BBCH.get(self.name)

    @property
    def squaring_weeks(self) -> tuple[int, ...]:
        """Every squaring week that the dates allow; none unless squaring. [from 1]"""
        if self.name is not StageName.SQUARING:
            return ()
        return weeks_between(*self.days)


def weeks_between(first: int, last: int) -> tuple[int, ...]:
    """Give the squaring weeks of a stretch of days since first square.

    Parameters
    ----------
    first, last : int
        Days since first square; those below 0 are left out. [days]

    Returns
    -------
    tuple of int
        Week 1 is days 0 to 6. [from 1]
    """
    length = load_routine().week_days
    return tuple(range(max(first, 0) // length + 1, last // length + 2)) if last >= 0 else ()


def stage_on(day: date, dates: CropDates) -> Stage:
    """Tell where the crop stands on a day.

    Parameters
    ----------
    day : date
        The day of the walk.
    dates : CropDates
        What is known of the field's season.

    Returns
    -------
    Stage
        With the fewest and the most days since first square that the dates allow.
    """
    days = ((day - dates.latest).days, (day - dates.first_square).days)
    bloom_known = dates.bloom is not None
    if day < dates.first_square:
        return Stage(StageName.BEFORE_SQUARING, days, bloom_known)
    if dates.bloom is not None and day >= dates.bloom:
        blooming = (day - dates.bloom).days
        return Stage(StageName.BLOOMING, days, bloom_known, (blooming, blooming))
    return Stage(StageName.SQUARING, days, bloom_known)


def given_standing(
    day: date, dates: CropDates, seen: Iterable[Seen] = ()
) -> tuple[CropDates, Stage]:
    """Tell where the crop stands on a day, by first square as it was given.

    Parameters
    ----------
    day : date
        The day of the walk.
    dates : CropDates
        As they were given.
    seen : iterable of Seen
        What was seen of the stand, in any order.

    Returns
    -------
    dates : CropDates
        Where no first bloom was given, with the first day on which flowers were seen by then.
    stage : Stage
        It tells of that day, and of looks that can't be true.
    """
    if dates.bloom is not None:
        return dates, stage_on(day, dates)
    flowers = flowers_by(day, seen, dates.latest)
    dates = replace(dates, bloom=flowers.on)
    return dates, replace(stage_on(day, dates), flowers=flowers)
