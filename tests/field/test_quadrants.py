"""Four parts of equal area, in as few pieces as can be, named as a scout would."""

from __future__ import annotations

import pytest
import shapely
from shapely import MultiPolygon, box
from shapely.affinity import rotate

from quarterwalk.field.cut import Across, straight_cut
from quarterwalk.field.quadrants import quarter
from quarterwalk.walk import QUADRANTS, Quadrant
from tests.field.shapes import PIECES, SHAPES, pieces

ALL = SHAPES | PIECES


@pytest.mark.parametrize("name", ALL)
def test_the_four_parts_have_equal_areas(name):
    shape = pieces(ALL[name])
    for part in quarter(shape).values():
        assert part.area == pytest.approx(shape.area / 4, rel=1e-6)


@pytest.mark.parametrize("name", ALL)
def test_the_parts_make_up_the_field_and_do_not_overlap(name):
    shape = pieces(ALL[name])
    parts = list(quarter(shape).values())
    assert shapely.union_all(parts).symmetric_difference(shape).area < 1e-6 * shape.area
    assert sum(part.area for part in parts) == pytest.approx(shape.area, rel=1e-6)
    assert all(part.is_valid for part in parts)


@pytest.mark.parametrize("name", SHAPES)
def test_every_part_of_a_field_in_one_piece_is_in_one_piece(name):
    assert [len(part.geoms) for part in quarter(pieces(SHAPES[name])).values()] == [1, 1, 1, 1]


@pytest.mark.parametrize("turn", range(0, 360, 15))
@pytest.mark.parametrize("name", ["square", "turned", "circle with a corner cut", "T", "hole"])
def test_names_say_how_the_parts_lie_to_each_other(name, turn):
    parts = quarter(pieces(rotate(SHAPES[name], turn)))
    middle = {quadrant: part.centroid for quadrant, part in parts.items()}
    assert middle[Quadrant.NW].y > middle[Quadrant.SW].y
    assert middle[Quadrant.NE].y > middle[Quadrant.SE].y
    assert middle[Quadrant.NW].x < middle[Quadrant.NE].x
    assert middle[Quadrant.SW].x < middle[Quadrant.SE].x


def test_a_square_is_quartered_through_its_middle():
    parts = quarter(pieces(box(0, 0, 100, 100)))
    assert parts[Quadrant.NW].equals(box(0, 50, 50, 100))
    assert parts[Quadrant.SE].equals(box(50, 0, 100, 50))
    assert tuple(parts) == QUADRANTS


def test_a_comb_cut_straight_would_fall_to_pieces():
    # what the chords are for: the test of one piece a part must be able to fail
    west = straight_cut(pieces(SHAPES["comb"]), Across.WEST_EAST).first
    assert straight_cut(west, Across.NORTH_SOUTH).pieces > 2


def test_two_pieces_of_one_size_are_halved_each():
    fields = pieces(shapely.union_all([box(0, 0, 400, 400), box(500, 0, 900, 400)]))
    assert [len(part.geoms) for part in quarter(fields).values()] == [1, 1, 1, 1]


def test_the_quarters_do_not_depend_on_where_the_ring_begins():
    ring = list(SHAPES["C"].exterior.coords)[:-1]
    turned = MultiPolygon([shapely.Polygon(ring[3:] + ring[:3])])
    for quadrant, part in quarter(pieces(SHAPES["C"])).items():
        assert part.symmetric_difference(quarter(turned)[quadrant]).area < 1
