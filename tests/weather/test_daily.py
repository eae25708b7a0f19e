"""Days of weather at a station stand in a row, and say where each came from."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather import DailyWeather, DayMark, Station, WeatherError
from tests.weather.days import FIRST, GAP, days, lacking


def build(low, high, marks):
    arrays = (np.array(low, np.float64), np.array(high, np.float64), np.array(marks, np.uint8))
    return DailyWeather(Station("here"), FIRST, *arrays)


def test_the_last_day_follows_from_the_first_and_their_number():
    assert days([60, 61, 62]).last == date(2026, 6, 3)


def test_a_day_has_a_place_and_a_place_a_day():
    weather = days([60, 61, 62])
    assert weather.index_of(date(2026, 6, 3)) == 2
    assert weather.index_of(date(2026, 5, 30)) == -2
    assert weather.day_at(2) == date(2026, 6, 3)


def test_days_without_temperatures_are_missing():
    assert days([60, GAP, 62]).missing.tolist() == [False, True, False]


def test_a_measured_day_without_temperatures_is_refused():
    with pytest.raises(WeatherError, match="or be marked missing"):
        build([GAP], [GAP], [DayMark.MEASURED])


def test_a_missing_day_with_temperatures_is_refused():
    with pytest.raises(WeatherError, match="or be marked missing"):
        build([60], [80], [DayMark.MISSING])


def test_a_day_with_only_one_of_its_temperatures_is_missing():
    assert build([60], [GAP], [DayMark.MISSING]).missing.all()
    with pytest.raises(WeatherError, match="both temperatures"):
        build([60], [GAP], [DayMark.MEASURED])


def test_a_lowest_temperature_above_the_highest_is_refused():
    with pytest.raises(WeatherError, match="must not be above its highest"):
        build([80], [60], [DayMark.MEASURED])


def test_a_day_of_one_temperature_is_taken():
    assert build([70], [70], [DayMark.MEASURED]).tmax_f[0] == 70


def test_arrays_of_different_lengths_are_refused():
    with pytest.raises(WeatherError, match="of one length"):
        build([60, 61], [80, 81], [DayMark.MEASURED])


def test_no_days_at_all_are_refused():
    with pytest.raises(WeatherError, match="of one length"):
        build([], [], [])


def test_days_that_are_not_there_come_out_missing():
    part = days([60, 61, 62]).between(date(2026, 5, 31), date(2026, 6, 5))
    assert part.first == date(2026, 5, 31)
    assert part.missing.tolist() == [True, False, False, False, True, True]
    assert part.tmin_f[1:4].tolist() == [60, 61, 62]


@pytest.mark.parametrize("start", [date(2020, 1, 1), date(2030, 1, 1)])
def test_days_wholly_outside_are_all_missing(start):
    assert days([60, 61]).between(start, start + timedelta(days=4)).missing.all()


def test_days_that_end_before_they_begin_are_refused():
    with pytest.raises(WeatherError, match="must not end before they begin"):
        days([60, 61]).between(date(2026, 6, 2), date(2026, 6, 1))


@given(start=st.integers(-9, 9), long=st.integers(1, 12))
def test_a_stretch_keeps_every_day_as_it_was(start, long):
    weather = lacking(days([60, 61, 62, 63, 64, 65], forecast=2), 3)
    part = weather.between(weather.day_at(start), weather.day_at(start + long - 1))
    assert part.marks.size == long
    for place in range(long):
        there = start + place
        inside = 0 <= there < weather.marks.size
        assert part.marks[place] == (weather.marks[there] if inside else DayMark.MISSING)
        if inside and not weather.missing[there]:
            assert part.tmax_f[place] == weather.tmax_f[there]
