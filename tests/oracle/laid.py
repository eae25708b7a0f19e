"""What must hold of fields laid out, measured again from what is written alone.

Nothing of the package is used: a projection of its own, edges and lengths of its own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import Any

import numpy as np
import shapely
from pyproj import Geod, Transformer
from shapely import MultiPolygon
from shapely.geometry import shape

from tests.oracle.ground import SQUARE_METRES_PER_ACRE, Given

Feature = dict[str, Any]

EARTH = Geod(ellps="WGS84")
NAMES = ("NW", "NE", "SW", "SE")
KEYS = {
    "quadrant": {"kind", "field", "quadrant", "acres"},
    "stop": {"kind", "field", "quadrant", "stop", "plants", "loop"},
    "path": {"kind", "field", "loop", "metres"},
}
SHAPES = {"quadrant": {"Polygon", "MultiPolygon"}, "stop": {"Point"}, "path": {"LineString"}}

# Places are written to seven decimals of a degree; two of them may be off together. [m]
WRITTEN = 0.012
A_HAIR = 0.05
# Areas are compared on a grid so fine. [m]
GRID = 1e-4
# Of an area. [share]
EQUAL = 1e-3
MARGIN = 15.0
# So far a way may cut a corner of the drawn line. [m]
CUT_CORNER = 3.0
STOPS = {(1, 2), (2, 3)}


class Ground:
    """The flat land around one field, in metres."""

    def __init__(self, field: MultiPolygon) -> None:
        middle = field.centroid
        flat = f"+proj=laea +lat_0={middle.y} +lon_0={middle.x} +ellps=WGS84"
        self._turn = Transformer.from_crs("EPSG:4326", flat, always_xy=True)
        west, south, east, north = field.bounds
        self._step = max(east - west, north - south) / 200

    def flat(self, on_globe: shapely.Geometry) -> shapely.Geometry:
        """Lay a shape flat; its edges are straight in degrees (RFC 7946, section 3.1.1)."""
        fine = shapely.segmentize(on_globe, self._step)

        def put(points):
            return np.column_stack(self._turn.transform(points[:, 0], points[:, 1]))

        return shapely.transform(fine, put)


def faults(told: dict[str, Any], given: list[Given]) -> Iterator[str]:
    """Give everything that is wrong with what the command printed for these fields."""
    if told.get("type") != "FeatureCollection" or set(told) - {"type", "features", "bbox"}:
        yield f"the collection has {sorted(told)}"
    by_field: dict[str, list[Feature]] = {}
    for feature in told["features"]:
        yield from of_feature(feature)
        by_field.setdefault(feature["properties"]["field"], []).append(feature)
    if list(by_field) != [field.name for field in given]:
        yield f"fields {list(by_field)}, not {[field.name for field in given]}"
        return
    for field in given:
        for fault in of_field(by_field[field.name], field):
            yield f"{field.name}: {fault}"


def of_feature(feature: Feature) -> Iterator[str]:
    """Hold one feature against the names of its properties and against RFC 7946."""
    said, drawn = feature["properties"], feature["geometry"]
    kind = said.get("kind")
    if feature.get("type") != "Feature" or kind not in KEYS:
        yield f"a feature of kind {kind}"
        return
    if set(said) != KEYS[kind]:
        yield f"a {kind} says {sorted(said)}"
    if drawn["type"] not in SHAPES[kind]:
        yield f"a {kind} is a {drawn['type']}"
    for place in places_of(drawn["coordinates"]):
        lon, lat = place
        if not (abs(lon) <= 180 and abs(lat) <= 90):
            yield f"a {kind} has the place {place}"
    if kind == "quadrant":
        rings = drawn["coordinates"]
        for part in rings if drawn["type"] == "MultiPolygon" else [rings]:
            yield from of_rings(part)
    whole = [said.get(key, 1) for key in ("stop", "plants", "loop")]
    if any(type(n) is not int or n < 1 for n in whole):
        yield f"a {kind} has numbers that are not whole: {whole}"


def places_of(coordinates: Any) -> Iterator[Any]:
    """Give all places of a geometry, however deep."""
    if isinstance(coordinates[0], list):
        for part in coordinates:
            yield from places_of(part)
    else:
        yield coordinates


def of_rings(rings: list[list[list[float]]]) -> Iterator[str]:
    """Rings are closed; the outer one runs counter-clockwise and the holes clockwise."""
    for number, ring in enumerate(rings):
        if len(ring) < 4 or ring[0] != ring[-1]:
            yield "a ring is not closed"
        x, y = ring[0]
        twice = sum((a - x) * (d - y) - (c - x) * (b - y) for (a, b), (c, d) in pairwise(ring))
        if (twice > 0) != (number == 0):
            yield f"ring {number} runs the wrong way round"


def of_field(features: list[Feature], given: Given) -> Iterator[str]:
    kinds: dict[str, list[Feature]] = {kind: [] for kind in KEYS}
    for feature in features:
        kinds[feature["properties"]["kind"]].append(feature)
    quadrants = {f["properties"]["quadrant"]: f for f in kinds["quadrant"]}
    if tuple(sorted(quadrants)) != tuple(sorted(NAMES)) or len(kinds["quadrant"]) != 4:
        yield f"quadrants {list(quadrants)}"
        return
    ground = Ground(given.shape)
    flats = {name: ground.flat(shape(quadrants[name]["geometry"])) for name in NAMES}
    yield from of_areas(quadrants, flats, ground.flat(given.shape))
    yield from of_names(flats)
    yield from of_stops(kinds["stop"], flats, ground, given)
    yield from of_paths(kinds["path"], kinds["stop"], given)


def ellipsoid_acres(on_globe: shapely.Geometry) -> float:
    fine = shapely.segmentize(on_globe, 1e-4)
    area = sum(abs(EARTH.geometry_area_perimeter(p)[0]) for p in shapely.get_parts(fine))
    return area / SQUARE_METRES_PER_ACRE


def of_areas(
    quadrants: dict[str, Feature], flats: dict[str, shapely.Geometry], field: shapely.Geometry
) -> Iterator[str]:
    """Four equal areas that make up the field and do not lie on one another."""
    for name, flat in flats.items():
        if not flat.is_valid:
            yield f"{name} crosses itself"
            return
        # A small field can't be drawn more exactly than its places are written.
        hair = WRITTEN * flat.length
        if not math.isclose(flat.area, field.area / 4, rel_tol=EQUAL, abs_tol=hair):
            yield f"{name} has {flat.area:.1f} of {field.area:.1f} square metres"
        measured = ellipsoid_acres(shape(quadrants[name]["geometry"]))
        told = quadrants[name]["properties"]["acres"]
        hair /= SQUARE_METRES_PER_ACRE
        if not math.isclose(told, measured, rel_tol=EQUAL, abs_tol=hair):
            yield f"{name} says {told} acres and has {measured:.4f}"
    slack = A_HAIR * field.length + 1e-6 * field.area
    together = shapely.union_all(list(flats.values()), grid_size=GRID)
    missed = shapely.symmetric_difference(together, field, grid_size=GRID).area
    if missed > slack:
        yield f"the quadrants miss the field by {missed:.1f} square metres, {slack:.1f} allowed"
    for (a, first), (b, second) in combinations(flats.items(), 2):
        shared = shapely.intersection(first, second, grid_size=GRID).area
        if shared > slack:
            yield f"{a} and {b} share {shared:.1f} square metres"


def of_names(flats: dict[str, shapely.Geometry]) -> Iterator[str]:
    """The western two lie west of the eastern two, the northern two north of the others."""
    x = {name: flat.centroid.x for name, flat in flats.items()}
    y = {name: flat.centroid.y for name, flat in flats.items()}
    if x["NW"] + x["SW"] >= x["NE"] + x["SE"]:
        yield f"the west lies east: {x}"
    if y["NW"] + y["NE"] <= y["SW"] + y["SE"]:
        yield f"the north lies south: {y}"


def of_stops(
    stops: list[Feature], flats: dict[str, shapely.Geometry], ground: Ground, given: Given
) -> Iterator[str]:
    """Two and three stops of five plants, inside their quadrant, clear of the edge."""
    edge = ground.flat(given.shape).boundary
    numbers = sorted(f["properties"]["stop"] for f in stops)
    if numbers != list(range(1, 21)):
        yield f"stops are numbered {numbers}"
    for name, quadrant in flats.items():
        here = [f for f in stops if f["properties"]["quadrant"] == name]
        loops = [f["properties"]["loop"] for f in here]
        if {(loop, loops.count(loop)) for loop in loops} != STOPS:
            yield f"{name} has stops in the loops {loops}"
        if {f["properties"]["plants"] for f in here} != {5}:
            yield f"{name} has stops of other than 5 plants"
        circle = shapely.maximum_inscribed_circle(quadrant, tolerance=0.01).length
        least = min(MARGIN, circle / 2) - A_HAIR
        for stop in here:
            at = ground.flat(shape(stop["geometry"]))
            number = stop["properties"]["stop"]
            if not quadrant.contains(at):
                yield f"stop {number} lies {quadrant.distance(at):.3f} m outside {name}"
            if edge.distance(at) < least:
                yield f"stop {number} lies {edge.distance(at):.2f} m from the edge, not {least:.2f}"


def of_paths(paths: list[Feature], stops: list[Feature], given: Given) -> Iterator[str]:
    """A closed line for each loop, from the entry through the loop's stops and back."""
    if sorted(f["properties"]["loop"] for f in paths) != [1, 2]:
        yield "there is not one path for each loop"
        return
    starts = {tuple(f["geometry"]["coordinates"][0]) for f in paths}
    if len(starts) != 1:
        yield f"the loops start at {starts}"
    start = starts.pop()
    if given.gate is not None and EARTH.inv(*start, *given.gate)[2] > A_HAIR:
        yield f"the loops start at {start}, not at the gate {given.gate}"
    for path in paths:
        loop = path["properties"]["loop"]
        line = [tuple(place) for place in path["geometry"]["coordinates"]]
        if line[0] != line[-1]:
            yield f"loop {loop} is not closed"
        mine = {
            tuple(f["geometry"]["coordinates"]): f["properties"]["stop"]
            for f in stops
            if f["properties"]["loop"] == loop
        }
        met = [mine[place] for place in line[1:-1] if place in mine]
        # A way may pass a stop of which the turn has not come yet.
        walked = iter(met)
        if not all(number in walked for number in sorted(mine.values())):
            yield f"loop {loop} meets the stops {met}, not {sorted(mine.values())}"
        lons, lats = zip(*line, strict=True)
        length = EARTH.line_length(lons, lats)
        told = path["properties"]["metres"]
        if abs(told - length) > 0.05 + 0.02 * len(line):
            yield f"loop {loop} says {told} m and has {length:.2f}"
        if given.gate is None and len(given.shape.geoms) == 1:
            off = astray(path, given)
            if off > CUT_CORNER:
                yield f"loop {loop} leads {off:.1f} m out of the field"


def astray(path: Feature, given: Given) -> float:
    """Tell how far a loop leads out of its field. [m]"""
    ground = Ground(given.shape)
    line, land = ground.flat(shape(path["geometry"])), ground.flat(given.shape)
    off = shapely.get_coordinates(shapely.segmentize(line.difference(land), 1.0))
    return float(shapely.distance(shapely.points(off), land).max(initial=0.0))
