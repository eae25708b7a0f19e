"""Two at once: leads who both step down, phones that pair by one code, desks.

`test_storage_on_postgres` runs these: the SQLite of tests lies in memory and lets nobody wait.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from threading import Barrier
from typing import Any

import pytest
from django.db import connection

from quarterwalk.office.models import Device, JournalEntry, Membership, Role
from quarterwalk.office.services import people as service
from quarterwalk.office.services import phones
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.walks import enter_walk
from quarterwalk.walk import InsectCount, PlantCheck, Quadrant
from tests.office.people import People


def at_once(*doings: Callable[[], Any]) -> Sequence[Any]:
    ready = Barrier(len(doings))

    def do(doing: Callable[[], Any]) -> Any:
        try:
            ready.wait(10)
            return doing()
        except ServiceRefused as refused:
            return refused
        finally:
            connection.close()

    with ThreadPoolExecutor(len(doings)) as threads:
        return list(threads.map(do, doings))


@pytest.mark.django_db(transaction=True)
def test_of_two_leads_who_step_down_at_once_one_stays(people: People) -> None:
    service.change_role(part=people.part(people.bob), role=Role.LEAD)
    parts = [people.part(people.alice), people.part(people.bob)]
    told = at_once(*(lambda part=part: service.take_away(part=part) for part in parts))
    assert sum(isinstance(each, ServiceRefused) for each in told) == 1
    assert Membership.objects.filter(district=people.near, role=Role.LEAD).count() == 1


@pytest.mark.django_db(transaction=True)
def test_of_many_phones_one_pairs_by_one_code(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    told = at_once(*[lambda: phones.pair(code=code, label="")] * 4)
    assert sum(each is not None for each in told) == 1
    assert Device.objects.count() == 1


@pytest.mark.django_db(transaction=True)
def test_desks_at_once_number_their_entries_one_after_another(people: People) -> None:
    def enter() -> str:
        checks = [PlantCheck(Quadrant.NW, n, insects=InsectCount()) for n in range(1, 6)]
        return enter_walk(
            field=people.home, on=date(2026, 6, 18), scout="", checks=checks, by=people.bob
        )

    assert len(set(at_once(*[enter] * 4))) == 4
    assert sorted(JournalEntry.objects.values_list("key_seq", flat=True)) == list(range(1, 29))
