"""Boundaries out of a GeoPackage."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NoReturn

from pyproj import CRS

from quarterwalk.errors import shown
from quarterwalk.field.rings import Part
from quarterwalk.files.boundary_limits import MOST_LAYERS
from quarterwalk.files.crs import crs_described, crs_numbered
from quarterwalk.files.drawn import SAID, Budget, Drawn, Layer, said_from
from quarterwalk.files.geopackage_database import Database, opened
from quarterwalk.files.refusal import refuse
from quarterwalk.files.wkb_shapes import Miscounted, parts_in_wkb
from quarterwalk.words import phrase

_CONTENTS, _SHAPES, _SYSTEMS = "gpkg_contents", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"
_UNSAID = (0, -1)  # Numbers of the coordinate systems that say nothing.
_HEADER = 8
# Size of the frame in the header, by the three bits that tell its kind. [bytes]
_FRAMES = {0: 0, 1: 32, 2: 48, 3: 48, 4: 64}
_EMPTY, _EXTENDED = 0x10, 0x20  # Bits of the header's flags.


def geopackage_layers(path: Path, file: str) -> list[Layer]:
    """Read every table of features that a GeoPackage lists.

    Parameters
    ----------
    path : Path
        The file.
    file : str
        What errors call it.

    Returns
    -------
    list of Layer
        In the order of its list.

    Raises
    ------
    RefusedInput
        If it is damaged, is no GeoPackage, or passes a limit.

    References
    ----------
    "OGC GeoPackage Encoding Standard", Open Geospatial Consortium 12-128r18, 2021.
    """
    with opened(path, file) as base:
        for table in (_CONTENTS, _SHAPES, _SYSTEMS):
            if not base.has(table):
                refuse(file, f"one without the table {table}", "a GeoPackage")
        tables = _tables(base)
        layers = [_layer(base, table, alone=len(tables) == 1) for table in tables]
    beside = path.with_name(f"{path.name}-wal")
    if layers and beside.is_file() and beside.stat().st_size:
        notice = phrase(
            "{file}: another program has changes to it that are not written yet; they were not "
            "read. Close it there first.",
            file=file,
        )
        first = layers[0]
        layers[0] = Layer(
            first.file, first.drawn, first.left_out, first.crs, (notice, *first.notices)
        )
    return layers


def _tables(base: Database) -> list[tuple[str, str, int]]:
    """Give name, column of shapes and coordinate system of each table of features."""
    listed = [
        str(name)
        for name, kind in base.rows(_CONTENTS, "table_name", "data_type")
        if kind == "features"
    ]
    told = {
        str(name): (str(column), number)
        for name, column, number in base.rows(_SHAPES, "table_name", "column_name", "srs_id")
    }
    if len(listed) > MOST_LAYERS:
        refuse(base.file, f"{len(listed)}", f"a GeoPackage of at most {MOST_LAYERS} layers")
    for name in listed:
        if name not in told or not isinstance(told[name][1], int):
            refuse(
                base.file, shown(name), "a GeoPackage that says where the shapes of each table are"
            )
    return [(name, *told[name]) for name in listed]


def _layer(base: Database, listed: tuple[str, str, int], *, alone: bool) -> Layer:
    table, column, number = listed
    file = base.file if alone else f"{base.file}, {shown(table)}"
    budget = Budget(file)
    there = base.columns(table)
    if column.lower() not in (name.lower() for name in there):
        refuse(file, shown(column), "a table with the column of shapes that it is said to have")
    said = [name for name in there if name.strip().lower() in SAID and name != column]
    drawn, left_out = [], 0
    for blob, *values in base.rows(table, column, *said):
        row = budget.feature()
        parts = [] if blob is None else _parts(blob, number, budget)
        if parts is None:
            left_out += 1
        else:
            drawn.append(Drawn(row, tuple(parts), said_from(_texts(said, values))))
    return Layer(file, tuple(drawn), left_out, _crs(base, file, number))


def _texts(names: list[str], values: list[Any]) -> Iterator[tuple[str, object]]:
    for name, value in zip(names, values, strict=True):
        yield name, value.decode("latin-1") if isinstance(value, bytes) else value


def _parts(blob: object, number: int, budget: Budget) -> list[Part] | None:
    """Give the parts of an area in a GeoPackage's binary form; None for other shapes."""

    def refuse_shape(value: str) -> NoReturn:
        refuse(budget.file, value, "a shape as GeoPackages have it", row=budget.features)

    if not isinstance(blob, bytes) or len(blob) < _HEADER or blob[:2] != b"GP" or blob[2]:
        refuse_shape("something else")
    flags = blob[3]
    frame = _FRAMES.get(flags >> 1 & 7)
    if frame is None or flags & _EXTENDED:
        refuse_shape("a shape of a kind that is not known")
    (said,) = struct.unpack_from("<i" if flags & 1 else ">i", blob, 4)
    if said != number and said not in _UNSAID:
        refuse_shape(f"a shape in coordinate system {said} in a table in {number}")
    if flags & _EMPTY:
        return []
    try:
        return parts_in_wkb(blob[_HEADER + frame :], budget)
    except Miscounted as wrong:
        refuse_shape(str(wrong))


def _crs(base: Database, file: str, number: int) -> CRS | None:
    """Find the coordinate system, by its registered number or else by its description."""
    if number in _UNSAID:
        return None
    columns = ("srs_id", "organization", "organization_coordsys_id", "definition")
    for found, by, code, described in base.rows(_SYSTEMS, *columns):
        if found != number:
            continue
        if str(by).upper() == "EPSG" and isinstance(code, int):
            return crs_numbered(file, code)
        return crs_described(file, str(described))
    return refuse(file, f"{number}", "a coordinate system that the GeoPackage describes")
