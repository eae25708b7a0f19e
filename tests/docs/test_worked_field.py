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


def east(order: tuple[int, ...]) -> int:
    at = [places()[n][0] for n in (0, *order, 0)]
    return sum(abs(a - b) for a, b in itertools.pairwise(at))


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
    assert sum(steps) == 1268
    assert layout.loops[0].metres == pytest.approx(1268, abs=3)
    assert layout.loops[0].minutes == pytest.approx(1268 / 75, abs=0.1)


def test_the_largest_gap_is_at_the_middle_of_the_southern_edge(layout):
    gap = max(largest_empty_circles(layout, 1).values())
    assert gap == pytest.approx(math.hypot(331 - 201.2, 77), abs=1)
    assert gap / (math.sqrt(5) / 4 * 201.2) == pytest.approx(1.34, abs=0.01)
    assert round(gap / 0.3048) == 495


def test_the_nearest_two_of_all_twenty_stops_are_those_on_the_page(layout):
    frame = Frame.around(layout.field.shape)
    at = {stop.number: frame.to_ground(shapely.Point(stop.place)) for stop in layout.stops}
    assert len(at) == 20
    pair = min(itertools.combinations(at, 2), key=lambda two: at[two[0]].distance(at[two[1]]))
    assert pair == (7, 12)
    apart = at[7].distance(at[12])
    assert apart == pytest.approx(math.hypot(242 - 216, 157 - 118), abs=1)
    assert apart > 0.45 * math.sqrt(201.2**2 / 5)


def test_no_order_is_shorter_with_the_rows_and_the_one_without_them_is_1258():
    orders = list(itertools.permutations(range(1, 9)))
    at = places()
    for across, order, metres in (
        (1, (1, 2, 3, 4, 5, 7, 6, 8), 1258),
        (2, tuple(range(1, 9)), 1902),
    ):
        ways = [[math.hypot(across * (a[0] - b[0]), a[1] - b[1]) for b in at] for a in at]
        least = min(
            sum(ways[a][b] for a, b in itertools.pairwise((0, *each, 0))) for each in orders
        )
        assert least == pytest.approx(length(order, across))
        assert round(least) == metres
    assert round(length((1, 2, 3, 4, 5, 7, 6, 8), 2)) == 2095
    assert (east((1, 2, 3, 4, 5, 7, 6, 8)), east(tuple(range(1, 9)))) == (920, 742)
