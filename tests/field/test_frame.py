"""The flat frame around a field: north up, areas true, and back again without a loss."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, box

from quarterwalk.field import Frame, hectares_of, metres_along


@given(
    st.floats(-179, 179),
    st.floats(-80, 80),
    st.floats(-8000, 8000),
    st.floats(-8000, 8000),
    st.booleans(),
)
def test_there_and_back_is_the_same_place(lon, lat, east, north, straight):
    frame = Frame(lon, lat, straight)
    back = frame.to_ground(frame.to_globe(Point(east, north)))
    assert (back.x, back.y) == pytest.approx((east, north), abs=1e-5)


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("lat", [-60, -34, 0, 33.45, 51, 70])
def test_areas_in_a_frame_are_those_of_the_ellipsoid(lat, straight):
    frame = Frame(-101.9, lat, straight)
    square = box(-600, -400, 600, 400)
    assert hectares_of(frame.to_globe(shapely.segmentize(square, 50))) == pytest.approx(
        96, rel=1e-8
    )


def test_north_is_up_and_a_metre_a_metre_at_the_middle():
    frame = Frame(-101.9, 33.45)
    north = frame.to_globe(Point(0, 100))
    assert (north.x, north.y > 33.45) == (pytest.approx(-101.9), True)
    assert metres_along([(-101.9, 33.45), (north.x, north.y)]) == pytest.approx(100, abs=1e-6)


def test_in_a_straight_frame_a_parallel_is_a_straight_line():
    frame = Frame(-101.9, 52.0, straight=True)
    line = frame.to_ground(
        shapely.LineString([(-101.92, 52.01), (-101.9, 52.01), (-101.88, 52.01)])
    )
    assert [y for _, y in line.coords] == pytest.approx([line.coords[0][1]] * 3, abs=1e-9)
