"""The seasons of the fields asked for: their clocks read on a day, and worded."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from quarterwalk.cli.clocks import Clocks, FieldProblem
from quarterwalk.cli.ground import known_as
from quarterwalk.cli.stage_walks import Walked
from quarterwalk.crop import SEASON_DAYS, CropClock, CropDateError
from quarterwalk.errors import Problem, UsageError
from quarterwalk.field import Field, acres_of
from quarterwalk.files.plantings import PlantingFile
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.report.season import make_season
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.weather.daily import WeatherError


@dataclass(frozen=True, slots=True, eq=False)
class Season:
    """One field's season: its clock, the weather that it ran on, and what is told of it."""

    name: str
    clock: CropClock
    weather: FieldWeather
    report: SeasonReport


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
        Problem(plantings.file, None, "planted", "", f"a date for {name}", "A season needs it.")
        for name in told
        if plantings.plantings[name].stand_planted is None
    ])  # fmt: skip
    return told


def day_for(clocks: Clocks, name: str, on: date | None, today: date) -> date:
    """Give the day for which a field is told.

    Parameters
    ----------
    clocks : Clocks
        They know the day of planting.
    name : str
        The field.
    on : date or None
        The day asked for; None for today, or the nearest day of the season.
    today : date
        What the calendar says.

    Returns
    -------
    date

    Raises
    ------
    UsageError
        If the day asked for is not in the field's season.
    """
    planted = clocks.planted(name, on or today)
    last = planted + timedelta(days=SEASON_DAYS - 1)
    if on is None:
        return min(max(today, planted), last)
    if not planted <= on <= last:
        raise UsageError(
            f"--on must lie in the season of {name}, {planted} to {last}, got {on}."
            " Choose fields with --field."
        )
    return on


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
            problems.append(FieldProblem(options.plantings, None, None, name, str(error)))
    refuse_if_any(problems)
    told = []
    for name, clock in read:
        weather = clocks.weather(name, clock.on)
        report = make_season(
            clock,
            field=_field(clocks, name, clock, fields.get(known_as(name))),
            weather=weather,
            guideline=walked.guideline,
            done=_done(clocks, name, clock.on, walked),
            language=options.language,
        )
        told.append(Season(name, clock, weather, report))
    return told


def _field(clocks: Clocks, name: str, clock: CropClock, boundary: Field | None) -> SeasonField:
    again = clocks.plantings[name].replanted == clock.planted
    if boundary is None:
        return SeasonField(name, replanted=again)
    return SeasonField(name, boundary.grower, acres_of(boundary.shape), replanted=again)


def _done(clocks: Clocks, name: str, on: date, walked: Walked) -> SeasonDone:
    walks, look = walked.season(clocks, name, on)
    treated = tuple(day for day in clocks.plantings[name].treated if day <= on)
    return SeasonDone(
        walks=tuple(walks),
        next_look=None if look is None else (look.soonest, look.latest),
        treated=treated,
    )
