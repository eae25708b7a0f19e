"""GeoPackages: tables of features, their coordinate systems, their binary shapes."""

from __future__ import annotations

import struct
from pathlib import Path

import pytest
import shapely

from quarterwalk.field.area import acres_of
from quarterwalk.files.boundaries import read_fields
from tests.files.drawings import LAT, LON, block, geopackage, gp, refusal

FIELD = shapely.Polygon(block())


def test_gate_and_rows_are_read(tmp_path: Path) -> None:
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", f"{LON} {LAT}", 190.0))
    (field,) = read_fields(path).fields
    assert (field.gate, field.rows) == ((LON, LAT), 10)


def test_nothing_is_written_beside_it(tmp_path: Path) -> None:
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", "", 0))
    before = path.read_bytes()
    path.chmod(0o444)
    read_fields(path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["f.gpkg"]


def test_a_name_with_signs_that_mean_something_in_an_address_is_opened(tmp_path: Path) -> None:
    path = geopackage(tmp_path / "a%20?b#c&mode=rwc ñ.gpkg", (gp(FIELD), "A", "", 0))
    assert len(read_fields(path).fields) == 1


# On the central meridian a map of the UTM has 0.9996 of the lengths on the ground.
def test_its_table_of_coordinate_systems_is_followed(tmp_path: Path) -> None:
    square = shapely.box(5e5, 3.7e6, 5e5 + 800, 3.7e6 + 800)
    path = geopackage(tmp_path / "f.gpkg", (gp(square, srs=32614), "A", "", 0), srs=32614)
    (field,) = read_fields(path).fields
    assert acres_of(field.shape) == pytest.approx(640_000 / 4046.8564224 / 0.9996**2, rel=1e-5)


def test_an_undefined_coordinate_system_is_taken_for_degrees_and_told(tmp_path: Path) -> None:
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD, srs=-1), "A", "", 0), srs=-1)
    assert "names no coordinate system" in read_fields(path).notices[0]


def test_a_coordinate_system_may_be_described(tmp_path: Path) -> None:
    more = (
        "UPDATE gpkg_spatial_ref_sys SET organization = 'OURS', definition = "
        '\'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],'
        'PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]]\' WHERE srs_id = 4326;'
    )
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", "", 0), more=more)
    assert read_fields(path).fields[0].shape.bounds[0] == pytest.approx(LON)


@pytest.mark.parametrize("flavour", ["iso", "extended"])
@pytest.mark.parametrize("order", [0, 1])
def test_heights_and_either_order_of_bytes_are_read(
    tmp_path: Path, order: int, flavour: str
) -> None:
    high = shapely.force_3d(shapely.MultiPolygon([FIELD, shapely.Polygon(block(0.01))]), 950)
    wkb = shapely.to_wkb(high, byte_order=order, flavor=flavour)
    path = geopackage(tmp_path / "f.gpkg", (gp(wkb), "A", "", 0))
    if flavour == "iso":
        assert len(read_fields(path).fields[0].shape.geoms) == 2
    else:
        assert "no known kind" in refusal(path)


def test_a_frame_in_the_header_is_passed_over(tmp_path: Path) -> None:
    for kind, size in ((1, 32), (2, 48), (3, 48), (4, 64)):
        wkb = b"\x00" * size + shapely.to_wkb(FIELD)
        path = geopackage(tmp_path / f"{kind}.gpkg", (gp(wkb, flags=1 | kind << 1), "A", "", 0))
        assert len(read_fields(path).fields) == 1


def test_points_are_left_out_and_collections_of_areas_read(tmp_path: Path) -> None:
    both = shapely.GeometryCollection([FIELD, shapely.Polygon(block(0.01))])
    rows = [(gp(shapely.Point(LON, LAT)), "well", "", 0), (gp(both), "A", "", 0)]
    found = read_fields(geopackage(tmp_path / "f.gpkg", *rows))
    assert [len(field.shape.geoms) for field in found.fields] == [2]
    assert "1 feature" in found.notices[0]


def test_all_tables_of_features_are_read(tmp_path: Path) -> None:
    more = (
        'CREATE TABLE "more \'fields" (geom BLOB, Name TEXT);'
        "INSERT INTO gpkg_contents VALUES ('more ''fields', 'features', 4326),"
        " ('notes', 'attributes', 0);"
        "INSERT INTO gpkg_geometry_columns VALUES ('more ''fields', 'geom', 'POLYGON', 4326, 0, 0);"
        f"INSERT INTO \"more 'fields\" VALUES (x'{gp(shapely.Polygon(block(0.01))).hex()}', 'B');"
    )
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", "", 0), more=more)
    assert [field.name for field in read_fields(path).fields] == ["A", "B"]


def test_changes_not_yet_written_are_told(tmp_path: Path) -> None:
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", "", 0))
    (tmp_path / "f.gpkg-wal").write_bytes(b"x")
    assert "not written yet" in read_fields(path).notices[0]


def test_a_coordinate_system_that_it_does_not_describe_is_refused(tmp_path: Path) -> None:
    path = geopackage(tmp_path / "f.gpkg", (gp(FIELD, srs=77), "A", "", 0), srs=77)
    assert "coordinate system that the GeoPackage describes" in refusal(path)


@pytest.mark.parametrize("blob", [None, gp(b"", flags=0x11)])
def test_a_feature_without_a_shape_is_refused(tmp_path: Path, blob: bytes | None) -> None:
    told = refusal(geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", "", 0), (blob, "B", "", 0)))
    assert "row 2, column geometry: must be a polygon with points" in told


def wkb(kind: int, *counts: int, order: int = 1) -> bytes:
    return bytes([order]) + struct.pack(f"<I{len(counts)}I", kind, *counts)


@pytest.mark.parametrize(
    "blob",
    [
        "a text",
        b"",
        b"GP",
        b"XX\x00\x01" + b"\x00" * 40,
        b"GP\x07\x01" + b"\x00" * 40,  # another version
        gp(FIELD, flags=0x21),  # an extension
        gp(FIELD, flags=1 | 5 << 1),  # a frame of no known kind
        gp(FIELD, flags=1 | 1 << 1),  # a frame that is not there
        gp(FIELD, flags=0),  # the other order of bytes
        gp(FIELD, srs=32614),  # another coordinate system than the table's
        gp(shapely.to_wkb(FIELD)[:-1]),
        gp(shapely.to_wkb(FIELD) + b"\x00"),
        gp(wkb(3, 2**31)),
        gp(wkb(3, 1, 2**31 - 1)),
        gp(wkb(3, 2**32 - 1, 5)),
        gp(wkb(6, 2**32 - 1)),
        gp(wkb(99)),
        gp(wkb(3, 1, 0, order=7)),
        gp(b"".join(wkb(7, 1) for _ in range(3000))),  # one inside the other
        gp(shapely.GeometryCollection([shapely.Point(LON, LAT), FIELD])),
    ],
)
def test_headers_that_lie_are_refused_by_row(tmp_path: Path, blob: object) -> None:
    told = refusal(geopackage(tmp_path / "f.gpkg", (gp(FIELD), "A", "", 0), (blob, "B", "", 0)))
    assert "row 2, column geometry" in told
