"""How well fields are laid out: equal quarters, spread stops, short loops, over many shapes.

Run ``python benchmarks/shapes.py`` (``--days 4`` for less). The shapes are those of the
tests; each is laid out on so many days and held against the best there is: the shortest
of all loops, and the two stops that leave the smallest gap.
"""

from __future__ import annotations

import argparse
import runpy
import time
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import shapely
from numpy.typing import NDArray
from quartering import tour_ratios
from scipy.spatial.distance import cdist
from shapely import MultiPolygon, box

from quarterwalk.field import Field, Frame, Layout, acres_of, lay_out
from quarterwalk.field.emptiest import largest_empty_circles
from quarterwalk.field.quadrants import quarter
from quarterwalk.field.stops import choose_stops, dice, ground_of
from quarterwalk.walk import Quadrant

FloatArray = NDArray[np.float64]

DAY = date(2026, 6, 1)
# The tests are no package that could be imported from here.
_TESTED = runpy.run_path(str(Path(__file__).parents[1] / "tests" / "field" / "shapes.py"))
SHAPES, field_of, pieces = (_TESTED[name] for name in ("SHAPES", "field_of", "pieces"))
ALL = SHAPES | _TESTED["PIECES"]
# A quarter has about so many places at which the best two stops may lie. [count]
PLACES = 400
# Lengths in the flat frame and on the globe differ by less than this. [times]
_SAME = 1.0005
# Kept from the edge of the field. [m]
MARGIN = 15.0


@dataclass(frozen=True, slots=True)
class Measured:
    """One shape over all days: areas, pieces, gaps and loops, each over the best."""

    area_error: float
    quarter_pieces: int
    names_fit: float
    gaps: FloatArray
    loops: FloatArray


def measured(name: str, days: int) -> Measured:
    """Lay one shape out day by day and hold it against the best there is."""
    field = field_of(ALL[name])
    laid = [lay_out(field, DAY + timedelta(days=day)) for day in range(days)]
    first = laid[0]
    quarters = first.quadrants.values()
    areas = np.array([acres_of(part) for part in quarters])
    least = {q: best_two(first, q) for q in first.quadrants}
    gaps = [r / least[q] for each in laid for q, r in largest_empty_circles(each, 1).items()]
    return Measured(
        float(np.abs(4 * areas / first.acres - 1).max()),
        sum(len(part.geoms) for part in quarters),
        names_fit(pieces(ALL[name])),
        np.array(gaps),
        np.array([over for each in laid for over in tour_ratios(each)]),
    )


def names_fit(shape: MultiPolygon) -> float:
    """Give the share of a field whose quarter is the one that its middle lines would name."""
    places = net(shape, 20_000)
    east, north = np.median(places, axis=0)
    fit = 0
    for quadrant, part in quarter(shape).items():
        here = places[shapely.contains_xy(part, *places.T)]
        named = (here[:, 0] > east) == ("E" in quadrant.value)
        fit += int((named & ((here[:, 1] > north) == ("N" in quadrant.value))).sum())
    return fit / len(places)


def best_two(layout: Layout, quadrant: Quadrant) -> float:
    """Give the smallest gap that any two places of a quarter leave, on a fine net. [m]"""
    shape = Frame.around(layout.field.shape).to_ground(layout.quadrants[quadrant])
    around = np.vstack(
        [shapely.get_coordinates(shape.segmentize(shape.length / 150)), net(shape, 200)]
    )
    ways = cdist(net(shape, PLACES), around)
    return float(min(np.minimum(ways, way).max(axis=1).min() for way in ways))


def net(shape: MultiPolygon, wanted: int) -> FloatArray:
    """Lay a square net of about so many places over a shape. [m]"""
    step = np.sqrt(shape.area / wanted)
    west, south, east, north = shape.bounds
    x, y = np.meshgrid(
        np.arange(west + step / 2, east, step), np.arange(south + step / 2, north, step)
    )
    places = np.column_stack([x.ravel(), y.ravel()])
    inside: FloatArray = places[shapely.contains_xy(shape, *places.T)]
    return inside


def season(walks: int, seasons: int) -> tuple[float, float, float]:
    """Tell how walks share out a square quarter's 16 equal parts inside the margin.

    Gives the share of parts that a season of so many walks visits, and how often a corner
    and a middle part are visited, of the mean.
    """
    quarter_of = pieces(box(0, 0, 430, 430))
    ground = ground_of(quarter_of, quarter_of, MARGIN)
    counts = np.zeros((seasons, 4, 4))
    for number in range(seasons):
        for walk in range(walks):
            on = DAY + timedelta(days=walks * number + walk)
            for x, y in np.concatenate(choose_stops(ground, (2, 3), dice("Depot", on))):
                counts[number, int((x - MARGIN) // 100), int((y - MARGIN) // 100)] += 1
    often = counts.mean(axis=0) / counts.mean()
    middle, corners = often[1:3, 1:3].mean(), often[::3, ::3].mean()
    return float((counts > 0).mean()), float(corners), float(middle)


def rows_saved(days: int) -> tuple[float, float]:
    """Tell how much less way lies across the rows of a square, and how much longer it is."""
    across, metres = [], []
    for day in range(days):
        on = DAY + timedelta(days=day)
        both = [lay_out(_square(rows), on) for rows in (None, 0.0)]
        across.append([sum(_east(loop.line) for loop in each.loops) for each in both])
        metres.append([sum(loop.metres for loop in each.loops) for each in both])
    less, longer = (np.sum(each, axis=0) for each in (across, metres))
    return float(1 - less[1] / less[0]), float(longer[1] / longer[0] - 1)


def _square(rows: float | None) -> Field:
    return field_of(SHAPES["square"], gate=(-101.9, 33.45), rows=rows)


def _east(line: Sequence[tuple[float, float]]) -> float:
    return float(np.abs(np.diff(np.array(line)[:, 0])).sum())


def print_all(found: Sequence[Measured]) -> None:
    """Print what holds over all shapes and days."""
    gaps = np.concatenate([each.gaps for each in found])
    loops = np.concatenate([each.loops for each in found])
    print(f"\nlargest gap over the best: middle {np.median(gaps):.2f},", end=" ")
    print(f"nine in ten under {np.quantile(gaps, 0.9):.2f}, most {gaps.max():.2f}")
    print(f"loops that are the shortest: {(loops < _SAME).sum()} of {len(loops)},", end=" ")
    print(f"most over it {loops.max() - 1:.2%}")


def main() -> None:
    """Print what the page of the field quotes."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--days", type=int, default=20, help="days a shape is laid out on")
    days = asked.parse_args().days
    started = time.perf_counter()
    print(f"{'shape':<26}{'area':>9}{'pieces':>8}{'named':>7}{'gap, middle':>13}{'most':>6}"
          f"{'loops best':>12}{'most':>7}")  # fmt: skip
    found = {name: measured(name, days) for name in ALL}
    for name, m in found.items():
        print(f"{name:<26}{m.area_error:9.1e}{m.quarter_pieces:8}{m.names_fit:7.2f}"
              f"{np.median(m.gaps):13.2f}{m.gaps.max():6.2f}"
              f"{(m.loops < _SAME).mean():12.3f}{m.loops.max():7.4f}")  # fmt: skip
    print_all(list(found.values()))
    visited, corners, middle = season(5, 200)
    print(f"a season of 5 walks visits {visited:.2f} of 16 parts, 25 stops by chance", end=" ")
    print(
        f"{1 - (15 / 16) ** 25:.2f}; corners get {corners:.2f} of the mean, the middle {middle:.2f}"
    )
    saved, longer = rows_saved(days)
    print(f"rows: {saved:.0%} less across, {longer:.1%} longer")
    print(f"{time.perf_counter() - started:.0f} s")


if __name__ == "__main__":
    main()
