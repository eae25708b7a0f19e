"""Boundaries out of KML, plain or packed as KMZ."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from xml.etree.ElementTree import Element, ParseError, TreeBuilder

import numpy as np
from defusedxml import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser
from pyproj import CRS

from quarterwalk.errors import shown
from quarterwalk.field.rings import Part, Ring
from quarterwalk.files.boundary_limits import DEEPEST, MOST_ELEMENTS
from quarterwalk.files.crs import WGS84
from quarterwalk.files.drawn import Budget, Drawn, Layer, Said, counter_clockwise, said_from
from quarterwalk.files.refusal import refuse
from quarterwalk.files.zip_members import Member
from quarterwalk.words import phrase

_NUMBER = r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]{1,3})?"
_POSITION = re.compile(rf"({_NUMBER}),({_NUMBER})(?:,(?:{_NUMBER})?)?")
_SHAPES = ("Point", "LineString", "LinearRing", "Polygon", "Model", "Track", "MultiTrack")


class _Passed(ValueError):
    """A limit that an XML text passes."""


class _Bounded(TreeBuilder):
    """Builds the tree, and stops where it grows too deep or too large."""

    def __init__(self) -> None:
        super().__init__()
        self._depth = self._count = 0

    def start(self, tag: Any, attrs: Any, /) -> Element:
        self._depth += 1
        self._count += 1
        if self._depth > DEEPEST:
            raise _Passed(f"a file with at most {DEEPEST} elements one inside the other")
        if self._count > MOST_ELEMENTS:
            raise _Passed(f"a file of at most {MOST_ELEMENTS:,} elements")
        return super().start(tag, attrs)

    def end(self, tag: str, /) -> Element:
        self._depth -= 1
        return super().end(tag)


def kml_layer(file: str, data: bytes) -> Layer:
    """Read a KML text: every placemark that has a polygon.

    Parameters
    ----------
    file : str
        What errors call it.
    data : bytes
        XML.

    Returns
    -------
    Layer

    Raises
    ------
    RefusedInput
        If it is no KML, declares entities, or passes a limit.

    References
    ----------
    D. Burggraf (editor), "OGC KML 2.3", Open Geospatial Consortium 12-007r2, 2015.
    """
    root = _parsed(file, data)
    budget = Budget(file)
    drawn, left_out = [], 0
    for placemark in _named(root, "Placemark"):
        row = budget.feature()
        polygons = list(_named(placemark, "Polygon"))
        if not polygons and any(_local(e) in _SHAPES for e in placemark.iter()):
            left_out += 1
            continue
        parts = [_part(polygon, budget) for polygon in polygons]
        drawn.append(Drawn(row, tuple(p for p in parts if p), _said(placemark)))
    notices: tuple[str, ...] = ()
    if next(_named(root, "NetworkLink"), None) is not None:
        notices = (phrase("{file}: links to other files were not followed.", file=file),)
    return Layer(file, tuple(drawn), left_out, CRS.from_epsg(WGS84), notices)


def kmz_layer(file: str, packed: tuple[Member, ...]) -> Layer:
    """Read the main KML of a KMZ: ``doc.kml``, or else the first.

    Parameters
    ----------
    file : str
        What errors call the KMZ.
    packed : tuple of Member
        Its KML files; at least one.

    Returns
    -------
    Layer

    Raises
    ------
    RefusedInput
        As `kml_layer`.
    """
    main = next((m for m in packed if str(m.path).lower() == "doc.kml"), packed[0])
    layer = kml_layer(file, main.data)
    if len(packed) == 1:
        return layer
    notice = phrase(
        "{file}: of the {count} KML files in it only {main} was read.",
        file=file,
        count=len(packed),
        main=shown(str(main.path)),
    )
    return Layer(file, layer.drawn, layer.left_out, layer.crs, (*layer.notices, notice))


def _parsed(file: str, data: bytes) -> Element:
    parser: Any = DefusedXMLParser(target=_Bounded(), forbid_dtd=True)
    try:
        parser.feed(data)
        root: Element = parser.close()
    except DefusedXmlException:
        refuse(file, "a file with a DOCTYPE", "KML without a DOCTYPE and without entities")
    except _Passed as passed:
        refuse(file, "more", str(passed))
    except (ParseError, ValueError, LookupError) as error:
        refuse(file, shown(str(error)), "KML, which is XML")
    if _local(root) != "kml":
        refuse(file, shown(_local(root)), "KML, whose outermost element is kml")
    return root


def _local(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _named(element: Element, *names: str) -> Iterator[Element]:
    return (e for e in element.iter() if _local(e) in names)


def _child(element: Element, name: str) -> Element | None:
    return next((e for e in element if _local(e) == name), None)


def _part(polygon: Element, budget: Budget) -> Part:
    """Give the outer ring and the holes; nothing where there is no outer ring."""
    outer = [
        _ring(r, budget)
        for e in polygon
        if _local(e) == "outerBoundaryIs"
        for r in _named(e, "LinearRing")
    ]
    inner = [
        _ring(r, budget)
        for e in polygon
        if _local(e) == "innerBoundaryIs"
        for r in _named(e, "LinearRing")
    ]
    if len(outer) > 1:
        refuse(
            budget.file,
            f"{len(outer)} of them",
            "a polygon with one outer boundary",
            row=budget.features,
        )
    return counter_clockwise((outer[0], *inner)) if outer else ()


def _ring(ring: Element, budget: Budget) -> Ring:
    coordinates = _child(ring, "coordinates")
    text = (coordinates.text or "") if coordinates is not None else ""
    words = " ".join(text.split()).replace(" ,", ",").replace(", ", ",").split()
    budget.ring(len(words))
    points = np.empty((len(words), 2))
    for place, word in enumerate(words):
        found = _POSITION.fullmatch(word)
        if not found:
            refuse(budget.file, shown(word), "longitude,latitude in numbers", row=budget.features)
        points[place] = float(found[1]), float(found[2])
    return points


def _said(placemark: Element) -> Said:
    """Take the placemark's name, then its data, plain or by schema."""
    named = _child(placemark, "name")
    pairs: list[tuple[str, object]] = [("name", _text(named))]
    for data in _named(placemark, "Data"):
        pairs.append((data.get("name", ""), _text(_child(data, "value"))))
    for data in _named(placemark, "SimpleData"):
        pairs.append((data.get("name", ""), _text(data)))
    return said_from(pairs, id_=placemark.get("id"))


def _text(element: Element | None) -> str:
    return "" if element is None else " ".join("".join(element.itertext()).split())
