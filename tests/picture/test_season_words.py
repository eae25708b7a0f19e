"""The words of a season's picture stand by what they name, and the key tells only what is drawn."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from quarterwalk.call import Verdict
from quarterwalk.picture import Theme
from quarterwalk.picture.drawing import Telling
from quarterwalk.picture.season import SeasonMark, SeasonWalk, season_picture
from quarterwalk.picture.season_heard import season_heard
from quarterwalk.picture.season_key import season_key
from quarterwalk.picture.tokens import DARK, LIGHT, PRINT
from quarterwalk.words import LANGUAGES, spoken_in
from tests.picture.drawn import having, text_boxes, texts
from tests.picture.seasons import LAST, PLANTED, SQUARE, TODAY, after, drawn_season, season, seasons
from tests.picture.test_dress import contrast

NARROW = 328.0
widths = pytest.mark.parametrize("width", [328.0, 426.0, 752.0])
every_season = pytest.mark.parametrize("name", seasons())


def box_of(svg, beginning):
    """Give the box of the first words that begin so, or None."""
    found = (box for text, *box in text_boxes(svg) if text.startswith(beginning))
    return next(found, None)


def gap(box, points):
    """Give how far the nearest of some points is from a box."""
    left, top, right, bottom = box
    return min(
        math.hypot(max(left - x, x - right, 0), max(top - y, y - bottom, 0)) for x, y in points
    )


def points(svg, cls):
    numbers = [
        float(each)
        for path in having(svg, cls, "path")
        for each in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))
    ]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def test_other_years_are_told_for_the_last_day_that_is_known() -> None:
    heat = season().heat.copy()
    heat[-5:] = np.nan
    said = texts(drawn_season(season(heat=heat)))
    assert (56 * 15, 56 * 21) == (840, 1176)
    assert {"until 8 July", "other years 840 to 1,176"} <= set(said)


def test_nothing_is_told_of_other_years_where_no_sum_is_known() -> None:
    svg = drawn_season(season(heat=np.full(61, np.nan)))
    assert "other years" in texts(svg)
    assert not any(re.search(r"other years \d", text) for text in texts(svg))


@every_season
@widths
def test_the_number_stands_close_to_its_ring(name: str, width: float) -> None:
    svg = drawn_season(seasons()[name], width=width)
    rings = having(svg, "qw-reading", "circle")
    for ring in rings:
        spot = float(ring.get("cx", "")), float(ring.get("cy", ""))
        (number,) = [each for each in having(svg, "qw-bold", "text") if _large(each)]
        box = box_of(svg, number.text)
        assert box is not None
        assert gap(box, [spot]) <= 82


def _large(each) -> bool:
    return float(each.get("font-size", "")) == 22


@every_season
@widths
def test_numbers_of_the_axis_keep_clear_of_other_words(name: str, width: float) -> None:
    boxes = text_boxes(drawn_season(seasons()[name], width=width))
    axis = [each for each in boxes if re.fullmatch(r"\d[\d,]*00", each[0])]
    for text, left, top, right, bottom in axis:
        for other, *box in boxes:
            if (other, *box) != (text, left, top, right, bottom) and other != text:
                near = box[0] < right + 9 and left - 9 < box[2]
                assert not (near and box[1] < bottom and top < box[3]), (text, other)


@pytest.mark.parametrize("rise", [5, 9, 14, 18, 24])
@widths
def test_the_days_ahead_are_named_beside_their_own_band(rise: float, width: float) -> None:
    to_come = np.arange(1.0, 43)
    ahead = tuple(1098 + each * to_come for each in (rise - 1, rise, rise + 1))
    svg = drawn_season(season(ahead=ahead), width=width)
    box = box_of(svg, "days ahead")
    if box is not None:
        assert gap(box, points(svg, "qw-ahead-edge")) <= gap(box, points(svg, "qw-usual-edge")) + 3


def test_days_ahead_that_are_few_have_no_label() -> None:
    end = after(1, TODAY)
    one = tuple(np.array([1098.0 + each]) for each in (10, 18, 26))
    normal = tuple(each * np.arange(1.0, 63) for each in (15, 18, 21))
    svg = drawn_season(season(last=end, ahead=one, normal=normal, marks=(), next_look=None))
    assert not any(text.startswith(("days ahead", "likely")) for text in texts(svg))


@widths
def test_three_sprays_close_together_each_have_their_words(width: float) -> None:
    days = tuple(after(each) for each in (33, 37, 43))
    said = texts(drawn_season(season(treated=days), width=width))
    assert [each for each in said if each.startswith("sprayed")] == [
        "sprayed 16 June",
        "sprayed 20 June",
        "sprayed 26 June",
    ]


def test_the_words_of_the_next_look_break_before_they_are_dropped() -> None:
    look = after(58), after(59)
    said = texts(drawn_season(season(next_look=look), width=NARROW, language="es"))
    assert said[-2:] == ["próxima revisión,", "11–12 de julio"]


def test_a_range_that_was_given_is_drawn_as_given() -> None:
    mark = SeasonMark("first square", after(30), (after(22), after(47)), seen=False, given=True)
    svg = drawn_season(season(marks=(mark,)))
    (box,) = [each for each in having(svg, "qw-plant-open", "rect") if each.get("rx")]
    days = (float(box.get("width", ""))) / ((760 - 18) / (LAST - PLANTED).days)
    assert days == pytest.approx(26, abs=0.01)
    dots = [float(each.get("cy", "")) for each in having(svg, "qw-plant", "circle")]
    assert float(box.get("y", "")) + 6 not in dots
    assert "box marked given = the days given" in season_key(season(marks=(mark,)))[0]
    assert any(text.startswith("given 5") for text in texts(svg))


def test_the_band_of_other_years_has_two_edges_that_stand_out() -> None:
    assert len(having(drawn_season(season()), "qw-usual-edge", "path")) == 2
    for colours in (LIGHT, DARK, PRINT):
        assert contrast(colours["rule"], colours["paper"]) >= 3
        assert contrast(colours["rule"], colours["tint-2"]) >= 2


def squaring(*lengths: int) -> tuple:
    weeks, first = [], SQUARE
    for length in lengths:
        weeks.append((first, after(length - 1, first)))
        first = after(length, first)
    return tuple(weeks)


@pytest.mark.parametrize(("lengths", "bars", "last"), [((7, 7, 1), 2, "2"), ((7, 7, 7), 3, "3")])
def test_a_sliver_of_a_last_week_is_not_drawn(lengths: tuple, bars: int, last: str) -> None:
    svg = drawn_season(
        season(today=LAST, weeks=squaring(*lengths), next_look=None, walks=(), marks=()),
        width=NARROW,
    )
    assert len(having(svg, "qw-plant", "rect")) == bars
    numbers = [each.text for each in having(svg, "qw-middle", "text")]
    assert numbers[-1] == last


def test_a_last_week_without_room_for_its_number_is_not_drawn() -> None:
    weeks = squaring(7, 7, 3)
    svg = drawn_season(season(today=LAST, weeks=weeks, next_look=None, walks=()), width=NARROW)
    assert len(having(svg, "qw-plant", "rect")) == 2
    assert [each.text for each in having(svg, "qw-middle", "text")] == ["1", "2"]


def test_the_key_tells_of_marks_and_of_walks() -> None:
    marks, walks = season_key(season())
    assert marks == (
        "How to read it: heavy line = heat so far; pale band = 8 in 10 of other years;"
        " grey between dashed lines = what may come, 8 times in 10; thin line = the middle;"
        " full dot = a known day; open box = the days it falls"
        " into 8 times in 10, its dot the likeliest; open bar = a week of squaring to come."
    )
    assert walks == (
        "Walks: open leaves apart = hold; half-filled leaves = look sooner;"
        " one solid leaf = treat; two bare posts = no call; ring = not judged."
    )


def test_the_key_tells_nothing_that_is_not_drawn() -> None:
    (bare,) = season_key(season(marks=(), walks=(), weeks=(), normal=None, today=LAST))
    assert bare == "How to read it: heavy line = heat so far; full dot = a known day."


@pytest.mark.parametrize(("days", "told"), [(2, False), (3, True)])
def test_days_ahead_are_in_the_key_where_enough_of_them_are_drawn(days: int, told: bool) -> None:
    (key,) = season_key(season(last=after(days, TODAY), marks=(), walks=(), weeks=(), normal=None))
    assert ("dashed lines" in key) == told
    assert ("thin line" in key) == told


def test_the_sum_of_the_day_of_planting_is_none() -> None:
    svg = drawn_season(season(today=PLANTED, heat=np.zeros(1), walks=(), treated=()))
    assert "heat units not known" in texts(svg)
    assert not having(svg, "qw-reading", "circle")


@widths
def test_a_number_left_of_its_dot_ends_in_line(width: float) -> None:
    """Late in a season there is no room at the right."""
    svg = drawn_season(season(today=LAST, next_look=None), width=width)
    (number,) = [each for each in having(svg, "qw-bold", "text") if _large(each)]
    assert "qw-end" in number.get("class", "")


def test_a_range_of_other_years_away_from_the_number_tells_its_day() -> None:
    days = np.arange(1.0, 92)
    told = season(
        last=after(30, TODAY),
        ahead=tuple(18 * 61 + each * np.arange(1.0, 31) for each in (17, 18, 19)),
        normal=tuple(each * days for each in (18.5, 20.5, 22.5)),
        marks=(), next_look=None, walks=(), treated=(),
    )  # fmt: skip
    svg = season_picture(
        told, told=Telling("One season"), theme=Theme.PRINT, id="s", width=NARROW, flat=True
    )
    said = texts(svg)
    place = said.index("other years")
    assert said[place - 1 : place + 3] == [
        "heat units", "other years", "1,128 to 1,372", "by 13 July",
    ]  # fmt: skip


@pytest.mark.parametrize("name", sorted(set(seasons()) - {"one day", "planted today"}))
@widths
def test_the_number_stands_on_no_line_of_sums(name: str, width: float) -> None:
    svg = drawn_season(seasons()[name], width=width)
    numbers = [each.text for each in having(svg, "qw-bold", "text") if _large(each)]
    for number in numbers:
        left, top, right, bottom = box_of(svg, number)
        for cls in ("qw-heat", "qw-ahead-line", "qw-ahead-edge", "qw-usual-edge"):
            for x, y in along(svg, cls):
                assert not (left < x < right and top < y < bottom), (cls, x, y)


def along(svg: str, cls: str) -> list[tuple[float, float]]:
    """Give points along lines, close to each other."""
    told = []
    for path in having(svg, cls, "path"):
        numbers = [float(each) for each in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
        x, y = np.array(numbers[::2]), np.array(numbers[1::2])
        at = np.arange(0, len(x) - 1, 0.1)
        told += list(
            zip(
                np.interp(at, np.arange(len(x)), x),
                np.interp(at, np.arange(len(y)), y),
                strict=True,
            )
        )
    return told


def test_of_walks_the_key_tells_only_what_was_called() -> None:
    walks = (SeasonWalk(SQUARE, Verdict.TREAT), SeasonWalk(after(-9, PLANTED), Verdict.HOLD))
    assert season_key(season(walks=walks))[1] == "Walks: one solid leaf = treat."


def test_those_who_hear_the_picture_are_told_its_days() -> None:
    assert season_heard(season()) == (
        "1,098 heat units, until 13 July; other years 915 to 1,281;"
        " likely 1,770 to 1,938 by 24 August."
        " Planted 14 May; emergence likely 19 to 22 May; first square 20 June;"
        " first bloom likely 14 to 21 July; cutout likely 2 to 18 August."
        " Squaring week 1, 20 to 26 June; squaring week 2, 27 June to 3 July;"
        " squaring week 3, 4 to 10 July; squaring week 4, 11 to 17 July."
        " Walk 20 June, hold; walk 24 June, look sooner; walk 28 June, treat;"
        " sprayed 2 July; walk 2 July, no call; walk 6 July, hold; walk 10 July;"
        " next look 16 to 17 July."
    )


@pytest.mark.parametrize("language", LANGUAGES)
@every_season
def test_whatever_a_season_was_it_can_be_heard(language: str, name: str) -> None:
    with spoken_in(language):
        told = (season_heard(seasons()[name]), *season_key(seasons()[name]))
    for each in told:
        assert each.endswith(".")
        assert not re.search(r"[{}]|nan|None|  ", each)
