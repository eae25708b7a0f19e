"""The next look on a field's season: all its days, and that it is late where it is."""

from __future__ import annotations

import json
from datetime import date, timedelta

import pytest

from quarterwalk.office.models import CallRow, FieldRow
from quarterwalk.office.queries.season import season_seen
from quarterwalk.office.services.fields import SeasonDates, set_dates
from tests.office.people import People
from tests.office.weathered import PLANTED, planted, weathered
from tests.office_pages.walked import walk_in


def ahead(people: People, on: date) -> str:
    row = FieldRow.objects.get(pk=people.home.pk)
    report = season_seen(row, people.part(people.alice), on).report
    assert report is not None
    return " ".join(report.ahead)


@pytest.fixture
def due(people: People) -> date:
    """Walk a field, and give the last good day of its next look."""
    weathered(people.near)
    planted(people.home)
    walk_in(people.home, people.bob, date(2026, 6, 24), nymphs=1, lost=0)
    told = json.loads(CallRow.objects.get().content)["call"]
    return date.fromisoformat(told["next_look"])


def test_a_look_is_due_until_its_last_good_day_and_then_it_was_due(
    people: People, due: date
) -> None:
    told = [ahead(people, due + timedelta(days=by)) for by in (-1, 0, 1)]
    assert ["The next look is due" in each for each in told] == [True, True, False]
    assert ["The next look was due" in each for each in told] == [False, False, True]


def test_both_days_of_a_look_are_told(people: People, due: date) -> None:
    walk_in(people.home, people.bob, date(2026, 6, 25), nymphs=5, lost=0)
    # more insects than two thirds of the line: again after 3 to 4 days
    assert "The next look is due 28 to 29 June." in ahead(people, date(2026, 6, 26))
    assert "The next look was due 28 to 29 June." in ahead(people, date(2026, 6, 30))


def test_a_spray_since_the_walk_says_when_somebody_comes_back(people: People, due: date) -> None:
    row = FieldRow.objects.get(pk=people.home.pk)
    dates = SeasonDates(planted=PLANTED)
    set_dates(field=row, year=2026, dates=dates, treated=[date(2026, 6, 25)])
    # 3 to 4 days after a treatment
    assert "The next look is due 28 to 29 June." in ahead(people, date(2026, 6, 26))


def test_past_the_season_of_the_rule_no_look_is_told(people: People, due: date) -> None:
    row = FieldRow.objects.get(pk=people.home.pk)
    dates = SeasonDates(planted=PLANTED, first_square=date(2026, 6, 5), bloom=date(2026, 6, 28))
    set_dates(field=row, year=2026, dates=dates)
    assert "The next look" not in ahead(people, date(2026, 6, 29))
