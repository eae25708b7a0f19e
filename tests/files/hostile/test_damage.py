"""However a file is damaged, it is read or refused in words; nothing else ever happens."""

from __future__ import annotations

import struct
import warnings
from pathlib import Path

import numpy as np
import pytest
from pyproj import CRS

from quarterwalk.errors import RefusedInput
from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.boundary_limits import MOST_BYTES
from tests.files.drawings import block, every_kind, placed, refusal, shapefile

FLAT = shapefile([[block()[::-1]], [block(0.01)[::-1]]], crs=CRS.from_epsg(4326))
KINDS = ("geojson", "shp", "zip", "kml", "kmz", "gpkg")
ENDINGS = (".shp", ".dbf", ".prj")
SCARS = 150


def scarred(data: bytes, rng: np.random.Generator) -> bytes:
    """Change, cut out, double or cut off some bytes."""
    spoilt = bytearray(data)
    for _ in range(rng.integers(1, 6)):
        at = int(rng.integers(0, max(len(spoilt), 1)))
        match rng.integers(0, 5):
            case 0:
                spoilt[at : at + 1] = bytes([rng.integers(0, 256)])
            case 1:
                spoilt[at : at + 4] = rng.choice([b"\xff\xff\xff\x7f", b"\x00" * 4, b"\xff" * 4])
            case 2:
                del spoilt[at : at + int(rng.integers(1, 40))]
            case 3:
                spoilt[at:at] = spoilt[at : at + int(rng.integers(1, 40))]
            case _:
                spoilt = spoilt[: max(at, 1)] if rng.integers(0, 4) == 0 else spoilt
    return bytes(spoilt)


def read_or_refuse(path: Path) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            found = read_fields(path)
        except RefusedInput as refused:
            told, whole = str(refused), True
        else:
            told, whole = found.file, all(field.shape.is_valid for field in found.fields)
    assert told
    assert whole


@pytest.mark.parametrize("kind", KINDS)
def test_a_damaged_file_is_read_or_refused(tmp_path: Path, kind: str) -> None:
    path = every_kind(tmp_path)[kind]
    whole, rng = path.read_bytes(), np.random.default_rng(20260624)
    for _ in range(SCARS):
        path.write_bytes(scarred(whole, rng))
        read_or_refuse(path)


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_shapefile_with_one_damaged_file_is_read_or_refused(tmp_path: Path, ending: str) -> None:
    rng = np.random.default_rng(20260625)
    for name, data in FLAT.items():
        placed(tmp_path, f"f{name}", data)
    for _ in range(SCARS):
        placed(tmp_path, f"f{ending}", scarred(FLAT[ending], rng))
        read_or_refuse(tmp_path / "f.shp")


@pytest.mark.parametrize("kind", KINDS)
def test_a_file_that_is_cut_off_is_refused(tmp_path: Path, kind: str) -> None:
    path = every_kind(tmp_path)[kind]
    whole = path.read_bytes()
    for share in (0.001, 0.1, 0.5, 0.9):
        path.write_bytes(whole[: int(len(whole) * share)])
        assert refusal(path)


@pytest.mark.parametrize(
    ("at", "value", "said"),
    [
        (24, struct.pack(">i", 2**31 - 1), "bytes where it says"),
        (24, struct.pack(">i", -5), "bytes where it says"),
        (104, struct.pack(">i", 2**31 - 1), "a record that says it has"),
        (104, struct.pack(">i", -1), "a record that says it has"),
        (104, struct.pack(">i", 0), "a record that says it has"),
        (144, struct.pack("<i", 2**31 - 1), "2,147,483,647 rings"),
        (144, struct.pack("<i", -1), "-1 rings"),
        (148, struct.pack("<i", 2**31 - 1), "2,147,483,647 points"),
        (152, struct.pack("<i", 3), "rings out of order"),
        (156, struct.pack("<d", float("nan")), "places on the globe"),
        (156, struct.pack("<d", 1e308), "degrees"),
    ],
)
def test_lengths_in_a_shp_that_are_not_true_are_refused(
    tmp_path: Path, at: int, value: bytes, said: str
) -> None:
    shp = bytearray(FLAT[".shp"])
    shp[at : at + len(value)] = value
    for ending, data in {**FLAT, ".shp": bytes(shp)}.items():
        placed(tmp_path, f"f{ending}", data)
    assert said in refusal(tmp_path / "f.shp")


def test_a_hole_far_off_any_globe_is_refused_without_a_warning(tmp_path: Path) -> None:
    hole = [[1e300, 1e300], [1e300, 2e300], [2e300, 2e300], [1e300, 1e300]]
    for ending, data in shapefile([[block()[::-1], hole]]).items():
        placed(tmp_path, f"f{ending}", data)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert "degrees" in refusal(tmp_path / "f.shp")


@pytest.mark.parametrize(("at", "value"), [(4, 2**31 - 1), (4, 400), (8, 65535), (8, 0), (10, 0),
                                           (10, 65535)])  # fmt: skip
def test_lengths_in_a_dbf_that_are_not_true_are_refused(
    tmp_path: Path, at: int, value: int
) -> None:
    table = bytearray(FLAT[".dbf"])
    struct.pack_into("<L" if at == 4 else "<H", table, at, value)
    for ending, data in {**FLAT, ".dbf": bytes(table)}.items():
        placed(tmp_path, f"f{ending}", data)
    assert ".dbf" in refusal(tmp_path / "f.shp")


def test_a_folder_a_missing_and_an_empty_file_are_refused(tmp_path: Path) -> None:
    assert "can be read" in refusal(tmp_path)
    assert "can be read" in refusal(tmp_path / "none.geojson")
    assert "can be read" in refusal(tmp_path / "nu\x00ll")
    assert "an empty file" in refusal(placed(tmp_path, "empty.geojson", b""))


def test_a_folder_in_place_of_a_table_is_refused(tmp_path: Path) -> None:
    placed(tmp_path, "f.shp", FLAT[".shp"])
    (tmp_path / "f.dbf").mkdir()
    with pytest.raises(RefusedInput, match="can be read"):
        read_fields(tmp_path / "f.shp")


def test_a_file_beyond_the_limit_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "f.geojson"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    assert "at most 32 MB" in refusal(path)


@pytest.mark.parametrize("data", [b"%PDF-1.7", b"field,date\n", b"\x89PNG\r\n", b"GIF89a"])
def test_files_of_other_kinds_are_refused_with_what_is_read(tmp_path: Path, data: bytes) -> None:
    assert "must be GeoJSON, a Shapefile" in refusal(placed(tmp_path, "f.geojson", data))
