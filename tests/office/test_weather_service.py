"""Weather of a district: taken whole, laid over what is here, and never lost where measured."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.errors import RefusedInput
from quarterwalk.office.kept_weather import weather_of
from quarterwalk.office.models import CallRow, StationRow
from quarterwalk.office.services.weather import MOST_STATIONS, remove_station
from quarterwalk.office.translate_season import from_weather, to_weather
from quarterwalk.weather import DailyWeather, DayMark, Station
from tests.office.people import People
from tests.office.seasoned import walk_in
from tests.office.weathered import planted, station, weathered

JUNE = date(2026, 6, 1)


numbers = st.floats(-60, 130)


@given(st.lists(st.tuples(numbers, st.floats(0, 50), st.sampled_from(DayMark)), min_size=1))
def test_days_come_back_from_their_row_to_the_last_digit(
    told: list[tuple[float, float, DayMark]],
) -> None:
    gaps = np.array([mark is DayMark.MISSING for _, _, mark in told])
    low = np.where(gaps, np.nan, np.array([low for low, _, _ in told]))
    high = low + np.array([more for _, more, _ in told])
    marks = np.array([mark for _, _, mark in told], np.uint8)
    weather = DailyWeather(Station("S", "", (-100.25, 33.1), 1.5), JUNE, low, high, marks)
    back = to_weather(StationRow(**from_weather(weather)))
    assert (back.station, back.first) == (weather.station, weather.first)
    for name in ("tmin_f", "tmax_f", "marks"):
        np.testing.assert_array_equal(getattr(back, name), getattr(weather, name))


def test_the_same_content_is_read_once(people: People) -> None:
    weathered(people.near)
    [first] = weather_of(people.near.pk).stations
    [again] = weather_of(people.near.pk).stations
    assert again is first
    weathered(people.near, station(warmer=3))
    [after] = weather_of(people.near.pk).stations
    assert after.tmax_f[0] == first.tmax_f[0] + 3


def test_a_whole_states_stations_are_refused_and_none_is_taken(people: People) -> None:
    short = (JUNE, JUNE)
    many = [station(f"S{at}", days=short) for at in range(MOST_STATIONS + 1)]
    with pytest.raises(RefusedInput, match="at most 40 stations"):
        weathered(people.near, *many)
    assert not StationRow.objects.exists()


def test_it_is_told_how_gaps_are_filled(people: People) -> None:
    whole = station("FAR", place=(-101.0, 33.0))
    tmin, tmax, marks = (a.copy() for a in (whole.tmin_f, whole.tmax_f, whole.marks))
    tmin[-40:-30] = tmax[-40:-30] = np.nan
    marks[-40:-30] = DayMark.MISSING
    near = replace(station(), tmin_f=tmin, tmax_f=tmax, marks=marks)
    alone = weathered(people.near, near)
    assert (alone[0].filled, alone[0].missing) == ({DayMark.OTHER_YEARS: 10}, 0)
    weathered(people.near, whole)
    again = weathered(people.near, near)
    assert again[0].filled == {DayMark.NEIGHBOUR: 10}


def test_weather_makes_the_calls_of_fields_without_first_square(people: People) -> None:
    planted(people.home)
    walk = walk_in(people.home, people.bob, nymphs=9, lost=1)
    assert not CallRow.objects.exists()
    weathered(people.near)
    assert [row.walk_id for row in CallRow.objects.all()] == [walk]
    weathered(people.near)  # the same weather: the same call
    assert CallRow.objects.count() == 1


def test_later_days_leave_the_calls_of_earlier_walks_alone(people: People) -> None:
    planted(people.home)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    until = (date(2012, 1, 1), date(2026, 6, 25))
    weathered(people.near, station(days=until))
    weathered(people.near, station(warmer=9, days=(date(2026, 7, 25), date(2026, 7, 31))))
    assert CallRow.objects.count() == 1


def test_a_station_that_is_taken_away_tells_nothing_any_more(people: People) -> None:
    weathered(people.near)
    remove_station(station=StationRow.objects.get())
    assert weather_of(people.near.pk).stations == ()
