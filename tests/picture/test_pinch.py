"""The pinch answers one question: are both measures past their lines?"""

from __future__ import annotations

import re

import pytest

from tests.picture.drawn import cases, drawn_pinch, having, parsed, size_of, spread, texts

LINED = [name for name, case in cases().items() if case.call.guideline.line is not None]


def posts(svg: str) -> list[float]:
    """Give where the posts stand, from left to right."""
    rects = having(svg, "qw-ink", "rect")
    return sorted(float(r.get("x", "0")) + float(r.get("width", "0")) / 2 for r in rects)


def dots(svg: str) -> list[float]:
    return sorted(float(dot.get("cx", "0")) for dot in having(svg, "qw-reading"))


def parts(svg: str, cls: str) -> list[tuple[float, float]]:
    return sorted(spread(path.get("d", "")) for path in having(svg, cls, "path"))


def test_both_leaves_in_the_hatched_ground_mean_treat() -> None:
    svg = drawn_pinch("over")
    left, right = posts(svg)
    assert len(parts(svg, "qw-past")) == 2
    assert all(left < dot < right for dot in dots(svg))


def test_a_leaf_is_parted_exactly_at_its_post() -> None:
    svg = drawn_pinch("near")
    post = posts(svg)[0]
    clear, past = parts(svg, "qw-leaf")[0], parts(svg, "qw-past")[0]
    assert clear[1] == pytest.approx(post, abs=0.02)
    assert past[0] == pytest.approx(post, abs=0.02)


@pytest.mark.parametrize("name", LINED)
@pytest.mark.parametrize("width", [328, 820])
def test_hatched_ground_lies_past_the_posts_only(name: str, width: int) -> None:
    svg = drawn_pinch(name, width=width)
    (hatch,) = having(svg, "qw-hatch")
    low, high = spread(hatch.get("d", ""))
    stand = posts(svg)
    assert low >= stand[0] - 0.02
    assert high <= (stand[1] if len(stand) > 1 else size_of(svg)[0]) + 0.02


@pytest.mark.parametrize("name", LINED)
@pytest.mark.parametrize("width", [328, 820])
def test_leaves_of_two_measures_never_meet(name: str, width: int) -> None:
    svg = drawn_pinch(name, width=width)
    whole = parts(svg, "qw-aura")
    assert all(before[1] < after[0] for before, after in zip(whole, whole[1:], strict=False))
    assert all(low >= -4 and high <= width + 4 for low, high in whole)


def test_a_guideline_with_one_measure_draws_one_side() -> None:
    svg = drawn_pinch("one measure")
    assert len(posts(svg)) == 1
    assert not any("squares" in text for text in texts(svg))


def test_where_the_blasted_count_their_share_runs_from_none_at_the_right() -> None:
    svg = drawn_pinch("blasted")
    assert "10 %" in texts(svg)
    assert "0 % blasted" in texts(svg)
    assert "13 of 100 squares blasted" in texts(svg)  # 40 of 310
    assert dots(svg)[1] < posts(svg)[1]


def test_squares_nobody_looked_at_look_empty_and_not_like_zero() -> None:
    svg = drawn_pinch("squares not looked at")
    assert len(posts(svg)) == 2
    assert len(dots(svg)) == 1
    assert "squares not looked at" in texts(svg)
    assert "0 of 100 squares still good" not in texts(svg)


def test_squares_too_few_to_judge_by_are_drawn_hollow() -> None:
    svg = drawn_pinch("few squares")
    assert having(svg, "qw-hollow")
    assert len(parts(svg, "qw-past")) == 1
    assert "too few squares to judge by" in texts(svg)


def test_no_insect_found_is_a_reading_with_a_range() -> None:
    svg = drawn_pinch("none found")
    assert len(dots(svg)) == 2
    assert "0 fleahoppers on 100 plants" in texts(svg)


@pytest.mark.parametrize(
    ("name", "why"), [("too early", "too early"), ("over the season", "season over")]
)
def test_without_a_call_there_are_two_bare_posts_and_the_word_for_why(name: str, why: str) -> None:
    svg = drawn_pinch(name)
    assert len(posts(svg)) == 2
    assert not having(svg, "qw-hatch")
    assert not having(svg, "qw-past")
    assert not having(svg, "qw-leaf")
    assert why in texts(svg)


def test_a_range_with_no_upper_end_is_cut_open_with_an_arrow() -> None:
    svg = drawn_pinch("two plants")
    (arrow,) = having(svg, "qw-beyond")
    tip = max(float(pair.split(",")[0]) for pair in arrow.get("points", "").split())
    assert tip < size_of(svg)[0] / 2
    assert any(text.startswith("most likely") and "or more" in text for text in texts(svg))
    assert not having(drawn_pinch("over"), "qw-beyond")


def test_ten_times_the_line_still_draws_with_line_and_leaf_apart() -> None:
    svg = drawn_pinch("ten times over")
    left, _ = posts(svg)
    assert dots(svg)[0] - left > 100
    assert left > 20


def test_the_flags_carry_the_line_and_the_floor() -> None:
    assert {"25", "85 %"} <= set(texts(drawn_pinch("over")))


def test_the_drawing_says_its_numbers_to_a_screen_reader() -> None:
    told = "".join(parsed(drawn_pinch("over"))[1].itertext())
    assert re.search(r"34 fleahoppers on 100 plants, most likely .* the line is 25\.", told)
    assert "79 of 100 squares still good" in told  # 252 of 318
