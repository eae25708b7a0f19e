"""The demo district could lie in section country: its fields are as large as they say."""

from __future__ import annotations

import json
from itertools import combinations
from pathlib import Path

import pytest
from shapely import Point
from shapely.geometry import mapping, shape

from quarterwalk.demo.boundaries import demo_fields
from quarterwalk.demo.district import load_district
from quarterwalk.field import Field, Frame
from quarterwalk.field.area import acres_of, metres_along
from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.field_json import field_json

DISTRICT = load_district()
FIELDS = {field.name: field for field in demo_fields()}
GROUND = Frame(-101.9, 33.45)
MILE = 1609.344

each_field = pytest.mark.parametrize("field", FIELDS.values(), ids=list(FIELDS))


def test_every_field_of_the_district_has_its_boundary_and_its_grower() -> None:
    told = [(field.name, field.grower) for field in demo_fields()]
    assert told == [(field.name, field.grower) for field in DISTRICT.fields]


@pytest.mark.parametrize("told", DISTRICT.fields, ids=[field.name for field in DISTRICT.fields])
def test_a_field_has_the_acres_it_is_known_by(told: Field) -> None:
    (field,) = (field for field in DISTRICT.fields if field.name == told.name)
    assert acres_of(FIELDS[field.name].shape) == pytest.approx(field.acres, rel=0.005)


def test_no_field_touches_another() -> None:
    # a pick-up gets through between any two
    shapes = [GROUND.to_ground(field.shape) for field in FIELDS.values()]
    assert min(a.distance(b) for a, b in combinations(shapes, 2)) > 3


@each_field
def test_the_gate_is_on_the_edge(field: Field) -> None:
    assert field.gate is not None
    edge, gate = GROUND.to_ground(field.shape).boundary, GROUND.to_ground(Point(field.gate))
    assert edge.distance(gate) < 0.01


@each_field
def test_no_field_lies_on_a_road_of_the_section_grid(field: Field) -> None:
    # the road takes twenty feet on either side of its line, and lines are a mile apart
    west, south, east, north = GROUND.to_ground(field.shape).bounds
    for low, high, first in ((west, east, -1.5 * MILE), (south, north, -MILE)):
        assert (low - first) // MILE == (high - first) // MILE
        assert (low - first) % MILE > 6.1
        assert MILE - (high - first) % MILE > 6.1


def test_the_fields_have_the_shapes_that_make_quartering_hard() -> None:
    assert len(FIELDS["Gin Road 120"].shape.geoms) == 2
    assert len(FIELDS["Playa 60"].shape.geoms[0].interiors) == 1
    for name in ("Schoolhouse 90", "Cotton Wagon 75", "Pump House 85", "Switchback 140"):
        hull = FIELDS[name].shape.convex_hull
        assert FIELDS[name].shape.area < 0.97 * hull.area
    west, south, east, north = FIELDS["Old Airstrip 150"].shape.bounds
    length = metres_along([(west, south), (west, north)])
    assert length > 4 * metres_along([(west, south), (east, south)])


def test_fields_without_known_rows_are_among_them() -> None:
    rows = [field.rows for field in FIELDS.values()]
    assert None in rows
    assert {0, 90} < {row for row in rows if row is not None}


def test_the_fields_are_written_as_geojson_to_the_centimetre() -> None:
    written = json.loads(json.dumps(field_json(demo_fields())))
    assert written["type"] == "FeatureCollection"
    for field, feature in zip(demo_fields(), written["features"], strict=True):
        drawn = shape(feature["geometry"])
        assert drawn.is_valid
        # half a centimetre along two miles of edge, of forty acres
        assert acres_of(drawn) == pytest.approx(acres_of(field.shape), rel=1e-4)
        moved = GROUND.to_ground(drawn).hausdorff_distance(GROUND.to_ground(field.shape))
        assert moved < 0.015
        assert mapping(drawn)["type"] == ("MultiPolygon" if "Gin" in field.name else "Polygon")
        said = feature["properties"]
        assert (said["name"], said["grower"], said["farm"]) == (
            field.name,
            field.grower,
            field.farm,
        )
        assert said.get("rows") == field.rows
        assert said["gate"] == pytest.approx(list(field.gate or ()), abs=1e-7)


def test_the_written_fields_are_read_back_without_a_word(tmp_path: Path) -> None:
    path = tmp_path / "fields.geojson"
    path.write_text(json.dumps(field_json(demo_fields())), encoding="utf-8")
    read = read_fields(path)
    assert not read.notices
    for there, here in zip(read.fields, demo_fields(), strict=True):
        assert (there.name, there.grower, there.farm) == (here.name, here.grower, here.farm)
        assert there.rows == here.rows
        assert there.gate == pytest.approx(here.gate, abs=1e-7)


def test_what_nobody_said_of_a_field_is_not_written() -> None:
    plain = Field("Home 40", FIELDS["Late Forty"].shape)
    (feature,) = field_json([plain])["features"]
    assert feature["properties"] == {"name": "Home 40"}
