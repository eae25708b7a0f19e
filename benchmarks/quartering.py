"""How long it takes to lay out many fields, and how good the layouts are.

Run ``python benchmarks/quartering.py`` (``--fields 100`` for less). The fields are invented:
rectangles, circles with corners cut, Ls, Cs, combs, strips, fields with holes and in pieces,
turned any way, of 10 to 160 acres, each drawn with 20 to 200 corners.
"""

from __future__ import annotations

import argparse
import statistics
import time
from concurrent.futures import ProcessPoolExecutor
from datetime import date, timedelta
from functools import partial

import numpy as np
import shapely
from scipy.spatial.distance import cdist
from shapely import MultiPolygon, Point, Polygon, box
from shapely.affinity import rotate, scale
from shapely.geometry.base import BaseGeometry

from quarterwalk.field import Field, Frame, Layout, acres_of, lay_out
from quarterwalk.field.emptiest import largest_empty_circles
from quarterwalk.field.stops import choose_stops, dice, ground_of
from quarterwalk.field.ways import find_ways
from quarterwalk.units import HECTARE_M2, HECTARES_PER_ACRE

DAY = date(2026, 7, 1)
WORKERS = 2
ACRE_M2 = float(HECTARES_PER_ACRE) * HECTARE_M2


def outlines(rng: np.random.Generator) -> list[BaseGeometry]:
    """Draw one of each kind of field, with sizes by chance."""
    a, b, c = rng.uniform(0.2, 0.45, 3)
    teeth = [box(0.22 * n, 0, 0.22 * n + 0.12, 0.8) for n in range(5)]
    whole = box(0, 0, 1, rng.uniform(0.4, 1))
    return [
        whole,
        whole,
        whole,
        Point(0.5, 0.5).buffer(0.5, quad_segs=16),
        Point(0.5, 0.5).buffer(0.5, quad_segs=32).difference(box(0.5 + a, 0.5 + b, 1, 1)),
        box(0, 0, 1, 1).difference(box(a, b, 1, 1)),
        box(0, 0, 1, 1).difference(box(a, b, 1, 1 - c)),
        shapely.union_all([box(0, 0, 1, 0.15), *teeth]),
        box(0, 0, 1, rng.uniform(0.04, 0.1)),
        box(0, 0, 1, 1).difference(Point(0.35 + a, 0.3 + b).buffer(0.15)),
        shapely.union_all([box(0, 0, 0.45, 1), box(0.47, 0, 1, 0.5 + c)]),
    ]


def make_fields(count: int, rng: np.random.Generator) -> list[Field]:
    """Make invented fields on the globe."""
    fields: list[Field] = []
    while len(fields) < count:
        for outline in outlines(rng):
            times = np.sqrt(rng.uniform(10, 160) * ACRE_M2 / outline.area)
            drawn = rotate(scale(outline, times, times), rng.choice([0, 0, rng.uniform(0, 90)]))
            drawn = shapely.segmentize(drawn, drawn.length / rng.uniform(20, 200))
            pieces = MultiPolygon([p for p in shapely.get_parts(drawn) if isinstance(p, Polygon)])
            frame = Frame(-101.9 + rng.uniform(-1, 1), 33.4 + rng.uniform(-1, 1))
            shape = shapely.orient_polygons(frame.to_globe(pieces))
            rows = float(rng.integers(180)) if rng.random() < 0.5 else None
            fields.append(Field(f"Field {len(fields)}", shape, rows=rows))
    return fields[:count]


def best_closed_way(ways: np.ndarray) -> float:
    """Find the length of the shortest closed way exactly (Held and Karp 1962)."""
    last = len(ways) - 1
    best = np.full((1 << last, last), np.inf)
    best[1 << np.arange(last), np.arange(last)] = ways[0, 1:]
    for mask in range(1, 1 << last):
        for place in range(last):
            rest = mask ^ (1 << place)
            if mask >> place & 1 and rest:
                best[mask, place] = (best[rest] + ways[1:, place + 1]).min()
    return float((best[-1] + ways[1:, 0]).min())


def tour_ratios(layout: Layout) -> list[float]:
    """Compare each loop with the best there is, both inside the field."""
    frame = Frame.around(layout.field.shape)
    ground = frame.to_ground(layout.field.shape)
    ratios = []
    for loop in layout.loops:
        stops = [stop.place for stop in layout.stops if stop.loop == loop.number]
        places = shapely.get_coordinates(
            frame.to_ground(shapely.MultiPoint([layout.entry, *stops]))
        )
        ways = find_ways(ground, places).lengths[:, : len(places)]
        ratios.append(loop.metres / best_closed_way(ways))
    return ratios


def gap_ratios(layout: Layout, rng: np.random.Generator) -> list[float]:
    """Compare the largest empty circle of the first loop with that of the best two places."""
    frame = Frame.around(layout.field.shape)
    ratios = []
    for quadrant, radius in largest_empty_circles(layout, 1).items():
        part = frame.to_ground(layout.quadrants[quadrant])
        west, south, east, north = part.bounds
        drawn = rng.uniform([west, south], [east, north], (20000, 2))
        inside = drawn[shapely.contains_xy(part, *drawn.T)][:300]
        ways = cdist(inside, inside)
        first, second = np.triu_indices(len(inside), k=1)
        pick = rng.integers(len(first), size=6000)
        best = np.minimum(ways[first[pick]], ways[second[pick]]).max(axis=1).min()
        ratios.append(radius / best)
    return ratios


def evenness(days: int) -> tuple[float, float]:
    """Share of the stops that the least and the most visited sixteenth of a quadrant gets."""
    square = MultiPolygon([box(0, 0, 430, 430)])
    ground = ground_of(square, square, 15.0)
    counts = np.zeros((4, 4))
    for day in range(days):
        rng = dice("Depot", DAY + timedelta(day))
        for x, y in np.concatenate(choose_stops(ground, (2, 3), rng)):
            counts[int((x - 15) // 100), int((y - 15) // 100)] += 1
    share = counts / counts.mean()
    return float(share.min()), float(share.max())


def main() -> None:
    """Print times and ratios."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fields", type=int, default=500)
    parser.add_argument("--judged", type=int, default=60, help="fields whose loops are judged")
    options = parser.parse_args()
    rng = np.random.default_rng(1)
    fields = make_fields(options.fields, rng)
    start = time.perf_counter()
    with ProcessPoolExecutor(WORKERS) as pool:
        layouts = list(pool.map(partial(lay_out, on=DAY), fields, chunksize=5))
    took = time.perf_counter() - start
    print(f"{len(fields)} fields laid out on {WORKERS} cores: {took:.1f} s")
    alone = []
    for field in fields[:50]:
        start = time.perf_counter()
        lay_out(field, DAY)
        alone.append(1000 * (time.perf_counter() - start))
    print(f"one field on one core, median and worst of 50: {statistics.median(alone):.0f} ms,"
          f" {max(alone):.0f} ms")  # fmt: skip
    off = max(
        abs(4 * acres_of(part) / layout.acres - 1)
        for layout in layouts
        for part in layout.quadrants.values()
    )
    print(f"largest difference of a quadrant from a quarter of its field: {off:.1e}")
    single = [x for x in layouts if len(x.field.shape.geoms) == 1]
    whole = sum(all(len(q.geoms) == 1 for q in x.quadrants.values()) for x in single)
    print(f"fields in one piece whose quadrants are each in one piece: {whole} of {len(single)}")
    judged = layouts[: options.judged]
    tours = [ratio for layout in judged for ratio in tour_ratios(layout)]
    rowed = [r for x in judged if x.field.rows is not None for r in tour_ratios(x)]
    print(f"loops against the best way through their stops, {len(tours)} loops:"
          f" mean {np.mean(tours):.3f}, worst {max(tours):.3f};"
          f" with rows mean {np.mean(rowed):.3f}")  # fmt: skip
    gaps = [ratio for layout in judged for ratio in gap_ratios(layout, rng)]
    print(f"largest empty circle of loop 1 against the best two places, {len(gaps)} quadrants:"
          f" mean {np.mean(gaps):.2f}, 95 in 100 under {np.quantile(gaps, 0.95):.2f},"
          f" worst {max(gaps):.2f}")  # fmt: skip
    least, most = evenness(2000)
    print(f"stops in each sixteenth of a square quadrant over 2000 days, against the mean:"
          f" {least:.2f} to {most:.2f}")  # fmt: skip


if __name__ == "__main__":
    main()
