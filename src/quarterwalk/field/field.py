"""A field: one planting inside one boundary, the unit that is walked and judged."""

from __future__ import annotations

from dataclasses import dataclass

from shapely import MultiPolygon

Place = tuple[float, float]
"""Longitude and latitude on WGS 84. [degrees]"""


@dataclass(frozen=True, slots=True)
class Field:
    """One field as its boundary file gives it.

    Parameters
    ----------
    name : str
        How its walks are headed; never empty.
    shape : MultiPolygon
        Boundary on WGS 84, longitude before latitude, outer rings counter-clockwise,
        valid and not empty. [degrees]
    gate : tuple of float or None
        Where a scout enters: longitude and latitude. None where nobody said. [degrees]
    rows : float or None
        Direction of the rows, clockwise from north, 0 to under 180; None where unknown.
        [degrees]
    grower : str
        Who decides whether to spray; empty where nobody said.
    farm : str
        Name that groups fields; empty where nobody said.
    """

    name: str
    shape: MultiPolygon
    gate: Place | None = None
    rows: float | None = None
    grower: str = ""
    farm: str = ""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise ValueError("a field must have a name, got an empty one.")
        if self.shape.is_empty or not self.shape.is_valid:
            raise ValueError(f"the boundary of {self.name} must be a valid area, got none.")
        if self.rows is not None and not 0 <= self.rows < 180:
            raise ValueError(f"rows must lie in 0 to under 180 degrees, got {self.rows:g}.")
