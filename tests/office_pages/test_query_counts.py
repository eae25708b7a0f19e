from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quarterwalk.crop import Seen
from quarterwalk.office.models import FieldRow
from quarterwalk.office.services.district import set_stopping
from quarterwalk.office.services.seen import note_seen
from quarterwalk.plan import Stopping
from tests.office.people import People, square
from tests.office.weathered import planted, weathered
from tests.office_pages.visits import visitor
from tests.office_pages.walked import judge, walk_in


def more_fields(people: People) -> None:
    for place in range(4):
        row = FieldRow.objects.create(
            district=people.near,
            name=f"More {place}",
            grower=people.home.grower,
            boundary=square(-99.5 + 0.02 * place),
            acres=77.0,
        )
        judge(row)
        walk_in(row, people.bob, date(2026, 6, 24), nymphs=1, lost=0)


def more_walks(people: People) -> None:
    for day in (22, 24, 26, 28):
        walk_in(people.home, people.bob, date(2026, 6, day), nymphs=1, lost=0)


def asked(people: People, path: str) -> int:
    client = visitor(people.alice)
    client.get(path)  # what a process keeps is there already
    with CaptureQueriesContext(
        connection,
    ) as queries:
        assert client.get(path).status_code == 200
    return len(queries)


@pytest.mark.parametrize("more", [more_fields, more_walks])
def test_the_list_asks_no_more_for_more_fields_and_walks(
    people: People, walk_id: str, more: Callable[[People], None]
) -> None:
    before = asked(people, "/")
    more(people)
    assert asked(people, "/") == before


def test_the_list_asks_no_more_where_stages_are_worked_out(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    before = asked(people, "/")
    planted(people.east)
    more_walks(people)
    for row in people.near.fields.all():
        note_seen(field=row, seen=Seen(date(2026, 6, 20), nodes=8), by=people.bob)
    assert asked(people, "/") <= before + 2  # the newest walks, and their calls


def test_a_season_asks_no_more_for_more_walks(people: People, walk_id: str) -> None:
    weathered(people.near)
    path = f"/fields/{people.home.public_id}/season"
    before = asked(people, path)
    more_walks(people)
    assert asked(people, path) == before


def test_a_field_asks_no_more_for_more_walks(people: People, walk_id: str) -> None:
    path = f"/fields/{people.home.public_id}"
    before = asked(people, path)
    more_walks(people)
    assert asked(people, path) == before


def test_a_field_asks_no_more_where_walks_may_end_early(people: People, walk_id: str) -> None:
    path = f"/fields/{people.home.public_id}"
    before = asked(people, path)
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    assert "May end after the first loop" in visitor(people.alice).get(path).content.decode()
    assert asked(people, path) == before


def test_a_walk_asks_no_more_for_more_plants(people: People, walk_id: str) -> None:
    few = walk_in(people.home, people.bob, date(2026, 6, 30), nymphs=0, lost=0)
    more_fields(people)
    assert asked(people, f"/walks/{few}") == asked(people, f"/walks/{walk_id}")
