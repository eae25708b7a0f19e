"""Which kind of file of boundaries it is, told by what is in it, and its layers."""

from __future__ import annotations

import re
from pathlib import Path
from typing import IO

from quarterwalk.errors import shown
from quarterwalk.files.bounded_file import bytes_from, bytes_of
from quarterwalk.files.drawn import Layer
from quarterwalk.files.geojson_shapes import geojson_layer
from quarterwalk.files.geopackage_database import SQLITE_MAGIC
from quarterwalk.files.geopackage_shapes import geopackage_layers
from quarterwalk.files.kml_shapes import kml_layer, kmz_layer
from quarterwalk.files.refusal import refuse
from quarterwalk.files.shapefile_records import SHP_MAGIC
from quarterwalk.files.shapefile_shapes import (
    SUFFIXES,
    shapefile_layer,
    trio_beside,
    trios_in_zip,
)
from quarterwalk.files.sheet import STANDARD_INPUT
from quarterwalk.files.zip_members import ZIP_MAGIC, members

EXPECTED = "GeoJSON, a Shapefile (.shp, or all of it in one .zip), KML, KMZ or a GeoPackage"

_BOMS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")
_JSON = re.compile(rb"[{\[]")
_SIDE_FILES = (".dbf", ".prj", ".shx", ".cpg")


def layers_of(path: str | Path, stdin: IO[bytes] | None = None) -> list[Layer]:
    """Read the layers of a file of boundaries, in the coordinates that it has.

    Parameters
    ----------
    path : str or Path
        The file; ``-`` reads GeoJSON from `stdin`.
    stdin : binary file or None
        Where ``-`` reads from.

    Returns
    -------
    list of Layer

    Raises
    ------
    RefusedInput
        If it can't be read, is of another kind, is damaged, or passes a limit.
    """
    if str(path) == "-" and stdin is not None:
        data = bytes_from(stdin, STANDARD_INPUT)
        if data and not _JSON.match(_start(data)):
            refuse(STANDARD_INPUT, "something else", "GeoJSON", "Give other files by their name.")
        return [geojson_layer(STANDARD_INPUT, _filled(STANDARD_INPUT, data))]
    return _layers(Path(path), str(path))


def _layers(path: Path, file: str) -> list[Layer]:
    data = _filled(file, bytes_of(path, file))
    start = _start(data)
    if data.startswith(SQLITE_MAGIC):
        return geopackage_layers(path, file)
    if data.startswith(ZIP_MAGIC):
        return _packed(file, data)
    if data.startswith(SHP_MAGIC) and path.suffix.lower() != ".shx":
        return [shapefile_layer(trio_beside(path, file, data))]
    if start.startswith(b"<"):
        return [kml_layer(file, data)]
    if _JSON.match(start):
        return [geojson_layer(file, data)]
    hint = ""
    if path.suffix.lower() in _SIDE_FILES:
        hint = f"{path.suffix} is one file of a Shapefile; give the .shp file beside it."
    return refuse(file, shown(data[:20].decode("latin-1")), EXPECTED, hint)


def _packed(file: str, data: bytes) -> list[Layer]:
    packed = members(file, data, lambda suffix: suffix in (*SUFFIXES, ".kml"))
    shapes = trios_in_zip(file, packed)
    if shapes:
        return [shapefile_layer(trio) for trio in shapes]
    kml = tuple(member for member in packed if member.suffix == ".kml")
    if kml:
        return [kmz_layer(file, kml)]
    return refuse(
        file, "a zip without either", "a zip with a .shp file and those beside it, or KMZ"
    )


def _start(data: bytes) -> bytes:
    """Give how a text begins, without its mark and blank space."""
    head = data[:1000]
    for mark in _BOMS:
        head = head.removeprefix(mark)
    return head.replace(b"\x00", b"").lstrip()


def _filled(file: str, data: bytes) -> bytes:
    if not data.strip():
        refuse(file, "an empty file", EXPECTED)
    return data
