"""Stops and loops as GPX, for a hand-held receiver or a phone's map."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, datetime

from gpxpy.gpx import GPX, GPXTrack, GPXTrackPoint, GPXTrackSegment, GPXWaypoint

from quarterwalk.field import Layout, Loop, Place, Stop
from quarterwalk.files.rounded import rounded, rounded_places
from quarterwalk.words import ENGLISH, phrase, phrase_for, spoken_in

# What XML can't hold, not even escaped (Extensible Markup Language 1.0, fifth edition,
# 2008, section 2.2).
_NOT_IN_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def layout_gpx(layouts: Sequence[Layout], *, at: datetime, language: str = ENGLISH) -> str:
    """Write stops as waypoints and loops as tracks, to be carried into the field.

    Parameters
    ----------
    layouts : sequence of Layout
        Fields laid out. With more than one, each waypoint is headed by its field.
    at : datetime
        When the file is made; it must know its zone.
    language : str
        One of `quarterwalk.words.LANGUAGES`.

    Returns
    -------
    str
        GPX 1.1. A stop is named by its number and quarter, as in "1 NW".

    Raises
    ------
    ValueError
        If `at` has no zone, or there is no catalogue for the language.

    References
    ----------
    "GPX 1.1 Schema Documentation", 2004.
    """
    if at.tzinfo is None:
        raise ValueError(f"at must know its zone, got {at.isoformat()}. Give it a tzinfo.")
    made = GPX()
    made.creator = "quarterwalk"
    made.name = _text(", ".join(layout.field.name for layout in layouts))
    made.time = at.astimezone(UTC).replace(microsecond=0)
    with spoken_in(language):
        for layout in layouts:
            places = rounded_places(layout)
            head = f"{layout.field.name} " if len(layouts) > 1 else ""
            made.waypoints += [_waypoint(stop, places[stop.place], head) for stop in layout.stops]
            made.tracks += [_track(loop, layout, places) for loop in layout.loops]
    written: str = made.to_xml("1.1")
    return written


def _waypoint(stop: Stop, place: Place, head: str) -> GPXWaypoint:
    lon, lat = _in_range(place)
    return GPXWaypoint(
        latitude=lat,
        longitude=lon,
        name=_text(f"{head}{stop.number} {stop.quadrant.value}"),
        description=_text(phrase_for(stop.plants, "{count} plant", "{count} plants")),
        type="stop",
    )


def _track(loop: Loop, layout: Layout, places: dict[Place, Place]) -> GPXTrack:
    # A track and not a route: a receiver would lead a route along the nearest roads.
    name = phrase("{field}, loop {number}", field=layout.field.name, number=loop.number)
    track = GPXTrack(name=_text(name), number=loop.number)
    line = [_in_range(places.get(place) or rounded(place)) for place in loop.line]
    points = [GPXTrackPoint(latitude=lat, longitude=lon) for lon, lat in line]
    track.segments.append(GPXTrackSegment(points))
    return track


def _in_range(place: Place) -> Place:
    """Write the meridian 180 as the format does, from its western side."""
    lon, lat = place
    return (-180.0 if lon == 180.0 else lon), lat


def _text(text: str) -> str:
    return _NOT_IN_XML.sub(" ", text)
