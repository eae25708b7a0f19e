"""A dropped download is tried again, with longer pauses, and not for ever."""

from __future__ import annotations

import itertools

from retry import PAUSES_S, succeeds


def test_what_works_at_once_is_done_once() -> None:
    tries: list[int] = []
    slept: list[float] = []

    def attempt() -> bool:
        tries.append(1)
        return True

    assert succeeds("It", attempt, sleep=slept.append)
    assert (len(tries), slept) == (1, [])


def test_what_works_the_third_time_is_done_three_times() -> None:
    answers = iter([False, False, True])
    slept: list[float] = []
    assert succeeds("It", lambda: next(answers), pauses=(1, 2), sleep=slept.append)
    assert slept == [1, 2]


def test_what_never_works_is_given_up() -> None:
    tries: list[int] = []

    def attempt() -> bool:
        tries.append(1)
        return False

    assert not succeeds("It", attempt, pauses=(1, 2), sleep=lambda _: None)
    assert len(tries) == 3


def test_pauses_grow() -> None:
    assert all(before < after for before, after in itertools.pairwise(PAUSES_S))
