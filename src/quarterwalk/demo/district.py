"""The demo district as values: its fields, its people, and how its true fields go."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from quarterwalk.crop import CropDates


class Way(StrEnum):
    """How one walk goes."""

    FULL = "full"
    EARLY_END = "early-end"
    """The first loop and one more stop a quadrant."""
    QUARTER_MISSING = "quarter-missing"
    TWO_DAYS = "two-days"
    """The first loop on one day, the second on the next."""
    TWO_SCOUTS = "two-scouts"
    PLANT_SKIPPED = "plant-skipped"
    SWEEP = "sweep"
    SQUARES_ONLY = "squares-only"


@dataclass(frozen=True, slots=True)
class Visit:
    """What is special about one visit to a field."""

    way: Way = Way.FULL
    note: str = ""


@dataclass(frozen=True, slots=True)
class DemoField:
    """One invented field: what the scout knows of it, and what is true of it.

    Parameters
    ----------
    name, grower, scout, variety, water : str
        As they stand in the tables.
    acres : int
        Its area. [acre]
    planted : date
        The day of planting.
    dates : CropDates
        As the scout knows them, before any treatment.
    squared : date
        The true day of first square.
    first_visit : date
        The day of the first walk.
    clumping : float
        k of the insects' gamma-Poisson counts. [dimensionless]
    per_100 : tuple of float
        True insects per 100 plants, 0, 7, 14, 21 and 28 days after first square.
    square_set : tuple of float
        True square set on the same days. [fraction]
    lost_as : tuple of float
        Lost squares that are missing, blasted and flared. [fractions that add up to 1]
    quadrants : tuple of float
        Insects of NW, NE, SW and SE against the field's mean. [ratio, mean 1]
    sites_times : float
        First positions against those of the other fields. [ratio]
    sprays_at_call : int
        Which call to treat is followed by a spray; 0 for none. [from 1]
    replanted : date or None
        The day of planting again.
    hail : tuple of date
        Days of hail.
    visits : mapping of int to Visit
        Visits that differ from a plain full walk, by number. [from 1]
    """

    name: str
    acres: int
    grower: str
    scout: str
    variety: str
    water: str
    planted: date
    dates: CropDates
    squared: date
    first_visit: date
    clumping: float
    per_100: tuple[float, ...]
    square_set: tuple[float, ...]
    lost_as: tuple[float, ...]
    quadrants: tuple[float, ...]
    sites_times: float
    sprays_at_call: int
    replanted: date | None
    hail: tuple[date, ...]
    visits: Mapping[int, Visit]


@dataclass(frozen=True, slots=True)
class Nature:
    """What all fields have in common; meaning and units stand in the data file."""

    sites: tuple[float, ...]
    nymphs: float
    left_after_spray: float
    spray_holds_days: int
    back_after_days: int
    per_sweep: float


@dataclass(frozen=True, slots=True)
class District:
    """The demo district; every word and number of it is invented."""

    name: str
    guideline: str
    advisor: str
    first_day: date
    last_day: date
    time_zone: str
    nature: Nature
    fields: tuple[DemoField, ...]

    @property
    def scouts(self) -> tuple[str, ...]:
        """The scouts, in the order of their first fields."""
        return tuple(dict.fromkeys(field.scout for field in self.fields))

    @property
    def acres(self) -> int:
        """The area of all fields. [acre]"""
        return sum(field.acres for field in self.fields)


@cache
def load_district() -> District:
    """Take the demo district from the package's own data.

    Returns
    -------
    District
        The same one every time.
    """
    text = (files("quarterwalk.demo") / "district.toml").read_text(encoding="utf-8")
    content = tomllib.loads(text)
    nature = content["nature"]
    return District(
        **content["district"],
        nature=Nature(**{**nature, "sites": tuple(nature["sites"])}),
        fields=tuple(_field(table) for table in content["fields"]),
    )


_EVEN = (1.0, 1.0, 1.0, 1.0)


def _field(table: Mapping[str, Any]) -> DemoField:
    given: dict[str, Any] = {"quadrants": _EVEN, "hail": (), "replanted": None} | dict(table)
    first, latest = _first_square(given.pop("first_square"))
    visits = {v["number"]: Visit(Way(v["way"]), v.get("note", "")) for v in given.pop("visits", ())}
    for key in ("per_100", "square_set", "lost_as", "quadrants", "hail"):
        given[key] = tuple(given[key])
    return DemoField(
        dates=CropDates(first, latest, given.pop("bloom", None)),
        squared=given.pop("squared", first),
        sites_times=given.pop("sites_times", 1.0),
        sprays_at_call=given.pop("sprays_at_call", 0),
        visits=MappingProxyType(visits),
        **given,
    )


def _first_square(value: date | str) -> tuple[date, date | None]:
    """Read a day, or a range of days as the tables write it."""
    if isinstance(value, date):
        return value, None
    first, last = map(date.fromisoformat, value.split("/"))
    return first, last
