"""What an entry says, one form for each kind; None means not looked at, or not said."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from quarterwalk.walk import InsectCount, Method, Quadrant, Sites, SquareCount


class Kind(StrEnum):
    """What an entry is about."""

    WALK_OPENED = "walk-opened"
    PLANT_CHECKED = "plant-checked"
    PLANT_SKIPPED = "plant-skipped"
    SIGHTED = "sighted"
    QUADRANT_NOTED = "quadrant-noted"
    STRUCK = "struck"
    HANDED_OVER = "handed-over"
    WALK_CLOSED = "walk-closed"
    NOTE = "note"


class Source(StrEnum):
    """How a walk came in."""

    PHONE = "phone"
    DESK = "desk"
    TABLE = "table"


class WhySkipped(StrEnum):
    """Why a plant was passed over."""

    HAILED = "hailed"
    CUT_OFF = "cut-off"
    NO_PLANT = "no-plant"
    OTHER = "other"


class Sight(StrEnum):
    """What was seen on the way."""

    HOST_WEEDS = "host-weeds"
    OTHER_PEST = "other-pest"
    NATURAL_ENEMIES = "natural-enemies"
    STANDING_WATER = "standing-water"
    SPRAY_SIGN = "spray-sign"


class LostSquares(StrEnum):
    """Of which size the lost squares of a quadrant are."""

    NONE = "none"
    SMALL = "small"
    LARGE = "large"
    BOTH = "both"


class Abundance(StrEnum):
    """How much of something there is."""

    NONE = "none"
    SOME = "some"
    MANY = "many"


class Lean(StrEnum):
    """Where the phone's own standing leans; the office makes the call."""

    HOLD = "hold"
    LOOK_SOONER = "look-sooner"
    TREAT = "treat"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """What was answered at the gate, before the first plant.

    `sign` is whether any spray, sign or flag was seen since the last visit: no walk opens
    on yes. `called` is whether the office was called because the card was old.
    """

    sign: bool = False
    called: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkOpened:
    """A walk of a field begins; `label` is the id that a table gave it."""

    field: str
    card: str | None = None
    method: Method
    sites: Sites
    source: Source
    gate: Gate | None = None
    label: str | None = None
    plan: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantChecked:
    """One plant, or one sample, was looked at; `scout` and `on` are for desk and table."""

    quadrant: Quadrant
    stop: int | None = None
    plant: int
    insects: InsectCount | None = None
    squares: SquareCount | None = None
    sweeps: int | None = None
    scout: str | None = None
    on: date | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantSkipped:
    """One plant was passed over; it counts nowhere."""

    quadrant: Quadrant
    stop: int | None = None
    plant: int
    why: WhySkipped | None = None
    scout: str | None = None
    on: date | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Sighted:
    """Something was seen on the way; outside a walk `field` says where."""

    what: Sight
    field: str | None = None
    quadrant: Quadrant | None = None
    stop: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class QuadrantNoted:
    """What a quadrant looks like as a whole; `branches` are fruiting branches, plant by plant."""

    quadrant: Quadrant
    lost: LostSquares | None = None
    water: bool | None = None
    other_pests: Abundance | None = None
    branches: tuple[int, ...] | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Struck:
    """An earlier entry of the same device and walk no longer holds; `seq` is its number."""

    seq: int


@dataclass(frozen=True, slots=True)
class HandedOver:
    """Another person goes on; `entries` of this walk were written on this device so far."""

    to: str
    entries: int


@dataclass(frozen=True, slots=True)
class Standing:
    """What the phone told the scout at the end: plants walked, insects, squares, the lean."""

    plants: int
    insects: int
    squares: int
    healthy: int
    lean: Lean | None = None


@dataclass(frozen=True, slots=True, order=True)
class DeviceCount:
    """How many entries of a walk a device wrote."""

    device: str
    entries: int


@dataclass(frozen=True, slots=True)
class WalkClosed:
    """The walk ends; `entries` says of each device how many it wrote of this walk.

    The counts are kept in the order of the devices' ids, however they were given. `plan` is
    the hash of the stop plan by which the walk ended early.
    """

    entries: tuple[DeviceCount, ...]
    standing: Standing | None = None
    plan: str | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "entries", tuple(sorted(self.entries)))


@dataclass(frozen=True, slots=True)
class Note:
    """Words on the walk, or outside a walk on the field."""

    text: str
    field: str | None = None


Body = (
    WalkOpened
    | PlantChecked
    | PlantSkipped
    | Sighted
    | QuadrantNoted
    | Struck
    | HandedOver
    | WalkClosed
    | Note
)
