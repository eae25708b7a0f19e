"""Flat frames around one field, in which areas are true."""

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
    """Metres east and north around a place, by one of Lambert's equal-area projections.

    Parameters
    ----------
    lon, lat : float
        The place, on WGS 84; north is straight up there. [degrees]
    straight : bool
        Whether meridians and parallels are straight lines here, as they are in a file of
        degrees. Otherwise lengths and angles are true too, to well under a thousandth
        over a field, and what is straight is a geodesic to within millimetres.

    Notes
    -----
    Areas are those of the ellipsoid, but for the bend of the edges.

    References
    ----------
    J. P. Snyder, "Map Projections: A Working Manual", U.S. Geological Survey
    Professional Paper 1395, 1987, chapters 10 (cylindrical) and 24 (azimuthal).
    """

    lon: float
    lat: float
    straight: bool = False
    _flat: Proj = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if self.straight:
            flat = Proj(proj="cea", lon_0=self.lon, lat_ts=self.lat, ellps="WGS84", units="m")
        else:
            flat = Proj(proj="laea", lon_0=self.lon, lat_0=self.lat, ellps="WGS84", units="m")
        object.__setattr__(self, "_flat", flat)

    @classmethod
    def around(cls, shape: BaseGeometry, *, straight: bool = False) -> Frame:
        """Make the frame at the middle of a shape.

        Parameters
        ----------
        shape : geometry
            On WGS 84. [degrees]
        straight : bool
            Whether meridians and parallels are to be straight.

        Returns
        -------
        Frame
        """
        west, south, east, north = shape.bounds
        return cls((west + east) / 2, (south + north) / 2, straight)

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
