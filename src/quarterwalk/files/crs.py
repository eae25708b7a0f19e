"""From the coordinates of a file to longitude and latitude on WGS 84."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from pyproj import CRS, Transformer
from pyproj.exceptions import ProjError

from quarterwalk.errors import shown
from quarterwalk.field.rings import FARTHEST_EAST, FARTHEST_NORTH, Part, Ring
from quarterwalk.files.boundary_limits import LONGEST_CRS
from quarterwalk.files.drawn import Drawn, Layer
from quarterwalk.files.refusal import refuse
from quarterwalk.words import phrase

EXPECTED = "a coordinate system that is known"

WGS84 = 4326
"""EPSG's number of longitude and latitude on WGS 84."""

_NAMED = re.compile(
    r"(?:urn:(?:x-)?ogc:def:crs:)?(?P<by>EPSG|OGC):(?P<edition>[0-9.]*:)?(?P<code>[0-9A-Z]{2,8})",
    re.IGNORECASE,
)
_LON_LAT = ("CRS84", "CRS83")
# A description may name a file of corrections, which would then be opened; the null grid
# is the one that old descriptions of web maps name for nothing.
_NAMES_A_FILE = re.compile(r"grids|parameter_?file|\+init|\+file", re.IGNORECASE)
_NULL_GRID = re.compile(r"\+nadgrids=@null", re.IGNORECASE)


def crs_named(file: str, name: str) -> CRS:
    """Find a coordinate system by its name, such as ``EPSG:32614``.

    Parameters
    ----------
    file : str
        What errors call the file.
    name : str
        As the file has it; nothing but a registered number is looked up.

    Returns
    -------
    pyproj.CRS

    Raises
    ------
    RefusedInput
        If no coordinate system has that name.
    """
    found = _NAMED.fullmatch(name.strip())
    if found and found["code"].upper() in _LON_LAT and found["by"].upper() == "OGC":
        return CRS.from_epsg(WGS84 if found["code"].upper() == "CRS84" else 4269)
    if found and found["code"].isdecimal() and found["by"].upper() == "EPSG":
        return crs_numbered(file, int(found["code"]))
    return refuse(file, shown(name), EXPECTED, "Name it by its EPSG number, as in EPSG:4326.")


def crs_numbered(file: str, number: int) -> CRS:
    """Find a coordinate system by its EPSG number.

    Parameters
    ----------
    file : str
        What errors call the file.
    number : int
        EPSG's number. [number]

    Returns
    -------
    pyproj.CRS

    Raises
    ------
    RefusedInput
        If there is none of that number, or it is none of the ground.
    """
    try:
        return _of_the_ground(file, CRS.from_epsg(number))
    except (ProjError, OverflowError):
        refuse(file, f"EPSG:{number}", EXPECTED)


def crs_described(file: str, text: str) -> CRS:
    """Understand the description of a coordinate system, as a ``.prj`` file has it.

    Parameters
    ----------
    file : str
        What errors call the file.
    text : str
        Well-known text.

    Returns
    -------
    pyproj.CRS

    Raises
    ------
    RefusedInput
        If it can't be understood, or names a file to be opened.
    """
    if len(text) > LONGEST_CRS:
        refuse(file, text, f"a coordinate system in at most {LONGEST_CRS:,} characters")
    if _NAMES_A_FILE.search(_NULL_GRID.sub("", text)):
        refuse(file, text, "a coordinate system that needs no other file")
    try:
        return _of_the_ground(file, CRS.from_wkt(text.strip("\x00 \r\n\t\ufeff")))
    except (ProjError, ValueError):
        refuse(file, text, EXPECTED, "Export the fields in WGS 84.")


def _of_the_ground(file: str, crs: CRS) -> CRS:
    if not (crs.is_geographic or crs.is_projected):
        refuse(file, shown(crs.name), "a coordinate system of the ground")
    return crs


def on_the_globe(layer: Layer) -> Layer:
    """Give a layer in longitude and latitude on WGS 84.

    Parameters
    ----------
    layer : Layer
        As read.

    Returns
    -------
    Layer
        The same features.

    Raises
    ------
    RefusedInput
        If the file does not say its coordinate system and its coordinates can't be
        degrees, or its coordinate system can't be turned into WGS 84.
    """
    if not layer.drawn:
        return layer
    if layer.crs is None:
        return _taken_for_degrees(layer)
    if layer.crs.to_epsg() == WGS84:
        return layer
    try:
        change = Transformer.from_crs(layer.crs, CRS.from_epsg(WGS84), always_xy=True)
        points = np.concatenate(_rings(layer.drawn))
        moved = np.column_stack(change.transform(points[:, 0], points[:, 1]))
    except ProjError:
        refuse(layer.file, shown(layer.crs.name), EXPECTED, "Export the fields in WGS 84.")
    pieces = iter(np.split(moved, np.cumsum([len(ring) for ring in _rings(layer.drawn)])[:-1]))
    drawn = tuple(
        replace(d, parts=tuple(tuple(next(pieces) for _ in part) for part in d.parts))
        for d in layer.drawn
    )
    return replace(layer, drawn=drawn)


def _rings(drawn: Sequence[Drawn]) -> list[Ring]:
    found = [ring for d in drawn for part in d.parts for ring in part]
    return found or [np.empty((0, 2))]


def _taken_for_degrees(layer: Layer) -> Layer:
    for drawn in layer.drawn:
        far = next((p for part in drawn.parts for p in _not_degrees(part)), None)
        if far is not None:
            refuse(
                layer.file,
                f"{far[0]:.10g}, {far[1]:.10g}",
                "longitude and latitude in degrees, where the file names no coordinate system",
                "Give the .prj file too, or export the fields in WGS 84.",
                row=drawn.row,
            )
    notice = phrase(
        "{file}: the file names no coordinate system; its coordinates were taken for longitude "
        "and latitude on WGS 84.",
        file=layer.file,
    )
    return replace(layer, notices=(*layer.notices, notice))


def _not_degrees(part: Part) -> Ring:
    points = np.concatenate(part)
    within: Ring = points[~(np.abs(points) <= [FARTHEST_EAST, FARTHEST_EAST]).all(axis=1)]
    if not len(within) and len(points) and np.abs(points).max(axis=0).min() > FARTHEST_NORTH:
        return points  # neither of the two can be a latitude
    return within
