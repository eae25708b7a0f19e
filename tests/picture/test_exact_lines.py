"""A reading on the line or a hair beside it is drawn and told on its own side."""

from __future__ import annotations

from quarterwalk.picture import Theme, pinch
from tests.call.made import call, reading
from tests.picture.drawn import having, texts
from tests.picture.test_pinch import dots, posts


def drawn(insects: int, healthy: int, missing: int) -> str:
    read = reading(insects, healthy=healthy, missing=missing)
    return pinch(read, call(read), level=0.9, theme=Theme.PRINT, width=820, id="p", language="en")


def test_25_on_100_is_over_a_line_of_25_and_255_of_300_is_not_under_85() -> None:
    svg = drawn(25, 255, 45)
    assert dots(svg) == posts(svg)
    assert "25 fleahoppers on 100 plants" in texts(svg)
    assert "85 of 100 squares still good" in texts(svg)


def test_254_of_300_is_not_rounded_up_to_the_floor() -> None:
    svg = drawn(24, 254, 46)  # 84.67 %
    assert "84.7 of 100 squares still good" in texts(svg)
    assert dots(svg)[1] < posts(svg)[1]
    assert dots(svg)[0] < posts(svg)[0]
    assert having(svg, "qw-past")
