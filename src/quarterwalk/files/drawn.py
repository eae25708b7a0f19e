"""What a file of boundaries holds, before anything is made of it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, field, fields
from typing import NoReturn

import numpy as np
from pyproj import CRS

from quarterwalk.field.rings import Part, Ring
from quarterwalk.files.boundary_limits import (
    MOST_FIELDS,
    MOST_POINTS,
    MOST_POINTS_A_FIELD,
    MOST_RINGS_A_FIELD,
)
from quarterwalk.files.refusal import refuse


@dataclass(frozen=True, slots=True)
class Said:
    """What a file says of a feature, each as it stands there; empty where it says nothing."""

    name: str = ""
    id: str = ""
    gate: str = ""
    rows: str = ""
    grower: str = ""
    farm: str = ""


SAID = tuple(item.name for item in fields(Said))
"""Names of the properties that are read."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """One feature that is an area.

    Parameters
    ----------
    row : int
        Its number among the features of its layer. [from 1]
    parts : tuple of Part
        Its rings, in the coordinates of the file.
    said : Said
        Its properties.
    """

    row: int
    parts: tuple[Part, ...]
    said: Said


@dataclass(frozen=True, slots=True)
class Layer:
    """The features of one layer.

    Parameters
    ----------
    file : str
        What errors call it.
    drawn : tuple of Drawn
        Those that are areas, in the order of the file.
    left_out : int
        How many others there are: points, lines. [count]
    crs : pyproj.CRS or None
        Of the coordinates; None where the file does not say.
    notices : tuple of str
        What is worth saying about the layer.
    """

    file: str
    drawn: tuple[Drawn, ...]
    left_out: int
    crs: CRS | None
    notices: tuple[str, ...] = ()


def said_from(pairs: Iterable[tuple[str, object]], *, id_: object = None) -> Said:
    """Pick the properties that are read, by their names in any letter case.

    Parameters
    ----------
    pairs : iterable of (str, object)
        Name and value. Of names that differ in letter case alone the first counts that
        is not blank.
    id_ : object
        The feature's own id; it goes before a property of that name.

    Returns
    -------
    Said
    """
    found = {"id": text_of(id_)}
    for name, value in pairs:
        key = name.strip().lower()
        if key in SAID and not found.get(key):
            found[key] = text_of(value)
    return Said(**found)


def text_of(value: object) -> str:
    """Write a value as a text: a whole number without its point, nothing as nothing."""
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        value = int(value)
    if isinstance(value, str):
        return value.replace("\x00", " ").strip()
    if isinstance(value, bool | list | dict):
        return json.dumps(value)
    return str(value)


@dataclass(slots=True)
class Budget:
    """Counts features, rings and points while a file is read, and stops at the limits.

    Parameters
    ----------
    file : str
        What errors call it.
    """

    file: str
    features: int = 0
    points: int = 0
    _rings: int = field(default=0, repr=False)
    _of_row: int = field(default=0, repr=False)

    def feature(self) -> int:
        """Count a feature, and give its number. [from 1]"""
        self.features += 1
        self._rings = self._of_row = 0
        if self.features > MOST_FIELDS:
            refuse(self.file, "more", f"a file of at most {MOST_FIELDS:,} features")
        return self.features

    def ring(self, count: int) -> None:
        """Count a ring of so many points, before they are taken."""
        self.points += count
        self._rings += 1
        self._of_row += count
        if self._rings > MOST_RINGS_A_FIELD:
            self._refuse(f"a field of at most {MOST_RINGS_A_FIELD} parts and holes")
        if self._of_row > MOST_POINTS_A_FIELD:
            self._refuse(f"a field of at most {MOST_POINTS_A_FIELD:,} points")
        if self.points > MOST_POINTS:
            self._refuse(f"a file of at most {MOST_POINTS:,} points")

    def _refuse(self, expected: str) -> NoReturn:
        refuse(self.file, "more", expected, "Thin out its points.", row=self.features)


def counter_clockwise(part: Part) -> Part:
    """Turn the rings of a part, for formats in which their direction means nothing."""
    turned = [_turned(ring, clockwise=place > 0) for place, ring in enumerate(part)]
    return tuple(turned)


def _turned(ring: Ring, *, clockwise: bool) -> Ring:
    if len(ring) < 3:
        return ring
    with np.errstate(all="ignore"):
        x, y = (ring - ring[0]).T
        area = np.dot(x, np.roll(y, -1)) - np.dot(np.roll(x, -1), y)
    return ring[::-1] if (area < 0) != clockwise else ring
