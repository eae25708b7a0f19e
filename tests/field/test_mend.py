"""A boundary is mended where it is plain what was meant, and refused where it is not."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.field.area import acres_of
from quarterwalk.field.mend import LEAST_ACRES, MOST_ACRES, Mended, mend
from quarterwalk.field.rings import NoField, Ring
from quarterwalk.field.tangle import tangled

LON, LAT = -101.9, 33.4


def ring(*points: tuple[float, float], closed: bool = True) -> Ring:
    """Give a ring of points in thousandths of a degree from the corner of the field."""
    drawn = [*points, points[0]] if closed else points
    return np.array(drawn) / 1000 + [LON, LAT]


def square(x: float = 0, y: float = 0, size: float = 8) -> Ring:
    return ring((x, y), (x + size, y), (x + size, y + size), (x, y + size))


def refused(*parts: tuple[Ring, ...]) -> NoField:
    with pytest.raises(NoField) as told:
        mend(parts)
    return told.value


def acres(*parts: tuple[Ring, ...]) -> float:
    return acres_of(shapely.union_all([shapely.Polygon(o, h) for o, *h in parts]))


WHOLE = mend([(square(),)])


def test_a_plain_boundary_is_left_as_it_is() -> None:
    assert Mended(WHOLE.shape, (), turned=False) == WHOLE
    assert shapely.equals(WHOLE.shape, shapely.Polygon(square()))


def test_an_open_ring_is_closed() -> None:
    made = mend([(square()[:-1],)])
    assert shapely.equals(made.shape, WHOLE.shape)
    assert made.done == ("the ring was not closed; its first point was repeated at the end.",)


def test_points_that_repeat_are_dropped() -> None:
    made = mend([(np.repeat(square(), [1, 3, 1, 1, 1], axis=0),)])
    assert len(made.shape.geoms[0].exterior.coords) == 5
    assert made.done == ("2 points that only repeat the one before them were dropped.",)


def test_a_clockwise_ring_is_turned() -> None:
    made = mend([(square()[::-1],)])
    assert made.turned
    assert made.shape.geoms[0].exterior.is_ccw


def test_the_outer_ring_runs_counter_clockwise_and_holes_clockwise() -> None:
    made = mend([(square(), square(2, 2, 2))])
    assert made.turned
    assert made.shape.geoms[0].exterior.is_ccw
    assert not made.shape.geoms[0].interiors[0].is_ccw


def test_latitude_first_is_told_by_a_latitude_beyond_90() -> None:
    made = mend([(square()[:, ::-1],)])
    assert shapely.equals(made.shape, WHOLE.shape)
    assert "wrong way round; they were swapped." in made.done[0]


def test_one_latitude_beyond_90_is_a_slip_and_swaps_nothing() -> None:
    slipped = square() + [15, 0]
    slipped[2, 1] += 100
    assert refused((slipped,)).value == "-86.892, 133.408"


def test_where_both_could_be_latitudes_nothing_is_swapped_but_it_is_said() -> None:
    east = square() + [15, 0]  # longitude -86.9
    made = mend([(east[:, ::-1],)])
    assert made.shape.bounds[1] < -80
    assert "beyond a polar circle" in made.done[0]
    assert mend([(east,)]).done == ()


def test_a_small_fold_at_a_corner_is_mended() -> None:
    folded = ring((0, 0), (8, 0), (8, 8.02), (7.98, 8.02), (8.02, 8), (0, 8))
    made = mend([(folded,)])
    assert "small fold" in made.done[0]
    assert acres_of(made.shape) == pytest.approx(acres_of(WHOLE.shape), rel=0.005)


def test_a_figure_of_eight_is_refused_with_the_acres_of_its_halves() -> None:
    told = refused((ring((0, 0), (8, 8), (8, 0), (0, 8)),))
    half = acres((ring((0, 0), (4, 4), (0, 8)),))
    assert f"{half:.3g} and {half:.3g} acres" in told.value
    assert "Nobody can tell" in told.hint


# Two sides that cross near the tip of a triangle cut it into two triangles of one shape:
# with half bases of 4 and w the small one has w²/16 = r of the large one's area, and what
# runs the other way round makes 2r / (1 + r) of the whole.
@pytest.mark.parametrize(("half_base", "share"), [(0.25, 0.0078), (0.35, 0.0152)])
def test_a_fold_may_change_the_area_by_up_to_a_hundredth(half_base: float, share: float) -> None:
    crossed = ring((0, 0), (8, 0), (4 - half_base, 16), (4 + half_base, 16))
    assert 2 * half_base**2 / (16 + half_base**2) == pytest.approx(share, abs=0.00005)
    if share < 0.01:
        assert f"changed the area by {share:.2%}".replace("%", " %") in mend([(crossed,)]).done[0]
    else:
        assert "crosses itself" in refused((crossed,)).value


def test_a_ring_that_only_touches_itself_keeps_its_area() -> None:
    pinched = ring((0, 0), (8, 0), (8, 8), (4, 0), (0, 8))
    made = mend([(pinched,)])
    assert acres_of(made.shape) == pytest.approx(
        acres((ring((0, 0), (4, 0), (0, 8)),), (ring((4, 0), (8, 0), (8, 8)),)), rel=1e-6
    )
    assert made.done == ("the ring touched itself; it was mended, and the area is the same.",)


def test_a_hole_is_kept() -> None:
    made = mend([(square(), square(2, 2, 2)[::-1])])
    expected = acres((square(),)) - acres((square(2, 2, 2),))
    assert acres_of(made.shape) == pytest.approx(expected, rel=1e-6)
    assert made.done == ()


def test_a_hole_outside_is_left_out_and_told() -> None:
    made = mend([(square(), square(20, 0, 2))])
    assert shapely.equals(made.shape, WHOLE.shape)
    assert "lies outside" in made.done[0]


def test_a_hole_over_the_edge_is_cut_off_there() -> None:
    made = mend([(square(), square(6, 3, 4))])
    left = acres((square(),)) - acres((ring((6, 3), (8, 3), (8, 7), (6, 7)),))
    assert acres_of(made.shape) == pytest.approx(left, rel=1e-6)
    assert "reached over" in made.done[0]


def test_a_hole_along_the_edge_becomes_a_notch() -> None:
    made = mend([(square(), square(6, 3, 2))])
    left = acres((square(),)) - acres((square(6, 3, 2),))
    assert acres_of(made.shape) == pytest.approx(left, rel=1e-6)
    assert made.done == ("rings that touch were joined to one boundary; the area is the same.",)


def test_holes_that_overlap_are_joined() -> None:
    made = mend([(square(), square(2, 2, 2), square(3, 2, 2))])
    left = acres((square(),)) - acres((ring((2, 2), (5, 2), (5, 4), (2, 4)),))
    assert acres_of(made.shape) == pytest.approx(left, rel=1e-6)
    assert made.done == ("holes that overlap were joined.",)


def test_parts_that_share_an_edge_become_one() -> None:
    made = mend([(square(),), (square(8),)])
    assert len(made.shape.geoms) == 1
    assert made.done == ("parts that share an edge were joined.",)


def test_parts_that_overlap_a_little_become_one() -> None:
    made = mend([(square(),), (square(7.99),)])
    assert len(made.shape.geoms) == 1
    assert made.done == ("parts that overlap a little were joined.",)


def test_parts_that_overlap_much_are_refused() -> None:
    told = refused((square(),), (square(4),))
    assert told.value == "parts that overlap by 33.3 % of the field"  # 4 of 12


def test_slivers_are_dropped_and_pinholes_filled() -> None:
    made = mend([(square(), square(2, 2, 0.02)), (square(20, 0, 0.02),)])
    assert shapely.equals(made.shape, WHOLE.shape)
    assert made.done == (
        "a piece of under 0.01 acres was dropped.",
        "a hole of under 0.01 acres was filled.",
    )


@pytest.mark.parametrize(
    ("part", "said"),
    [
        ((), "an empty shape"),
        ((np.empty((0, 2)),), "an empty shape"),
        ((ring((0, 0), (8, 0)),), "fewer than 3 different points"),
        ((ring((0, 0), (4, 0), (8, 0)),), "points on one line"),
        ((square() * [1, np.nan],), "-101.9, nan"),
        ((square() * [np.inf, 1],), "-inf, 33.4"),
        ((square() + [500_000, 0],), "499898.1, 33.4"),
        ((square() + [360, 0],), "258.1, 33.4"),
        ((square(), square()), "holes that leave nothing"),
    ],
)
def test_what_is_no_field_is_refused(part: tuple[Ring, ...], said: str) -> None:
    assert refused(part).value.startswith(said)


@pytest.mark.parametrize(("size", "hint"), [(0.3, "Too small"), (80, "a farm or a district")])
def test_a_tenth_of_an_acre_and_a_district_are_no_fields(size: float, hint: str) -> None:
    told = refused((square(size=size),))
    assert hint in told.hint
    written = float(told.value.removesuffix(" acres").replace(",", ""))
    assert written == pytest.approx(acres((square(size=size),)), rel=1e-3)
    assert not LEAST_ACRES <= written <= MOST_ACRES


def test_a_field_on_both_sides_of_180_degrees_is_refused_plainly() -> None:
    crossing = np.array([(179.99, 0), (-179.99, 0), (-179.99, 0.01), (179.99, 0.01)])
    assert "180 degrees" in refused((crossing,)).hint


def test_a_scribble_is_refused_before_time_is_spent_on_it() -> None:
    points = np.random.default_rng(1).uniform(0, 8, (3000, 2)) / 1000 + [LON, LAT]
    assert tangled([points])
    assert "many times" in refused((points,)).value


def test_a_finely_drawn_circle_is_no_scribble() -> None:
    turn = np.linspace(0, 2 * np.pi, 5000)
    assert not tangled([np.column_stack([np.cos(turn), np.sin(turn)])])


def test_notices_are_spoken_in_the_language_asked_for() -> None:
    with pytest.raises(ValueError, match="language"):
        mend([(square(),)], language="xx")


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0, 8, allow_subnormal=False), st.floats(0, 8, allow_subnormal=False)),
        max_size=12,
    ),
    st.lists(st.tuples(st.floats(0, 8), st.floats(0, 8)), max_size=6),
)
def test_whatever_is_drawn_gives_a_valid_field_or_a_reason(
    outer: list[tuple[float, float]], hole: list[tuple[float, float]]
) -> None:
    corner = [LON, LAT]
    rings = [np.array(drawn).reshape(-1, 2) / 1000 + corner for drawn in (outer, hole)]
    try:
        made = mend([(rings[0], rings[1])])
    except NoField as told:
        reason = f"{told.value}{told.expected}"
    else:
        reason = "a field"
        assert made.shape.is_valid
        assert LEAST_ACRES * 0.9 <= acres_of(made.shape) <= MOST_ACRES
        assert all(piece.exterior.is_ccw for piece in made.shape.geoms)
    assert reason
