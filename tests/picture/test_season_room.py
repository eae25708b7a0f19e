"""Whatever a season was, its words stay on the paper and clear of each other."""

from __future__ import annotations

import re
from datetime import date, timedelta

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.call import Verdict
from quarterwalk.picture.season import SeasonDrawn, SeasonMark, SeasonWalk
from quarterwalk.words import LANGUAGES
from tests.picture.drawn import having, size_of, text_boxes
from tests.picture.seasons import PLANTED, after, drawn_season, season

NAMES = st.text(max_size=40) | st.sampled_from(["first square", "ñandú <&> \x00", "W" * 60])


@st.composite
def marks(draw: st.DrawFn, planted: date, days: int) -> SeasonMark:
    ends = sorted(draw(st.lists(st.integers(-5, days + 30), min_size=3, max_size=3)))
    first, likely, last = (planted + timedelta(end) for end in ends)
    known = draw(st.booleans())
    span = (likely, likely) if known else (first, last)
    return SeasonMark(draw(NAMES), likely, span, known)


@st.composite
def sums(draw: st.DrawFn, days: int, start: float = 0.0) -> np.ndarray:
    daily = draw(st.lists(st.floats(0, 32), min_size=days, max_size=days) if days < 9 else
                 st.floats(0, 32).map(lambda each: [each] * days))  # fmt: skip
    total = start + np.cumsum(np.array(daily, dtype=float))
    total[draw(st.lists(st.integers(0, days - 1), max_size=3)) if days else []] = np.nan
    return total


@st.composite
def any_season(draw: st.DrawFn) -> SeasonDrawn:
    planted = draw(st.dates(date(1990, 1, 1), date(2040, 1, 1)))
    before, ahead = draw(st.integers(1, 220)), draw(st.integers(0, 150))
    days = before + ahead

    def some_days() -> st.SearchStrategy[date]:
        return st.integers(-3, days + 10).map(lambda day: planted + timedelta(day))

    heat = draw(sums(before))
    now = float(np.nan_to_num(heat[-1]))
    pairs = st.tuples(some_days(), st.integers(0, 9)).map(
        lambda pair: (pair[0], pair[0] + timedelta(pair[1]))
    )
    squaring = draw(some_days())
    return SeasonDrawn(
        planted,
        planted + timedelta(before - 1),
        planted + timedelta(days - 1),
        heat,
        tuple(np.sort([draw(sums(ahead, now)) for _ in range(3)], axis=0)),
        draw(st.none() | st.tuples(*[sums(days)] * 3)),
        tuple(draw(st.lists(marks(planted, days), max_size=5))),
        tuple(
            SeasonWalk(day, draw(st.none() | st.sampled_from(Verdict)))
            for day in draw(st.lists(some_days(), max_size=12))
        ),
        draw(st.none() | pairs),
        tuple(
            (squaring + timedelta(7 * i), squaring + timedelta(7 * i + 6))
            for i in range(draw(st.integers(0, 12)))
        ),
        tuple(draw(st.lists(some_days(), max_size=4))),
    )


WIDTHS = st.sampled_from([340.0, 680.0, 860.0])


@settings(max_examples=60, deadline=None)
@given(any_season(), WIDTHS, st.sampled_from(LANGUAGES))
def test_no_two_labels_of_a_season_overlap(drawn: SeasonDrawn, width: float, language: str) -> None:
    assert_apart(drawn_season(drawn, width=width, language=language))


def test_a_next_look_before_the_first_walk_keeps_clear_of_the_name_of_the_lane() -> None:
    walks = (SeasonWalk(after(60), None),)
    assert_apart(drawn_season(season(walks=walks, next_look=(PLANTED, after(2))), width=340))


def assert_apart(svg: str) -> None:
    boxes = text_boxes(svg)
    for i, (one, *a) in enumerate(boxes):
        for other, *b in boxes[:i]:
            clear = a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]
            assert clear, (one, other)


@settings(max_examples=60, deadline=None)
@given(any_season(), WIDTHS)
def test_the_words_of_a_season_stay_on_the_paper(drawn: SeasonDrawn, width: float) -> None:
    svg = drawn_season(drawn, width=width)
    wide, tall = size_of(svg)
    assert wide == width
    for text, left, top, right, bottom in text_boxes(svg):
        assert left >= -0.1, text
        assert top >= -0.1, text
        assert right <= wide + 0.1, text
        assert bottom <= tall + 0.1, text


def upright_pieces(svg: str) -> list[tuple[float, float, float]]:
    """Give x, top and bottom of each piece of the lines of today, sprays and months."""
    found = []
    for cls in ("qw-today", "qw-measure", "qw-hair"):
        for path in having(svg, cls, "path"):
            for x, top, bottom in re.findall(r"M([\d.-]+),([\d.-]+)V([\d.-]+)", path.get("d", "")):
                found.append((float(x), float(top), float(bottom)))
    return found


@settings(max_examples=60, deadline=None)
@given(any_season(), WIDTHS, st.sampled_from(LANGUAGES))
def test_no_upright_line_runs_through_words(
    drawn: SeasonDrawn, width: float, language: str
) -> None:
    svg = drawn_season(drawn, width=width, language=language)
    boxes = text_boxes(svg)
    for x, top, bottom in upright_pieces(svg):
        for text, left, above, right, below in boxes:
            clear = x <= left or x >= right or bottom <= above + 0.1 or top >= below - 0.1
            assert clear, (text, x)


def test_the_line_of_today_is_drawn_beside_words() -> None:
    pieces = [each for each in upright_pieces(drawn_season(season())) if each[2] - each[1] > 3]
    assert len(pieces) > 3


@settings(max_examples=60, deadline=None)
@given(any_season(), st.sampled_from([300.0, 340.0, 680.0]), st.sampled_from(LANGUAGES))
def test_no_spray_and_no_next_look_goes_without_its_words(
    drawn: SeasonDrawn, width: float, language: str
) -> None:
    svg = drawn_season(drawn, width=width, language=language)
    said = " ".join(text for text, *_ in text_boxes(svg))
    days = {day for day in drawn.treated if drawn.planted <= day <= drawn.last}
    assert said.count({"en": "sprayed", "es": "aplicación"}[language]) == len(days)
    assert len(having(svg, "qw-ink", "path")) == len(days)
    look = {"en": "next look", "es": "próxima revisión"}[language]
    assert said.count(look) == (drawn.next_look is not None)


@settings(max_examples=60, deadline=None)
@given(any_season(), WIDTHS)
def test_every_line_of_the_axis_has_its_number(drawn: SeasonDrawn, width: float) -> None:
    svg = drawn_season(drawn, width=width)
    hairs = [
        y
        for path in having(svg, "qw-hair", "path")
        for y in re.findall(r"M0,([\d.-]+)H", path.get("d", ""))
    ]
    feet = [
        float(each.get("y", ""))
        for each in having(svg, "qw-quiet", "text")
        if re.fullmatch(r"[\d,]+", each.text or "")
    ]
    for y in hairs:
        assert any(abs(float(y) - 4 - foot) < 0.05 for foot in feet), y
