"""The worked example of the field page: on paper and by the tool alike."""

from __future__ import annotations

import itertools
import math
from datetime import date

import pytest
import shapely

from quarterwalk import Layout, lay_out, read_fields
from quarterwalk.field import Frame, acres_of
from quarterwalk.field.emptiest import largest_empty_circles
from tests.docs.said import DOCS, section

PAGE = DOCS / "methods" / "field.md"
SIDE, ACRE = 402.4, 4046.8564224  # [m], [m²]


@pytest.fixture(scope="module")
def layout() -> Layout:
    return lay_out(read_fields(DOCS / "examples" / "fields.geojson").fields[0], date(2026, 6, 24))


def told() -> dict[str, list[str]]:
    """Give the table of the eight stops, a line each."""
    lines = map(str.strip, section(PAGE, "A worked example").splitlines())
    rows = [line[1:-1].split("|") for line in lines if line.startswith("|")]
    return {name.strip(): [cell.strip() for cell in cells] for name, *cells in rows}


def places() -> list[tuple[int, int]]:
    """Give the gate and the eight stops, as the page has them. [m]"""
    table = told()
    east, north = (list(map(int, table[way])) for way in ("east", "north"))
    return [(0, 0), *zip(east[:-1], north[:-1], strict=True)]


def length(order: tuple[int, ...], across: float = 1.0) -> float:
    at = [places()[n] for n in (0, *order, 0)]
    return sum(math.hypot(across * (a[0] - b[0]), a[1] - b[1]) for a, b in itertools.pairwise(at))


def test_the_quarters_are_those_of_a_square(layout):
    assert layout.acres == pytest.approx(SIDE**2 / ACRE, rel=1e-3)
    for part in layout.quadrants.values():
        assert acres_of(part) == pytest.approx(SIDE**2 / ACRE / 4, rel=1e-3)


def test_the_stops_on_the_page_are_those_of_the_day(layout):
    frame = Frame.around(layout.field.shape)
    gate, *stops = (
        shapely.get_coordinates(frame.to_ground(shapely.Point(place)))[0]
        for place in (layout.entry, *(stop.place for stop in layout.stops if stop.loop == 1))
    )
    assert [tuple(round(x) for x in stop - gate) for stop in stops] == places()[1:]
    quarters = [stop.quadrant.value for stop in layout.stops if stop.loop == 1]
    assert [*quarters, ""] == told()["quarter"]


def test_the_ways_add_up_to_the_length_and_the_minutes(layout):
    steps = [round(math.dist(a, b)) for a, b in itertools.pairwise([*places(), (0, 0)])]
    assert steps == list(map(int, told()["way there"]))
    assert sum(steps) == 1319
    assert layout.loops[0].metres == pytest.approx(1319, abs=3)
    assert layout.loops[0].minutes == pytest.approx(1319 / 75, abs=0.1)


def test_the_largest_gap_is_at_the_middle_of_the_field(layout):
    gap = max(largest_empty_circles(layout, 1).values())
    assert gap == pytest.approx(math.hypot(248 - 201.2, 201.2 - 65), abs=1)
    assert gap / (math.sqrt(5) / 4 * 201.2) == pytest.approx(1.28, abs=0.01)


def test_no_order_is_shorter_with_the_rows_and_the_one_without_them_is_1239():
    orders = list(itertools.permutations(range(1, 9)))
    at = places()
    for across, order, metres in (
        (1, (1, 3, 4, 5, 6, 7, 8, 2), 1239),
        (2, tuple(range(1, 9)), 1959),
    ):
        ways = [[math.hypot(across * (a[0] - b[0]), a[1] - b[1]) for b in at] for a in at]
        least = min(
            sum(ways[a][b] for a, b in itertools.pairwise((0, *each, 0))) for each in orders
        )
        assert least == pytest.approx(length(order, across))
        assert round(least) == metres
    assert round(length((1, 3, 4, 5, 6, 7, 8, 2), 2)) == 2032
