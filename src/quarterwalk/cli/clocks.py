"""Clocks of fields: weather, plantings and what was seen, brought together by field name."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from quarterwalk.cli.ground import known_as
from quarterwalk.cli.weather_files import chosen_weather, nearest
from quarterwalk.crop import (
    CropClock,
    CropDateError,
    Needs,
    Seen,
    clock_for,
    given_by,
    load_needs,
    of_stand,
)
from quarterwalk.errors import Problem, UsageError, shown
from quarterwalk.field import Field
from quarterwalk.files.plantings import Planting, PlantingFile
from quarterwalk.files.seen_table import read_seen
from quarterwalk.files.weather_findings import WeatherFinding, findings_between
from quarterwalk.files.weather_said import Odd
from quarterwalk.reading import Reading
from quarterwalk.walk import WalkHead
from quarterwalk.weather.choose import FieldWeather, weather_for
from quarterwalk.weather.daily import DailyWeather, WeatherError
from quarterwalk.weather.station import Place

_MOST_NAMED = 8  # more would bury the rest [count]


@dataclass(frozen=True, slots=True)
class FieldProblem(Problem):
    """What keeps the season of one field from being worked out, told at the day it begins.

    Parameters
    ----------
    field : str
        Its name; `expected` is a clause of its own.
    """

    field: str = ""

    @property
    def message(self) -> str:
        """Name the field, and say what must hold."""
        text = f"{self.file} row {self.row}, field {shown(self.field)}: {self.expected}."
        return f"{text} {self.hint}" if self.hint else text


@dataclass(frozen=True, slots=True, eq=False)
class Clocks:
    """All that the clocks of fields run on.

    Parameters
    ----------
    stations : tuple of DailyWeather
        Each once.
    places : mapping of str to (float, float)
        Where the fields are, by `known_as`. [degrees]
    table : PlantingFile
        The fields, each with the day of planting.
    seen : mapping of str to tuple of Seen
        What was seen, by `known_as`.
    needs : Needs
        What the crop needs, and which share of plants makes first square.
    """

    stations: tuple[DailyWeather, ...]
    places: Mapping[str, Place]
    table: PlantingFile
    seen: Mapping[str, tuple[Seen, ...]]
    needs: Needs
    _filled: dict[tuple[Place | None, date, date], FieldWeather] = field(default_factory=dict)
    _nearest: dict[Place, tuple[DailyWeather, ...]] = field(default_factory=dict)

    @property
    def plantings(self) -> Mapping[str, Planting]:
        """The plantings by the names of the table."""
        return self.table.plantings

    def planted(self, name: str, on: date) -> date:
        """Give the day on which the stand was planted that a field has on a day."""
        planting = self.plantings[name]
        again, once = planting.replanted, planting.planted
        if again is not None and once is not None and on < again:
            return once
        planted = planting.stand_planted
        if planted is None:
            raise ValueError(f"the planting of {name} must give its day.")
        return planted

    def problem(self, name: str, on: date, error: WeatherError | CropDateError) -> FieldProblem:
        """Tell at the row of a field why its season can't be worked out.

        Parameters
        ----------
        name : str
            The field.
        on : date
            The day asked for.
        error : WeatherError or CropDateError
            What keeps it from being worked out.

        Returns
        -------
        FieldProblem
        """
        planted = self.planted(name, on)
        column = "replanted" if planted == self.plantings[name].replanted else "planted"
        why, advice = (
            (error.why, error.advice) if isinstance(error, WeatherError) else (str(error), "")
        )
        return FieldProblem(
            self.table.file,
            self.table.rows[name],
            column,
            planted.isoformat(),
            why.removesuffix("."),
            advice,
            name,
        )

    def weather(self, name: str, on: date) -> FieldWeather:
        """Give the weather that a field goes by, gaps filled.

        Parameters
        ----------
        name : str
            The field.
        on : date
            The day asked for.

        Returns
        -------
        FieldWeather

        Raises
        ------
        WeatherError
            If nothing tells which station is near.
        """
        place, planted = self.places.get(known_as(name)), self.planted(name, on)
        key = place, planted, on
        if key not in self._filled:
            near = self._near(place)
            self._filled[key] = weather_for(near, place, first=planted, last=max(planted, on))
        return self._filled[key]

    def _near(self, place: Place | None) -> tuple[DailyWeather, ...]:
        """Give the stations that a field may go by, and that its gaps are filled from."""
        if place is None or len(self.stations) == 1:
            return self.stations
        if place not in self._nearest:
            self._nearest[place] = tuple(nearest(self.stations, place)) or self.stations
        return self._nearest[place]

    def looks(self, name: str, on: date, more_seen: Iterable[Seen] = ()) -> tuple[Seen, ...]:
        """Give what was seen of the stand that a field has on a day.

        Parameters
        ----------
        name : str
            The field.
        on : date
            The day; what was seen later is among it.
        more_seen : iterable of Seen
            What was seen beside the table, such as on walks.

        Returns
        -------
        tuple of Seen
        """
        planting = self.plantings[name]
        looks = (*self.seen.get(known_as(name), ()), *more_seen)
        if planting.first_square is not None and planting.stand_planted is None:
            # then a look so long before first square is of another season
            return of_stand(looks, planting.first_square[0], again=False)
        planted = self.planted(name, on)
        return of_stand(looks, planted, again=planted == planting.replanted)

    def clock(self, name: str, on: date, more_seen: Iterable[Seen] = ()) -> CropClock:
        """Read a field's clock on a day.

        Parameters
        ----------
        name : str
            The field.
        on : date
            What was measured or seen later is not looked at, nor a later first bloom.
        more_seen : iterable of Seen
            What was seen beside the table, such as on walks.

        Returns
        -------
        CropClock

        Raises
        ------
        WeatherError
            If weather lacks days that can't be filled, or nothing tells what may come.
        CropDateError
            If the day is not in the season of the planting.
        """
        planting, planted = self.plantings[name], self.planted(name, on)
        return clock_for(
            self.weather(name, on).weather,
            planted,
            on=on,
            given=given_by(on, planting.first_square, planting.bloom),
            seen=self.looks(name, on, more_seen),
            needs=self.needs,
        )


def chosen_clocks(
    options: argparse.Namespace,
    plantings: PlantingFile,
    fields: Mapping[str, Field],
) -> Clocks:
    """Read weather and what was seen, for the fields of a plantings table.

    Parameters
    ----------
    options : argparse.Namespace
        With ``--weather``, ``--stations``, ``--seen`` and ``--fields``.
    plantings : PlantingFile
        The table.
    fields : mapping of str to Field
        Boundaries by `known_as`.

    Returns
    -------
    Clocks

    Raises
    ------
    UsageError
        If there are several stations and no boundaries to tell which is near.
    """
    weather = chosen_weather(options.weather, options.stations)
    if len(weather.stations) > 1 and options.fields is None:
        raise UsageError(
            f"with {len(weather.stations)} stations --fields must say where the fields are;"
            " or give a file of one station."
        )
    _say_of_stations(weather.stations, fields)
    _say_findings(weather.findings, plantings.plantings.values())
    places = {name: (each.shape.centroid.x, each.shape.centroid.y) for name, each in fields.items()}
    needs = load_needs()
    if options.square_share is not None:
        needs = needs.with_share(options.square_share)
    seen = _seen(options.seen, plantings.plantings)
    return Clocks(weather.stations, places, plantings, seen, needs)


def _say_of_stations(stations: Sequence[DailyWeather], fields: Mapping[str, Field]) -> None:
    """Name the stations that no field can go by, since nobody says where they are."""
    lost = [weather.station.label for weather in stations if weather.station.place is None]
    if fields and lost and len(stations) > 1:
        print(
            f"{len(lost)} of {len(stations)} stations tell no place and are left out:"
            f" {', '.join(lost[:_MOST_NAMED])}{' …' if len(lost) > _MOST_NAMED else ''}.",
            file=sys.stderr,
        )


def _say_findings(findings: Sequence[WeatherFinding], plantings: Iterable[Planting]) -> None:
    """Say what was found wrong in the weather from the first planting on.

    Days that are missing are told with the season, and how they were filled.
    """
    begun = [day for each in plantings for day in (each.planted, each.replanted) if day]
    chosen = findings_between(findings, min(begun), date.max)[0] if begun else []
    told = [found for found in chosen if found.code != Odd.MISSING]
    for found in told[:_MOST_NAMED]:
        print(found.text, file=sys.stderr)
    if len(told) > _MOST_NAMED:
        more = len(told) - _MOST_NAMED
        print(f"And {more} more like these; quarterwalk weather tells all.", file=sys.stderr)


def _seen(path: str | None, plantings: Mapping[str, Planting]) -> dict[str, tuple[Seen, ...]]:
    """Read what was seen, saying which of its fields was never planted."""
    if path is None:
        return {}
    told = read_seen(path)
    for notice in told.notices:
        print(notice, file=sys.stderr)
    planted = {known_as(name) for name in plantings}
    for name in told.seen:
        if known_as(name) not in planted:
            print(
                f'{told.file}: the plantings have no field named "{shown(name)}";'
                " what was seen there is left alone.",
                file=sys.stderr,
            )
    return {known_as(name): seen for name, seen in told.seen.items()}


def seen_on_walks(
    heads: Sequence[WalkHead], readings: Sequence[Reading]
) -> dict[str, tuple[Seen, ...]]:
    """Give what the square checks of walks tell of the crop, by field name.

    Parameters
    ----------
    heads : sequence of WalkHead
        Fields and days.
    readings : sequence of Reading
        What was counted, in the same order.

    Returns
    -------
    dict of str to tuple of Seen
        A walk without a square check tells nothing.
    """
    told: dict[str, tuple[Seen, ...]] = {}
    for head, reading in zip(heads, readings, strict=True):
        if reading.square_plants:
            seen = Seen(
                on=head.date,
                plants=reading.square_plants,
                pinhead=reading.squaring_plants,
                walked=True,
            )
            told[head.field] = (*told.get(head.field, ()), seen)
    return told
