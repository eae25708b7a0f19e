"""The field on the card: its boundary, quarters, stops and loops, as GeoJSON writes them."""

from __future__ import annotations

from typing import Any

from quarterwalk.field import Layout
from quarterwalk.files.rounded import plain, rounded, rounded_places, rounded_shape

Json = dict[str, Any]

# About four inches of a way, six seconds of walking, and a tenth of an acre.
_DECIMALS = 1


def acres_of_layout(layout: Layout) -> float:
    """Give the field's area as it is shown.

    Parameters
    ----------
    layout : Layout
        The field laid out.

    Returns
    -------
    float
        [acre]
    """
    return round(layout.acres, _DECIMALS)


def places_of(layout: Layout) -> Json:
    """Give everything that has a place.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk.

    Returns
    -------
    dict
        Longitude before latitude on WGS 84, ready for JSON.

    References
    ----------
    H. Butler and others, "The GeoJSON Format", RFC 7946, 2016.
    """
    places = rounded_places(layout)
    return {
        "shape": plain(rounded_shape(layout.field.shape)).__geo_interface__,
        "quadrants": {
            quadrant.value: plain(rounded_shape(shape)).__geo_interface__
            for quadrant, shape in layout.quadrants.items()
        },
        "entry": rounded(layout.entry),
        "stops": [
            {
                "stop": stop.number,
                "quadrant": stop.quadrant.value,
                "loop": stop.loop,
                "plants": stop.plants,
                "place": places[stop.place],
            }
            for stop in layout.stops
        ],
        "loops": [
            {
                "loop": loop.number,
                # a stop that was moved by a hair is still a corner of its loop
                "line": [places.get(place) or rounded(place) for place in loop.line],
                "metres": round(loop.metres, _DECIMALS),
                "minutes": round(loop.minutes, _DECIMALS),
            }
            for loop in layout.loops
        ],
    }
