"""The scout's shadow through a day."""

from __future__ import annotations

from datetime import UTC, date
from itertools import pairwise
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather.daily import WeatherError
from quarterwalk.weather.shadow import (
    ARM_REACH_M,
    OVERHEAD_ELEVATION,
    PERSON_HEIGHT_M,
    overhead_span,
    shadow_day,
    shadow_length,
)
from quarterwalk.weather.sun import sun_position

PLAINS = (-101.9, 33.5)
CENTRAL = ZoneInfo("America/Chicago")
JUNE = date(2026, 6, 24)
WINTER = date(2026, 12, 21)

days = st.dates(date(1990, 1, 1), date(2060, 1, 1))
farmed = st.tuples(st.floats(-180, 180), st.floats(-50, 50))


def shadow_direction(azimuth):
    """Which way a shadow points, in degrees: away from the sun."""
    return (azimuth + 180) % 360


def test_the_sun_is_overhead_when_the_shadow_is_an_arm_long():
    assert shadow_length(OVERHEAD_ELEVATION) == pytest.approx(ARM_REACH_M)
    assert 67 < OVERHEAD_ELEVATION < 68


def test_lengths_of_a_whole_day_come_as_one_array():
    lengths = shadow_length(np.array([-10.0, 0.0, 45.0, np.nan]))
    assert np.isnan(lengths).tolist() == [True, True, False, True]
    assert lengths[2] == pytest.approx(PERSON_HEIGHT_M)


def test_the_hours_of_a_day_are_on_the_clock_and_within_daylight():
    hours = shadow_day(JUNE, PLAINS, CENTRAL)
    assert hours[0].at.isoformat() == "2026-06-24T07:00:00-05:00"
    assert {hour.at.minute for hour in hours} == {0, 30}
    assert {hour.at.tzinfo for hour in hours} == {CENTRAL}
    assert all(hour.elevation > 0 and hour.shadow_m > 0 for hour in hours)


def test_hours_are_told_as_closely_as_asked():
    close = shadow_day(JUNE, PLAINS, CENTRAL, step_minutes=10)
    assert {hour.at.minute for hour in close} == {0, 10, 20, 30, 40, 50}


def test_a_step_of_less_than_a_minute_is_refused():
    with pytest.raises(WeatherError, match="at least 1 minute"):
        shadow_day(JUNE, PLAINS, CENTRAL, step_minutes=0)


def test_in_the_morning_one_faces_east_and_in_the_evening_west():
    hours = shadow_day(JUNE, PLAINS, CENTRAL)
    assert 45 < hours[0].heading < 90
    assert 270 < hours[-1].heading < 315


def test_a_june_noon_on_the_plains_is_overhead_and_the_span_agrees_with_the_hours():
    first, last = overhead_span(JUNE, PLAINS, CENTRAL)
    told = [hour for hour in shadow_day(JUNE, PLAINS, CENTRAL, 1) if hour.overhead]
    assert (told[0].at - first).total_seconds() < 60
    assert (last - told[-1].at).total_seconds() < 60
    assert first.hour == 12
    assert last.hour == 15


def test_in_winter_the_shadow_can_be_kept_off_all_day():
    assert overhead_span(WINTER, PLAINS, CENTRAL) is None
    assert not any(hour.overhead for hour in shadow_day(WINTER, PLAINS, CENTRAL))


def test_a_night_without_end_has_no_hours():
    assert shadow_day(WINTER, (20.0, 78.0), UTC) == ()


def test_a_day_without_end_has_hours_all_around_the_clock():
    hours = shadow_day(date(2026, 6, 21), (20.0, 78.0), UTC, 60)
    assert len(hours) == 24


def test_hours_of_a_day_with_a_clock_change_follow_one_another():
    hours = shadow_day(date(2026, 3, 8), PLAINS, CENTRAL)
    steps = {(b.at - a.at).total_seconds() for a, b in pairwise(hours)}
    assert steps == {1800}
    assert {hour.at.date() for hour in hours} == {date(2026, 3, 8)}


def test_a_far_zone_cuts_no_daylight_off():
    there = shadow_day(JUNE, PLAINS, UTC)
    here = shadow_day(JUNE, PLAINS, CENTRAL)
    assert [hour.at for hour in there] == [hour.at for hour in here]


@given(st.floats(0, 360))
def test_a_shadow_points_away_from_the_sun(azimuth):
    towards = float(shadow_direction(azimuth))
    assert 0 <= towards < 360
    assert abs(abs(towards - azimuth) - 180) < 1e-9


@given(st.floats(0.01, 89.9), st.floats(0.01, 89.9), st.floats(0.1, 3))
def test_a_lower_sun_throws_a_longer_shadow(one, other, height):
    low, high = sorted((one, other))
    assert shadow_length(low, height) >= shadow_length(high, height)


@given(st.floats(0.01, 90), st.floats(0.1, 3))
def test_a_shadow_grows_with_what_throws_it(elevation, height):
    double = shadow_length(elevation, 2 * height)
    assert double == pytest.approx(2 * float(shadow_length(elevation, height)))


@given(days, farmed)
def test_every_hour_faces_the_sun_and_has_the_shadow_behind(day, place):
    for hour in shadow_day(day, place, UTC, 120):
        assert 0 <= hour.heading <= 360
        sun = sun_position(hour.at, place)
        assert hour.heading == pytest.approx(float(sun.azimuth))
        behind = np.cos(np.radians(shadow_direction(sun.azimuth) - hour.heading))
        assert behind == pytest.approx(-1)


@given(days, farmed)
def test_an_hour_is_overhead_just_when_its_shadow_is_shorter_than_an_arm(day, place):
    for hour in shadow_day(day, place, UTC, 120):
        assert hour.overhead == (hour.shadow_m < ARM_REACH_M)


@given(days, farmed)
def test_the_span_holds_every_overhead_hour(day, place):
    span = overhead_span(day, place, UTC)
    told = [hour.at for hour in shadow_day(day, place, UTC, 60) if hour.overhead]
    if span is None:
        assert told == []
    else:
        assert all(span[0] <= at <= span[1] for at in told)


def test_the_example_worked_on_paper_comes_out_alike():
    at_ten = next(hour for hour in shadow_day(JUNE, PLAINS, CENTRAL) if hour.at.hour == 10)
    assert at_ten.elevation == pytest.approx(39.06, abs=0.01)
    assert at_ten.heading == pytest.approx(85.6, abs=0.05)
    assert at_ten.shadow_m == pytest.approx(2.09, abs=0.01)
