"""Where weather was measured, and how far that is from a field."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from pyproj import Geod

Place = tuple[float, float]
"""Longitude and latitude. [degrees]"""


@dataclass(frozen=True, slots=True)
class Station:
    """A place where weather is measured.

    Parameters
    ----------
    id : str
        What its files call it.
    name : str
        As people call it; may be empty.
    place : (float, float) or None
        Longitude and latitude; None where nobody said. [degrees]
    elevation_m : float or None
        Above the sea. [m]
    """

    id: str
    name: str = ""
    place: Place | None = None
    elevation_m: float | None = None

    @property
    def label(self) -> str:
        """Its name, or its id where it has none."""
        return self.name or self.id

    def distance_km(self, place: Place) -> float | None:
        """Give how far it is from a place.

        Parameters
        ----------
        place : (float, float)
            Longitude and latitude. [degrees]

        Returns
        -------
        float or None
            Along the ellipsoid; None where the station's place is not known. [km]
        """
        if self.place is None:
            return None
        _, _, metres = _ellipsoid().inv(*self.place, *place)
        return float(metres) / 1000.0


def by_distance(stations: Iterable[Station], place: Place) -> list[tuple[Station, float]]:
    """Put stations in order, the nearest first.

    Parameters
    ----------
    stations : iterable of Station
        Those whose place is not known are left out.
    place : (float, float)
        Longitude and latitude of the field. [degrees]

    Returns
    -------
    list of (Station, float)
        Each with its distance. [km]
    """
    told = [(station, station.distance_km(place)) for station in stations]
    known = [(station, km) for station, km in told if km is not None]
    return sorted(known, key=lambda pair: (pair[1], pair[0].id))


@cache
def _ellipsoid() -> Geod:
    return Geod(ellps="WGS84")
