"""Words that have no room are cut, broken into lines, or set smaller."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.picture.lettering import cut, in_lines, room


def test_a_name_of_200_letters_is_cut_and_shows_it() -> None:
    name = cut("Windmill " * 23, 60)
    assert len(name) <= 60
    assert name.endswith("…")


def test_a_name_that_fits_is_left_alone_but_for_line_ends() -> None:
    assert cut("Home\n 40 ", 60) == "Home 40"


@given(st.lists(st.text("abcdefgh", min_size=1), max_size=12), st.floats(20, 400))
def test_breaking_words_loses_none(given_words: list[str], width: float) -> None:
    lines = in_lines(" ".join(given_words), 16, width)
    assert " ".join(lines).split() == given_words
    assert all(room(line, 16) <= width for line in lines if " " in line)


def test_larger_type_takes_more_room_and_letters_nobody_measured_take_the_most() -> None:
    assert room("Look sooner", 32) == 2 * room("Look sooner", 16)
    assert room("قطن", 16) > room("ill", 16)
