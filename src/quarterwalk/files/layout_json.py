"""Fields laid out for a walk, as the GeoJSON that maps and scripts read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from shapely import LineString, MultiPolygon, Point, Polygon

from quarterwalk.field import Layout, Place
from quarterwalk.field.area import acres_of
from quarterwalk.files.rounded import plain, rounded, rounded_places, rounded_shape

Json = dict[str, Any]

# About half a square yard, and four inches: more would claim what no boundary knows.
_ACRE_DECIMALS, _METRE_DECIMALS = 4, 1


def layout_json(layouts: Iterable[Layout]) -> Json:
    """Give quarters, stops and loops as one GeoJSON FeatureCollection.

    Parameters
    ----------
    layouts : iterable of Layout
        Fields laid out, in the order in which they are written.

    Returns
    -------
    dict
        Ready for `json.dumps`. For each field its quarters, then its stops, then its
        loops; ``kind`` tells which. Longitude before latitude, on WGS 84.

    References
    ----------
    H. Butler and others, "The GeoJSON Format", RFC 7946, 2016.
    """
    features = [feature for layout in layouts for feature in _features(layout)]
    return {"type": "FeatureCollection", "features": features}


def _features(layout: Layout) -> Iterator[Json]:
    places = rounded_places(layout)
    yield from _quarters(layout)
    yield from _stops(layout, places)
    yield from _loops(layout, places)


def _quarters(layout: Layout) -> Iterator[Json]:
    for quadrant, shape in layout.quadrants.items():
        acres = round(acres_of(shape), _ACRE_DECIMALS)
        said = {"kind": "quadrant", "field": layout.field.name, "quadrant": quadrant.value}
        yield _feature(plain(rounded_shape(shape)), {**said, "acres": acres})


def _stops(layout: Layout, places: Mapping[Place, Place]) -> Iterator[Json]:
    for stop in layout.stops:
        said = {
            "kind": "stop",
            "field": layout.field.name,
            "quadrant": stop.quadrant.value,
            "stop": stop.number,
            "plants": stop.plants,
            "loop": stop.loop,
        }
        yield _feature(Point(places[stop.place]), said)


def _loops(layout: Layout, places: Mapping[Place, Place]) -> Iterator[Json]:
    for loop in layout.loops:
        # A stop that was moved by a hair is still a corner of its loop.
        line = [places.get(place) or rounded(place) for place in loop.line]
        said = {"kind": "path", "field": layout.field.name, "loop": loop.number}
        metres = round(loop.metres, _METRE_DECIMALS)
        yield _feature(LineString(line), {**said, "metres": metres})


def _feature(shape: Point | LineString | Polygon | MultiPolygon, said: Json) -> Json:
    return {"type": "Feature", "geometry": shape.__geo_interface__, "properties": said}
