from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree

import pytest

from quarterwalk.picture import Theme
from quarterwalk.picture.ladder import (
    FIRST_POST,
    RUNG_HEIGHT,
    RUNG_WIDTH,
    SECOND_POST,
    Rung,
    ladder_rung,
)
from quarterwalk.picture.measure import Measure

SVG = "{http://www.w3.org/2000/svg}"


def insects(value: int, low: float, high: float, line: int = 25) -> Measure:
    return Measure(Fraction(value), (low, high), Fraction(line), value >= line)


def squares(value: int, low: float, high: float, floor: int = 85) -> Measure:
    return Measure(Fraction(value), (low, high), Fraction(floor), value < floor)


def drawn(rung: Rung) -> ElementTree.Element:
    return ElementTree.fromstring(ladder_rung(rung, told="told", theme=Theme.SCREEN, id="r"))


def posts(svg: ElementTree.Element) -> list[float]:
    """Give the middle of every post."""
    rects = svg.iter(f"{SVG}rect")
    return [float(rect.get("x", "0")) + float(rect.get("width", "0")) / 2 for rect in rects]


def classes(svg: ElementTree.Element) -> list[str]:
    return [each.get("class", "") for each in svg.iter()]


def dots(svg: ElementTree.Element) -> list[float]:
    return [float(circle.get("cx", "0")) for circle in svg.iter(f"{SVG}circle")]


@pytest.mark.parametrize(("line", "floor"), [(25, 90), (25, 75), (10, 85), (45, 60)])
def test_posts_stand_on_one_x_whatever_the_line_and_the_floor(line: int, floor: int) -> None:
    svg = drawn(Rung(insects(9, 5, 14, line), squares(95, 92, 97, floor)))
    assert posts(svg) == [FIRST_POST, SECOND_POST]


def test_insects_stand_at_their_share_of_the_line() -> None:
    # half of the line lies half-way from the good end, at 4, to the post, at 58
    (x, *_) = dots(drawn(Rung(insects(15, 8, 22, 30), squares(95, 92, 97))))
    assert x == pytest.approx(31)
    (x, *_) = dots(drawn(Rung(insects(5, 2, 9, 10), squares(95, 92, 97))))
    assert x == pytest.approx(31)


def test_squares_stand_in_points_from_their_floor() -> None:
    right = [
        dots(drawn(Rung(insects(9, 5, 14), squares(floor + 5, floor + 2, floor + 8, floor))))[1]
        for floor in (75, 85)
    ]
    assert right[0] == pytest.approx(right[1])
    assert right[0] > SECOND_POST


def test_a_reading_past_its_line_lies_between_the_posts() -> None:
    left, right = dots(drawn(Rung(insects(34, 24, 47), squares(79, 75, 83))))
    assert FIRST_POST < left < right < SECOND_POST


def test_a_leaf_across_the_post_has_two_colours_and_one_clear_of_it_has_one() -> None:
    across = drawn(Rung(insects(27, 20, 36), None))
    assert classes(across).count("qw-leaf") == classes(across).count("qw-past") == 1
    clear = drawn(Rung(insects(9, 5, 14), None))
    assert classes(clear).count("qw-leaf") == 1
    assert "qw-past" not in classes(clear)


def test_what_lies_past_the_middle_is_an_arrow_and_no_dot() -> None:
    svg = drawn(Rung(insects(90, 70, 120), squares(40, 30, 50)))
    assert classes(svg).count("qw-beyond") == 2
    assert dots(svg) == []
    assert "qw-past" not in classes(svg)


def test_a_rule_without_squares_draws_one_post() -> None:
    assert posts(drawn(Rung(insects(9, 5, 14), None))) == [FIRST_POST]


def test_more_blasted_squares_lie_further_in() -> None:
    few = Measure(Fraction(2), None, Fraction(10), past=False)
    many = Measure(Fraction(14), None, Fraction(10), past=True)
    at = [dots(drawn(Rung(insects(9, 5, 14), each, falling=False)))[1] for each in (few, many)]
    assert at[1] < SECOND_POST < at[0]


def test_a_set_that_cannot_be_read_is_drawn_hollow() -> None:
    thin = Measure(Fraction(95), (80, 99), Fraction(85), past=False, readable=False)
    assert "qw-hollow" in classes(drawn(Rung(insects(9, 5, 14), thin)))


def test_what_is_not_known_looks_empty() -> None:
    svg = drawn(Rung())
    assert classes(svg).count("qw-unseen") == 1
    assert posts(svg) == dots(svg) == []


def test_hatching_runs_on_from_row_to_row() -> None:
    # lines lie along x + y = a multiple of the step; a row is a whole number of steps
    svg = drawn(Rung(insects(9, 5, 14), squares(95, 92, 97)))
    (hatch,) = [p for p in svg.iter(f"{SVG}path") if p.get("class") == "qw-hatch"]
    starts = [part.split("L")[0].split(",") for part in hatch.get("d", "")[1:].split("M")]
    sums = {round(float(x) + float(y)) for x, y in starts}
    assert all((total + RUNG_HEIGHT) in sums for total in sums if total + RUNG_HEIGHT <= max(sums))


def test_a_rung_is_three_rows_tall_so_that_a_taller_row_has_its_posts_too() -> None:
    svg = drawn(Rung(insects(9, 5, 14), None))
    assert svg.get("viewBox") == f"0 0 {RUNG_WIDTH:g} {3 * RUNG_HEIGHT:g}"
    assert {c.get("cy") for c in svg.iter(f"{SVG}circle")} == {f"{1.5 * RUNG_HEIGHT:g}"}


def test_it_says_what_it_is_told_to_whoever_hears_it() -> None:
    svg = drawn(Rung())
    assert svg.get("role") == "img"
    assert svg.findtext(f"{SVG}title") == "told"
