"""The sun of a day: times, places, and what cannot be."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather.daily import WeatherError
from quarterwalk.weather.sun import (
    julian_day,
    refraction,
    sun_coordinates,
    sun_events,
    sun_position,
)

PLAINS = (-101.9, 33.5)
CENTRAL = ZoneInfo("America/Chicago")
ARCTIC = (20.0, 78.0)

days = st.dates(date(1950, 1, 1), date(2100, 1, 1))
farmed = st.tuples(st.floats(-180, 180), st.floats(-50, 50))


def test_a_time_without_a_zone_is_refused():
    with pytest.raises(WeatherError, match="zone"):
        julian_day(datetime(2026, 6, 24, 12))  # noqa: DTZ001


def test_a_time_is_the_same_in_every_zone():
    here = datetime(2026, 6, 24, 9, tzinfo=CENTRAL)
    assert julian_day(here) == julian_day(here.astimezone(UTC))


@pytest.mark.parametrize("place", [(33.5, -101.9), (0, 90.1), (180.1, 0), (float("nan"), 0)])
def test_a_place_off_the_globe_is_refused(place):
    with pytest.raises(WeatherError, match="other way round"):
        sun_position(2451545.0, place)
    with pytest.raises(WeatherError, match="other way round"):
        sun_events(date(2026, 6, 24), place, UTC)


def test_times_and_julian_days_give_the_same_arrays():
    times = [datetime(2026, 6, 24, hour, tzinfo=UTC) for hour in range(24)]
    by_time = sun_position(times, PLAINS)
    by_day = sun_position(np.array([julian_day(time) for time in times]), PLAINS)
    assert by_time.azimuth.shape == (24,)
    assert np.array_equal(by_time.azimuth, by_day.azimuth)
    assert np.array_equal(by_time.elevation, by_day.elevation)


def test_an_unknown_time_has_an_unknown_sun():
    sun = sun_position(np.array([2461216.5, np.nan]), PLAINS)
    assert np.isnan(sun.elevation).tolist() == [False, True]
    assert np.isnan(sun.azimuth).tolist() == [False, True]


def test_the_sun_rises_in_the_east_and_sets_in_the_west():
    events = sun_events(date(2026, 3, 20), PLAINS, CENTRAL)
    azimuths = sun_position([events.sunrise, events.noon, events.sunset], PLAINS).azimuth
    assert azimuths == pytest.approx([90, 180, 270], abs=1)


def test_the_noon_sun_stands_in_the_north_south_of_the_equator():
    noon = sun_events(date(2026, 12, 21), (149.0, -30.0), UTC).noon
    azimuth = float(sun_position(noon, (149.0, -30.0)).azimuth)
    assert min(azimuth, 360 - azimuth) == pytest.approx(0, abs=0.05)


def test_times_are_told_in_the_zone_asked_for():
    events = sun_events(date(2026, 6, 24), PLAINS, CENTRAL)
    assert {at.tzinfo for at in (events.sunrise, events.noon, events.sunset)} == {CENTRAL}
    assert events.noon.date() == date(2026, 6, 24)
    assert events.noon.hour == 13


def test_a_far_zone_has_its_sunset_on_the_next_day():
    events = sun_events(date(2024, 6, 20), PLAINS, UTC)
    assert events.noon.date() == date(2024, 6, 20)
    assert events.sunset.date() == date(2024, 6, 21)


@pytest.mark.parametrize("day", [date(2024, 6, 20), date(2024, 12, 20)])
def test_a_day_or_a_night_without_end_has_no_sunrise_and_no_sunset(day):
    events = sun_events(day, ARCTIC, UTC)
    assert events.sunrise is None
    assert events.sunset is None
    assert events.noon.date() == day


def test_refraction_lifts_the_sun_by_half_a_degree_at_the_horizon_and_not_overhead():
    assert refraction(0.0) == pytest.approx(0.48, abs=0.02)
    assert refraction(90.0) == 0
    assert refraction(-5.0) == 0


@given(st.floats(-90, 90))
def test_refraction_only_lifts(elevation):
    assert 0 <= refraction(elevation) < 1


@given(days, farmed)
def test_the_sun_is_at_the_horizon_when_it_rises_and_sets(day, place):
    events = sun_events(day, place, UTC)
    sun = sun_position([events.sunrise, events.sunset], place)
    # a second of time is at most .005 degree
    assert sun.elevation == pytest.approx(-0.8333, abs=0.005)


@given(days, farmed)
def test_morning_and_afternoon_are_alike_around_noon(day, place):
    events = sun_events(day, place, UTC)
    morning, afternoon = events.noon - events.sunrise, events.sunset - events.noon
    # the sun's own way north or south in half a day
    assert abs(morning - afternoon) < timedelta(minutes=3)


@given(days, farmed)
def test_noon_is_twelve_by_the_sun_and_near_it_by_the_clock(day, place):
    zone = timezone(timedelta(hours=round(place[0] / 15)))
    noon = sun_events(day, place, zone).noon
    clock = noon.hour * 60 + noon.minute - 720
    assert noon.date() == day
    # half a zone and the equation of time
    assert abs(clock) <= 30 + 17


@given(days)
def test_the_sun_keeps_within_the_tropics_and_sundials_within_a_quarter_hour(day):
    stars = sun_coordinates(julian_day(datetime.combine(day, datetime.min.time(), UTC)))
    assert abs(stars.declination) < 23.46
    assert abs(stars.equation_of_time) < 17
    assert 0 <= stars.right_ascension < 360


@given(days, farmed, st.floats(0, 1))
def test_every_place_and_time_has_a_sun(day, place, share):
    moment = julian_day(datetime.combine(day, datetime.min.time(), UTC)) + share
    sun = sun_position(moment, place)
    assert 0 <= sun.azimuth <= 360
    assert -90 <= sun.elevation <= 90
