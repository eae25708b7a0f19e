"""KML and KMZ: placemarks with polygons, and what their data say."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely

from quarterwalk.files.boundaries import FieldFile, read_fields
from tests.files.drawings import LAT, LON, block, kml, placed, placemark, refusal, zipped

HOLE = block(0.002, 0.002, wide=0.002, high=0.002)


def read(folder: Path, data: bytes) -> FieldFile:
    return read_fields(placed(folder, "f.kml", data))


def test_data_of_a_placemark_plain_or_by_schema(tmp_path: Path) -> None:
    plain = (
        "<ExtendedData>"
        f'<Data name="Gate"><value> {LON},{LAT} </value></Data><Data name="rows"><value>0</value>'
        '</Data><Data name="farm"><value>Tanner &amp; Draw</value></Data></ExtendedData>'
    )
    schema = (
        '<ExtendedData><SchemaData schemaUrl="#f"><SimpleData name="grower">Wen</SimpleData>'
        '<SimpleData name="ROWS">200</SimpleData></SchemaData></ExtendedData>'
    )
    data = kml(placemark(block(), "A", more=plain), placemark(block(0.01), "B", more=schema))
    first, second = read(tmp_path, data).fields
    assert (first.gate, first.rows, first.farm) == ((LON, LAT), 0, "Tanner & Draw")
    assert (second.grower, second.rows) == ("Wen", 20)


def test_several_polygons_of_a_placemark_are_one_field(tmp_path: Path) -> None:
    one, two = (placemark(block(x), holes=[HOLE] if not x else []) for x in (0, 0.01))
    polygons = "".join(p[len("<Placemark>") : -len("</Placemark>")] for p in (one, two))
    data = kml(f"<Placemark><name>A</name><MultiGeometry>{polygons}</MultiGeometry></Placemark>")
    (field,) = read(tmp_path, data).fields
    assert len(field.shape.geoms) == 2
    expected = shapely.Polygon(block(), [HOLE]).area + shapely.Polygon(block()).area
    assert field.shape.area == pytest.approx(expected)


def test_folders_blanks_after_commas_and_ids(tmp_path: Path) -> None:
    data = kml("<Folder><Folder>", placemark(block()), "</Folder></Folder>")
    spaced = data.replace(b",", b" , ").replace(b"<Placemark>", b'<Placemark id="p1">')
    assert [field.name for field in read(tmp_path, spaced).fields] == ["p1"]


def test_points_and_lines_are_left_out(tmp_path: Path) -> None:
    well = "<Placemark><Point><coordinates>1,2</coordinates></Point></Placemark>"
    assert "1 feature" in read(tmp_path, kml(well, placemark(block()))).notices[0]


def test_other_encodings_that_xml_declares_are_read(tmp_path: Path) -> None:
    text = kml(placemark(block(), "Caña")).decode().replace('"1.0"', '"1.0" encoding="latin-1"')
    for data in (text.encode("latin-1"), text.replace("latin-1", "utf-16").encode("utf-16")):
        assert read(tmp_path, data).fields[0].name == "Caña"


def test_links_are_not_followed_and_it_is_told(tmp_path: Path) -> None:
    link = "<NetworkLink><Link><href>elsewhere.kml</href></Link></NetworkLink>"
    assert "not followed" in read(tmp_path, kml(link, placemark(block()))).notices[0]


def test_of_a_kmz_the_main_document_is_read(tmp_path: Path) -> None:
    files = {
        "files/other.kml": kml(placemark(block(), "B")),
        "doc.kml": kml(placemark(block(), "A")),
    }
    found = read_fields(placed(tmp_path, "f.kmz", zipped(files)))
    assert [field.name for field in found.fields] == ["A"]
    assert "only doc.kml was read" in found.notices[0]


@pytest.mark.parametrize("word", ["abc", "1", "1,2,3,4", "nan,1", "1;2", "1_0,2", "0x10,1"])
def test_coordinates_that_are_no_numbers_are_refused(tmp_path: Path, word: str) -> None:
    data = kml(placemark(block(), "A"), placemark(block()).replace(f"{LON},", f"{word} {LON},", 1))
    told = refusal(placed(tmp_path, "f.kml", data))
    assert "row 2, column geometry: must be longitude,latitude in numbers" in told
    assert f'got "{word}"' in told


@pytest.mark.parametrize("text", [b"<", b"<html/>", b"<kml>", b"<kml></kml>", b"<kml>\xff</kml>",
                                  b'<?xml version="1.0" encoding="idna"?><kml/>'])  # fmt: skip
def test_what_is_no_kml_is_refused(tmp_path: Path, text: bytes) -> None:
    assert refusal(placed(tmp_path, "f.kml", text))


def test_two_outer_boundaries_of_a_polygon_are_refused(tmp_path: Path) -> None:
    inner = placemark(block(), holes=[HOLE]).replace("innerBoundaryIs", "outerBoundaryIs")
    assert "one outer boundary" in refusal(placed(tmp_path, "f.kml", kml(inner)))
