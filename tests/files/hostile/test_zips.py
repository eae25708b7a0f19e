"""A zip is believed in nothing that it says of itself."""

from __future__ import annotations

import io
import stat
import zipfile
from pathlib import Path

import numpy as np
import pytest

from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.boundary_limits import (
    FREE_OF_RATIO,
    MOST_BYTES,
    MOST_FIELDS,
    MOST_LAYERS,
    MOST_MEMBERS,
)
from tests.files.drawings import block, kml, placed, placemark, refusal, shapefile, zipped

GOOD = {f"f{ending}": data for ending, data in shapefile([[block()[::-1]]]).items()}


def with_member(name: str, data: bytes = b"", *, mode: int = 0o644) -> bytes:
    """Give a good zip of a Shapefile with one more file in it."""
    packed = io.BytesIO(zipped(GOOD))
    with zipfile.ZipFile(packed, "a", zipfile.ZIP_DEFLATED) as files:
        info = zipfile.ZipInfo(name)
        info.external_attr = mode << 16
        info.compress_type = zipfile.ZIP_DEFLATED
        files.writestr(info, data)
    return packed.getvalue()


@pytest.mark.parametrize(
    "name", ["../f.shp", "/etc/f.shp", "a/../../f.shp", "..\\f.shp", "C:/f.shp", "a/.."]
)
def test_paths_that_lead_out_of_the_zip_are_refused(tmp_path: Path, name: str) -> None:
    assert "all lie inside it" in refusal(placed(tmp_path, "f.zip", with_member(name)))
    assert [p.name for p in tmp_path.iterdir()] == ["f.zip"]


def test_links_are_refused(tmp_path: Path) -> None:
    data = with_member("g.shp", b"/etc/hostname", mode=stat.S_IFLNK | 0o777)
    assert "plain files" in refusal(placed(tmp_path, "f.zip", data))


@pytest.mark.parametrize("name", ["inner.zip", "a/b.KMZ"])
def test_a_zip_in_a_zip_is_refused(tmp_path: Path, name: str) -> None:
    data = with_member(name, zipped(GOOD))
    assert "without another inside it" in refusal(placed(tmp_path, "f.zip", data))


def test_a_file_that_unpacks_to_a_thousand_times_its_size_is_refused(tmp_path: Path) -> None:
    data = zipped({**GOOD, "f.dbf": b"\x00" * (8 * FREE_OF_RATIO)})
    assert len(data) < FREE_OF_RATIO // 10
    assert "times its size" in refusal(placed(tmp_path, "f.zip", data))


def test_files_that_unpack_to_too_much_together_are_refused(tmp_path: Path) -> None:
    # noise of two values packs about six to one, so that no file passes the ratio
    noise = np.random.default_rng(1).integers(0, 2, MOST_BYTES * 2 // 5, np.uint8).tobytes()
    data = zipped({f"{place}.dbf": noise for place in range(3)})
    assert len(data) < MOST_BYTES // 3
    assert "unpacks to at most 32 MB" in refusal(placed(tmp_path, "f.zip", data))


def test_a_size_that_is_not_true_does_not_matter(tmp_path: Path) -> None:
    data = bytearray(zipped({**GOOD, "f.dbf": b"\x00" * (8 * FREE_OF_RATIO)}))
    size = (8 * FREE_OF_RATIO).to_bytes(4, "little")
    assert data.count(size) == 2
    data = data.replace(size, (100).to_bytes(4, "little"))
    assert refusal(placed(tmp_path, "f.zip", bytes(data)))


def test_too_many_files_are_refused(tmp_path: Path) -> None:
    data = zipped({f"{n}.txt": b"" for n in range(MOST_MEMBERS + 1)})
    assert f"at most {MOST_MEMBERS}" in refusal(placed(tmp_path, "f.zip", data))


def test_a_file_that_stands_twice_is_refused(tmp_path: Path) -> None:
    assert "each file once" in refusal(placed(tmp_path, "f.zip", with_member("F.SHP", b"x")))


def test_a_zip_with_a_password_is_refused(tmp_path: Path) -> None:
    data = bytearray(zipped(GOOD))
    for mark, flags in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = data.find(mark)
        while at >= 0:
            data[at + flags] |= 1
            at = data.find(mark, at + 1)
    assert "without a password" in refusal(placed(tmp_path, "f.zip", bytes(data)))


@pytest.mark.parametrize("way", [zipfile.ZIP_LZMA, zipfile.ZIP_BZIP2])
def test_ways_of_packing_that_may_need_much_memory_are_refused(tmp_path: Path, way: int) -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", way) as files:
        files.writestr("doc.kml", kml(placemark(block())))
    assert "usual way" in refusal(placed(tmp_path, "f.kmz", packed.getvalue()))


def test_a_file_without_a_name_does_no_harm(tmp_path: Path) -> None:
    data = zipped({**GOOD, "x": b""}).replace(b"x", b"\x00")
    assert len(read_fields(placed(tmp_path, "f.zip", data)).fields) == 1


def test_layers_are_counted_together(tmp_path: Path) -> None:
    layer = shapefile([[block()[::-1]]] * (MOST_FIELDS // 2 + 1))
    twice = {f"{stem}{ending}": data for stem in "ab" for ending, data in layer.items()}
    assert "in all its layers" in refusal(placed(tmp_path, "f.zip", zipped(twice)))


def test_too_many_layers_are_refused(tmp_path: Path) -> None:
    many = zipped({f"{n}.shp": GOOD["f.shp"] for n in range(MOST_LAYERS + 1)})
    assert f"at most {MOST_LAYERS} layers" in refusal(placed(tmp_path, "f.zip", many))


@pytest.mark.parametrize("files", [{}, {"readme.txt": b"x"}, {"xl/workbook.xml": b"<a/>"}])
def test_a_zip_of_other_things_is_refused(tmp_path: Path, files: dict[str, bytes]) -> None:
    assert "a zip with a .shp file" in refusal(placed(tmp_path, "f.zip", zipped(files)))
