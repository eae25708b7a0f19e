from __future__ import annotations

from quarterwalk.office.remembered import Remembered


def test_the_same_content_is_made_once() -> None:
    made: list[str] = []
    remembered: Remembered[str, list[str]] = Remembered(2)
    first = remembered.made("a", lambda: [*made, "a"])
    assert remembered.made("a", lambda: ["another"]) is first


def test_the_oldest_is_forgotten_first() -> None:
    remembered: Remembered[int, str] = Remembered(2)
    for key in (1, 2, 3):
        remembered.made(key, lambda: "made")
    assert [remembered.get(key) for key in (1, 2, 3)] == [None, "made", "made"]
