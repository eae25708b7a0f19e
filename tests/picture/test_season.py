"""A season is drawn along one line of days: full where seen, open where only likely."""

from __future__ import annotations

import re
from datetime import date

import numpy as np
import pytest

from quarterwalk.picture import Theme
from quarterwalk.picture.season import SeasonDrawn, SeasonMark
from tests.picture.drawn import having, parsed, size_of, texts
from tests.picture.seasons import (
    LAST,
    PLANTED,
    SQUARE,
    TODAY,
    after,
    drawn_season,
    likely,
    season,
    seasons,
    seen,
)

WIDE = 760.0
MARGIN = 9.0


def place(day: date, width: float = WIDE) -> float:
    """Where a day of the usual season stands. [px]"""
    part = (day - PLANTED).days / (LAST - PLANTED).days
    return MARGIN + part * (width - 2 * MARGIN)


def open_boxes(svg: str) -> list[tuple[float, float]]:
    boxes = [each for each in having(svg, "qw-plant-open", "rect") if each.get("rx")]
    return [
        (float(b.get("x", "")), float(b.get("x", "")) + float(b.get("width", ""))) for b in boxes
    ]


@pytest.mark.parametrize("width", [340.0, 680.0, 860.0])
def test_the_box_of_an_event_spans_its_days(width: float) -> None:
    drawn = season()
    unseen = [mark for mark in drawn.marks if not mark.seen]
    boxes = open_boxes(drawn_season(drawn, width=width))
    assert len(boxes) == len(unseen)
    for (left, right), mark in zip(boxes, unseen, strict=True):
        assert left <= place(mark.span[0], width) <= place(mark.span[1], width) <= right


def test_a_box_ends_half_a_day_beyond_its_last_day() -> None:
    day = place(after(1)) - place(PLANTED)
    ((left, right),) = open_boxes(drawn_season(season(marks=(likely("x", 30, 32, 40),))))
    assert left == pytest.approx(place(after(30)) - day / 2, abs=0.01)
    assert right == pytest.approx(place(after(40)) + day / 2, abs=0.01)


def test_an_event_that_was_seen_is_a_full_dot_on_its_day_without_a_box() -> None:
    svg = drawn_season(season(marks=(seen("first square", SQUARE),)))
    dots = [float(dot.get("cx", "")) for dot in having(svg, "qw-plant", "circle")]
    assert open_boxes(svg) == []
    assert dots == pytest.approx([place(PLANTED), place(SQUARE)], abs=0.01)
    assert "20 June" in texts(svg)


def test_an_event_that_was_seen_may_not_have_a_range() -> None:
    with pytest.raises(ValueError, match="was seen has one day"):
        SeasonMark("first square", SQUARE, (SQUARE, after(1, SQUARE)), seen=True)


def test_a_likely_day_must_lie_in_its_range() -> None:
    with pytest.raises(ValueError, match="must lie in its range"):
        SeasonMark("first square", PLANTED, (SQUARE, SQUARE), seen=False)


def test_an_event_past_the_end_of_the_paper_is_told_in_words_alone() -> None:
    svg = drawn_season(season(marks=(likely("cutout", 120, 125, 130),)))
    assert open_boxes(svg) == []
    assert "cutout" in texts(svg)


def test_a_box_that_runs_on_past_the_last_day_is_open_at_the_end() -> None:
    svg = drawn_season(season(marks=(likely("cutout", 90, 110, 130),)))
    ((left, right),) = open_boxes(svg)
    assert left < place(after(90))
    assert right > WIDE


def test_a_range_longer_than_the_season_still_has_its_box() -> None:
    svg = drawn_season(season(marks=(likely("cutout", -3, 60, 200),)))
    ((left, right),) = open_boxes(svg)
    assert left < 0
    assert right > WIDE


def test_a_range_that_runs_over_two_months_names_both() -> None:
    svg = drawn_season(season(marks=(likely("first bloom", 44, 47, 50),)))
    assert "likely 27 June to 3 July" in texts(svg)


def test_the_sum_today_is_written_with_its_unit() -> None:
    assert 61 * 18 == 1098
    assert "1,098 heat units" in texts(drawn_season(season()))
    assert "Heat units since planting, DD60" in texts(drawn_season(season()))


def test_other_years_are_told_as_a_range_on_today() -> None:
    assert (61 * 15, 61 * 21) == (915, 1281)
    assert "other years 915 to 1,281" in texts(drawn_season(season()))


def test_the_days_ahead_are_told_as_a_range_on_the_last_day() -> None:
    assert (1098 + 42 * 16, 1098 + 42 * 20) == (1770, 1938)
    said = texts(drawn_season(season()))
    assert "likely 1,770 to 1,938" in said
    assert "by 24 August" in said


def test_without_other_years_there_is_no_band() -> None:
    svg = drawn_season(season(normal=None))
    assert not having(svg, "qw-usual")
    assert not any("other years" in text for text in texts(svg))


def test_the_line_of_heat_breaks_where_a_day_is_unknown() -> None:
    heat = season().heat.copy()
    heat[20:25] = np.nan
    (line,) = having(drawn_season(season(heat=heat)), "qw-heat")
    assert line.get("d", "").count("M") == 2


def test_heat_that_is_unknown_today_is_never_drawn_as_zero() -> None:
    svg = drawn_season(seasons()["no weather"])
    assert not having(svg, "qw-heat")
    assert not having(svg, "qw-reading")
    assert "heat units not known" in texts(svg)


def test_each_walk_has_its_mark_and_one_without_a_call_a_ring() -> None:
    svg = drawn_season(season())
    groups = [each for each in parsed(svg).iter() if "translate" in each.get("transform", "")]
    days = [float(re.findall(r"[\d.]+", each.get("transform", ""))[0]) for each in groups]
    called = [walk.on for walk in season().walks if walk.verdict is not None]
    assert days == pytest.approx([place(day) for day in called], abs=0.01)
    assert len(having(svg, "qw-stop-2")) == 1


def test_the_next_look_is_a_dashed_box_with_its_days() -> None:
    svg = drawn_season(season())
    (box,) = having(svg, "qw-next")
    left = float(box.get("x", ""))
    assert (
        left
        <= place(after(3, TODAY))
        <= place(after(4, TODAY))
        <= left + float(box.get("width", ""))
    )
    assert "next look 16–17 July" in texts(svg)


def test_every_week_of_squaring_is_as_thick_as_any_other() -> None:
    svg = drawn_season(season(today=LAST, next_look=None))
    tall = [float(bar.get("height", "")) for bar in having(svg, "qw-plant", "rect")]
    assert len(tall) == 4
    assert len(set(tall)) == 1


def test_a_week_that_has_not_begun_is_open() -> None:
    svg = drawn_season(season(today=PLANTED, marks=(), next_look=None))
    assert len(having(svg, "qw-plant-open")) == 4
    assert not having(svg, "qw-plant", "rect")


def test_today_and_each_spray_stand_upright_at_their_days() -> None:
    svg = drawn_season(season())
    for cls, day in (("qw-today", TODAY), ("qw-measure", date(2026, 7, 2))):
        (line,) = having(svg, cls)
        assert float(line.get("d", "")[1:].split(",")[0]) == pytest.approx(place(day), abs=0.01)
    assert {"today, 13 July", "sprayed 2 July"} <= set(texts(svg))


@pytest.mark.parametrize("name", seasons())
@pytest.mark.parametrize("theme", Theme)
def test_ids_begin_with_the_id_and_nothing_has_a_style_of_its_own(name: str, theme: Theme) -> None:
    for each in parsed(drawn_season(seasons()[name], theme=theme, id="k7")).iter():
        assert each.get("id", "k7").startswith("k7")
        assert "style" not in each.attrib


@pytest.mark.parametrize("width", [340.0, 760.0])
def test_no_words_are_smaller_than_fourteen(width: float) -> None:
    sizes = [
        float(each.get("font-size", ""))
        for drawn in seasons().values()
        for each in having(drawn_season(drawn, width=width), "qw-words")
    ]
    assert min(sizes) >= 14


def test_the_height_follows_what_there_is() -> None:
    whole, bare = (size_of(drawn_season(seasons()[name])) for name in ("whole", "bare"))
    assert whole[0] == bare[0] == WIDE
    assert bare[1] < whole[1]


def test_sums_must_be_told_for_every_day() -> None:
    with pytest.raises(ValueError, match="heat up to today must be told for 61 days"):
        season(heat=np.zeros(3))


def test_a_season_may_not_end_before_today() -> None:
    none = np.zeros(0)
    with pytest.raises(ValueError, match="runs from planting by today"):
        SeasonDrawn(PLANTED, TODAY, PLANTED, none, (none, none, none), None, (), (), None, ())


def test_heat_that_is_known_until_yesterday_only_says_so() -> None:
    heat = season().heat.copy()
    heat[-1] = np.nan
    said = texts(drawn_season(season(heat=heat)))
    assert "1,080 heat units" in said
    assert "until 12 July" in said
