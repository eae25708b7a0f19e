"""Rings as they were drawn, made fit to be joined to a boundary."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from quarterwalk.words import phrase, phrase_for

Ring = NDArray[np.float64]
"""Points of a ring in order, shape (points, 2): longitude, latitude. [degrees]"""

Part = tuple[Ring, ...]
"""One outer ring, and after it the rings of its holes."""

SAME = 1e-9
"""Points nearer than this are one; about a tenth of a millimetre (this project's rule).
[degrees]"""

FARTHEST_EAST, FARTHEST_NORTH = 180.0, 90.0
"""Ends of longitude and latitude. [degrees]"""

POLAR_CIRCLE = 66.6
"""Nothing is farmed nearer the poles; a field there has its coordinates the wrong way
round. Latitude at which the sun may stay up all day, rounded up. [degrees]"""


class NoField(ValueError):
    """A shape that can't be a field: what was found, what was expected, what to do."""

    def __init__(self, value: str, expected: str, hint: str = "") -> None:
        super().__init__(value, expected, hint)
        self.value = value
        self.expected = expected
        self.hint = hint


@dataclass(slots=True)
class _Tally:
    """How often each small repair was made in one field."""

    opened: int = 0
    repeated: int = 0
    empty_holes: int = 0
    done: list[str] = field(default_factory=list)

    def told(self) -> list[str]:
        """Say each repair as a sentence."""
        told = list(self.done)
        if self.opened:
            told.append(
                phrase_for(
                    self.opened,
                    "the ring was not closed; its first point was repeated at the end.",
                    "{count} rings were not closed; the first point of each was repeated "
                    "at the end.",
                )
            )
        if self.repeated:
            told.append(
                phrase_for(
                    self.repeated,
                    "a point that only repeats the one before it was dropped.",
                    "{count} points that only repeat the one before them were dropped.",
                )
            )
        if self.empty_holes:
            told.append(
                phrase_for(
                    self.empty_holes,
                    "a hole with fewer than 3 points was dropped.",
                    "{count} holes with fewer than 3 points were dropped.",
                )
            )
        return told


def tidied(parts: Sequence[Part]) -> tuple[list[Part], list[str]]:
    """Close rings, drop points that repeat, put longitude first.

    Parameters
    ----------
    parts : sequence of tuples of arrays, each of shape (points, 2)
        As drawn. [degrees]

    Returns
    -------
    parts : list of tuples of arrays, each of shape (points, 2)
        Closed rings of at least 3 different points. [degrees]
    done : list of str
        Each repair, in the language spoken.

    Raises
    ------
    NoField
        If there are no points, some lie off the globe, or an outer ring has fewer than 3.
    """
    rings = [ring for part in parts for ring in part]
    if not any(len(part) and len(part[0]) for part in parts):
        raise NoField("an empty shape", "a polygon with points")
    tally = _Tally()
    if _swapped(np.concatenate(rings)):
        parts = [tuple(ring[:, ::-1] for ring in part) for part in parts]
        tally.done.append(
            phrase("longitude and latitude stood the wrong way round; they were swapped.")
        )
    elif any(np.abs(ring[:, 1]).max(initial=0) > POLAR_CIRCLE for ring in rings):
        tally.done.append(
            phrase(
                "the field lies beyond a polar circle, where nothing is farmed; longitude and "
                "latitude may stand the wrong way round."
            )
        )
    tidy = [part for part in (_tidy_part(part, tally) for part in parts) if part]
    return tidy, tally.told()


def _swapped(points: Ring) -> bool:
    """Tell whether the pairs are latitude and longitude; refuse those that can be neither."""
    if not np.isfinite(points).all():
        bad = points[~np.isfinite(points).all(axis=1)][0]
        raise NoField(_written(bad), "points that are places on the globe")
    size = np.abs(points)
    swapped = bool(size[:, 0].max() <= FARTHEST_NORTH < size[:, 1].min())
    far = ((size[:, ::-1] if swapped else size) > [FARTHEST_EAST, FARTHEST_NORTH]).any(axis=1)
    if far.any():
        hint = "Metres or feet? Then the file has to say of which coordinate system."
        if np.abs(points).max() <= 2 * FARTHEST_EAST:
            hint = "Longitude runs from -180 to 180, west of Greenwich below 0."
        raise NoField(_written(points[far][0]), "longitude and latitude in degrees", hint)
    across = points[:, 1 if swapped else 0]
    if np.ptp(across) > FARTHEST_EAST:
        ends = f"longitudes {across.min():.6g} and {across.max():.6g}"
        hint = "A field across 180 degrees has to be given as two fields, one on each side."
        raise NoField(ends, "a field on one side of the 180th meridian", hint)
    return swapped


def _tidy_part(part: Part, tally: _Tally) -> Part:
    outer, *holes = (_tidy_ring(ring, tally) for ring in part)
    if not len(outer):
        raise NoField("fewer than 3 different points", "a ring of at least 3 different points")
    kept = [hole for hole in holes if len(hole)]
    tally.empty_holes += len(holes) - len(kept)
    return (outer, *kept)


def _tidy_ring(ring: Ring, tally: _Tally) -> Ring:
    """Give a closed ring without repeated points; an empty one where under 3 are left."""
    steps = np.abs(np.diff(ring, axis=0)).max(axis=1)
    kept = np.concatenate([ring[:1], ring[1:][steps > SAME]])
    closed = len(ring) > 1 and np.abs(ring[-1] - ring[0]).max() <= SAME
    corners = kept[:-1] if closed and len(kept) > 1 else kept
    if len(np.unique(corners, axis=0)) < 3:
        return np.empty((0, 2))
    tally.opened += not closed
    tally.repeated += len(ring) - len(kept)
    return np.concatenate([corners, corners[:1]])


def _written(point: Iterable[float]) -> str:
    return ", ".join(f"{value:.10g}" for value in point)
