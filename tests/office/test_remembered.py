from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier, Event

import pytest

from quarterwalk.office.remembered import Remembered


def test_the_same_content_is_made_once() -> None:
    made: list[str] = []
    remembered: Remembered[str, list[str]] = Remembered(2)
    first = remembered.made("a", lambda: [*made, "a"])
    assert remembered.made("a", lambda: ["another"]) is first


def test_the_longest_unused_is_forgotten_first() -> None:
    remembered: Remembered[int, str] = Remembered(2)
    for key in (1, 2):
        remembered.made(key, lambda: "made")
    assert remembered.get(1) == "made"
    remembered.made(3, lambda: "made")
    assert [remembered.get(key) for key in (1, 2, 3)] == ["made", None, "made"]


def test_who_asks_for_the_same_meanwhile_waits_for_it() -> None:
    made: list[str] = []
    remembered: Remembered[str, list[str]] = Remembered(2)
    ready, go = Barrier(4, timeout=10), Event()

    def slow() -> list[str]:
        made.append("a")
        go.wait(0.2)
        return made

    def ask(_: int) -> list[str]:
        ready.wait()
        return remembered.made("a", slow)

    with ThreadPoolExecutor(4) as threads:
        told = list(threads.map(ask, range(4)))
    assert made == ["a"]
    assert all(each is made for each in told)


def test_what_could_not_be_made_is_made_the_next_time() -> None:
    remembered: Remembered[str, str] = Remembered(2)
    with pytest.raises(ZeroDivisionError):
        remembered.made("a", lambda: str(1 / 0))
    assert remembered.made("a", lambda: "made") == "made"
