"""The sketch shows a scout the field, its quarters, and the way through its stops."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction

import pytest
from shapely import Point, Polygon, box, union_all

from quarterwalk.field import Plan, lay_out
from quarterwalk.picture import Found, Theme, field_sketch, found_in
from quarterwalk.picture.ground import Box
from quarterwalk.picture.window import window_on
from quarterwalk.walk import Quadrant
from tests.picture.drawn import (
    SHAPES,
    cases,
    field_of,
    having,
    layout_of,
    parsed,
    size_of,
    text_boxes,
    texts,
)

WIDE, TALL = 360, 460
NUMBER = re.compile(r"\d+")
FOUND = {
    Quadrant.NW: Found(5, 25, Fraction(84, 100)),
    Quadrant.NE: Found(14, 25, Fraction(71, 100)),
    Quadrant.SW: Found(0, 25, Fraction(83, 100)),
    Quadrant.SE: Found(0, 0),
}


def sketch(shape: str, name: str = "", **choices: object) -> str:
    return field_sketch(
        layout_of(shape, name),
        theme=Theme.PRINT,
        width=WIDE,
        height=TALL,
        id="f",
        language="en",
        **choices,  # type: ignore[arg-type]
    )


def discs(svg: str) -> list[tuple[int, Polygon]]:
    """Give each stop's number with its disc."""
    found = []
    for group in having(svg, "qw-stop", "g"):
        disc, number = group
        x, y, r = (float(disc.get(name, "0")) for name in ("cx", "cy", "r"))
        found.append((int(number.text or "0"), Point(x, y).buffer(r)))
    return found


def ground_paths(svg: str) -> list[str]:
    """Give the class of each quarter's ground, in the order of the quarters."""
    return [each.get("class", "").split()[0] for each in having(svg, "qw-even", "path")]


@pytest.mark.parametrize("shape", SHAPES)
def test_20_stops_are_numbered_in_the_order_of_walking(shape: str) -> None:
    svg = sketch(shape)
    assert sorted(number for number, _ in discs(svg)) == list(range(1, 21))
    assert len(having(svg, "qw-stop-1", "circle")) == 8 + 1  # and one in the key
    assert len(having(svg, "qw-stop-2", "circle")) == 12 + 1


@pytest.mark.parametrize("shape", SHAPES)
def test_stops_lie_inside_the_drawing(shape: str) -> None:
    svg = sketch(shape)
    paper = box(0, 0, *size_of(svg))
    assert all(paper.contains(disc) for _, disc in discs(svg))


@pytest.mark.parametrize("shape", [name for name in SHAPES if name != "Narrow"])
def test_the_name_of_a_quarter_lies_in_it_and_covers_no_stop(shape: str) -> None:
    svg = sketch(shape)
    stops = union_all([disc for _, disc in discs(svg)])
    areas = dict(zip(Quadrant, having(svg, "qw-even", "path"), strict=True))
    for text, left, top, right, bottom in text_boxes(svg):
        if text in areas:
            words = box(left, top, right, bottom)
            assert not words.intersects(stops)
            assert inside(areas[Quadrant(text)].get("d", "")).contains(words)


def inside(path: str) -> Polygon:
    """Give the area of a path of straight lines."""
    area = Polygon()
    for ring in re.findall(r"M([^MZ]*)Z", path):
        area = area.symmetric_difference(
            Polygon([tuple(map(float, pair.split(","))) for pair in ring.split("L")])
        )
    return area


def test_words_that_do_not_fit_into_a_narrow_quarter_stand_beside_the_field() -> None:
    svg = sketch("Narrow")
    field = union_all([inside(each.get("d", "")) for each in having(svg, "qw-even", "path")])
    names = [box(*rest) for text, *rest in text_boxes(svg) if text in set(Quadrant)]
    assert len(names) == 4
    assert not any(name.intersects(field) for name in names)


def test_the_gate_is_named_where_it_is_known_and_its_word_lies_outside_the_field() -> None:
    svg = sketch("Long 80")
    (gate,) = [box(*rest) for text, *rest in text_boxes(svg) if text == "gate"]
    field = union_all([inside(each.get("d", "")) for each in having(svg, "qw-even", "path")])
    assert gate.intersection(field).area == 0
    assert len(having(svg, "qw-gate")) == 1


def test_the_scale_bar_tells_the_true_length() -> None:
    svg = sketch("Long 80")
    # The field is 780 m from south to north: so long is its edge on the paper.
    edge = inside(having(svg, "qw-edge")[0].get("d", ""))
    px_per_metre = (edge.bounds[3] - edge.bounds[1]) / 780
    feet, metres = (
        float(re.findall(r"h([\d.]+)", bar.get("d", ""))[0]) for bar in having(svg, "qw-measure")
    )
    said = [
        float(text.split()[0].replace(",", ""))
        for text in texts(svg)
        if text.endswith((" feet", " m"))
    ]
    assert feet / px_per_metre == pytest.approx(said[0] * 0.3048, rel=0.01)
    assert metres / px_per_metre == pytest.approx(said[1], rel=0.01)


def test_north_is_up() -> None:
    window = window_on(layout_of("Long 80"), Box(0, 0, 300, 400), way=True)
    assert window.quarters[Quadrant.NW].centroid.y < window.quarters[Quadrant.SW].centroid.y
    assert window.quarters[Quadrant.NW].centroid.x < window.quarters[Quadrant.NE].centroid.x
    assert "N" in texts(sketch("Long 80"))


def test_a_hole_and_a_second_piece_are_drawn() -> None:
    for shape in ("With a hole", "Two pieces"):
        assert having(sketch(shape), "qw-edge")[0].get("d", "").count("M") == 2


def test_textures_are_never_diagonal() -> None:
    svg = sketch("Long 80")
    marks = [*having(svg, "qw-texture"), *having(svg, "qw-dots")]
    assert len(marks) == 3  # the north-west is plain
    for mark in marks:
        assert not re.search(r"l", mark.get("d", "").lower())
        for dx, dy in re.findall(r"m(-?[\d.]+),(-?[\d.]+)", mark.get("d", "")):
            assert float(dx) == 0 or float(dy) == 0 or "h7" in mark.get("d", "")


def test_what_was_found_is_written_and_the_most_is_the_darkest() -> None:
    svg = sketch("C", found=FOUND, way=False)
    assert {"14 insects", "71 % good", "5 insects", "not walked"} <= set(texts(svg))
    assert ground_paths(svg) == ["qw-ground-2", "qw-ground-4", "qw-ground", "qw-ground"]
    assert not discs(svg)


def test_a_quarter_nobody_walked_never_shows_a_zero() -> None:
    svg = sketch("Long 80", found=dict.fromkeys(Quadrant, Found(0, 0)), way=False)
    assert not any(text.startswith("0") for text in texts(svg))


def test_found_in_takes_the_counts_of_the_walk() -> None:
    read = cases()["over"].reading
    assert sum(each.insects for each in found_in(read).values()) == 34
    assert [each.looked for each in found_in(read).values()] == [25, 25, 25, 25]
    swept = found_in(cases()["swept"].reading)
    assert [each.looked for each in swept.values()] == [125, 125, 125, 125]


@pytest.mark.parametrize("name", ['A & B <i>"40"</i>', "حقل القطن", "long " * 40])
def test_any_name_can_be_told(name: str) -> None:
    title = parsed(sketch("Long 80", name)).findtext("{*}title") or ""
    told = title.removeprefix("Sketch of ")
    assert len(told) <= 60
    assert " ".join(name.split()).startswith(told.removesuffix("…"))


@pytest.mark.parametrize("split", [(1,), (5, 5), (2, 2, 2)])
@pytest.mark.parametrize("size", [(160, 200), (720, 900)])
def test_any_plan_of_loops_can_be_drawn_on_any_paper(
    split: tuple[int, ...], size: tuple[int, int]
) -> None:
    layout = lay_out(field_of("Long 80", SHAPES["Long 80"]), date(2026, 7, 2), plan=Plan(split))
    svg = field_sketch(
        layout, theme=Theme.PRINT, width=size[0], height=size[1], id="f", language="en"
    )
    assert len(discs(svg)) == 4 * sum(split)
    assert all(left > -3 and right < size[0] + 3 for _, left, _, right, _ in text_boxes(svg))
