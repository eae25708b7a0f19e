"""Made-up fields of many shapes and places, written in every format that takes boundaries."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

import numpy as np
import shapely
from pyproj import CRS, Transformer
from shapely import MultiPolygon, Point, Polygon, affinity, box

from tests.files.drawings import geopackage, gp, kml, placemark, shapefile, zipped

SQUARE_METRES_PER_ACRE = 4046.8564224
FORMATS = ("geojson", "geojson", "geojson", "stdin", "kml", "kmz", "zip", "shp", "gpkg", "bare")
NAMES = ("Home 40", "Río Hondo", "North/South", "80", "Ünder the hill", "a", "Gin Road", "棉田")


@dataclass
class Given:
    """One field as it is put in, and the name that it must have."""

    name: str
    shape: MultiPolygon
    gate: tuple[float, float] | None = None
    said: dict[str, object] = field(default_factory=dict)
    id: object = None


@dataclass
class Case:
    """Some fields, and the words of the command that lays them out."""

    fields: list[Given]
    kind: str
    words: list[str]


def rectangle(random: Random) -> shapely.Geometry:
    return box(0, 0, 1, random.choice((1, 1, 0.5, 0.25, 0.1, 0.04)))


def star(random: Random) -> shapely.Geometry:
    count = random.randint(3, 30)
    turns = [2 * math.pi * (n + random.uniform(-0.3, 0.3)) / count for n in range(count)]
    far = [random.uniform(0.35, 1) for _ in turns]
    return Polygon([(f * math.cos(t), f * math.sin(t)) for t, f in zip(turns, far, strict=True)])


def rooms(random: Random) -> shapely.Geometry:
    """Rooms put together, whether they touch or not."""
    some = []
    for _ in range(random.randint(2, 5)):
        x, y = random.randint(0, 6), random.randint(0, 6)
        some.append(box(x, y, x + random.randint(1, 5), y + random.randint(1, 5)))
    return shapely.union_all(some)


def letter(random: Random) -> shapely.Geometry:
    taken = random.choice(
        (
            box(1, 1, 9, 9),  # L
            box(1, 2, 8, 9),  # U
            box(1, 2, 4, 9).union(box(5, 2, 8, 9)),  # a comb
            box(0, 2, 7, 3).union(box(2, 5, 9, 6)),  # a winding way
        )
    )
    return box(0, 0, 9, 9).difference(taken)


def pivot(random: Random) -> shapely.Geometry:
    round_field = Point(0, 0).buffer(1, quad_segs=random.choice((4, 16, 90)))
    if random.random() < 0.3:
        wedge = Polygon([(0, 0), (2, random.uniform(-1, 0.5)), (2, 1)])
        return round_field.difference(wedge)
    return round_field


def apart(random: Random) -> shapely.Geometry:
    """Two to four parts, with lanes between them."""
    cuts = random.choice(((5,), (3, 6), (2, 4, 7)))
    lanes = shapely.union_all([box(c - 0.1, -1, c + 0.1, 10) for c in cuts])
    whole = affinity.skew(box(0, 0, 9, random.choice((2, 9, 14))), random.choice((0, 20)))
    return whole.difference(lanes)


def holed(random: Random) -> shapely.Geometry:
    outer = random.choice((rectangle, star, pivot))(random)
    west, south, east, north = outer.bounds
    size = 0.12 * min(east - west, north - south)
    holes = [
        Point(random.uniform(west, east), random.uniform(south, north)).buffer(
            size * random.uniform(0.5, 2), quad_segs=random.choice((1, 4))
        )
        for _ in range(random.randint(1, 4))
    ]
    cut = outer.difference(shapely.union_all(holes))
    if random.random() < 0.3:  # an island in a hole
        cut = cut.union(holes[0].buffer(-0.6 * size)).intersection(outer)
    return cut


SHAPES: tuple[Callable[[Random], shapely.Geometry], ...] = (
    *(rectangle, star, rooms, letter, pivot, apart, holed),
)


# Mean radius of the earth. [m]
EARTH_M = 6_371_000.0
# A line that is straight on the ground bends in degrees. Where it bends by more than this share
# of a field's width, as across five miles of a narrow strip, nobody can say what is half of it.
MOST_BENT = 1 / 4000
# Smaller holes are filled in, as no walk can mind them. [m2]
LEAST_HOLE = 60.0


def on_ground(random: Random, lat: float) -> MultiPolygon:
    """Give a shape in metres, nowhere narrower than a few rows, of a size that fields have."""
    while True:
        shape = affinity.rotate(
            random.choice(SHAPES)(random), random.choice((0, 0, 3, 30, 45, 61)), origin=(0, 0)
        )
        acres = math.exp(random.uniform(math.log(0.6), math.log(400)))
        if random.random() < 0.05:
            acres = random.uniform(1000, 6000)
        scale = math.sqrt(acres * SQUARE_METRES_PER_ACRE / shape.area)
        shape = affinity.scale(shape, scale, scale, origin=(0, 0))
        opened = shape.buffer(-4, join_style="mitre").buffer(4, join_style="mitre")
        same = opened.symmetric_difference(shape).area < 0.02 * shape.area
        parts = [p for p in shapely.get_parts(shape) if isinstance(p, Polygon)]
        west, south, east, north = shape.bounds
        longest = math.hypot(east - west, north - south)
        bent = longest**2 * abs(math.tan(math.radians(lat))) / (8 * EARTH_M)
        fits = bent <= MOST_BENT * shape.area / longest
        holes = [Polygon(hole).area for part in parts for hole in part.interiors]
        roomy = min(p.area for p in parts) > 400 and min(holes, default=1e9) > LEAST_HOLE
        if same and fits and roomy:
            return MultiPolygon(parts)


def somewhere(random: Random) -> tuple[float, float]:
    lat = random.choice((random.uniform(-55, 60), random.uniform(25, 45), 0.0, 70.5, -72.0))
    lon = random.choice((random.uniform(-179, 179), random.uniform(-105, -80), 0.0, 179.8, -179.8))
    return lon, lat


def to_globe(shape: shapely.Geometry, lon: float, lat: float) -> shapely.Geometry:
    """Put a shape in metres down around a place, to nine decimals."""
    flat = f"+proj=aeqd +lat_0={lat} +lon_0={lon} +ellps=WGS84"
    turn = Transformer.from_crs(flat, "EPSG:4326", always_xy=True)

    def put(points):
        east, north = turn.transform(points[:, 0], points[:, 1])
        return np.round(np.column_stack([east, north]), 9)

    return shapely.transform(shape, put)


def gate_of(random: Random, ground: MultiPolygon) -> Point:
    """Give a place on the edge, or some way off it."""
    edge = ground.geoms[0].exterior
    at = edge.interpolate(random.random(), normalized=True)
    if random.random() < 0.6:
        return at
    return Point(at.x + random.uniform(-150, 150), at.y + random.uniform(-150, 150))


def cased(random: Random, key: str) -> str:
    return random.choice((key, key.upper(), key.title()))


def a_field(random: Random, number: int, place: tuple[float, float], *, rich: bool) -> Given:
    """Make the field that stands at this place of the file, counted from 1."""
    ground = on_ground(random, place[1])
    globe = MultiPolygon(list(shapely.get_parts(to_globe(ground, *place))))
    given = Given(f"{random.choice(NAMES)} {number}", shapely.orient_polygons(globe))
    if not rich:
        return given
    naming = random.random()
    if naming < 0.6:
        given.said[cased(random, "name")] = given.name
    elif naming < 0.7:
        given.said[cased(random, "id")] = given.name
    elif naming < 0.8:
        given.name, given.id = str(100 + number), 100 + number
    else:
        given.name = f"field-{number}"
        if random.random() < 0.5:
            given.said["name"] = random.choice(("", None))
    if random.random() < 0.5:
        given.gate = to_globe(gate_of(random, ground), *place).coords[0]
        given.said[cased(random, "gate")] = list(given.gate)
    if random.random() < 0.5:
        given.said[cased(random, "rows")] = random.choice((0, 90, 45.5, 270, "13"))
    return given


def make(seed: int) -> Case:
    """Return the case of this number."""
    random = Random(seed)
    kind = random.choice(FORMATS)
    rich = kind in ("geojson", "stdin", "bare")
    lon, lat = somewhere(random)
    count = 1 if kind == "bare" else random.choice((1, 1, 1, 2, 3))
    # Half a degree of latitude apart: no two of them meet.
    south = -0.5 if lat > 0 else 0.5
    fields = [a_field(random, n + 1, (lon, lat + n * south), rich=rich) for n in range(count)]
    day = f"2026-0{random.randint(5, 8)}-{random.randint(10, 28)}"
    return Case(fields, kind, ["--date", day])


def _rings(part: Polygon) -> list[list[list[float]]]:
    return [[list(p) for p in ring.coords] for ring in (part.exterior, *part.interiors)]


def _feature(given: Given) -> dict[str, object]:
    shape = given.shape if len(given.shape.geoms) > 1 else given.shape.geoms[0]
    made = {"type": "Feature", "properties": given.said, "geometry": shape.__geo_interface__}
    return made if given.id is None else {**made, "id": given.id}


def _kml_of(fields: list[Given]) -> bytes:
    marks = []
    for given in fields:
        parts = [placemark(r[0], holes=r[1:]) for r in map(_rings, given.shape.geoms)]
        shapes = "".join(p.removeprefix("<Placemark>")[: -len("</Placemark>")] for p in parts)
        shape = f"<MultiGeometry>{shapes}</MultiGeometry>"
        marks.append(f"<Placemark><name>{given.name}</name>{shape}</Placemark>")
    return kml(*marks)


def _shapefile_of(fields: list[Given]) -> dict[str, bytes]:
    """Draw outer rings clockwise and holes the other way, as that format has it."""
    shapes = [
        [ring[::-1] for part in given.shape.geoms for ring in _rings(part)] for given in fields
    ]
    rows = [{"NAME": given.name} for given in fields]
    return {**shapefile(shapes, rows, crs=CRS.from_epsg(4326)), ".cpg": b"UTF-8"}


def written(case: Case, folder: Path) -> tuple[str, bytes]:
    """Write the case down; give what the command is to read, and what comes on standard input."""
    for old in folder.iterdir():
        old.unlink()
    if case.kind in ("geojson", "stdin", "bare"):
        features = [_feature(given) for given in case.fields]
        whole = {"type": "FeatureCollection", "features": features}
        data = json.dumps(features[0] if case.kind == "bare" else whole).encode()
        if case.kind == "stdin":
            return "-", data
    elif case.kind in ("kml", "kmz"):
        data = _kml_of(case.fields)
        data = zipped({"doc.kml": data}) if case.kind == "kmz" else data
    elif case.kind == "gpkg":
        rows = [(gp(given.shape), given.name, None, None) for given in case.fields]
        return str(geopackage(folder / "fields.gpkg", *rows)), b""
    else:
        files = {f"fields{end}": data for end, data in _shapefile_of(case.fields).items()}
        data = zipped(files)
        if case.kind == "shp":
            for name, content in files.items():
                (folder / name).write_bytes(content)
            return str(folder / "fields.shp"), b""
    path = folder / f"fields.{'geojson' if case.kind == 'bare' else case.kind}"
    path.write_bytes(data)
    return str(path), b""
