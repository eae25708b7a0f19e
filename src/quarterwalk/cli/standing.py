"""Where the field of each walk stood on its day: as somebody gave it, or by the crop's clock."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from quarterwalk.crop import (
    SEASON_DAYS,
    CropDateError,
    CropDates,
    Seen,
    Stage,
    given_standing,
    stage_on,
)
from quarterwalk.errors import Problem, UsageError
from quarterwalk.files.plantings import Planting, PlantingFile, read_plantings
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.files.walk_table import WalkFile
from quarterwalk.reading import Reading
from quarterwalk.walk import WalkHead
from quarterwalk.weather.daily import WeatherError

TYPE_CHECKING = False

if TYPE_CHECKING:
    from quarterwalk.cli.clocks import Clocks
    from quarterwalk.field import Field


@dataclass(frozen=True, slots=True)
class Standing:
    """The dates of a field's season, and its stage on the day of a walk."""

    dates: CropDates
    stage: Stage


def chosen_standings(
    options: argparse.Namespace,
    walks: WalkFile,
    readings: Sequence[Reading],
    fields: Mapping[str, Field],
) -> list[Standing]:
    """Find where the field of every walk stood.

    Parameters
    ----------
    options : argparse.Namespace
        Of a command that judges walks.
    walks : WalkFile
        The walks.
    readings : sequence of Reading
        What was counted on each.
    fields : mapping of str to Field
        Boundaries by `quarterwalk.cli.ground.known_as`; none where none are given.

    Returns
    -------
    list of Standing
        In the order of the walks.

    Raises
    ------
    UsageError
        If the dates given contradict each other, or options don't go together.
    RefusedInput
        If a walk's field has no row in the plantings, or its season can't be worked out.
    """
    _refuse_options_apart(options)
    if options.plantings is None:
        dates = _given_dates(options)
        return [Standing(dates, stage_on(head.date, dates)) for head in walks.table.heads]
    plantings = _chosen_plantings(options, walks)
    if options.weather is None:
        told = plantings.plantings
        return [_as_given(head, told[head.field]) for head in walks.table.heads]
    # weather takes long to load, so only who gives it waits for it
    from quarterwalk.cli.clocks import chosen_clocks

    clocks = chosen_clocks(options, plantings, fields)
    return standings_by(clocks, walks, readings, range(len(walks.table.heads)))


def _refuse_options_apart(options: argparse.Namespace) -> None:
    """Refuse options that say nothing without another, or twice the same."""
    if options.plantings is None:
        for option in _given(options, "weather", "stations", "seen", "square-share"):
            raise UsageError(f"--{option} goes with --plantings, got --first-square.")
        return
    for option in _given(options, "bloom", "treated"):
        raise UsageError(f"--{option} goes with --first-square; --plantings has a column for it.")
    if options.weather is None:
        for option in _given(options, "stations", "seen", "square-share"):
            raise UsageError(f"--{option} goes with --weather; give a file of weather too.")


def _given(options: argparse.Namespace, *names: str) -> Iterator[str]:
    """Give those of some options that stand in the command line."""
    for name in names:
        if getattr(options, name.replace("-", "_")) is not None:
            yield name


def _given_dates(options: argparse.Namespace) -> CropDates:
    first, last = options.first_square
    treated = () if options.treated is None else (options.treated,)
    try:
        return CropDates(first, last, options.bloom, treated)
    except CropDateError as error:
        raise UsageError(str(error)) from None


def _as_given(head: WalkHead, planting: Planting, seen: Iterable[Seen] = ()) -> Standing:
    if planting.dates is None:
        raise ValueError(f"the planting of {head.field} must give first square.")
    return Standing(*given_standing(head.date, planting.dates, seen))


def _chosen_plantings(options: argparse.Namespace, walks: WalkFile) -> PlantingFile:
    """Read the plantings; refuse walks whose field has no row."""
    alone = options.weather is None
    plantings = read_plantings(
        options.plantings,
        need_first_square=alone,
        may_give_weather=alone,
        asked={head.field for head in walks.table.heads},
    )
    for notice in plantings.notices:
        print(notice, file=sys.stderr)
    refuse_unplanted(walks, plantings)
    return plantings


def refuse_unplanted(walks: WalkFile, plantings: PlantingFile) -> None:
    """Refuse walks whose field has no row in the plantings.

    Parameters
    ----------
    walks : WalkFile
        The walks.
    plantings : PlantingFile
        The plantings.

    Raises
    ------
    RefusedInput
        It names each such field at its first row.
    """
    lacking: dict[str, int] = {}
    for index, head in enumerate(walks.table.heads):
        if head.field not in plantings.plantings:
            lacking.setdefault(head.field, index)
    expected = f"a field with a row in {plantings.file}"
    refuse_if_any([
        Problem(walks.file, walks.first_row(index), "field", field, expected)
        for field, index in lacking.items()
    ])  # fmt: skip


def standings_by(
    clocks: Clocks, walks: WalkFile, readings: Sequence[Reading], which: Iterable[int]
) -> list[Standing]:
    """Find where the fields of walks stood, by their clocks where first square is not given.

    Where it is, and first bloom is not, flowers that were seen by then stand for first bloom.

    Parameters
    ----------
    clocks : Clocks
        Of the walks' fields.
    walks : WalkFile
        The walks; their square checks are seen too, up to the day of each walk.
    readings : sequence of Reading
        What was counted on each.
    which : iterable of int
        The walks asked for. [index]

    Returns
    -------
    list of Standing
        In that order.

    Raises
    ------
    RefusedInput
        It names each field that can't be worked out.
    """
    from quarterwalk.cli.clocks import seen_on_walks

    seen = seen_on_walks(walks.table.heads, readings)
    told: list[Standing] = []
    problems: list[Problem] = []
    for index in which:
        head = walks.table.heads[index]
        planting = clocks.plantings[head.field]
        if planting.first_square is not None:
            told.append(_as_given(head, planting, clocks.looks(head.field, head.date)))
            continue
        late = _outside(walks, index, clocks.planted(head.field, head.date))
        if late is not None:
            problems.append(late)
            continue
        try:
            clock = clocks.clock(head.field, head.date, seen.get(head.field, ()))
            km = clocks.weather(head.field, head.date).distance_km
            told.append(Standing(clock.dates(planting.treated), clock.stage(km)))
        except (WeatherError, CropDateError) as error:
            unknown = clocks.problem(head.field, head.date, error)
            if unknown not in problems:  # several walks of a field may lack the same
                problems.append(unknown)
    refuse_if_any(problems)
    return told


def _outside(walks: WalkFile, index: int, planted: date) -> Problem | None:
    """Say that a walk lies outside the days that can be worked out for its planting."""
    on, last = walks.table.heads[index].date, planted + timedelta(days=SEASON_DAYS - 1)
    if planted <= on <= last:
        return None
    expected = f"a day from {planted} to {last}, {SEASON_DAYS} days from planting"
    hint = "The plantings give the day of planting; one of the two is wrong."
    return Problem(walks.file, walks.first_row(index), "date", on.isoformat(), expected, hint)
