"""The sheet on paper: its rows are the walk, and what is written on it types straight in."""

from __future__ import annotations

import io
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader
from shapely import MultiPolygon, box

from quarterwalk.field import Field, Layout, Plan, lay_out
from quarterwalk.files import read_walks
from quarterwalk.guideline import load_guideline
from quarterwalk.report.pdf import Paper
from quarterwalk.report.sheet import ROW_MM, SheetContent, sheet_pdf, walk_sheet
from quarterwalk.report.sheet_page import SIDES, sheet_page
from quarterwalk.report.sheet_pages import (
    ABOVE_NOTES,
    BETWEEN,
    FIRST,
    PLAIN,
    SheetLoop,
    SheetStop,
    deal_out,
)
from quarterwalk.walk import QUADRANTS, InsectCount, Quadrant, SquareCount, Walk

DAY = date(2026, 6, 18)
# About 120 acres, 700 m a side.
LON, LAT = -101.8, 33.6
SQUARE = MultiPolygon([box(LON, LAT, LON + 0.0075, LAT + 0.0063)])
HEAD = "field,date,scout,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted,flared,note"
MAKER = "needs the report extra"


@cache
def laid(split: tuple[int, ...] = (2, 3), plants: int = 5) -> Layout:
    field = Field("Windmill 80", SQUARE, grower="Marlow Teague", farm="Home place")
    return lay_out(field, DAY, plan=Plan(split, plants))


@cache
def sheet(
    split: tuple[int, ...] = (2, 3), plants: int = 5, week: int | None = None
) -> SheetContent:
    return walk_sheet(laid(split, plants), week=week)


def named(name: str, grower: str = "") -> SheetContent:
    layout = laid()
    return walk_sheet(replace(layout, field=replace(layout.field, name=name, grower=grower)))


def opened(content: SheetContent, paper: Paper = Paper.LETTER) -> PdfReader:
    pytest.importorskip("typst", reason=MAKER)
    return PdfReader(io.BytesIO(sheet_pdf(content, paper=paper)))


def text_of(reader: PdfReader) -> str:
    return " ".join("\n".join(page.extract_text() for page in reader.pages).split())


def typed(content: SheetContent, cells: str) -> Walk:
    """Type a sheet that says the same of every plant into a walk table, and read it."""
    rows = [
        f"{content.field},{content.on},Ada,{row.quadrant},{row.stop},{row.plant},{cells},"
        for row in content.rows
    ]
    table = "\n".join((HEAD, *rows)).encode()
    (walk,) = read_walks("-", stdin=io.BytesIO(table)).table
    return walk


def squares_by_quarter(content: SheetContent, loops: int) -> Counter[Quadrant]:
    stops = [stop for loop in content.loops[:loops] for stop in loop.stops]
    counted: Counter[Quadrant] = Counter()
    for stop in stops:
        counted[stop.quadrant] += stop.square_plants
    return counted


@pytest.mark.parametrize(("split", "plants"), [((2, 3), 5), ((1, 2, 2), 5), ((5,), 5), ((2, 3), 4)])
def test_the_rows_stand_in_the_order_of_walking(split: tuple[int, ...], plants: int) -> None:
    walked = [
        (stop.quadrant, stop.number, plant)
        for stop in laid(split, plants).stops
        for plant in range(1, plants + 1)
    ]
    rows = sheet(split, plants).rows
    assert [(row.quadrant, row.stop, row.plant) for row in rows] == walked
    assert len(rows) == 4 * sum(split) * plants


def test_what_is_written_types_straight_into_a_walk_table() -> None:
    walk = typed(sheet(), "0,2,3,1,0,0")
    assert walk.field == "Windmill 80"
    assert len(walk.checks) == 100
    assert [check.stop for check in walk.checks] == [n for n in range(1, 21) for _ in range(5)]
    for check in walk.checks:
        assert check.insects == InsectCount(0, 2)
        assert check.squares == SquareCount(3, 1, 0, 0)


def test_a_blank_is_not_looked_and_a_zero_is_none_there_as_the_sheet_says() -> None:
    assert {check.squares for check in typed(sheet(), "0,0,,,,").checks} == {None}
    assert {check.squares for check in typed(sheet(), "0,0,0,0,0,0").checks} == {SquareCount()}
    said = "Blank: not looked. 0: looked, none there."
    assert said in sheet_page(sheet())
    assert said in text_of(opened(sheet()))


def test_the_columns_have_the_names_and_the_order_of_the_walk_table() -> None:
    table = HEAD.split(",")
    for language in ("en", "es"):
        content = walk_sheet(laid(), language=language)
        names = [column.name for column in content.words.columns]
        assert names == table[table.index("plant") :]


@pytest.mark.parametrize("week", [None, 1])
def test_in_the_first_week_squares_are_counted_on_every_plant(week: int | None) -> None:
    content = sheet(week=week)
    assert all(row.squares for row in content.rows)
    assert not content.some_squares


@pytest.mark.parametrize(("week", "plants"), [(2, 10), (3, 6), (4, 6)])
def test_later_squares_are_counted_on_fewer_plants_of_each_quarter(week: int, plants: int) -> None:
    content = sheet(week=week)
    assert content.some_squares
    assert squares_by_quarter(content, 2) == dict.fromkeys(QUADRANTS, plants)


def test_a_walk_that_ends_after_the_first_loop_has_its_squares() -> None:
    assert squares_by_quarter(sheet(week=2), 1) == dict.fromkeys(QUADRANTS, 10)
    assert squares_by_quarter(sheet(week=3), 1) == dict.fromkeys(QUADRANTS, 6)
    assert {stop.square_plants for stop in sheet(week=3).loops[0].stops} == {3}


def test_where_the_first_loop_is_too_small_the_next_one_takes_the_rest() -> None:
    content = sheet((1, 2, 2), week=2)
    assert squares_by_quarter(content, 1) == dict.fromkeys(QUADRANTS, 5)
    assert squares_by_quarter(content, 2) == dict.fromkeys(QUADRANTS, 10)


def test_a_short_walk_counts_squares_on_every_plant_and_marks_none() -> None:
    content = sheet((1,), week=3)
    assert not content.some_squares
    assert "Squares: week 3 of squaring, count them on every plant." in content.words.how
    marked = "Squares: week 3 of squaring, count them on the plants marked •."
    assert marked in sheet(week=3).words.how


def test_a_guideline_without_squares_asks_for_none() -> None:
    content = walk_sheet(laid(), guideline=load_guideline("oklahoma"), week=2)
    assert not any(row.squares for row in content.rows)
    assert any("does not ask for them" in sentence for sentence in content.words.how)


def test_a_guideline_of_the_sweep_net_says_that_this_sheet_is_for_plants() -> None:
    content = walk_sheet(laid(), guideline=load_guideline("tennessee-sweep"))
    assert any("sweep net" in sentence for sentence in content.words.how)


def test_forty_plants_end_the_first_loop_and_thirty_two_are_too_few_for_any_call() -> None:
    assert sheet().loops[0].closing == "40 plants: first loop done."
    assert sheet().loops[1].closing == "100 plants: the whole walk."
    assert sheet(plants=4).loops[0].closing == "32 plants so far. Go on."


def test_a_loop_of_one_mile_is_told_as_one_mile() -> None:
    layout = laid()
    mile = replace(layout.loops[0], metres=1609.344, minutes=21.4)
    content = walk_sheet(replace(layout, loops=(mile, layout.loops[1])))
    assert content.loops[0].way == "40 plants, 1.0 miles, about 21 minutes of walking"


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", ["en", "es"])
def test_a_full_walk_is_one_sheet_of_paper_front_and_back(paper: Paper, language: str) -> None:
    content = walk_sheet(
        laid(), guideline=load_guideline("southern-high-plains"), week=2, language=language
    )
    reader = opened(content, paper)
    assert len(reader.pages) == len(content.pages) == 2
    size = {Paper.LETTER: (612, 792), Paper.A4: (595, 842)}[paper]
    assert [round(float(side)) for side in reader.pages[0].mediabox[2:]] == list(size)


# Some fill pages to what they are said to hold.
OTHERS = [
    ((1, 2, 2), 5),
    ((5,), 5),
    ((3, 7), 9),
    ((1,), 38),
    ((2, 3), 6),
    ((2, 2, 1), 5),
    ((5, 1), 5),
    ((1, 1, 1, 1, 1, 1), 1),
    ((2, 2, 2, 2), 2),
    ((1, 1, 1, 1), 3),
    ((1, 1, 2), 12),
]


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize(("split", "plants"), OTHERS)
def test_other_walks_fill_the_pages_they_are_dealt(
    split: tuple[int, ...], plants: int, paper: Paper
) -> None:
    content = sheet(split, plants)
    assert len(opened(content, paper).pages) == len(content.pages)


def test_a_long_name_costs_no_page() -> None:
    long = named("The long field behind the old gin that floods when it rains " * 3, "A grower")
    assert len(opened(long).pages) == 2


def test_a_row_is_high_enough_for_a_pencil_in_a_glove() -> None:
    assert min(*ROW_MM.values(), *(row for _, _, row in SIDES.values())) >= 5.5


def loops_of(split: list[int], plants: int) -> Iterator[SheetLoop]:
    number = 0
    for loop, stops in enumerate(split, 1):
        numbers = range(number + 1, number + 4 * stops + 1)
        number = numbers[-1]
        rows = (SheetStop(n, QUADRANTS[n % 4], plants, plants) for n in numbers)
        yield SheetLoop(loop, f"Loop {loop}", "", tuple(rows), "closed")


@given(st.lists(st.integers(1, 5), min_size=1, max_size=4), st.integers(1, 60))
def test_every_row_is_on_one_page_in_order_and_no_page_is_too_full(
    split: list[int], plants: int
) -> None:
    pages = deal_out(list(loops_of(split, plants)))
    bands = [band for page in pages for band in page.bands]
    rows = [(s.number, p) for b in bands for s in (*b.left, *b.right) for p in s.rows]
    assert rows == [(n, p) for n in range(1, 4 * sum(split) + 1) for p in range(1, plants + 1)]
    assert sum(page.notes for page in pages) == 1
    assert not pages[0].notes
    assert sum(band.closing == "closed" for band in bands) == len(split)
    for number, page in enumerate(pages):
        filled = sum(b.height for b in page.bands) + BETWEEN * (len(page.bands) - 1)
        assert filled <= (ABOVE_NOTES if page.notes else FIRST if number == 0 else PLAIN)


@pytest.mark.parametrize("name", ["#panic()", "*x* _y_", "<b>x</b><script>", "$a$ & `c`", "Peña"])
def test_a_name_that_looks_like_markup_prints_as_itself(name: str) -> None:
    content = named(name, grower=f"{name} Co")
    told = text_of(opened(content))
    assert name in told
    assert f"Grower: {name} Co" in told
    page = sheet_page(content)
    assert "<b>x" not in page
    assert "<script" not in page


def test_the_gate_comes_before_the_first_plant() -> None:
    told = text_of(opened(sheet()))
    asked = told.index("any spray, sign or flag since the last visit?")
    assert asked < told.index("If in doubt, do not enter.") < told.index("Loop 1")


def test_what_is_looked_at_once_stands_on_the_last_page() -> None:
    last = " ".join(opened(sheet()).pages[-1].extract_text().split())
    for what in ("Lost squares", "Standing water", "Other pests", "Host weeds", "Fruiting branch"):
        assert what in last


def test_the_fonts_are_inside_the_file() -> None:
    for page in opened(sheet()).pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in inner["/FontDescriptor"].get_object()


def test_the_page_needs_nothing_beside_it() -> None:
    page = sheet_page(sheet())
    assert "<script" not in page
    refers = re.findall(r'(?:src|href)\s*=\s*"([^"]*)"|url\("?([^")]{0,30})', page)
    assert refers
    assert all("".join(where).startswith(("data:font", "#")) for where in refers)
    assert "default-src 'none'" in page


def test_the_page_has_a_row_for_every_plant() -> None:
    page = sheet_page(sheet(week=2))
    assert page.count('<th scope="row">') == 100 + 4
    assert page.count("<i>•</i>") == 40


def test_the_same_sheet_is_the_same_file() -> None:
    pytest.importorskip("typst", reason=MAKER)
    assert sheet_pdf(sheet()) == sheet_pdf(sheet())
    assert sheet_page(sheet()) == sheet_page(sheet())
