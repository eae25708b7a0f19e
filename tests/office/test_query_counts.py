"""What phones ask costs as many queries for twenty fields as for two."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from quarterwalk.office.models import CardRow, Device
from quarterwalk.office.services.walks import enter_walk
from quarterwalk.walk import InsectCount, PlantCheck, Quadrant
from tests.office.people import People, made_ready, phone
from tests.office.seasoned import DAY, more_fields, walk_in


def queries(token: str, path: str) -> int:
    """Ask as a phone does, and count what it cost."""
    with CaptureQueriesContext(connection) as asked:
        answer = Client().get(path, headers={"Authorization": f"Bearer {token}"})
    assert answer.status_code == 200, answer.content
    return len(asked)


@pytest.fixture
def paired(people: People) -> tuple[Device, str]:
    made_ready(people.home)
    walk_in(people.home, people.bob, nymphs=2, lost=1)
    return phone(people.bob, people.near)


def grow(people: People) -> None:
    """Let six more fields come, each with two walks."""
    for field in more_fields(people.near, 6):
        made_ready(field)
        for nymphs in (1, 9):
            walk_in(field, people.bob, nymphs=nymphs, lost=1)


@pytest.mark.django_db
def test_a_day_that_was_asked_before_costs_the_same_for_many_fields(
    people: People, paired: tuple[Device, str]
) -> None:
    queries(paired[1], "/sync/day")
    few = queries(paired[1], "/sync/day")
    grow(people)
    queries(paired[1], "/sync/day")
    assert queries(paired[1], "/sync/day") == few


@pytest.mark.django_db
def test_the_first_day_asked_costs_the_same_for_many_fields(
    people: People, paired: tuple[Device, str]
) -> None:
    few = queries(paired[1], "/sync/day")
    grow(people)
    CardRow.objects.all().delete()
    # the first time, the phone is also kept as seen
    assert queries(paired[1], "/sync/day") <= few


@pytest.mark.django_db
def test_asking_for_many_walks_costs_the_same_as_for_one(
    people: People, paired: tuple[Device, str]
) -> None:
    ids = [walk_in(people.home, people.bob, nymphs=n, lost=1) for n in range(8)]
    queries(paired[1], "/sync/day")
    one = queries(paired[1], f"/sync/walks?id={ids[0]}")
    assert queries(paired[1], "/sync/walks?" + "&".join(f"id={i}" for i in ids)) == one


@pytest.mark.django_db
def test_a_walk_of_many_plants_is_kept_in_as_many_queries_as_one_of_few(people: People) -> None:
    made_ready(people.home)
    walk_in(people.home, people.bob, nymphs=1, lost=1)

    def kept(plants: int) -> int:
        checks = [PlantCheck(Quadrant.NW, n, insects=InsectCount(1)) for n in range(1, plants + 1)]
        with CaptureQueriesContext(connection) as asked:
            enter_walk(field=people.home, on=DAY, scout="", checks=checks, by=people.bob)
        return len(asked)

    assert kept(20) == kept(2)
