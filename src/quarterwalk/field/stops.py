"""Where to stop in a quadrant: away from the edge, spread, and elsewhere on another day."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial.distance import cdist
from shapely import MultiPolygon
from shapely.geometry.base import BaseGeometry

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]

# About so many places of a quadrant are drawn, of which the stops are chosen. [count]
_PLACES = 256
# So many ways to lay the stops are drawn, with strips turned so many ways; the first that is
# spread well is taken. [count], [count]
_DRAWS, _TURNS = 80, 3
# A way is spread well where the largest gap that the first loop leaves is at most so many
# times the least of all that were drawn, and no two stops are nearer than so much of the
# side of a stop's own square (this project's rule). [times], [fraction]
_WIDEST_GAP, _NEAREST = 1.35, 0.45
# How roughly the largest circle in a quadrant is sought, at most; a 200th of its side where
# that is less. [m]
_ROUGHLY = 0.5
# Room for the rounding of corners and of the degrees that are written. [m]
_SPARE = 0.3
# A stop keeps this share of its margin from the next quadrant, so that its plants stand in
# its own (this project's rule). [fraction]
_FROM_NEXT = 1 / 3
# The places of a thin quadrant are sought with a finer net, so many times over. [count]
_FINER = 8


NOWHERE = np.empty((0, 2))
"""No places at all."""


@dataclass(frozen=True, slots=True)
class Ground:
    """Where the stops of one quadrant may lie.

    Parameters
    ----------
    quadrant : MultiPolygon
        In a flat frame. [m]
    inner : geometry
        What of it keeps the margin. [m]
    margin : float
        Kept from the field's edge. [m]
    """

    quadrant: MultiPolygon
    inner: BaseGeometry
    margin: float


def ground_of(field: MultiPolygon, quadrant: MultiPolygon, margin: float) -> Ground:
    """Find where in a quadrant stops may lie.

    Parameters
    ----------
    field, quadrant : MultiPolygon
        In one flat frame. [m]
    margin : float
        To keep from the field's edge, or half the radius of the largest circle in the
        quadrant where that is less. [m]

    Returns
    -------
    Ground
    """
    rough = min(_ROUGHLY, np.sqrt(quadrant.area) / 200)
    radius = shapely.maximum_inscribed_circle(quadrant, tolerance=rough).length
    kept = min(margin, (radius + rough) / 2)
    spare = min(_SPARE, radius / 50)
    inside = shapely.buffer(field, -(kept + spare))
    apart = shapely.buffer(quadrant, -kept * _FROM_NEXT)
    return Ground(quadrant, shapely.intersection(inside, apart), kept)


def dice(name: str, on: date) -> np.random.Generator:
    """Give the dice of one field on one day: the same whenever it is asked for.

    Parameters
    ----------
    name : str
        The field's name.
    on : date
        The day of the walk.

    Returns
    -------
    numpy.random.Generator
    """
    told = hashlib.sha256(f"{name}\n{on.isoformat()}".encode()).digest()
    # named, since what numpy takes by default may change
    return np.random.Generator(np.random.PCG64(int.from_bytes(told, "big")))


def choose_stops(
    ground: Ground,
    split: Sequence[int],
    rng: np.random.Generator,
    *,
    others: FloatArray = NOWHERE,
) -> list[FloatArray]:
    """Choose the stops of each loop in one quadrant.

    Each loop shares the quadrant out into strips of equal area, one a stop, and the strips
    again crosswise; every stop is drawn from its own share and no two from the same strip
    either way. So each loop stands for the whole quadrant by itself, and before the widest
    gaps are thrown out every place has the same chance.

    Parameters
    ----------
    ground : Ground
        Where they may lie.
    split : sequence of int
        How many stops each loop has here. [count]
    rng : numpy.random.Generator
        The day's dice.
    others : float array, shape (stops, 2)
        Stops of other quadrants, from which these keep apart too. [m]

    Returns
    -------
    list of float array, shape (stops, 2)
        One for each loop, in a flat frame. [m]

    References
    ----------
    M. D. McKay, R. J. Beckman and W. J. Conover, "A comparison of three methods for
    selecting values of input variables in the analysis of output from a computer code",
    Technometrics 21(2), 239-245, 1979 (one draw from each strip, both ways).
    """
    places = _places(ground.inner, max(_PLACES, 4 * max(split) ** 2), rng)
    around = _places(ground.quadrant, _PLACES, rng)
    apart = _NEAREST * np.sqrt(ground.quadrant.area / sum(split))
    to_around, to_others = cdist(places, around), cdist(places, places)
    drawn = [_drawn(places, count, rng) for count in split]
    gaps = _gaps(to_around[drawn[0]])
    nearest = _nearest(to_others, np.hstack(drawn))
    if len(others):
        to_next = cdist(places, others.reshape(-1, 2)).min(axis=1)
        nearest = np.minimum(nearest, to_next[np.hstack(drawn)].min(axis=1))
    # the first that is spread well, so that what is thrown out is only what must be; where
    # none keeps its stops apart, the one that comes nearest to it without a wide gap
    even = np.flatnonzero(gaps <= _WIDEST_GAP * gaps.min())
    well = even[nearest[even] >= apart]
    pick = int(well[0]) if len(well) else int(even[np.argmax(nearest[even])])
    return [places[each[pick]] for each in drawn]


def _places(area: BaseGeometry, wanted: int, rng: np.random.Generator) -> FloatArray:
    """Draw places all over an area, one from each cell of a net laid by chance."""
    shapely.prepare(area)
    west, south, east, north = area.bounds
    cell = np.sqrt(area.area / wanted)
    for _ in range(_FINER):
        across, up = (int(np.ceil(size / cell)) + 1 for size in (east - west, north - south))
        shift = rng.random(2)
        columns, rows = np.meshgrid(np.arange(across), np.arange(up))
        within = rng.random((2, *columns.shape))
        x = west + cell * (columns - shift[0] + within[0])
        y = south + cell * (rows - shift[1] + within[1])
        inside = shapely.contains_xy(area, x, y)
        if np.count_nonzero(inside) >= wanted / 2:
            break
        cell /= np.sqrt(2)
    found: FloatArray = np.column_stack([x[inside], y[inside]])
    return found


def _drawn(places: FloatArray, count: int, rng: np.random.Generator) -> IntArray:
    """Draw a place from each strip, no two from the same cross strip, many times over."""
    drawn = np.empty((_TURNS, _DRAWS, count), dtype=np.intp)
    centred = places - places.mean(axis=0)
    longer = np.linalg.eigh(centred.T @ centred)[1][:, -1]
    shorter = centred @ _turned(longer, np.pi / 2)
    for turn in drawn:
        along = centred @ _turned(longer, _turn(rng))
        crosswise = rng.permuted(np.tile(np.arange(count), (_DRAWS, 1)), axis=1)
        for number, strip in enumerate(_shares(along, np.arange(len(places)), count)):
            for cross, share in enumerate(_shares(shorter, strip, count)):
                here = crosswise[:, number] == cross
                turn[here, number] = rng.choice(share, np.count_nonzero(here))
    return rng.permutation(drawn.reshape(-1, count))


def _turn(rng: np.random.Generator) -> float:
    """Turn the strips a little, so that their borders are not the same each time. [radians]"""
    return float(rng.uniform(-np.pi / 6, np.pi / 6))


def _turned(way: FloatArray, by: float) -> FloatArray:
    turn = np.array([[np.cos(by), -np.sin(by)], [np.sin(by), np.cos(by)]])
    turned: FloatArray = turn @ way
    return turned


def _shares(along: FloatArray, which: IntArray, count: int) -> list[IntArray]:
    """Share places out by how far along a way they lie, as many to each share."""
    order = np.argsort(along[which], kind="stable")
    return list(np.array_split(which[order], count))


def _gaps(ways: FloatArray) -> FloatArray:
    """Give how far the farthest place lies from its nearest stop, for each draw. [m]"""
    gaps: FloatArray = ways.min(axis=1).max(axis=1)
    return gaps


def _nearest(ways: FloatArray, drawn: IntArray) -> FloatArray:
    """Give how near the two nearest stops lie, for each draw. [m]"""
    pairs = ways[drawn[:, :, None], drawn[:, None, :]]
    pairs += np.where(np.eye(drawn.shape[1]) > 0, np.inf, 0.0)
    nearest: FloatArray = pairs.min(axis=(1, 2))
    return nearest
