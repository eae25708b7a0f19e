"""The card's tables put every count on the side that exact fractions put it on."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.card.limits import Judged, limits
from quarterwalk.guideline import BlastedShare, Floor, Line, load_guideline
from tests.card import by_hand
from tests.card.ground import content, insect_side, reached, rows_of, square_side

GOLDEN = sorted((Path(__file__).parent / "golden").glob("*.json"))
SOURCE = load_guideline("southern-high-plains").sources[0]


def tenths(low: int, high: int) -> st.SearchStrategy[str]:
    """Write numbers as a guideline file would, to a tenth or a hundredth."""
    return st.integers(low, high).map(lambda n: f"{n / 100:.2f}")


@pytest.mark.parametrize(("name", "line"), by_hand.LINES.items())
def test_every_count_of_insects_is_on_its_exact_side(name: str, line: int) -> None:
    told = content(name)["limits"]
    assert [table["line"] for table in told["insects"]] == [line]
    for plants in range(1, 151):
        for insects in range(plants * line // 100 + 3):
            expected = by_hand.insect_side(line, plants, insects)
            assert insect_side(told, line, plants, insects) == expected, (plants, insects)


@pytest.mark.parametrize("floor", by_hand.FLOORS["southern-high-plains"].values())
def test_every_count_of_lost_squares_is_on_its_exact_side(floor: str) -> None:
    told = content()["limits"]
    for squares in range(801):
        for lost in range(min(squares, squares // 3 + 3) + 1):
            expected = by_hand.set_side(floor, squares, lost)
            assert square_side(told, float(floor), squares, lost) == expected, (squares, lost)


def test_every_count_of_blasted_squares_is_on_its_exact_side() -> None:
    told = content("kansas")["limits"]
    for squares in range(801):
        for blasted in range(min(squares, squares // 6 + 3) + 1):
            expected = by_hand.blasted_side(*by_hand.BLASTED["kansas"], squares, blasted)
            assert square_side(told, None, squares, blasted) == expected, (squares, blasted)


@pytest.mark.parametrize(
    ("plants", "row"), [(100, [9, 17, 25]), (40, [4, 7, 10]), (99, [9, 17, 25]), (3, [1, 1, 1])]
)
def test_a_row_of_the_line_25_worked_on_paper(plants: int, row: list[int]) -> None:
    assert content()["limits"]["insects"][0]["rows"][plants] == row


def test_255_healthy_of_300_are_not_under_85_of_100_and_254_are() -> None:
    rows = rows_of(content()["limits"]["squares"], "floor", 0.85)
    assert rows[300] == [46, 61]  # 300 - 46 = 254; under 80 of 100 are 239 and fewer


def test_the_verdicts_are_those_of_the_page_on_the_call() -> None:
    assert content()["limits"]["verdicts"] == by_hand.VERDICTS


@given(tenths(1, 30000), st.integers(1, 150), st.integers(0, 500))
@settings(max_examples=60, deadline=None)
def test_any_line_of_ones_own_is_compared_exactly(line: str, plants: int, insects: int) -> None:
    source = load_guideline("mid-coast")
    own = replace(source, lines=(Line((), Fraction(line), Fraction(line), SOURCE),))
    told = limits(Judged(own))
    side = insect_side(told, float(line), plants, insects)
    assert side == by_hand.insect_side(line, plants, insects)


@given(tenths(1, 99), st.data())
@settings(max_examples=60, deadline=None)
def test_any_floor_of_ones_own_is_compared_exactly(floor: str, data: st.DataObject) -> None:
    squares = data.draw(st.integers(1, 800))
    lost = data.draw(st.integers(0, squares))
    source = load_guideline("southern-high-plains")
    own = replace(source, floors=(Floor((1,), True, Fraction(floor), SOURCE),))
    side = square_side(limits(Judged(own)), float(floor), squares, lost)
    assert side == by_hand.set_side(floor, squares, lost)


@given(tenths(1, 99), tenths(1, 99), st.data())
@settings(max_examples=60, deadline=None)
def test_any_blasted_share_of_ones_own_is_compared_exactly(
    one: str, other: str, data: st.DataObject
) -> None:
    least, well = sorted((one, other))
    squares = data.draw(st.integers(1, 800))
    blasted = data.draw(st.integers(0, squares))
    share = BlastedShare(Fraction(least), Fraction(well), SOURCE)
    told = limits(Judged(replace(load_guideline("kansas"), blasted=share)))
    expected = by_hand.blasted_side(least, well, squares, blasted)
    assert square_side(told, None, squares, blasted) == expected


def test_a_chosen_line_stands_in_place_of_the_published_one() -> None:
    read = content(line=Fraction("27.5"))
    assert [table["line"] for table in read["limits"]["insects"]] == [27.5]
    assert {week["line"] for week in read["weeks"]} == {27.5}
    assert insect_side(read["limits"], 27.5, 40, 10) == "near"
    assert insect_side(read["limits"], 27.5, 40, 11) == "over"


def test_half_of_the_plants_must_square_for_a_set_that_can_be_read() -> None:
    least = content()["limits"]["squaring"]
    assert (least[1], least[24], least[25], least[40]) == (1, 12, 13, 20)


def test_how_many_plants_and_squares_make_a_walk() -> None:
    told = content()["limits"]
    assert (told["full"], told["few"], told["least"], told["least_a_quarter"]) == (100, 80, 40, 5)
    assert (told["readable_squares"], told["thin_squares"]) == (100, 50)


@pytest.mark.parametrize(
    ("name", "needs"),
    [("southern-high-plains", "insects-and-set"), ("kansas", "insects-and-blasted"),
     ("oklahoma", "insects")],
)  # fmt: skip
def test_what_a_rule_goes_by(name: str, needs: str) -> None:
    told = content(name)["limits"]
    assert told["needs"] == needs
    assert bool(told["squares"]) == (needs == "insects-and-set")
    assert (told["blasted"] is not None) == (needs == "insects-and-blasted")


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.stem)
def test_golden_counts_are_on_the_sides_worked_out_from_what_is_published(path: Path) -> None:
    golden = json.loads(path.read_text(encoding="utf-8"))
    name = golden["guideline"]
    for case in golden["cases"]:
        side = by_hand.insect_side(by_hand.LINES[name], case["plants"], case["insects"])
        if "lost" in case:
            squares = by_hand.set_side(str(case["floor"]), case["squares"], case["lost"])
        else:
            shares = by_hand.BLASTED[name]
            squares = by_hand.blasted_side(*shares, case["squares"], case["blasted"])
        assert (case["insect_side"], case["square_side"]) == (side, squares), case
        assert case["lean"] == by_hand.VERDICTS[side][squares]


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.stem)
def test_golden_limits_are_those_of_a_card_made_now_and_give_the_golden_sides(path: Path) -> None:
    golden = json.loads(path.read_text(encoding="utf-8"))
    told = golden["limits"]
    assert told == content(golden["guideline"])["limits"]
    for case in golden["cases"]:
        gone = case.get("lost", case.get("blasted"))
        squares = square_side(told, case.get("floor"), case["squares"], gone)
        side = insect_side(told, case["line"], case["plants"], case["insects"])
        assert (side, squares) == (case["insect_side"], case["square_side"]), case
        assert told["verdicts"][side][squares] == case["lean"]


def test_golden_counts_are_many_and_come_to_every_side() -> None:
    cases = [c for path in GOLDEN for c in json.loads(path.read_text(encoding="utf-8"))["cases"]]
    assert len(cases) > 400
    asked = {(i, s) for i in by_hand.VERDICTS for s in by_hand.VERDICTS[i] if s != "not-asked"}
    assert {(c["insect_side"], c["square_side"]) for c in cases} == asked


def test_nothing_is_over_where_nothing_was_looked_at() -> None:
    told = content()["limits"]
    assert reached(told["insects"][0]["rows"][0], 0) == 0
    assert all(reached(table["rows"][0], 0) == 0 for table in told["squares"])
