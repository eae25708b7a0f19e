"""Boundaries out of GeoJSON."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any, NoReturn

import numpy as np
from pyproj import CRS

from quarterwalk.errors import shown
from quarterwalk.field.rings import Part, Ring
from quarterwalk.files.boundary_limits import DEEPEST, MOST_ELEMENTS
from quarterwalk.files.crs import WGS84, crs_named
from quarterwalk.files.drawn import Budget, Drawn, Layer, said_from
from quarterwalk.files.refusal import refuse

# One that is never closed reaches to the end, so that the search stays quick.
_STRING = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+(?:"|\\?\Z)', re.DOTALL)
_AREAS = ("Polygon", "MultiPolygon")
_OTHERS = ("Point", "MultiPoint", "LineString", "MultiLineString")
_MOST_DIGITS = 18
_POSITION = "a list of positions, each [longitude, latitude] in numbers"


def geojson_layer(file: str, data: bytes) -> Layer:
    """Read a GeoJSON text: a collection, a feature or a bare polygon.

    Parameters
    ----------
    file : str
        What errors call it.
    data : bytes
        UTF-8.

    Returns
    -------
    Layer

    Raises
    ------
    RefusedInput
        If it is no GeoJSON, or passes a limit.

    References
    ----------
    H. Butler and others, "The GeoJSON Format", RFC 7946, 2016.
    """
    content = _parsed(file, data)
    budget = Budget(file)
    drawn, left_out = [], 0
    for feature in _features(file, content):
        row = budget.feature()
        shape = _object(file, row, feature, "a feature").get("geometry")
        parts = None if shape is None else _parts(_Reader(file, row, budget), shape)
        if parts is None and shape is not None:
            left_out += 1
            continue
        drawn.append(Drawn(row, tuple(parts or ()), _said(file, row, feature)))
    return Layer(file, tuple(drawn), left_out, _crs(file, content))


def _said(file: str, row: int, feature: Mapping[str, Any]) -> Any:
    properties = feature.get("properties") or {}
    pairs = _object(file, row, properties, "properties").items()
    return said_from(pairs, id_=feature.get("id"))


def _parsed(file: str, data: bytes) -> Any:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        value = data[error.start : error.start + 8].decode("latin-1")
        refuse(file, value, "UTF-8 text", "Save the file as UTF-8.")
    _refuse_deep(file, data)
    try:
        return json.loads(text, parse_constant=_no_number, parse_int=_whole)
    except json.JSONDecodeError as error:
        value = text[error.pos : error.pos + 30] or "the end of the file"
        refuse(file, value, f"GeoJSON (line {error.lineno})", f"{error.msg}.")
    except (ValueError, RecursionError) as error:
        refuse(file, str(error), "GeoJSON")


def _refuse_deep(file: str, data: bytes) -> None:
    """Count brackets before anything is built of them; those in texts do not count."""
    marks = np.frombuffer(_STRING.sub(b"", data), np.uint8)
    opening = np.isin(marks, np.frombuffer(b"[{", np.uint8))
    closing = np.isin(marks, np.frombuffer(b"]}", np.uint8))
    if np.count_nonzero(opening) > MOST_ELEMENTS:
        refuse(file, "more", f"a file of at most {MOST_ELEMENTS:,} brackets")
    steps = opening.astype(np.int32) - closing
    if np.cumsum(steps, dtype=np.int32).max(initial=0) > DEEPEST:
        refuse(file, "a deeper one", f"a file with at most {DEEPEST} brackets one inside the other")


def _no_number(text: str) -> NoReturn:
    raise ValueError(f"{text}, which is no number")


def _whole(text: str) -> int | float:
    return int(text) if len(text) <= _MOST_DIGITS else float(text)


def _features(file: str, content: Any) -> Iterator[Any]:
    kind = content.get("type") if isinstance(content, dict) else None
    if kind == "FeatureCollection":
        features = content.get("features")
        if not isinstance(features, list):
            refuse(file, "none", "a FeatureCollection with a list of features")
        yield from features
    elif kind == "Feature":
        yield content
    elif kind in (*_AREAS, *_OTHERS, "GeometryCollection"):
        yield {"geometry": content}
    else:
        got = shown(json.dumps(kind)) if isinstance(content, dict) else "something else"
        refuse(
            file, got, "GeoJSON whose type is FeatureCollection, Feature, Polygon or MultiPolygon"
        )


def _object(file: str, row: int, value: Any, what: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        refuse(file, shown(json.dumps(value)), f"{what} in braces", row=row)
    return value


class _Reader:
    """Where in the file a shape stands, and what may still be taken."""

    def __init__(self, file: str, row: int, budget: Budget) -> None:
        self._file, self._row, self._budget = file, row, budget

    def refuse(self, value: Any, expected: str) -> NoReturn:
        refuse(self._file, shown(json.dumps(value)), expected, row=self._row)

    def items(self, value: Any, expected: str) -> list[Any]:
        if not isinstance(value, list):
            self.refuse(value, expected)
        return value

    def ring(self, value: Any) -> Ring:
        """Take a list of positions; heights are dropped."""
        points = self.items(value, _POSITION)
        self._budget.ring(len(points))
        if not points:
            return np.empty((0, 2))
        widths = {len(p) if isinstance(p, list) else 0 for p in points}
        if min(widths) < 2:
            self.refuse(points[0], _POSITION)
        if not set(map(type, chain.from_iterable(points))) <= {int, float}:
            odd = next(p for p in points if not set(map(type, p)) <= {int, float})
            self.refuse(odd, _POSITION)
        return np.array([p[:2] for p in points] if widths != {2} else points, np.float64)


def _parts(read: _Reader, shape: Any) -> list[Part] | None:
    """Give the parts of an area; None for a shape that is none."""
    kind = shape.get("type") if isinstance(shape, dict) else None
    if kind == "GeometryCollection":
        inner = [_parts(read, s) for s in read.items(shape.get("geometries"), "a list of shapes")]
        found = [parts for parts in inner if parts is not None]
        return list(chain.from_iterable(found)) if found or not inner else None
    if kind in _OTHERS:
        return None
    if kind not in _AREAS:
        read.refuse(kind, "a shape of a type that GeoJSON has")
    polygons = read.items(shape.get("coordinates"), "a list of rings")
    if kind == "Polygon":
        polygons = [polygons]
    parts = [tuple(map(read.ring, read.items(p, "a list of rings"))) for p in polygons]
    return [part for part in parts if part]


def _crs(file: str, content: Any) -> CRS | None:
    """Give the coordinate system that an old file names; else the one of all new ones."""
    if "crs" not in content:
        return CRS.from_epsg(WGS84)
    told = content["crs"]
    if told is None:
        return None
    properties = told.get("properties") if isinstance(told, dict) else None
    name = properties.get("name") if isinstance(properties, dict) else None
    if not isinstance(name, str):
        refuse(file, shown(json.dumps(told)), "a crs that has a name")
    return crs_named(file, name)
