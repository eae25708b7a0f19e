"""Ground past the line is hatched at 45 degrees, and posts fly their flags away from it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.picture.ground import Box, flag, hatch_lines, hatched
from tests.picture.drawn import parsed


@given(left=st.floats(0, 900), wide=st.floats(3, 900), top=st.floats(0, 90), tall=st.floats(3, 90))
def test_hatching_stays_in_its_ground_at_45_degrees(
    left: float, wide: float, top: float, tall: float
) -> None:
    lines = hatch_lines(Box(left, top, left + wide, top + tall))
    for x1, y1, x2, y2 in lines:
        assert x2 - x1 == pytest.approx(y1 - y2)
        assert left - 1e-6 <= x1 < x2 <= left + wide + 1e-6
        assert top - 1e-6 <= y2 < y1 <= top + tall + 1e-6


def test_wide_ground_is_hatched_throughout() -> None:
    lines = hatch_lines(Box(100, 30, 400, 90))
    assert min(x1 for x1, *_ in lines) < 112
    assert max(x2 for _, _, x2, _ in lines) > 388


def test_ground_without_width_has_no_hatching() -> None:
    assert hatched(Box(100, 30, 100, 90)) == ""


@pytest.mark.parametrize("leftward", [True, False])
def test_a_flag_lies_on_one_side_of_its_post(leftward: bool) -> None:
    polygon = parsed(f"<g>{flag(200, '25', 17, leftward=leftward)}</g>")[0]
    across = [float(pair.split(",")[0]) for pair in polygon.get("points", "").split()]
    assert all(x <= 202 for x in across) if leftward else all(x >= 198 for x in across)
