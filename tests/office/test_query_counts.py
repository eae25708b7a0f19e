"""How often the database is asked does not grow with what is in it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quarterwalk.office.models import FieldRow, Grower, WalkRow
from quarterwalk.office.services.calls import calls_for
from quarterwalk.office.services.district import set_stopping
from quarterwalk.plan import Stopping
from tests.office.people import People, made_ready, square
from tests.office.sender import Sender
from tests.office.weathered import planted, weathered


def more_fields(people: People, count: int) -> list[FieldRow]:
    made = []
    for number in range(count):
        grower = Grower.objects.create(district=people.near, name=f"Grower {number}")
        field = FieldRow.objects.create(
            district=people.near, name=f"Field {number}", grower=grower, acres=77,
            boundary=square(-99 + number / 100),
        )  # fmt: skip
        made_ready(field)
        made.append(field)
    return made


def asked(what: Callable[[], Any]) -> int:
    what()  # cards are made and guidelines read the first time
    with CaptureQueriesContext(
        connection,
    ) as queries:
        what()
    return len(queries)


@pytest.fixture
def counts(bobs: Sender, people: People) -> Callable[[Callable[[], Any]], tuple[int, int]]:
    def count(what: Callable[[], Any]) -> tuple[int, int]:
        bobs.send(*bobs.walk(people.home, 8))
        few = asked(what)
        for field in more_fields(people, 5):
            bobs.send(*bobs.walk(field, 8))
        return few, asked(what)

    return count


def test_the_day_of_a_phone(bobs: Sender, counts: Any) -> None:
    few, many = counts(lambda: bobs.get("day"))
    assert few == many
    assert many <= 16


def test_the_day_of_a_phone_where_walks_may_end_early(bobs: Sender, people: People) -> None:
    before = asked(lambda: bobs.get("day"))
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    assert asked(lambda: bobs.get("day")) == before


def test_the_calls_of_many_walks(counts: Any) -> None:
    few, many = counts(lambda: calls_for(WalkRow.objects.all()))
    assert few == many
    assert many <= 6


@pytest.fixture
def by_clock(bobs: Sender, people: People) -> Callable[[Callable[[], Any]], tuple[int, int]]:
    weathered(people.near)

    def count(what: Callable[[], Any]) -> tuple[int, int]:
        planted(people.home)
        bobs.send(*bobs.walk(people.home, 8))
        few = asked(what)
        for field in more_fields(people, 5):
            planted(field)
            bobs.send(*bobs.walk(field, 8))
        return few, asked(what)

    return count


def test_the_day_of_a_phone_by_the_crops_clock(bobs: Sender, by_clock: Any) -> None:
    few, many = by_clock(lambda: bobs.get("day"))
    assert few == many
    assert many <= 24


def test_the_calls_of_many_walks_by_the_crops_clock(by_clock: Any) -> None:
    few, many = by_clock(lambda: calls_for(WalkRow.objects.all()))
    assert few == many
    assert many <= 10


def test_how_walks_stand(bobs: Sender, counts: Any) -> None:
    few, many = counts(
        lambda: bobs.get("walks", id=list(WalkRow.objects.values_list("walk_id", flat=True)))
    )
    assert few == many
    assert many <= 12


def test_a_long_batch_asks_hardly_more_than_a_short_one(bobs: Sender, people: People) -> None:
    short, long = bobs.walk(people.home, 4), bobs.walk(people.east, 200)
    with CaptureQueriesContext(connection) as few:
        bobs.send(*short)
    with CaptureQueriesContext(connection) as many:
        bobs.send(*long)
    inserts = sum(query["sql"].startswith("INSERT") for query in many)
    assert len(many) - inserts <= len(few)
