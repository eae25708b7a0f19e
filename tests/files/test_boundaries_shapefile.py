"""Shapefiles: their table, their coordinate system, their rings, alone or in a zip."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
import shapely
from pyproj import CRS
from shapefile import Writer

from quarterwalk.field.area import acres_of
from quarterwalk.files.boundaries import read_fields
from tests.files.drawings import LON, Ring, block, placed, refusal, shapefile, zipped

WGS84 = CRS.from_epsg(4326)
HOLE = block(0.002, 0.002, wide=0.002, high=0.002)
ISLAND = block(0.0025, 0.0025, wide=0.001, high=0.001)


def written(folder: Path, files: dict[str, bytes], stem: str = "f") -> Path:
    for ending, data in files.items():
        placed(folder, stem + ending, data)
    return folder / f"{stem}.shp"


def test_gate_rows_grower_and_farm_come_out_of_the_table(tmp_path: Path) -> None:
    row = {"NAME": "Home 40", "Gate": f"{LON} 33.4", "ROWS": "90", "GROWER": "Wen", "FARM": "T D"}
    (field,) = read_fields(written(tmp_path, shapefile([[block()[::-1]]], [row], crs=WGS84))).fields
    assert (field.name, field.gate, field.rows) == ("Home 40", (LON, 33.4), 90)
    assert (field.grower, field.farm) == ("Wen", "T D")


@pytest.mark.parametrize(
    ("raw", "name"), [(b"Ca\xf1a", "Caña"), (b"O\x92Ds", "O’Ds"), ("Ñu".encode() + b"s", "Ñus")]
)
def test_letters_of_old_and_new_tables_are_read(tmp_path: Path, raw: bytes, name: str) -> None:
    files = shapefile([[block()[::-1]]], [{"name": "QQQQ"}], crs=WGS84)
    files[".dbf"] = files[".dbf"].replace(b"QQQQ", raw)
    assert read_fields(written(tmp_path, files)).fields[0].name == name


def test_endings_in_capital_letters_are_found(tmp_path: Path) -> None:
    files = {e.upper(): d for e, d in shapefile([[block()[::-1]]], crs=WGS84).items()}
    written(tmp_path, files)
    assert read_fields(tmp_path / "f.SHP").notices == ()


@pytest.mark.parametrize("turn", [1, -1])
def test_holes_and_islands_are_told_by_where_they_lie(tmp_path: Path, turn: int) -> None:
    rings = [[ISLAND[::turn], HOLE[::turn], block()[::turn], block(0.02)[::turn]]]
    (field,) = read_fields(written(tmp_path, shapefile(rings, crs=WGS84))).fields
    expected = shapely.union_all(
        [shapely.Polygon(block(), [HOLE]), shapely.Polygon(ISLAND), shapely.Polygon(block(0.02))]
    )
    assert field.shape.symmetric_difference(expected).area < 1e-9 * expected.area


# On the central meridian a map of the UTM has 0.9996 of the lengths on the ground.
def test_the_prj_beside_it_is_followed(tmp_path: Path) -> None:
    square = [[5e5 + x, 3.7e6 + y] for x, y in ((0, 0), (0, 800), (800, 800), (800, 0), (0, 0))]
    files = shapefile([[square]], crs=CRS.from_epsg(32614))
    found = read_fields(written(tmp_path, files))
    (field,) = found.fields
    assert found.notices == ()
    assert acres_of(field.shape) == pytest.approx(640_000 / 4046.8564224 / 0.9996**2, rel=1e-5)


def test_feet_are_followed_too(tmp_path: Path) -> None:
    plane = CRS.from_epsg(2276)  # a state's zone, in survey feet
    square = [[2.5e6 + x, 7e6 + y] for x, y in ((0, 0), (0, 2640), (2640, 2640), (2640, 0), (0, 0))]
    (field,) = read_fields(written(tmp_path, shapefile([[square]], crs=plane))).fields
    # half a mile square is 160 acres; the zone's scale is within 1 in 5,000
    assert acres_of(field.shape) == pytest.approx(160, rel=5e-4)


def test_without_prj_degrees_are_taken_for_wgs_84_and_told(tmp_path: Path) -> None:
    found = read_fields(written(tmp_path, shapefile([[block()[::-1]]])))
    assert found.fields[0].shape.bounds[0] == LON
    assert "names no coordinate system" in found.notices[0]


def test_without_prj_metres_are_refused(tmp_path: Path) -> None:
    square = [[5e5 + x, 3.7e6 + y] for x, y in ((0, 0), (0, 800), (800, 800), (800, 0), (0, 0))]
    told = refusal(written(tmp_path, shapefile([[square]])))
    assert "row 1, column geometry" in told
    assert "Give the .prj file too" in told


@pytest.mark.parametrize(
    "prj",
    [
        b"",
        b"\xff\xfe",
        b"GEOGCS[",
        b"x" * 30_000,
        b'LOCAL_CS["ours",UNIT["metre",1]]',
        CRS.from_epsg(4267).to_wkt("WKT1_GDAL").encode()[:-1]
        + b',EXTENSION["PROJ4_GRIDS","/etc/hostname"]]',
        b'PROJCS["x",GEOGCS["y",DATUM["z",SPHEROID["s",6378137,298.257]],PRIMEM["G",0],'
        b'UNIT["degree",0.0174532925199433]],PROJECTION["Mercator_1SP"],UNIT["metre",1],'
        b'EXTENSION["PROJ4","+proj=merc +nadgrids=/etc/hostname"]]',
    ],
)
def test_a_prj_that_is_damaged_or_names_a_file_is_refused(tmp_path: Path, prj: bytes) -> None:
    told = refusal(written(tmp_path, {**shapefile([[block()[::-1]]]), ".prj": prj}))
    assert "coordinate system" in told


def test_the_web_map_of_old_programs_is_known(tmp_path: Path) -> None:
    web = CRS.from_epsg(3857).to_wkt("WKT1_GDAL")
    assert "@null" in web
    square = [[-1.1e7 + x, 4e6 + y] for x, y in ((0, 0), (0, 900), (900, 900), (900, 0), (0, 0))]
    files = {**shapefile([[square]]), ".prj": web.encode()}
    (field,) = read_fields(written(tmp_path, files)).fields
    # x is the longitude in radians times the radius 6378137 m
    assert field.shape.bounds[0] == pytest.approx(-1.1e7 / 6_378_137 * 57.29577951308232)


def test_without_table_fields_are_named_by_number_and_it_is_told(tmp_path: Path) -> None:
    files = shapefile([[block()[::-1]]], crs=WGS84)
    found = read_fields(written(tmp_path, {e: files[e] for e in (".shp", ".prj")}))
    assert [field.name for field in found.fields] == ["field-1"]
    assert "no .dbf file" in found.notices[0]


def test_a_row_marked_as_deleted_is_left_out(tmp_path: Path) -> None:
    files = shapefile([[block()[::-1]], [block(0.01)[::-1]]], crs=WGS84)
    table = bytearray(files[".dbf"])
    header = int.from_bytes(table[8:10], "little")
    table[header] = ord("*")
    found = read_fields(written(tmp_path, {**files, ".dbf": bytes(table)}))
    assert [field.name for field in found.fields] == ["F 2"]
    assert "marked as deleted" in found.notices[0]


def test_a_table_of_other_shapes_is_refused(tmp_path: Path) -> None:
    files = shapefile([[block()[::-1]]], crs=WGS84)
    other = shapefile([[block()[::-1]]] * 2)[".dbf"]
    assert "belong together" in refusal(written(tmp_path, {**files, ".dbf": other}))


def test_a_shapefile_of_points_is_refused(tmp_path: Path) -> None:
    shp, dbf = io.BytesIO(), io.BytesIO()
    with Writer(shp=shp, shx=io.BytesIO(), dbf=dbf, shapeType=1) as writer:
        writer.field("name", "C", 10)
        writer.point(LON, 33.4)
        writer.record("well")
    files = {".shp": shp.getvalue(), ".dbf": dbf.getvalue()}
    assert "at least one polygon" in refusal(written(tmp_path, files))


@pytest.mark.parametrize("ending", [".dbf", ".shx", ".prj"])
def test_a_side_file_points_to_the_shp(tmp_path: Path, ending: str) -> None:
    path = placed(tmp_path, f"f{ending}", b"\x00\x00\x27\x0a" if ending == ".shx" else b"\x03x")
    assert "give the .shp file" in refusal(path)


def test_several_layers_of_a_zip_are_all_read_and_named(tmp_path: Path) -> None:
    def layer(ring: Ring, name: str) -> dict[str, bytes]:
        return shapefile([[ring[::-1]]], [{"name": name}], crs=WGS84)

    files = {f"farm/north{e}": d for e, d in layer(block()[:-1], "A").items()}
    files |= {f"farm/SOUTH{e.upper()}": d for e, d in layer(block(0, 0.02), "B").items()}
    files |= {"__MACOSX/farm/._north.shp": b"junk", "readme.txt": b"hello", "farm/north.cpg": b"U"}
    path = placed(tmp_path, "f.zip", zipped(files))
    found = read_fields(path)
    assert [field.name for field in found.fields] == ["A", "B"]
    assert found.file == str(path)


def test_unnamed_fields_of_several_layers_have_names_of_their_own(tmp_path: Path) -> None:
    files = {}
    for stem, east in (("a", 0), ("b", 0.01)):
        layer = shapefile([[block(east)[::-1]]], [{"name": ""}], crs=WGS84)
        files |= {f"{stem}{ending}": data for ending, data in layer.items()}
    found = read_fields(placed(tmp_path, "f.zip", zipped(files)))
    assert [field.name for field in found.fields] == ["field-1", "field-2"]


def test_a_fault_in_one_layer_of_several_names_it(tmp_path: Path) -> None:
    files = {}
    for stem, gate in (("a", ""), ("b", "here")):
        layer = shapefile([[block()[::-1]]], [{"name": stem, "gate": gate}], crs=WGS84)
        files |= {f"{stem}{ending}": data for ending, data in layer.items()}
    told = refusal(path := placed(tmp_path, "f.zip", zipped(files)))
    assert told.startswith(f"{path}, b.shp row 1, column gate")
