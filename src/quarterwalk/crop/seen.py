"""What someone saw of a field's crop on a day, and what was given outright."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from quarterwalk.crop.dates import CropDateError


class Sign(StrEnum):
    """What tells where a crop stands."""

    PLANTED = "planted"
    LEAVES = "true-leaves"
    NODES = "nodes"
    PINHEADS = "pinheads"
    BRANCHES = "squaring-branches"
    FLOWERS = "white-flowers"
    ABOVE_FLOWER = "nodes-above-white-flower"
    FIRST_SQUARE = "first-square"
    FIRST_BLOOM = "first-bloom"


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen of one field on one day; None where nobody looked.

    Parameters
    ----------
    on : date
        The day.
    true_leaves, nodes : float or None
        Mean true leaves, or main-stem nodes above the cotyledons, of a plant. [count]
    plants, pinhead : int or None
        Plants looked at, and those of them with a square, pinhead or larger. [count]
    squaring_branches : float or None
        Mean fruiting branches with a square, of a plant. [count]
    bloom : bool or None
        Whether white flowers stood in the field.
    nawf : float or None
        Mean nodes above the uppermost first-position white flower. [count]
    walked : bool
        Whether it comes from the plants of a walk.

    Raises
    ------
    CropDateError
        If more plants have a pinhead than were looked at, or only one of the two is given.
    """

    on: date
    true_leaves: float | None = None
    nodes: float | None = None
    plants: int | None = None
    pinhead: int | None = None
    squaring_branches: float | None = None
    bloom: bool | None = None
    nawf: float | None = None
    walked: bool = False

    def __post_init__(self) -> None:
        if (self.plants is None) != (self.pinhead is None):
            raise CropDateError(
                f"plants looked at and plants with a pinhead go together on {self.on}."
            )
        if self.plants is not None and not 0 <= (self.pinhead or 0) <= self.plants:
            raise CropDateError(
                f"plants with a pinhead must be from 0 to the {self.plants} looked at"
                f" on {self.on}, got {self.pinhead}."
            )

    @property
    def share(self) -> float | None:
        """Share of plants with a pinhead; None where nobody looked. [fraction]"""
        return None if not self.plants or self.pinhead is None else self.pinhead / self.plants


@dataclass(frozen=True, slots=True)
class Given:
    """Days that somebody gave outright.

    Parameters
    ----------
    first_square : (date, date) or None
        The first and the last day that it may have been.
    bloom : date or None
        The day of first bloom.
    """

    first_square: tuple[date, date] | None = None
    bloom: date | None = None
