"""Phones that send at the same moment: each entry is held once, and no row is lost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier
from typing import Any

import pytest

from tests.office.ends import History, Said
from tests.office.histories import make_history
from tests.office.live import BEGINS, Live, live_office
from tests.office.offices import cast_of

AT_ONCE = 4
ROUNDS = 8
Answers = tuple[int, list[dict[str, Any]]]


def at_once(live: Live, batches: Sequence[Sequence[Said]]) -> list[Answers]:
    """Post batches at the same moment, each by a thread of its own."""
    ready = Barrier(len(batches))

    def post(batch: Sequence[Said]) -> Answers:
        ready.wait()
        return live.post(batch[0].device, batch)

    with ThreadPoolExecutor(len(batches)) as threads:
        return list(threads.map(post, batches))


def two_phones() -> History:
    """Find a history in which two phones each wrote a good part of the same walks."""
    histories = (make_history(seed, cast_of(BEGINS), walks=20) for seed in range(100))
    return next(h for h in histories if min(_shares(h), default=0) > 120)


def _shares(history: History) -> list[int]:
    counts = Counter(said.device for said in history.said)
    return list(counts.values()) if len(counts) == 2 else []


def pieces(journal: Sequence[Said], count: int) -> list[Sequence[Said]]:
    size = -(-len(journal) // count)
    return [journal[begin : begin + size] for begin in range(0, len(journal), size)]


def see_all_held(live: Live, history: History) -> None:
    held = live.held()
    assert len(held) == live.count() == len(history.said)
    assert dict(held) == {said.key: said.line for said in history.said}
    assert live.differing() == []


def same_batch_four_times(live: Live) -> None:
    history = two_phones()
    for device in history.devices:
        for batch in pieces(history.journal(device), ROUNDS):
            answers = at_once(live, [batch] * AT_ONCE)
            assert {status for status, _ in answers} == {200}
            for told in zip(*(lines for _, lines in answers), strict=True):
                assert sorted(line["answer"] for line in told) == [
                    *["already-held"] * (AT_ONCE - 1), "held",
                ]  # fmt: skip
    see_all_held(live, history)


def two_phones_of_one_walk(live: Live) -> None:
    history = two_phones()
    first, second = (pieces(history.journal(device), 3 * ROUNDS) for device in history.devices)
    for batches in zip(first, second, strict=False):
        answers = at_once(live, batches)
        assert {status for status, _ in answers} == {200}
        assert {line["answer"] for _, lines in answers for line in lines} == {"held"}
    for device in history.devices:
        assert live.post(device, history.journal(device))[0] == 200
    see_all_held(live, history)


WAYS: tuple[Callable[[Live], None], ...] = (same_batch_four_times, two_phones_of_one_walk)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_phones_that_send_at_once_lose_nothing(way: Callable[[Live], None], tmp_path: Path) -> None:
    with live_office(tmp_path) as live:
        way(live)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_phones_that_send_at_once_lose_nothing_on_postgres(
    way: Callable[[Live], None], tmp_path: Path, postgres_url: str
) -> None:
    with live_office(tmp_path, postgres_url) as live:
        way(live)
