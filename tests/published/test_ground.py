"""Areas, lengths and the forms in which they are written, against published values."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from datetime import UTC, datetime
from fractions import Fraction

import numpy as np
from shapely import MultiPolygon, Polygon, box, segmentize

from quarterwalk.field import Frame
from quarterwalk.field.area import acres_of, hectares_of, metres_along
from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.crs import crs_described, crs_named, on_the_globe
from quarterwalk.files.drawn import Drawn, Layer, Said
from quarterwalk.files.field_json import field_json
from quarterwalk.files.gpx import layout_gpx
from quarterwalk.units import acres_from_hectares
from tests.files.laid_out import square
from tests.published.tables import read

AREAS = read("geodesic_areas")
CELLS = read("geodesic_cells")
LENGTHS = read("geodesic_lengths")
DEGREES = read("degree_lengths")
ACRES = read("acres")
RINGS = read("rewound_rings")
MAPS = read("map_coordinates")
GPX_ELEMENTS = read("gpx_elements")


def places(text):
    return [tuple(map(float, place.split())) for place in text.split(",")]


def cell(latitude):
    return box(0, latitude, 1, latitude + 1)


@AREAS.each()
def test_the_area_of_a_polygon_of_geodesics(row):
    square_metres = hectares_of(Polygon(places(row["corners"]))) * 10_000
    assert square_metres * int(row["times"]) == AREAS.near(row["square_metres"])


@CELLS.each()
def test_the_area_of_a_cell_of_geodesics(row):
    assert hectares_of(cell(int(row["latitude"]))) * 10_000 == CELLS.near(row["geodesic"])


@CELLS.each()
def test_a_frame_keeps_the_area_between_two_parallels(row):
    # A cell a hundred times as wide as a field, its parallels followed in a thousand steps.
    traced = segmentize(cell(int(row["latitude"])), 0.001)
    assert Frame.around(traced).to_ground(traced).area == CELLS.near(row["parallel"])


@CELLS.each()
def test_the_area_between_two_parallels_traced_by_geodesics(row):
    traced = segmentize(cell(int(row["latitude"])), 0.001)
    assert hectares_of(traced) * 10_000 == CELLS.near(row["parallel"])


@LENGTHS.each()
def test_the_length_of_a_line(row):
    assert metres_along(places(row["places"])) == LENGTHS.near(row["metres"])


@DEGREES.each()
def test_the_length_of_a_degree(row):
    lat = float(row["latitude"])
    if row["along"] == "parallel":
        metres = metres_along([(lon, lat) for lon in np.linspace(0, 1, 1001)])
    else:
        # as the meridian curves just there: a thousandth of a degree, and not past the pole
        south = min(lat - 0.0005, 90 - 0.001)
        metres = 1000 * metres_along([(0, south), (0, south + 0.001)])
    assert metres == DEGREES.near(row["metres"])


@ACRES.each()
def test_the_acres_of_an_area(row):
    hectares = Fraction(row["square_metres"]) / 10_000
    assert float(acres_from_hectares(hectares)) == ACRES.near(row["acres"])


@CELLS.each()
def test_a_boundary_has_its_square_metres_over_4046_8564224_acres(row):
    acres = acres_of(MultiPolygon([cell(int(row["latitude"]))]))
    assert acres == CELLS.near(float(row["geodesic"]) / 4046.8564224)


@MAPS.each()
def test_metres_of_a_map_become_longitude_and_latitude(row):
    name = row["described"]
    crs = crs_named("x", name) if name.startswith("EPSG") else crs_described("x", name)
    corner = np.array([float(row["east"]), float(row["north"])])
    ring = corner + [[0, 0], [100, 0], [0, 100], [0, 0]]
    layer = on_the_globe(Layer("x", (Drawn(1, ((ring,),), Said()),), 0, crs))
    found = layer.drawn[0].parts[0][0][0]
    asked = (float(row["longitude"]), float(row["latitude"]))
    assert metres_along([tuple(found), asked]) < float(row["within"])


@RINGS.each()
def test_a_ring_the_wrong_way_round_is_read_and_rewound_when_it_is_written(row, tmp_path):
    # every number a hundredth of the printed one: a square of one degree is no field
    given, asked = ([(x / 100, y / 100) for x, y in places(row[key])] for key in row)
    path = tmp_path / "wrong.geojson"
    path.write_text(json.dumps({"type": "Polygon", "coordinates": [given]}))
    (written,) = field_json(read_fields(path).fields)["features"]
    (ring,) = written["geometry"]["coordinates"]
    # a ring may begin at any of its corners
    start = ring.index(asked[0])
    assert [*ring[start:-1], *ring[: start + 1]] == asked


@GPX_ELEMENTS.each()
def test_the_elements_of_a_gpx_file_stand_in_their_order(row):
    root = ET.fromstring(layout_gpx([square()], at=datetime(2026, 6, 18, tzinfo=UTC)).encode())
    found = [e for e in root.iter() if e.tag.partition("}")[2] == row["element"]]
    asked = row["holds"].split()
    assert found
    for element in found:
        held = [asked.index(child.tag.partition("}")[2]) for child in element]
        assert held == sorted(held)
