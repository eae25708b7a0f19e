"""The first time that a day is asked, its cards are made: in as many queries for many fields."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quarterwalk.office.models import CardRow
from tests.office.people import People, made_ready
from tests.office.seasoned import more_fields, walk_in
from tests.office.sender import Sender


def asked(bobs: Sender) -> int:
    CardRow.objects.all().delete()
    with CaptureQueriesContext(connection) as queries:
        assert bobs.get("day").status_code == 200
    return len(queries)


@pytest.mark.django_db
def test_the_first_day_asked_costs_the_same_for_many_fields(bobs: Sender, people: People) -> None:
    walk_in(people.home, people.bob, nymphs=2, lost=1)
    asked(bobs)  # the first time, the phone is also kept as seen
    few = asked(bobs)
    for field in more_fields(people.near, 6):
        made_ready(field)
        walk_in(field, people.bob, nymphs=9, lost=1)
    assert asked(bobs) == few
    assert CardRow.objects.count() == people.near.fields.count()
