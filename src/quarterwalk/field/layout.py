"""How a field is walked: its four quadrants, its stops and its loops."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from shapely import MultiPolygon

from quarterwalk.field.field import Field, Place
from quarterwalk.walk import Quadrant


@dataclass(frozen=True, slots=True)
class Stop:
    """A place in a quadrant where a few plants in a row are checked.

    Parameters
    ----------
    number : int
        In the order of walking, through both loops. [from 1]
    quadrant : Quadrant
        Where it lies.
    loop : int
        The loop that passes it. [from 1]
    plants : int
        How many plants in a row are checked. [count]
    place : tuple of float
        Longitude and latitude. [degrees]
    """

    number: int
    quadrant: Quadrant
    loop: int
    plants: int
    place: Place


@dataclass(frozen=True, slots=True)
class Loop:
    """A way from the entry through its stops and back.

    Parameters
    ----------
    number : int
        The first is walked first. [from 1]
    line : tuple of (longitude, latitude)
        Begins and ends at the entry; between two stops it may bend to stay inside the
        field. [degrees]
    metres : float
        Length on the ellipsoid. [m]
    minutes : float
        Time to walk it, without the checking. [minutes]
    """

    number: int
    line: tuple[Place, ...]
    metres: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Layout:
    """A field laid out for one walk.

    Parameters
    ----------
    field : Field
        The field.
    on : date
        The day it is laid out for; another day has other stops.
    quadrants : mapping of Quadrant to MultiPolygon
        Four parts of equal area, NW NE SW SE. [degrees]
    acres : float
        Area of the field on the ellipsoid. [acre]
    stops : tuple of Stop
        In the order of walking.
    loops : tuple of Loop
        In the order of walking.
    """

    field: Field
    on: date
    quadrants: Mapping[Quadrant, MultiPolygon]
    acres: float
    stops: tuple[Stop, ...]
    loops: tuple[Loop, ...]

    @property
    def entry(self) -> Place:
        """Where the loops begin and end: longitude and latitude. [degrees]"""
        return self.loops[0].line[0]
