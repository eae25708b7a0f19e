"""Small files of boundaries for the tests: the same fields in every format. All invented."""

from __future__ import annotations

import io
import json
import sqlite3
import struct
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest
import shapely
from pyproj import CRS
from shapefile import Writer

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.boundaries import FieldFile, read_fields

LON, LAT = -101.9, 33.4
"""Open country; the south-west corner of the first field. [degrees]"""

WIDE, HIGH = 0.008, 0.006
"""Size of a field: about 183 by 164 acres' worth of quarter miles. [degrees]"""

Ring = list[list[float]]


def block(east: float = 0, north: float = 0, *, wide: float = WIDE, high: float = HIGH) -> Ring:
    """Give a closed ring, counter-clockwise, so far east and north of the first field."""
    x, y = LON + east, LAT + north
    return [[x, y], [x + wide, y], [x + wide, y + high], [x, y + high], [x, y]]


def feature(rings: object, kind: str = "Polygon", **said: object) -> dict[str, Any]:
    """Give a GeoJSON feature."""
    shape = None if rings is None else {"type": kind, "coordinates": rings}
    return {"type": "Feature", "properties": said, "geometry": shape}


def geojson(*features: Mapping[str, Any], **more: object) -> bytes:
    """Give a GeoJSON collection."""
    return json.dumps({"type": "FeatureCollection", "features": features, **more}).encode()


def read(data: bytes, language: str = "en") -> FieldFile:
    """Read GeoJSON as from standard input."""
    return read_fields("-", stdin=io.BytesIO(data), language=language)


def problems(data: bytes) -> tuple[Problem, ...]:
    """Give the problems for which GeoJSON is refused."""
    with pytest.raises(RefusedInput) as refused:
        read(data)
    return refused.value.problems


def refusal(path: Path) -> str:
    """Give the words with which a file is refused; they name the file."""
    with pytest.raises(RefusedInput) as refused:
        read_fields(path)
    assert refused.value.problems
    assert all(p.file.startswith(str(path)) for p in refused.value.problems)
    return str(refused.value)


def placed(folder: Path, name: str, data: bytes) -> Path:
    """Write a file."""
    path = folder / name
    path.write_bytes(data)
    return path


def kml(*placemarks: str, head: str = "") -> bytes:
    """Give a KML text."""
    inside = "".join(placemarks)
    space = "http" + "://www.opengis.net/kml/2.2"
    root = f'<kml xmlns="{space}"><Document>{inside}</Document></kml>'
    return f'<?xml version="1.0"?>{head}{root}'.encode()


def placemark(ring: Ring, name: str = "", *, holes: Sequence[Ring] = (), more: str = "") -> str:
    """Give a placemark with a polygon."""
    named = f"<name>{name}</name>" if name else ""
    inner = "".join(f"<innerBoundaryIs>{kml_ring(h)}</innerBoundaryIs>" for h in holes)
    outer = f"<outerBoundaryIs>{kml_ring(ring)}</outerBoundaryIs>"
    return f"<Placemark>{named}{more}<Polygon>{outer}{inner}</Polygon></Placemark>"


def kml_ring(ring: Ring) -> str:
    """Write a ring with heights, as most programs do."""
    points = "\n".join(f"{x:.15g},{y:.15g},0" for x, y in ring)
    return f"<LinearRing><coordinates>\n{points}\n</coordinates></LinearRing>"


def shapefile(
    shapes: Sequence[Sequence[Ring]],
    rows: Sequence[Mapping[str, str]] = (),
    *,
    crs: CRS | None = None,
) -> dict[str, bytes]:
    """Give the files of a Shapefile by their endings; outer rings are drawn clockwise."""
    shp, dbf = io.BytesIO(), io.BytesIO()
    keys = list(rows[0]) if rows else ["name"]
    with Writer(shp=shp, shx=io.BytesIO(), dbf=dbf, shapeType=5) as writer:
        for key in keys:
            writer.field(key, "C", 60)
        for place, rings in enumerate(shapes):
            writer.poly([[p[:2] for p in ring] for ring in rings])
            row = rows[place] if rows else {"name": f"F {place + 1}"}
            writer.record(*[row[key] for key in keys])
    files = {".shp": shp.getvalue(), ".dbf": dbf.getvalue()}
    if crs is not None:
        files[".prj"] = crs.to_wkt("WKT1_ESRI").encode()
    return files


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Pack files by name."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            packed.writestr(name, content)
    return data.getvalue()


def gp(shape: shapely.Geometry | bytes, *, srs: int = 4326, flags: int = 1) -> bytes:
    """Give a shape in the binary form of a GeoPackage."""
    wkb = shape if isinstance(shape, bytes) else shapely.to_wkb(shape, byte_order=1)
    return b"GP\x00" + bytes([flags]) + struct.pack("<i", srs) + wkb


GEOPACKAGE = """
PRAGMA application_id = 0x47504B47;
CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY,
  organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL,
  definition TEXT NOT NULL, description TEXT);
INSERT INTO gpkg_spatial_ref_sys VALUES ('WGS 84', 4326, 'EPSG', 4326, 'undefined', ''),
  ('flat', 32614, 'EPSG', 32614, 'undefined', ''), ('none', -1, 'NONE', -1, 'undefined', '');
CREATE TABLE gpkg_contents (table_name TEXT PRIMARY KEY, data_type TEXT, srs_id INTEGER);
CREATE TABLE gpkg_geometry_columns (table_name TEXT PRIMARY KEY, column_name TEXT,
  geometry_type_name TEXT, srs_id INTEGER, z TINYINT, m TINYINT);
INSERT INTO gpkg_contents VALUES ('fields', 'features', {srs});
INSERT INTO gpkg_geometry_columns VALUES ('fields', 'geom', 'POLYGON', {srs}, 0, 0);
CREATE TABLE fields (fid INTEGER PRIMARY KEY, geom BLOB, name TEXT, gate TEXT, rows REAL);
"""


def geopackage(path: Path, *rows: Sequence[object], srs: int = 4326, more: str = "") -> Path:
    """Write a GeoPackage with a table of shape, name, gate and rows; then `more` SQL."""
    link = sqlite3.connect(path)
    link.executescript(GEOPACKAGE.format(srs=srs))
    link.executemany("INSERT INTO fields (geom, name, gate, rows) VALUES (?, ?, ?, ?)", rows)
    link.commit()
    link.executescript(more)
    link.commit()
    link.close()
    return path


def every_kind(folder: Path) -> dict[str, Path]:
    """Write the same two fields, one with a hole, in every format."""
    first, second = block(), block(0.01)
    hole = block(0.002, 0.002, wide=0.002, high=0.002)
    flat = shapefile([[first[::-1], hole], [second[::-1]]], crs=CRS.from_epsg(4326))
    for ending, data in flat.items():
        placed(folder, f"plain{ending}", data)
    text = kml(placemark(first, "F 1", holes=[hole]), placemark(second, "F 2"))
    rows = [(gp(shapely.Polygon(first, [hole])), "F 1", None, None),
            (gp(shapely.Polygon(second)), "F 2", None, None)]  # fmt: skip
    return {
        "geojson": placed(folder, "f.geojson", geojson(
            feature([first, hole[::-1]], name="F 1"), feature([second], name="F 2"))),
        "shp": folder / "plain.shp",
        "zip": placed(folder, "f.zip", zipped({f"in/f{e}": d for e, d in flat.items()})),
        "kml": placed(folder, "f.kml", text),
        "kmz": placed(folder, "f.kmz", zipped({"doc.kml": text})),
        "gpkg": geopackage(folder / "f.gpkg", *rows),
    }  # fmt: skip
