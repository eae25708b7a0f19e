"""A flat frame around one field, in which areas are true."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np
import shapely
from numpy.typing import NDArray
from pyproj import Proj
from shapely.geometry.base import BaseGeometry

FloatArray = NDArray[np.float64]
Shape = TypeVar("Shape", bound=BaseGeometry)


@dataclass(frozen=True, slots=True)
class Frame:
    """Metres east and north of a place, by Lambert's azimuthal equal-area projection.

    Parameters
    ----------
    lon, lat : float
        The place, on WGS 84; north is straight up there. [degrees]

    Notes
    -----
    Areas are those of the ellipsoid, but for the bend of the edges: an edge that is
    straight here is a geodesic to within millimetres over the width of a field.

    References
    ----------
    J. P. Snyder, "Map Projections: A Working Manual", U.S. Geological Survey
    Professional Paper 1395, 1987, chapter 24.
    """

    lon: float
    lat: float
    _flat: Proj = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        flat = Proj(proj="laea", lon_0=self.lon, lat_0=self.lat, ellps="WGS84", units="m")
        object.__setattr__(self, "_flat", flat)

    @classmethod
    def around(cls, shape: BaseGeometry) -> Frame:
        """Make the frame at the middle of a shape.

        Parameters
        ----------
        shape : geometry
            On WGS 84. [degrees]

        Returns
        -------
        Frame
        """
        west, south, east, north = shape.bounds
        return cls((west + east) / 2, (south + north) / 2)

    def to_ground(self, shape: Shape) -> Shape:
        """Take a shape from the globe into the frame.

        Parameters
        ----------
        shape : geometry
            On WGS 84. [degrees]

        Returns
        -------
        geometry
            The same. [m]
        """
        return _moved(shape, self._there)

    def to_globe(self, shape: Shape) -> Shape:
        """Take a shape from the frame back to the globe.

        Parameters
        ----------
        shape : geometry
            In the frame. [m]

        Returns
        -------
        geometry
            The same, on WGS 84. [degrees]
        """
        return _moved(shape, self._back)

    def _there(self, points: FloatArray) -> FloatArray:
        return np.column_stack(self._flat(points[:, 0], points[:, 1]))

    def _back(self, points: FloatArray) -> FloatArray:
        # the way back is a short series that misses by a millimetre; the way there is exact,
        # so it tells by how much
        missed = points - self._there(self._series(points))
        return self._series(points + missed)

    def _series(self, points: FloatArray) -> FloatArray:
        return np.column_stack(self._flat(points[:, 0], points[:, 1], inverse=True))


def _moved(shape: Shape, move: Callable[[FloatArray], FloatArray]) -> Shape:
    moved: Shape = shapely.transform(shape, move)
    return moved
