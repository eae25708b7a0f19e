"""Stops keep off the edge, stand for their quadrant and change from day to day."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
import shapely
from shapely import box

from quarterwalk.field.quadrants import quarter
from quarterwalk.field.stops import choose_stops, dice, ground_of
from tests.field.shapes import PIECES, SHAPES, pieces

DAY = date(2026, 7, 1)
MARGIN = 15.0
ALL = SHAPES | PIECES


def stops_of(shape, split=(2, 3), day=DAY):
    field = pieces(shape)
    rng = dice("Windmill 80", day)
    for part in quarter(field).values():
        ground = ground_of(field, part, MARGIN)
        yield field, part, ground, choose_stops(ground, split, rng)


@pytest.mark.parametrize("name", ALL)
def test_stops_lie_inside_their_quadrant_and_keep_the_margin(name):
    for field, part, ground, stops in stops_of(ALL[name]):
        points = shapely.points(np.concatenate(stops))
        assert shapely.contains_properly(part, points).all()
        assert shapely.distance(field.boundary, points).min() >= ground.margin


@pytest.mark.parametrize("name", ALL)
def test_the_margin_is_half_the_largest_circle_where_a_quadrant_is_thin(name):
    for _, part, ground, _ in stops_of(ALL[name]):
        circle = shapely.maximum_inscribed_circle(part, tolerance=0.01).length
        assert ground.margin == pytest.approx(min(MARGIN, circle / 2), rel=0.05)
        assert ground.margin >= min(MARGIN, circle / 2)


@pytest.mark.parametrize("split", [(2, 3), (1, 2, 2), (5,), (1,), (4, 6)])
def test_each_loop_has_the_stops_asked_for(split):
    for _, _, _, stops in stops_of(SHAPES["L"], split):
        assert tuple(map(len, stops)) == split


def test_the_same_day_has_the_same_stops_and_the_next_has_none_of_them():
    def places(day):
        return np.concatenate([np.concatenate(s) for *_, s in stops_of(SHAPES["C"], day=day)])

    assert (places(DAY) == places(DAY)).all()
    between = shapely.distance(
        shapely.MultiPoint(places(DAY)), shapely.points(places(DAY + timedelta(days=7)))
    )
    assert between.min() > 1.0


def test_fields_of_one_shape_do_not_share_their_stops():
    field = pieces(box(0, 0, 400, 400))
    ground = ground_of(field, field, MARGIN)
    one, other = (choose_stops(ground, (2, 3), dice(name, DAY)) for name in ("Depot", "Turnrow"))
    assert not np.allclose(np.concatenate(one), np.concatenate(other))


def test_over_many_days_every_part_of_a_quadrant_gets_its_share():
    field = pieces(box(0, 0, 430, 430))
    ground = ground_of(field, field, MARGIN)
    counts = np.zeros((4, 4))
    days = 400
    for day in range(days):
        for x, y in np.concatenate(
            choose_stops(ground, (2, 3), dice("Depot", DAY + timedelta(day)))
        ):
            counts[int((x - MARGIN) // 100), int((y - MARGIN) // 100)] += 1
    share = counts / counts.mean()
    # a part may be visited a third more or less often than another, for the sake of the spread
    assert share.min() > 0.6
    assert share.max() < 1.4


def test_no_two_stops_of_a_quadrant_stand_together():
    for *_, part, _, stops in stops_of(SHAPES["square"]):
        points = np.concatenate(stops)
        ways = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1))
        np.fill_diagonal(ways, np.inf)
        assert ways.min() > 0.4 * np.sqrt(part.area / 5)
