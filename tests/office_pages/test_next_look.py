"""The next look on a field's season: shown until its last good day is over."""

from __future__ import annotations

import json
from datetime import date, timedelta

from quarterwalk.office.models import CallRow, FieldRow
from quarterwalk.office.queries.season import season_seen
from tests.office.people import People
from tests.office.weathered import planted, weathered
from tests.office_pages.walked import walk_in


def looks(people: People, on: date) -> bool:
    row = FieldRow.objects.get(pk=people.home.pk)
    report = season_seen(row, people.part(people.alice), on).report
    assert report is not None
    return "The next look is due" in " ".join(report.ahead)


def test_a_look_that_is_due_today_is_shown_and_tomorrow_no_more(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    walk_in(people.home, people.bob, date(2026, 6, 24), nymphs=1, lost=0)
    told = json.loads(CallRow.objects.get().content)["call"]
    due = date.fromisoformat(told["next_look"])
    assert [looks(people, due + timedelta(days=by)) for by in (-1, 0, 1)] == [True, True, False]
