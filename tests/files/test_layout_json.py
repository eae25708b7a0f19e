"""Quarters, stops and loops as GeoJSON: what RFC 7946 asks, and what scripts rely on.

The rules of the format are written here from RFC 7946, "The GeoJSON Format", 2016; the
number of its section stands with each.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon, box, union_all
from shapely.geometry import shape

from quarterwalk.field import Frame
from quarterwalk.files.layout_json import layout_json
from quarterwalk.files.rounded import rounded_shape
from quarterwalk.walk import Quadrant
from tests.files.laid_out import FRAME, at_the_corner, square

WRITTEN = json.loads(
    json.dumps(layout_json([square(), square("North Fence", Frame(-101.8, 33.5))]))
)


def of_kind(kind: str, written: dict[str, Any] = WRITTEN) -> list[dict[str, Any]]:
    return [each for each in written["features"] if each["properties"]["kind"] == kind]


def rings(geometry: dict[str, Any]) -> Iterator[tuple[bool, list[list[float]]]]:
    """Give each ring, and whether it is an outer one."""
    parts = geometry["coordinates"]
    for part in [parts] if geometry["type"] == "Polygon" else parts:
        for number, ring in enumerate(part):
            yield number == 0, ring


def places(geometry: dict[str, Any]) -> Iterator[list[float]]:
    def inside(what: Any) -> Iterator[list[float]]:
        if isinstance(what[0], float):
            yield what
        else:
            for each in what:
                yield from inside(each)

    yield from inside(geometry["coordinates"])


def turns_left(ring: list[list[float]]) -> bool:
    """Tell by the shoelace whether a ring runs counter-clockwise."""
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:], strict=False))
    return twice > 0


def test_it_is_a_feature_collection_and_nothing_more() -> None:
    # sections 3.3 and 4: no crs member, coordinates are WGS 84
    assert set(WRITTEN) == {"type", "features"}
    assert WRITTEN["type"] == "FeatureCollection"


def test_each_feature_has_geometry_and_properties() -> None:
    # section 3.2
    for feature in WRITTEN["features"]:
        assert set(feature) == {"type", "geometry", "properties"}
        assert feature["type"] == "Feature"


@pytest.mark.parametrize(
    ("kind", "geometries", "names"),
    [
        ("quadrant", {"Polygon", "MultiPolygon"}, {"field", "quadrant", "acres"}),
        ("stop", {"Point"}, {"field", "quadrant", "stop", "plants", "loop"}),
        ("path", {"LineString"}, {"field", "loop", "metres"}),
    ],
)
def test_each_kind_has_its_geometry_and_says_what_scripts_read(
    kind: str, geometries: set[str], names: set[str]
) -> None:
    found = of_kind(kind)
    assert found
    assert {each["geometry"]["type"] for each in found} <= geometries
    assert all(set(each["properties"]) == names | {"kind"} for each in found)


def test_rings_close_have_four_places_and_turn_as_they_must() -> None:
    # section 3.1.6: outer rings counter-clockwise, holes clockwise
    for feature in of_kind("quadrant"):
        for outer, ring in rings(feature["geometry"]):
            assert len(ring) >= 4
            assert ring[0] == ring[-1]
            assert turns_left(ring) is outer


def test_places_are_longitude_then_latitude_with_seven_decimals_at_most() -> None:
    # sections 3.1.1 and 11.2
    for feature in WRITTEN["features"]:
        for lon, lat in places(feature["geometry"]):
            assert -101.91 < lon < -101.79
            assert 33.44 < lat < 33.51
            assert all(len(repr(abs(value)).partition(".")[2]) <= 7 for value in (lon, lat))


def test_quarters_of_160_000_square_metres_have_39_54_acres() -> None:
    # 400 m x 400 m / 4046.8564224 m²
    for feature in of_kind("quadrant"):
        assert feature["properties"]["acres"] == pytest.approx(160_000 / 4046.8564224, rel=1e-5)


def test_all_four_quarters_are_there_for_each_field() -> None:
    told = [
        (each["properties"]["field"], each["properties"]["quadrant"])
        for each in of_kind("quadrant")
    ]
    assert told == [(field, q.value) for field in ("Home 40", "North Fence") for q in Quadrant]


def test_a_path_is_one_closed_line_that_passes_its_stops() -> None:
    for path in of_kind("path"):
        line = path["geometry"]["coordinates"]
        said = path["properties"]
        assert line[0] == line[-1]
        passed = [
            stop["geometry"]["coordinates"]
            for stop in of_kind("stop")
            if (stop["properties"]["field"], stop["properties"]["loop"])
            == (said["field"], said["loop"])
        ]
        assert passed
        assert all(place in line for place in passed)


def test_a_loop_over_the_north_corners_is_as_long_as_its_legs() -> None:
    # gate (-400, -400) to (-200, 200), to (200, 200), and back: √(200²+600²) + 400 + √(600²+600²)
    (first, *_) = of_kind("path")
    assert first["properties"]["metres"] == pytest.approx(632.4555 + 400 + 848.5281, abs=0.1)


def test_a_quarter_in_two_pieces_is_written_as_two() -> None:
    layout = square()
    west, east = (
        FRAME.to_globe(box(*corners)) for corners in ((-400, 0, -210, 400), (-190, 0, 0, 400))
    )
    parted = {**layout.quadrants, Quadrant.NW: MultiPolygon([west, east])}
    (written, *_) = of_kind("quadrant", layout_json([replace(layout, quadrants=parted)]))
    assert written["geometry"]["type"] == "MultiPolygon"
    assert len(written["geometry"]["coordinates"]) == 2


def test_a_hole_turns_the_other_way() -> None:
    # section 3.1.6, with a quarter around a water hole whose rings both turn the wrong way
    layout = square()
    hole = FRAME.to_globe(box(-250, 100, -150, 300))
    around = FRAME.to_globe(box(-400, 0, 0, 400))
    quarter = Polygon(around.exterior.reverse(), [hole.exterior])
    holed = {**layout.quadrants, Quadrant.NW: MultiPolygon([quarter])}
    (written, *_) = of_kind("quadrant", layout_json([replace(layout, quadrants=holed)]))
    found = [(outer, turns_left(list(ring))) for outer, ring in rings(written["geometry"])]
    assert found == [(True, True), (False, False)]


def test_a_spike_that_a_cut_left_is_not_written() -> None:
    # the north edge runs 200 m past the corner, and back over itself
    layout = square()
    corners = [(-400, 0), (0, 0), (0, 400), (200, 400), (-400, 400)]
    spiked = {**layout.quadrants, Quadrant.NW: MultiPolygon([FRAME.to_globe(Polygon(corners))])}
    (written, *_) = of_kind("quadrant", layout_json([replace(layout, quadrants=spiked)]))
    drawn = shape(written["geometry"])
    assert drawn.is_valid
    west, south, east, north = FRAME.to_ground(drawn).bounds
    assert (west, south, east, north) == pytest.approx((-400, 0, 0, 400), abs=0.2)


@given(st.floats(-1e-7, 1e-7), st.floats(-1e-7, 1e-7))
def test_a_stop_at_the_very_corner_of_its_quarter_is_written_inside_it(
    east: float, north: float
) -> None:
    layout = at_the_corner(east, north)
    written = layout_json([layout])
    (stop,) = of_kind("stop", written)
    (quarter,) = (q for q in of_kind("quadrant", written) if q["properties"]["quadrant"] == "NE")
    assert shape(quarter["geometry"]).contains(shape(stop["geometry"]))
    # moved by no more than two inches, and its loop with it
    kept = stop["geometry"]["coordinates"]
    assert np.abs(np.subtract(kept, layout.stops[0].place)).max() < 4e-7
    (path,) = of_kind("path", written)
    assert path["geometry"]["coordinates"][1] == kept


corner = st.tuples(st.integers(0, 60), st.integers(0, 60))


@given(st.lists(st.tuples(corner, corner), min_size=1, max_size=6))
def test_a_boundary_of_centimetres_stays_a_boundary_when_it_is_rounded(
    boxes: list[tuple[tuple[int, int], tuple[int, int]]],
) -> None:
    # Slivers, notches and teeth of a few millimetres: thirds of the last decimal written.
    step = 1e-7 / 3
    parts = [
        box(*(-101.9 + min(a[0], b[0]) * step, 33.45 + min(a[1], b[1]) * step),
            *(-101.9 + max(a[0], b[0]) * step + step, 33.45 + max(a[1], b[1]) * step + step))
        for a, b in boxes
    ]  # fmt: skip
    ragged = union_all([*parts, box(-101.9, 33.4499, -101.8999, 33.45)])
    whole = MultiPolygon([ragged] if isinstance(ragged, Polygon) else list(ragged.geoms))
    written = rounded_shape(whole)
    assert written.is_valid
    assert written.area == pytest.approx(whole.area, rel=0.01)


@pytest.mark.parametrize("lon", [-179.99, 179.99, 0.0])
def test_no_longitude_is_past_180(lon: float) -> None:
    # section 4, by way of WGS 84 as it is commonly written
    for feature in layout_json([square(frame=Frame(lon, -16.5))])["features"]:
        assert all(-180 <= place[0] <= 180 for place in places(feature["geometry"]))
