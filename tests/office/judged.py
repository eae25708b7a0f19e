"""One history judged: however it comes to the office, its end is the same."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from django.db import transaction
from django.test import override_settings

from quarterwalk.office.services.projections import rebuild
from tests.office.deliveries import deliver, once_in_order
from tests.office.ends import History
from tests.office.histories import make_history
from tests.office.live import BEGINS, shift_ms
from tests.office.offices import (
    Office,
    dump,
    open_office,
    same,
    see_ends,
    see_entries,
    sent_to,
    wipe,
)


def judge_all(seeds: Iterable[int]) -> Counter[str]:
    """Judge one history a seed, and count what was done."""
    done: Counter[str] = Counter()
    with override_settings(SHIFT_MS=shift_ms()), undone():
        office = open_office(BEGINS)
        for seed in seeds:
            history = make_history(seed, office.cast)
            try:
                requests = judge(history, office)
            except AssertionError as error:
                error.add_note(f"history {seed}")
                raise
            done += Counter(histories=1, entries=len(history.said), requests=requests)
    return done


def judge(history: History, office: Office) -> int:
    """Send a history in its odd way and in the plain way, and hold the ends to what must stand.

    The office is afterwards as it was. Gives the number of requests that were made.
    """
    with undone():
        receipt = sent_to(office, deliver(history))
        see_entries(receipt)
        assert len(receipt.here) == len(history.said)
        see_ends(history)
        odd = dump()
        same("walks that rebuild finds differing", rebuild(check=True).differing, ())
        wipe()
        assert set(rebuild(check=True).differing) >= set(history.walks)
        rebuild(check=False)
        same("rows made again", dump(), odd)
    with undone():
        plain = sent_to(office, once_in_order(history))
        same("rows of the plain way", dump(), odd)
    return receipt.posts + plain.posts


@contextmanager
def undone() -> Iterator[None]:
    """Take back in the end whatever was done to the database."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)
