"""Many walks as columns, one row a plant: the form in which hundreds of walks are read.

`Walk` says what one walk is; `WalkTable` holds the same facts as arrays, so that a
season of a district fits in memory and is read in seconds. The two turn into each
other without loss (`WalkTable.from_walks`, `WalkTable.walk`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

import numpy as np
import numpy.typing as npt

from quarterwalk.walk.check import InsectCount, PlantCheck, SquareCount
from quarterwalk.walk.kinds import QUADRANTS, Method, Sites
from quarterwalk.walk.walk import Walk

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

COUNTS = ("adults", "nymphs", "healthy", "missing", "blasted", "flared")
"""The count columns, in the order in which tables keep them."""


@dataclass(frozen=True, slots=True)
class WalkHead:
    """What a walk is besides its plants; fields as in `Walk`."""

    field: str
    date: date
    id: str = ""
    method: Method = Method.TERMINAL
    sites: Sites = Sites.ALL
    plan: str = ""
    scouts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class PlantRows:
    """The plants of many walks as columns, each of shape (rows,).

    Parameters
    ----------
    walk : int array
        Index of the row's walk in `WalkTable.heads`.
    quadrant : int array
        Index into `QUADRANTS`.
    stop, plant : int array
        Numbers from 1; stop 0 where no stop is kept.
    counts : int array, shape (rows, 6)
        In the order of `COUNTS`; 0 where not looked at. [count]
    insects_looked, squares_looked : bool array
        Whether the terminal and the squares were looked at.
    sweeps : int array
        Sweeps in the row's sample; 0 where none were made. [count]
    skipped : bool array
        Plants passed over: they count nowhere.
    scout : int array
        Index into `WalkTable.scouts`.
    day : int array
        The row's day. [proleptic ordinal, as `date.toordinal`]
    """

    walk: IntArray
    quadrant: IntArray
    stop: IntArray
    plant: IntArray
    counts: IntArray
    insects_looked: BoolArray
    squares_looked: BoolArray
    sweeps: IntArray
    skipped: BoolArray
    scout: IntArray
    day: IntArray

    def __len__(self) -> int:
        return len(self.walk)


@dataclass(frozen=True, slots=True, eq=False)
class WalkTable:
    """Many walks, one row a plant; rows keep the order in which they came.

    Parameters
    ----------
    heads : tuple of WalkHead
        One for each walk, in the order of its first row.
    rows : PlantRows
        The plants.
    scouts : tuple of str
        The names that `PlantRows.scout` points to.
    notes : mapping of int to str
        Notes by row index.
    """

    heads: tuple[WalkHead, ...]
    rows: PlantRows
    scouts: tuple[str, ...]
    notes: Mapping[int, str]

    def __len__(self) -> int:
        return len(self.heads)

    def __iter__(self) -> Iterator[Walk]:
        order = np.argsort(self.rows.walk, kind="stable")
        ends = np.cumsum(np.bincount(self.rows.walk, minlength=len(self)))
        for index, rows in enumerate(np.split(order, ends[:-1])[: len(self)]):
            yield self._walk(index, rows)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, WalkTable):
            return NotImplemented
        return list(self) == list(other)

    __hash__ = None  # type: ignore[assignment]  # compared by content, held by nobody as a key

    def walk(self, index: int) -> Walk:
        """Give one walk as a record of its own.

        Parameters
        ----------
        index : int
            Its place in `heads`. [from 0]

        Returns
        -------
        Walk
        """
        return self._walk(index, np.flatnonzero(self.rows.walk == range(len(self))[index]))

    def _walk(self, index: int, rows: IntArray) -> Walk:
        head = self.heads[index]
        checks = tuple(self._check(int(row), head.date) for row in rows)
        return Walk(head.field, head.date, checks, head.id, head.method, head.sites, head.plan)

    def _check(self, row: int, walk_day: date) -> PlantCheck:
        r = self.rows
        adults, nymphs, *squares = (int(n) for n in r.counts[row])
        on = date.fromordinal(int(r.day[row]))
        return PlantCheck(
            quadrant=QUADRANTS[r.quadrant[row]],
            plant=int(r.plant[row]),
            stop=int(r.stop[row]) or None,
            insects=InsectCount(adults, nymphs) if r.insects_looked[row] else None,
            squares=SquareCount(*squares) if r.squares_looked[row] else None,
            sweeps=int(r.sweeps[row]) or None,
            scout=self.scouts[r.scout[row]],
            on=None if on == walk_day else on,
            skipped=bool(r.skipped[row]),
            note=self.notes.get(row, ""),
        )

    @classmethod
    def from_walks(cls, walks: Iterable[Walk]) -> WalkTable:
        """Lay walks out as one table.

        Parameters
        ----------
        walks : iterable of Walk
            The walks, in the order that the table is to keep.

        Returns
        -------
        WalkTable
        """
        walks = list(walks)
        pairs = [(index, check) for index, walk in enumerate(walks) for check in walk.checks]
        names = {name: code for code, name in enumerate(dict.fromkeys(c.scout for _, c in pairs))}
        heads = tuple(
            WalkHead(w.field, w.date, w.id, w.method, w.sites, w.plan, w.scouts) for w in walks
        )
        rows = _columns([(i, c, names[c.scout], c.on or walks[i].date) for i, c in pairs])
        notes = {row: c.note for row, (_, c) in enumerate(pairs) if c.note}
        return cls(heads, rows, tuple(names), notes)


def _columns(plants: list[tuple[int, PlantCheck, int, date]]) -> PlantRows:
    """Turn plants (walk index, check, scout index, day) into columns."""
    quadrant = {q: code for code, q in enumerate(QUADRANTS)}

    def ints(values: Iterable[int]) -> IntArray:
        return np.fromiter(values, np.int64, len(plants))

    def flags(values: Iterable[bool]) -> BoolArray:
        return np.fromiter(values, np.bool_, len(plants))

    checks = [check for _, check, _, _ in plants]
    counts = [
        ((c.insects.adults, c.insects.nymphs) if c.insects else (0, 0))
        + ((c.squares.healthy, c.squares.missing, c.squares.blasted, c.squares.flared)
           if c.squares else (0, 0, 0, 0))
        for c in checks
    ]  # fmt: skip
    return PlantRows(
        walk=ints(index for index, _, _, _ in plants),
        quadrant=ints(quadrant[c.quadrant] for c in checks),
        stop=ints(c.stop or 0 for c in checks),
        plant=ints(c.plant for c in checks),
        counts=np.array(counts, np.int64).reshape(len(plants), len(COUNTS)),
        insects_looked=flags(c.insects is not None for c in checks),
        squares_looked=flags(c.squares is not None for c in checks),
        sweeps=ints(c.sweeps or 0 for c in checks),
        skipped=flags(c.skipped for c in checks),
        scout=ints(code for _, _, code, _ in plants),
        day=ints(day.toordinal() for _, _, _, day in plants),
    )
