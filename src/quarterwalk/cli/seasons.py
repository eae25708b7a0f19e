"""The seasons of the fields asked for: their clocks read on a day, and worded."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from quarterwalk.cli.clocks import Clocks
from quarterwalk.cli.ground import known_as
from quarterwalk.cli.stage_walks import Walked
from quarterwalk.crop import SEASON_DAYS, CropClock, CropDateError
from quarterwalk.errors import Problem, UsageError
from quarterwalk.field import Field, acres_of
from quarterwalk.files.plantings import PlantingFile
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.picture.season_words import date_word
from quarterwalk.report.season import make_season
from quarterwalk.report.season_end import season_over
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.weather.daily import DayMark, WeatherError


@dataclass(frozen=True, slots=True, eq=False)
class Season:
    """One field's season: its clock, the weather that it ran on, and what is told of it."""

    name: str
    clock: CropClock
    weather: FieldWeather
    done: SeasonDone
    report: SeasonReport

    @property
    def known_until(self) -> date | None:
        """The last day of the weather that is known, also one before planting; None without."""
        heat, weather = self.clock.heat, self.weather.weather
        if heat.known:
            return heat.known_until
        # the mean of other years is no day that was known
        known = np.flatnonzero(~weather.missing & (weather.marks != DayMark.OTHER_YEARS))
        return weather.day_at(int(known[-1])) if known.size else None


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A field in whose season the day asked for does not lie.

    Parameters
    ----------
    name : str
        The field.
    planted : date
        The first day of its season.
    on : date
        The day asked for.
    """

    name: str
    planted: date
    on: date

    @property
    def last(self) -> date:
        """The last day of its season."""
        return _last_day(self.planted)

    @property
    def why(self) -> str:
        """Say why nothing is told of it."""
        planted, last = (_with_year(day, self.on) for day in (self.planted, self.last))
        if self.on < self.planted:
            return f"planted {planted}: after the day asked for"
        return f"planted {planted}: its season ended {last}, before the day asked for"


def _last_day(planted: date) -> date:
    return planted + timedelta(days=SEASON_DAYS - 1)


def _with_year(day: date, on: date) -> str:
    return date_word(day) if day.year == on.year else f"{date_word(day)} {day.year}"


def asked_fields(plantings: PlantingFile, asked: Sequence[str] | None) -> list[str]:
    """Give the fields asked for, each with the day of planting.

    Parameters
    ----------
    plantings : PlantingFile
        The table.
    asked : sequence of str or None
        Names after ``--field``; None for all.

    Returns
    -------
    list of str
        In the order of the table, as it spells them.

    Raises
    ------
    UsageError
        If the table has no field of a name.
    RefusedInput
        If a field has no day of planting.
    """
    names = {known_as(name): name for name in plantings.plantings}
    for name in asked or ():
        if known_as(name) not in names:
            raise UsageError(f'--field must be a field of {plantings.file}, got "{name}".')
    wanted = {known_as(name) for name in asked or names}
    told = [name for known, name in names.items() if known in wanted]
    refuse_if_any([
        Problem(
            plantings.file,
            plantings.rows[name],
            "planted",
            "",
            f"a date for {name}",
            "A season needs it.",
        )
        for name in told
        if plantings.plantings[name].stand_planted is None
    ])  # fmt: skip
    return told


def days_for(
    clocks: Clocks, names: Sequence[str], on: date | None, today: date
) -> tuple[dict[str, date], list[LeftOut]]:
    """Give the day for which each field is told.

    Parameters
    ----------
    clocks : Clocks
        They know the days of planting.
    names : sequence of str
        The fields.
    on : date or None
        The day asked for; None for today, or the nearest day of each season.
    today : date
        What the calendar says.

    Returns
    -------
    days : dict of str to date
        By the names of the fields that are told.
    left_out : list of LeftOut
        The other ones.

    Raises
    ------
    UsageError
        If the day asked for is in the season of no field.
    """
    days: dict[str, date] = {}
    left_out: list[LeftOut] = []
    for name in names:
        planted = clocks.planted(name, on or today)
        last = _last_day(planted)
        if on is None:
            days[name] = min(max(today, planted), last)
        elif planted <= on <= last:
            days[name] = on
        else:
            left_out.append(LeftOut(name, planted, on))
    if left_out and not days:
        near = min(left_out, key=_apart)
        which = near.name if len(left_out) == 1 else f"a field, the nearest {near.name}"
        raise UsageError(
            f"--on must lie in the season of {which}, {near.planted} to {near.last}, got {on}."
        )
    return days, left_out


def _apart(out: LeftOut) -> int:
    """Give how far a day lies from a season. [days]"""
    return max((out.planted - out.on).days, (out.on - out.last).days)


def told_seasons(
    options: argparse.Namespace,
    clocks: Clocks,
    days: Mapping[str, date],
    walked: Walked,
    fields: Mapping[str, Field],
) -> list[Season]:
    """Read the clock of each field, and word its season.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk stage``.
    clocks : Clocks
        All that they run on.
    days : mapping of str to date
        The fields asked for, and the day for which each is told.
    walked : Walked
        Their walks.
    fields : mapping of str to Field
        Boundaries by `known_as`.

    Returns
    -------
    list of Season
        In the order of the fields.

    Raises
    ------
    RefusedInput
        It names each field whose season can't be worked out.
    """
    problems: list[Problem] = []
    read: list[tuple[str, CropClock]] = []
    for name, on in days.items():
        try:
            read.append((name, clocks.clock(name, on, walked.seen.get(name, ()))))
        except (WeatherError, CropDateError) as error:
            problems.append(clocks.problem(name, on, error))
    refuse_if_any(problems)
    told = []
    for name, clock in read:
        weather, done = clocks.weather(name, clock.on), _done(clocks, name, clock, walked)
        report = make_season(
            clock,
            field=_field(clocks, name, clock, fields.get(known_as(name))),
            weather=weather,
            guideline=walked.guideline,
            done=done,
            language=options.language,
        )
        told.append(Season(name, clock, weather, done, report))
    return told


def _field(clocks: Clocks, name: str, clock: CropClock, boundary: Field | None) -> SeasonField:
    again = clocks.plantings[name].replanted == clock.planted
    if boundary is None:
        return SeasonField(name, replanted=again)
    return SeasonField(name, boundary.grower, acres_of(boundary.shape), replanted=again)


def _done(clocks: Clocks, name: str, clock: CropClock, walked: Walked) -> SeasonDone:
    walks, look = walked.season(clocks, name, clock.on)
    treated = tuple(day for day in clocks.plantings[name].treated if day <= clock.on)
    over = walked.guideline is not None and season_over(clock, walked.guideline)
    return SeasonDone(
        walks=tuple(walks),
        next_look=None if look is None or over else (look.soonest, look.latest),
        treated=treated,
    )
