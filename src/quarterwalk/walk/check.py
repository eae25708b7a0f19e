"""What was seen on one plant: insects on its terminal, and its first-position squares."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.errors import QuarterwalkError
from quarterwalk.walk.kinds import Quadrant

# Two digits are what a record sheet and a phone keypad hold; no plant comes near it
# (this project's rule).
MOST_A_PLANT = 99
"""Largest count of one kind on one plant. [count]"""

MOST_SWEEPS = 9999
"""Largest number of sweeps in one sample. [count]"""

HIGHEST_NUMBER = 999_999
"""Largest number of a stop or a plant. [dimensionless]"""


class RecordError(QuarterwalkError, ValueError):
    """A walk record that can't be: says what, the accepted values and what was got."""

    def __init__(self, what: str, expected: str, got: object) -> None:
        super().__init__(what, expected, got)
        self.what = what
        self.expected = expected
        self.got = got

    def __str__(self) -> str:
        return f"{self.what} must be {self.expected}, got {self.got!r}."


def _whole(what: str, got: object, low: int, high: int) -> None:
    """Refuse anything but a whole number from `low` to `high`."""
    if type(got) is not int or not low <= got <= high:
        raise RecordError(what, f"a whole number from {low} to {high}", got)


@dataclass(frozen=True, slots=True)
class InsectCount:
    """Fleahoppers on one plant's terminal; in a sweep sample, in its net.

    A plant whose terminal nobody looked at has no InsectCount: 0 means looked
    and none there.

    Parameters
    ----------
    adults, nymphs : int
        Insects counted, 0 to 99. [count]

    Raises
    ------
    RecordError
        If a count is not a whole number from 0 to 99.
    """

    adults: int = 0
    nymphs: int = 0

    def __post_init__(self) -> None:
        _whole("adults", self.adults, 0, MOST_A_PLANT)
        _whole("nymphs", self.nymphs, 0, MOST_A_PLANT)

    @property
    def total(self) -> int:
        """Adults and nymphs together. [count]"""
        return self.adults + self.nymphs


@dataclass(frozen=True, slots=True)
class SquareCount:
    """First-position squares of one plant, by what became of them.

    A plant whose squares nobody looked at has no SquareCount: 0 means looked
    and none there.

    Parameters
    ----------
    healthy : int
        Squares that are still good, 0 to 99. [count]
    missing : int
        Gaps where a square was. [count]
    blasted : int
        Dead squares still held. [count]
    flared : int
        Squares with open bracts, which will drop. [count]

    Raises
    ------
    RecordError
        If a count is not a whole number from 0 to 99.
    """

    healthy: int = 0
    missing: int = 0
    blasted: int = 0
    flared: int = 0

    def __post_init__(self) -> None:
        for what in ("healthy", "missing", "blasted", "flared"):
            _whole(what, getattr(self, what), 0, MOST_A_PLANT)

    @property
    def sites(self) -> int:
        """First positions looked at, whatever became of the square. [count]"""
        return self.healthy + self.missing + self.blasted + self.flared


@dataclass(frozen=True, slots=True)
class PlantCheck:
    """One plant looked at, in its place in the walk.

    Parameters
    ----------
    quadrant : Quadrant
        The quarter of the field it stands in.
    plant : int
        Its number within the stop, or within the quadrant where no stop is kept. [from 1]
    stop : int or None
        The place in the quadrant where it stands; None where stops are not kept. [from 1]
    insects : InsectCount or None
        None where nobody looked.
    squares : SquareCount or None
        None where nobody looked.
    sweeps : int or None
        Sweeps in this sample; only with method ``sweep``. [count, from 1]
    scout : str
        Who looked; may be empty.
    on : date or None
        The day, where it differs from the walk's own.
    skipped : bool
        Passed over because it was hailed or cut off; it counts nowhere.
    note : str
        Anything else.

    Raises
    ------
    RecordError
        If a number is out of range.
    """

    quadrant: Quadrant
    plant: int
    stop: int | None = None
    insects: InsectCount | None = None
    squares: SquareCount | None = None
    sweeps: int | None = None
    scout: str = ""
    on: date | None = None
    skipped: bool = False
    note: str = ""

    def __post_init__(self) -> None:
        if not isinstance(self.quadrant, Quadrant):
            raise RecordError("quadrant", "one of NW, NE, SW, SE", self.quadrant)
        _whole("plant", self.plant, 1, HIGHEST_NUMBER)
        if self.stop is not None:
            _whole("stop", self.stop, 1, HIGHEST_NUMBER)
        if self.sweeps is not None:
            _whole("sweeps", self.sweeps, 1, MOST_SWEEPS)

    @property
    def place(self) -> tuple[str, str, int, int]:
        """Scout, quadrant, stop (0 where none is kept) and plant: unique within a walk."""
        return self.scout, self.quadrant.value, self.stop or 0, self.plant
