"""Boundaries are read alike out of every format, and what they say of gate and rows too."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
import shapely

from quarterwalk.errors import MOST_PROBLEMS, RefusedInput
from quarterwalk.field.area import acres_of
from quarterwalk.files.boundaries import read_fields
from tests.files.drawings import (
    HIGH,
    LAT,
    LON,
    WIDE,
    block,
    every_kind,
    feature,
    geojson,
    placed,
    problems,
    read,
)

KINDS = ("geojson", "shp", "zip", "kml", "kmz", "gpkg")


@pytest.mark.parametrize("kind", KINDS)
def test_every_format_gives_the_same_fields(tmp_path: Path, kind: str) -> None:
    found = read_fields(every_kind(tmp_path)[kind])
    assert [field.name for field in found.fields] == ["F 1", "F 2"]
    hole = block(0.002, 0.002, wide=0.002, high=0.002)
    for field, drawn in zip(
        found.fields,
        [shapely.Polygon(block(), [hole]), shapely.Polygon(block(0.01))],
        strict=True,
    ):
        assert field.shape.symmetric_difference(drawn).area < 1e-9 * drawn.area
        assert field.shape.geoms[0].exterior.is_ccw
        assert field.gate is None
        assert field.rows is None
    assert found.notices == ()


def test_a_bare_polygon_a_bare_multipolygon_and_one_feature_are_read() -> None:
    for shape in (
        {"type": "Polygon", "coordinates": [block()]},
        {"type": "MultiPolygon", "coordinates": [[block()], [block(0.01)]]},
        feature([block()]),
        {"type": "GeometryCollection",
         "geometries": [{"type": "Polygon", "coordinates": [block()]},
                        {"type": "Point", "coordinates": [LON, LAT]}]},
    ):  # fmt: skip
        found = read(json.dumps(shape).encode())
        assert [field.name for field in found.fields] == ["field-1"]


def test_heights_are_dropped() -> None:
    high = [[*point, 950.5] for point in block()]
    assert not read(geojson(feature([high]))).fields[0].shape.has_z


def test_a_byte_order_mark_and_blank_space_do_not_matter() -> None:
    assert read(b"\xef\xbb\xbf \n" + geojson(feature([block()]))).fields


def test_names_come_from_name_then_id_then_the_number() -> None:
    features = [
        feature([block()], NAME=" Windmill 80 ", id="x"),
        {**feature([block(0.01)]), "id": 7},
        feature([block(0.02)], Id="north"),
        feature([block(0.03)], name=None),
        feature([block(0.04)], name=80.0),
        feature([block(0.05)], name="  ", id=""),
    ]
    names = [field.name for field in read(geojson(*features)).fields]
    assert names == ["Windmill 80", "7", "north", "field-4", "80", "field-6"]


def test_grower_and_farm_are_read_in_any_letter_case() -> None:
    found = read(geojson(feature([block()], Grower="Wen Adair", FARM="Tanner Draw")))
    assert (found.fields[0].grower, found.fields[0].farm) == ("Wen Adair", "Tanner Draw")


@pytest.mark.parametrize(
    "gate", [[LON, LAT], f"{LON},{LAT}", f"{LON} {LAT}", f"[{LON}, {LAT}]", f"{LON}; {LAT}"]
)
def test_a_gate_is_two_numbers_as_a_list_or_a_text(gate: object) -> None:
    assert read(geojson(feature([block()], gate=gate))).fields[0].gate == (LON, LAT)


def test_a_gate_with_latitude_first_is_turned_round_and_told() -> None:
    found = read(geojson(feature([block()], name="A", gate=[LAT, LON])))
    assert found.fields[0].gate == (LON, LAT)
    assert found.notices == (
        "standard input, field A: longitude and latitude of its gate stood the wrong way round; "
        "they were swapped.",
    )


@pytest.mark.parametrize("gate", ["by the barn", [LON], [LON, LAT, 3], [True, 1], {}, "1,2,3",
                                  "-101,9 33,4", "1e999,0", [500, 400], "[1, 2", 5])  # fmt: skip
def test_a_gate_that_is_no_place_is_refused(gate: object) -> None:
    (problem,) = problems(geojson(feature([block(0.01)]), feature([block()], gate=gate)))
    assert (problem.row, problem.column) == (2, "gate")
    assert problem.value == (gate if isinstance(gate, str) else json.dumps(gate))
    assert "longitude and latitude of the gate" in problem.expected


# A degree of latitude near 33.4 degrees north is 110.9 km long.
@pytest.mark.parametrize(("north", "near"), [(0.0085, True), (0.0095, False)])
def test_a_gate_may_lie_up_to_a_kilometre_from_its_field(north: float, near: bool) -> None:
    data = geojson(feature([block()], gate=[LON, LAT + HIGH + north]))
    if near:
        assert read(data).fields[0].gate
    else:
        assert problems(data)[0].hint == "It lies 1.1 km from it."


@pytest.mark.parametrize(
    ("rows", "meant"),
    [
        (0, 0),
        (90, 90),
        ("90", 90),
        (270.5, 90.5),
        (-45, 135),
        (180, 0),
        (1e-20 * -1, 0),
        ("", None),
        (None, None),
    ],  # fmt: skip
)
def test_rows_are_directions_without_a_sense(rows: object, meant: float | None) -> None:
    assert read(geojson(feature([block()], rows=rows))).fields[0].rows == meant


@pytest.mark.parametrize("rows", ["NE", [90], True, "1e999", "ninety", "90°"])
def test_rows_that_are_no_number_are_refused(rows: object) -> None:
    (problem,) = problems(geojson(feature([block()], rows=rows)))
    assert (problem.row, problem.column) == (1, "rows")
    assert problem.expected == "degrees clockwise from north, as a number"


@pytest.mark.parametrize("name", ["a\nb", "x" * 201, "bell\x07", ["A"], {"a": 1}])
def test_names_that_could_not_head_a_walk_are_refused(name: object) -> None:
    (problem,) = problems(geojson(feature([block()], name=name)))
    assert (problem.row, problem.column) == (1, "name")


def test_a_second_field_of_a_name_is_refused_for_names_head_walks() -> None:
    (problem,) = problems(geojson(*(feature([block(x)], name="A") for x in (0, 0.01))))
    assert (problem.row, problem.column, problem.value) == (2, "name", "A")
    assert "row 1" in problem.expected
    assert "Walks are headed" in problem.hint


def test_all_problems_are_told_together_up_to_a_limit() -> None:
    told = problems(geojson(feature([block()], rows="x", gate="y"), feature([])))
    assert [(p.row, p.column) for p in told] == [(1, "rows"), (1, "gate"), (2, "geometry")]
    with pytest.raises(RefusedInput) as refused:
        read(geojson(*(feature([block()], name=f"{n}", rows="x") for n in range(60))))
    assert len(refused.value.problems) == MOST_PROBLEMS
    assert refused.value.more == 10


def test_points_and_lines_are_left_out_with_their_number() -> None:
    found = read(
        geojson(
            feature([LON, LAT], "Point"),
            feature([block()]),
            feature(block(), "LineString"),
        )
    )
    assert [field.name for field in found.fields] == ["field-1"]
    assert found.notices == (
        "standard input: 2 features that are no areas (points, lines) were left out.",
    )


def test_a_file_of_points_only_is_refused() -> None:
    (problem,) = problems(geojson(feature([LON, LAT], "Point")))
    assert problem.value == "points and lines only"


@pytest.mark.parametrize("rings", [None, [], [[]]])
def test_a_feature_without_a_shape_is_refused(rings: object) -> None:
    (problem,) = problems(geojson(feature([block()]), feature(rings)))
    assert (problem.row, problem.column) == (2, "geometry")
    assert problem.value == "an empty shape"


def test_a_repair_names_file_and_field(tmp_path: Path) -> None:
    path = placed(tmp_path, "fields.geojson", geojson(feature([block()[:-1]], name="Windmill 80")))
    assert read_fields(path).notices == (
        f"{path}, field Windmill 80: the ring was not closed; its first point was repeated at "
        "the end.",
    )


def test_clockwise_rings_are_told_once_a_file() -> None:
    found = read(geojson(*(feature([block(x)[::-1]]) for x in (0, 0.01))))
    (notice,) = found.notices
    assert "rings of 2 fields" in notice


def test_fields_that_overlap_are_told_with_their_acres() -> None:
    half = WIDE / 2
    found = read(geojson(feature([block()], name="A"), feature([block(half)], name="B")))
    strip = acres_of(shapely.Polygon(block(half, wide=half)))
    assert found.notices == (f"standard input: fields A and B overlap by {strip:.2f} acres.",)


def test_neighbours_that_share_an_edge_do_not_overlap() -> None:
    found = read(geojson(feature([block()]), feature([block(WIDE * 0.995)])))
    assert found.notices == ()


def test_the_same_boundary_twice_is_told() -> None:
    found = read(geojson(feature([block()], name="A"), feature([block()], name="B")))
    (notice,) = found.notices
    assert notice.startswith("standard input: fields A and B have the same boundary")


# On the central meridian of a zone of the transverse Mercator maps of the world, lengths
# are 0.9996 of those on the ground: 800 by 800 m on the map are 158.147 acres of map.
@pytest.mark.parametrize("name", ["EPSG:32614", "urn:ogc:def:crs:EPSG::32614",
                                  "urn:ogc:def:crs:EPSG:8.9:32614"])  # fmt: skip
def test_an_old_file_may_name_its_coordinate_system(name: str) -> None:
    square = [[500_000 + x, 3_700_000 + y] for x, y in ((0, 0), (800, 0), (800, 800), (0, 800))]
    crs = {"type": "name", "properties": {"name": name}}
    found = read(geojson(feature([[*square, square[0]]]), crs=crs))
    field = found.fields[0]
    assert found.notices == ()
    assert field.shape.bounds[0] == pytest.approx(-99, abs=1e-9)
    assert acres_of(field.shape) == pytest.approx(640_000 / 4046.8564224 / 0.9996**2, rel=1e-5)


@pytest.mark.parametrize("name", ["urn:ogc:def:crs:OGC:1.3:CRS84", "EPSG:4326", "epsg:4326"])
def test_longitude_comes_first_whatever_the_name_of_wgs_84(name: str) -> None:
    crs = {"type": "name", "properties": {"name": name}}
    assert read(geojson(feature([block()]), crs=crs)).fields[0].shape.bounds[0] == LON


@pytest.mark.parametrize(
    "crs",
    [
        {"type": "name", "properties": {"name": "my own"}},
        {"type": "name", "properties": {"name": "EPSG:999999"}},
        {"type": "name", "properties": {"name": "EPSG:5703"}},  # heights only
        {"type": "name", "properties": {"name": "+proj=longlat +nadgrids=/etc/hostname"}},
        {"type": "name", "properties": {"name": "+init=/etc/hostname:4326"}},
        {"type": "link", "properties": {"href": "elsewhere"}},
        {"type": "name"},
        "EPSG:4326",
        [],
    ],
)
def test_a_coordinate_system_that_is_not_known_is_refused(crs: object) -> None:
    (problem,) = problems(geojson(feature([block()]), crs=crs))
    assert problem.row is None
    assert "coordinate system" in problem.expected or "crs" in problem.expected


def test_no_coordinate_system_at_all_is_taken_for_degrees_and_told() -> None:
    (notice,) = read(geojson(feature([block()]), crs=None)).notices
    assert "names no coordinate system" in notice


@pytest.mark.parametrize(("name", "kind"), [("f.kml", "geojson"), ("f.geojson", "kml"),
                                            ("f.shp", "gpkg"), ("f.zip", "kmz"),
                                            ("f.kmz", "zip"), ("f", "geojson")])  # fmt: skip
def test_what_is_in_a_file_counts_not_its_name(tmp_path: Path, name: str, kind: str) -> None:
    (tmp_path / "kinds").mkdir()
    data = every_kind(tmp_path / "kinds")[kind].read_bytes()
    assert len(read_fields(placed(tmp_path, name, data)).fields) == 2


def test_standard_input_is_geojson_only(tmp_path: Path) -> None:
    data = every_kind(tmp_path)["kml"].read_bytes()
    with pytest.raises(RefusedInput, match="standard input: must be GeoJSON"):
        read_fields("-", stdin=io.BytesIO(data))
