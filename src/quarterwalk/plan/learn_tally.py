"""What learning needs to know of many walks: their stops, their squares, their fields."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from quarterwalk.reading.sums import FloatArray, IntArray
from quarterwalk.walk import COUNTS, QUADRANTS, Method, WalkTable

_INSECTS = (COUNTS.index("adults"), COUNTS.index("nymphs"))
_HEALTHY = COUNTS.index("healthy")
_SQUARES = slice(_HEALTHY, len(COUNTS))


@dataclass(frozen=True, slots=True)
class Stops:
    """The insects of many stops.

    Where no walk has stop numbers, what was counted in a quadrant stands as one stop.

    Parameters
    ----------
    walk, cell : int array, shape (stops,)
        The stop's walk, and its quadrant of that walk. [index]
    plants, insects : int array, shape (stops,)
        Plants of the stop, and insects on them. [count]
    plants_over : int array
        Plants with more than 0, 1, 2 ... insects. [count]
    """

    walk: IntArray
    cell: IntArray
    plants: IntArray
    insects: IntArray
    plants_over: IntArray

    @property
    def telling_of_plants(self) -> int:
        """Walks with two insects in a quadrant of two plants or more. [count]"""
        return self._walks_with(self.plants)

    @property
    def telling_of_stops(self) -> int:
        """Walks with two insects in a quadrant of two stops or more. [count]"""
        return self._walks_with(np.ones_like(self.plants))

    def _walks_with(self, parts: IntArray) -> int:
        cells, cell = np.unique(self.cell, return_inverse=True)
        several = np.bincount(cell, weights=parts, minlength=cells.size) >= 2
        found = np.bincount(cell, weights=self.insects, minlength=cells.size) >= 2
        return int(np.unique(cells[several & found] // len(QUADRANTS)).size)


@dataclass(frozen=True, slots=True)
class SquarePlants:
    """The squares of many plants.

    Parameters
    ----------
    walk, cell : int array, shape (plants,)
        The plant's walk, and its quadrant of that walk. [index]
    squares, lost : int array, shape (plants,)
        Squares looked at, and those of them not healthy. [count]
    """

    walk: IntArray
    cell: IntArray
    squares: IntArray
    lost: IntArray

    @property
    def telling(self) -> int:
        """Walks with two squares on one plant. [count]"""
        return int(np.unique(self.walk[self.squares >= 2]).size)


@dataclass(frozen=True, slots=True)
class FieldCounts:
    """The insects of many walks, quadrants counting alike.

    Parameters
    ----------
    density : float array, shape (walks,)
        Insects per plant: the mean of the quadrants' means. [count per plant]
    plants : float array, shape (walks,)
        Plants that would tell as much if all quadrants had equally many. [count]
    part : float array, shape (walks,)
        One over the walks of the same field, so that each field counts once. [fraction]
    """

    density: FloatArray
    plants: FloatArray
    part: FloatArray


def tally_stops(table: WalkTable) -> Stops:
    """Add up the insects of each stop.

    Parameters
    ----------
    table : WalkTable
        The walks; those that did not count terminals, and plants passed over, are left out.

    Returns
    -------
    Stops
        Of the walks in which every plant has a stop number; of all where there is none.
    """
    rows, at = table.rows, _counted(table)
    whole = np.bincount(rows.walk[at][rows.stop[at] == 0], minlength=len(table)) == 0
    with_stops = at[whole[rows.walk[at]]]
    at = with_stops if with_stops.size else at
    insects = _insects(table, at)
    walk, quadrant = rows.walk[at], rows.quadrant[at]
    # two scouts number their own stops
    keys = np.stack((walk, quadrant, rows.scout[at], rows.stop[at]))
    if not with_stops.size:
        keys = keys[:2]
    stops, member = np.unique(keys, axis=1, return_inverse=True)
    member = member.ravel()  # numpy 2.0 gives it a second axis
    n = stops.shape[1]
    histogram = np.bincount(insects)
    return Stops(
        walk=stops[0],
        cell=stops[0] * len(QUADRANTS) + stops[1],
        plants=np.bincount(member, minlength=n),
        insects=np.bincount(member, weights=insects, minlength=n).astype(np.int64),
        plants_over=insects.size - np.cumsum(histogram)[:-1],
    )


def tally_squares(table: WalkTable) -> SquarePlants:
    """Take the squares of each plant that has any.

    Parameters
    ----------
    table : WalkTable
        The walks, whatever the way of counting insects.

    Returns
    -------
    SquarePlants
    """
    rows = table.rows
    squares = rows.counts[:, _SQUARES].sum(axis=1)
    at = np.flatnonzero(rows.squares_looked & ~rows.skipped & (squares > 0))
    lost = squares[at] - rows.counts[at, _HEALTHY]
    cell = rows.walk[at] * len(QUADRANTS) + rows.quadrant[at]
    return SquarePlants(rows.walk[at], cell, squares[at], lost)


def tally_fields(table: WalkTable) -> FieldCounts:
    """Give the density of each walk in which terminals were counted.

    Parameters
    ----------
    table : WalkTable
        The walks.

    Returns
    -------
    FieldCounts
    """
    at = _counted(table)
    cell = table.rows.walk[at] * len(QUADRANTS) + table.rows.quadrant[at]
    shape, n = (len(table), len(QUADRANTS)), len(table) * len(QUADRANTS)
    plants = np.bincount(cell, minlength=n).reshape(shape)
    insects = np.bincount(cell, weights=_insects(table, at), minlength=n).reshape(shape)
    walked = np.flatnonzero(plants.any(axis=1))
    plants, insects = plants[walked], insects[walked]
    quadrants = (plants > 0).sum(axis=1)
    each = np.maximum(plants, 1)
    names = np.array([table.heads[i].field for i in walked], dtype=object)
    _, field = np.unique(names.astype(str), return_inverse=True)
    return FieldCounts(
        density=(insects / each).sum(axis=1) / quadrants,
        plants=quadrants**2 / np.where(plants > 0, 1.0 / each, 0.0).sum(axis=1),
        part=1.0 / np.bincount(field)[field] if field.size else np.zeros(0),
    )


def _counted(table: WalkTable) -> IntArray:
    """Give the rows in which the insects of a terminal were counted."""
    rows = table.rows
    terminal = np.array([head.method is Method.TERMINAL for head in table.heads], dtype=bool)
    return np.flatnonzero(rows.insects_looked & ~rows.skipped & terminal[rows.walk])


def _insects(table: WalkTable, at: IntArray) -> IntArray:
    return np.asarray(table.rows.counts[at][:, _INSECTS].sum(axis=1))
