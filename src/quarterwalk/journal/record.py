"""What a walk's entries come to: the record that office and phone show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from quarterwalk.journal.body import (
    Gate,
    Note,
    QuadrantNoted,
    Sighted,
    Source,
    Standing,
    WalkOpened,
    WhySkipped,
)
from quarterwalk.journal.ids import Key
from quarterwalk.walk import InsectCount, Method, Quadrant, Sites, SquareCount


class WalkState(StrEnum):
    """How far a walk has come.

    ``unopened``: its opening entry is not here yet. ``void``: its opening was struck.
    ``handed-over``: given to another person, who has not gone on yet.
    """

    UNOPENED = "unopened"
    VOID = "void"
    OPEN = "open"
    HANDED_OVER = "handed-over"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class CheckRecord:
    """One plant of a walk, looked at or passed over.

    Parameters
    ----------
    key : Key
        The entry that says so.
    quadrant, stop, plant, insects, squares, sweeps, note
        As in `quarterwalk.walk.PlantCheck`; None where not looked at or not said.
    skipped : bool
        Passed over; `why` may say why.
    who : str
        What tells scouts apart: the name given with the plant, else the person's id.
    scout : str
        The name of who looked.
    on : date
        The day of the check.
    """

    key: Key
    quadrant: Quadrant
    stop: int | None
    plant: int
    insects: InsectCount | None
    squares: SquareCount | None
    sweeps: int | None
    skipped: bool
    why: WhySkipped | None
    who: str
    scout: str
    on: date
    note: str | None

    @property
    def place(self) -> tuple[str, Quadrant, int, int]:
        """Scout, quadrant, stop (0 where none is kept) and plant: unique within a walk."""
        return self.who, self.quadrant, self.stop or 0, self.plant


@dataclass(frozen=True, slots=True)
class QuadrantNote:
    """What was said of a quadrant as a whole, by the entry of that key."""

    key: Key
    said: QuadrantNoted


@dataclass(frozen=True, slots=True)
class Sighting:
    """What was seen on the way, by the entry of that key."""

    key: Key
    said: Sighted


@dataclass(frozen=True, slots=True)
class Remark:
    """A note on the walk, by the entry of that key."""

    key: Key
    said: Note


@dataclass(frozen=True, slots=True)
class WalkRecord:
    """A walk as its entries tell it, as far as they are here.

    Parameters
    ----------
    id : str
        The walk's id.
    state : WalkState
        How far it has come.
    opening : WalkOpened or None
        What its opening says, even if that was struck; None while it is not here.
    opened_at : datetime or None
        When it was opened; None while the opening is not here.
    on : date or None
        The last day of its checks, else the day of its opening.
    checks : tuple of CheckRecord
        The plants that count, in order.
    doubled : tuple of Key
        Checks of a plant that already stands: kept out of `checks`.
    unusable : tuple of Key
        Checks that count insects without their sweeps, in a walk by sweep net.
    quadrant_notes : tuple of QuadrantNote
        Those that hold, in order.
    sightings : tuple of Sighting
        Those that hold, in order.
    notes : tuple of Remark
        Those that hold, in order.
    closed_at : datetime or None
        When it was closed, by the last closing that holds.
    standing : Standing or None
        What the phone told the scout at that closing.
    plan : str or None
        The hash of the stop plan that ended it early: as that closing tells, else as the
        opening does.
    waiting : int
        Entries that are known to have been written and are not here. [count]
    devices : tuple of str
        The devices that wrote the entries here, the opening one first.
    """

    id: str
    state: WalkState
    opening: WalkOpened | None
    opened_at: datetime | None
    on: date | None
    checks: tuple[CheckRecord, ...]
    doubled: tuple[Key, ...]
    unusable: tuple[Key, ...]
    quadrant_notes: tuple[QuadrantNote, ...]
    sightings: tuple[Sighting, ...]
    notes: tuple[Remark, ...]
    closed_at: datetime | None
    standing: Standing | None
    plan: str | None
    waiting: int
    devices: tuple[str, ...]

    @property
    def field(self) -> str | None:
        """The id of the field that is walked."""
        return self.opening.field if self.opening else None

    @property
    def card(self) -> str | None:
        """The hash of the walk card that the phone held."""
        return self.opening.card if self.opening else None

    @property
    def method(self) -> Method | None:
        """How insects are counted."""
        return self.opening.method if self.opening else None

    @property
    def sites(self) -> Sites | None:
        """Which first positions are looked at."""
        return self.opening.sites if self.opening else None

    @property
    def source(self) -> Source | None:
        """How the walk came in."""
        return self.opening.source if self.opening else None

    @property
    def label(self) -> str | None:
        """The id that a table gave the walk."""
        return self.opening.label if self.opening else None

    @property
    def gate(self) -> Gate | None:
        """What was answered at the gate."""
        return self.opening.gate if self.opening else None
