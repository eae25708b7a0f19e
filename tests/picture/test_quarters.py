"""Each quarter by itself, in compass order, on one scale."""

from __future__ import annotations

import pytest

from quarterwalk.picture import Theme, quarter_mark, quarters_small
from quarterwalk.walk import Quadrant
from tests.picture.drawn import cases, having, text_boxes, texts

CORNER = {
    Quadrant.NW: (False, False),
    Quadrant.NE: (True, False),
    Quadrant.SW: (False, True),
    Quadrant.SE: (True, True),
}


def small(name: str, width: int = 400) -> str:
    case = cases()[name]
    return quarters_small(
        case.reading, case.call, theme=Theme.PRINT, width=width, id="s", language="en"
    )


def test_north_stands_above_south_and_west_left_of_east() -> None:
    at = {text: (left, top) for text, left, top, *_ in text_boxes(small("over"))}
    assert at["NW"][1] == at["NE"][1] < at["SW"][1] == at["SE"][1]
    assert at["NW"][0] == at["SW"][0] < at["NE"][0] == at["SE"][0]


def test_each_quarter_tells_its_insects_and_its_plants() -> None:
    # 34 insects, the first 25 plants of 100 with one each and nine of the next
    assert {"25 on 25", "9 on 25", "0 on 25"} <= set(texts(small("over")))


def test_a_quarter_over_the_line_is_filled_and_one_short_of_it_is_open() -> None:
    svg = small("one measure")  # 18 in the north-west, none elsewhere; the line is 15
    assert len(having(svg, "qw-past")) == 1
    assert len(having(svg, "qw-short-of")) == 3


def test_a_quarter_nobody_looked_at_has_no_dot() -> None:
    svg = small("two plants")
    assert len(having(svg, "qw-past")) == 2
    assert not having(svg, "qw-short-of")
    assert texts(svg).count("–") == 6


def test_without_a_line_there_are_numbers_and_nothing_that_measures_them() -> None:
    svg = small("too early")
    for cls in ("qw-hatch", "qw-axis", "qw-unseen", "qw-short-of", "qw-past"):
        assert not having(svg, cls)
    assert "NW" in texts(svg)
    assert sum(" on 25" in text for text in texts(svg)) == 4
    assert not [rect for rect in having(svg, "qw-ink", "rect") if rect.get("width") == "3"]


@pytest.mark.parametrize("quadrant", Quadrant)
def test_the_quarter_mark_fills_its_own_corner(quadrant: Quadrant) -> None:
    svg = quarter_mark(quadrant, theme=Theme.PRINT, id="q", language="en")
    (corner,) = having(svg, "qw-ink", "rect")
    right, lower = (float(corner.get(name, "0")) > 10 for name in ("x", "y"))
    assert (right, lower) == CORNER[quadrant]
