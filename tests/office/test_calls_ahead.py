"""What a change of weather makes of calls: those it can change, all at once, nobody waiting."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from django.db import connection

from quarterwalk.crop import Seen
from quarterwalk.office.models import CallRow, StationRow
from quarterwalk.office.services import calls
from quarterwalk.office.services.calls_ahead import CallsAhead
from quarterwalk.office.services.fields import SeasonDates, set_dates
from quarterwalk.office.services.seen import note_seen
from quarterwalk.office.services.weather import remove_station
from quarterwalk.weather import DailyWeather, DayMark
from tests.office.people import People
from tests.office.seasoned import DAY, walk_in
from tests.office.weathered import FIRST, PLANTED, planted, station, weathered

EARLY = date(2026, 6, 4)
FAR = (-101.0, 33.0)


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Name every walk whose call is made, in turn."""
    told: list[str] = []
    before = calls.calls_for

    def watched(walks, **more):  # type: ignore[no-untyped-def]
        rows = list(walks)
        told.extend(row.walk_id for row in rows)
        return before(rows, **more)

    monkeypatch.setattr(calls, "calls_for", watched)
    return told


def until(last: date, *, forecast: int = 0, warmer: float = 0.0) -> DailyWeather:
    """Give the station's days to one of them, and a forecast of the days after it."""
    told = station(days=(FIRST, last + timedelta(days=forecast)), warmer=warmer)
    marks = told.marks.copy()
    marks[marks.size - forecast :] = DayMark.FORECAST
    return replace(told, marks=marks)


def test_a_call_keeps_its_forecast_when_the_days_after_it_are_measured(people: People) -> None:
    planted(people.home)
    weathered(people.near, until(EARLY, forecast=7))
    walk_in(people.home, people.bob, nymphs=1, lost=0, on=EARLY)
    later = station(days=(EARLY + timedelta(days=1), DAY), warmer=9)
    weathered(people.near, later)
    assert CallRow.objects.count() == 1


def test_another_forecast_leaves_calls_as_they_are(people: People, made: list[str]) -> None:
    planted(people.home)
    weathered(people.near, until(EARLY, forecast=7))
    walk_in(people.home, people.bob, nymphs=1, lost=0, on=EARLY)
    made.clear()
    told = station(days=(EARLY + timedelta(days=1), EARLY + timedelta(days=7)), warmer=9)
    other = replace(told, marks=np.full(7, DayMark.FORECAST, np.uint8))
    [taken] = weathered(people.near, other)
    assert (taken.added, taken.changed, made) == (0, 0, [])


def test_a_day_that_was_forecast_and_is_measured_changes_walks_from_then_on(
    people: People,
) -> None:
    planted(people.home)
    weathered(people.near, until(DAY - timedelta(days=9), forecast=9))
    walk = walk_in(people.home, people.bob, nymphs=9, lost=1)
    weathered(people.near, station(days=(DAY - timedelta(days=8), DAY), warmer=9))
    assert CallRow.objects.filter(walk_id=walk).count() == 2


def test_only_walks_from_the_changed_day_on_are_judged_anew(
    people: People, made: list[str]
) -> None:
    planted(people.home)
    weathered(people.near)
    walk_in(people.home, people.bob, nymphs=1, lost=0, on=EARLY)
    late = walk_in(people.home, people.bob, nymphs=9, lost=1)
    made.clear()
    weathered(people.near, station(days=(EARLY + timedelta(days=1), DAY), warmer=9))
    assert made == [late]


def test_a_station_that_no_field_goes_by_makes_no_call_anew(
    people: People, made: list[str]
) -> None:
    planted(people.home)
    weathered(people.near, station(), station("FAR", place=FAR))
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    made.clear()
    weathered(people.near, station("FAR", place=FAR, warmer=9))
    weathered(people.near, station("FAR", name="Far Well", place=FAR, warmer=9))
    remove_station(station=StationRow.objects.get(station="FAR"))
    assert made == []


def test_another_name_of_its_station_makes_a_call_anew(people: People) -> None:
    planted(people.home)
    weathered(people.near)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    weathered(people.near, station(name="Old Gin"))
    assert "Old Gin" in CallRow.objects.order_by("-pk")[0].content


def test_without_its_station_a_field_goes_by_the_next_and_its_call_is_made_anew(
    people: People,
) -> None:
    planted(people.home)
    weathered(people.near, station(), station("FAR", name="Far Well", place=FAR, warmer=9))
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    remove_station(station=StationRow.objects.get(station="GIN"))
    told = CallRow.objects.order_by("pk")
    assert ["Far Well" in call.content for call in told] == [False, True]


def test_walks_of_fields_with_first_square_given_are_not_judged_anew(
    people: People, made: list[str]
) -> None:
    planted(people.home)
    dates = SeasonDates(planted=PLANTED, first_square=date(2026, 6, 12))
    set_dates(field=people.home, year=2026, dates=dates)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    made.clear()
    weathered(people.near)
    assert made == []


def test_a_note_makes_no_call_of_a_walk_before_it_anew(people: People, made: list[str]) -> None:
    planted(people.home)
    weathered(people.near)
    walk_in(people.home, people.bob, nymphs=1, lost=0, on=EARLY)
    late = walk_in(people.home, people.bob, nymphs=9, lost=1)
    made.clear()
    seen = Seen(EARLY + timedelta(days=1), true_leaves=5)
    note_seen(field=people.home, seen=seen, by=people.bob)
    assert made == [late]


def test_the_same_dates_again_make_no_call_anew(people: People, made: list[str]) -> None:
    planted(people.home)
    weathered(people.near)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    made.clear()
    set_dates(field=people.home, year=2026, dates=SeasonDates(planted=PLANTED), treated=())
    assert made == []
    set_dates(field=people.home, year=2026, dates=SeasonDates(planted=PLANTED), treated=(DAY,))
    assert len(made) == 1


@pytest.mark.django_db(transaction=True)
def test_calls_are_made_while_others_may_write(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    planted(people.home)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    held: list[bool] = []
    before = calls.make_call

    def watched(*told, **more):  # type: ignore[no-untyped-def]
        held.append(connection.in_atomic_block)
        return before(*told, **more)

    monkeypatch.setattr(calls, "make_call", watched)
    weathered(people.near)
    remove_station(station=StationRow.objects.get())
    assert held == [False]
    assert CallRow.objects.count() == 1


def test_a_walk_that_comes_in_meanwhile_is_judged_by_the_new_weather_too(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    planted(people.home)
    first = walk_in(people.home, people.bob, nymphs=9, lost=1)
    came: list[str] = []
    make = CallsAhead.make

    def slow(self: CallsAhead, change):  # type: ignore[no-untyped-def]
        make(self, change)
        if not came:
            came.append(walk_in(people.home, people.bob, nymphs=1, lost=0, on=EARLY))

    monkeypatch.setattr(CallsAhead, "make", slow)
    weathered(people.near)
    # the earlier walk tells the clock of the later one: neither is judged without the other
    told = dict(CallRow.objects.values_list("walk_id", "content"))
    assert told.keys() == {first, *came}
    assert told == calls.texts_of([first, *came])


def test_where_others_never_rest_they_wait_at_last(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    planted(people.home)
    monkeypatch.setattr("quarterwalk.office.services.weather._FEW", -1)
    walk = walk_in(people.home, people.bob, nymphs=9, lost=1)
    weathered(people.near)
    assert [call.walk_id for call in CallRow.objects.all()] == [walk]
    assert StationRow.objects.count() == 1


def test_what_breaks_off_leaves_neither_weather_nor_calls(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    planted(people.home)
    walk_in(people.home, people.bob, nymphs=9, lost=1)

    def broken(self: CallsAhead) -> None:
        raise RuntimeError("the disk is full")

    monkeypatch.setattr(CallsAhead, "keep", broken)
    with pytest.raises(RuntimeError):
        weathered(people.near)
    assert not StationRow.objects.exists()
    assert not CallRow.objects.exists()
    monkeypatch.undo()
    weathered(people.near)
    assert CallRow.objects.count() == 1
