"""The sun, shadows and their times, against published values."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from quarterwalk.weather.shadow import shadow_length
from quarterwalk.weather.sun import (
    julian_day,
    refraction,
    sun_coordinates,
    sun_events,
    sun_hour_angle,
    sun_position,
)
from tests.published.tables import read

POSITIONS = read("sun_positions")
ANGLES = read("sun_angles")
BENT = read("sun_refraction")
DAYS = read("sun_julian_days")
MEEUS = read("sun_meeus")
EQUATION = read("sun_equation_of_time")
EVENTS = read("sun_events")
ROUGH = read("sun_events_rough")
NOONS = read("sun_at_noon")
BOOKS = read("sun_textbooks")
GEOMETRY = read("sun_geometry")
SHADOWS = read("shadow_lengths")

LEAP_CYCLE = (2024, 2025, 2026, 2027)

REFERENCE = (-105.1786, 39.742476)
AUTUMN = datetime.fromisoformat("2003-10-17T12:30:30-07:00")


def place(row):
    return (float(row["longitude"]), float(row["latitude"]))


@POSITIONS.each()
def test_the_place_of_the_sun_in_the_sky(row):
    sun = sun_position(datetime.fromisoformat(row["moment"]), place(row))
    assert sun.azimuth == POSITIONS.near(row["azimuth"])
    assert sun.elevation == POSITIONS.near(row["elevation"])


@ANGLES.each()
def test_the_angles_of_one_moment(row):
    stars = sun_coordinates(AUTUMN)
    seen = sun_position(AUTUMN, REFERENCE, refracted=True)
    angle = {
        "right ascension": stars.right_ascension,
        "declination": stars.declination,
        "hour angle": sun_hour_angle(AUTUMN, REFERENCE[0]),
        "refracted zenith": 90 - seen.elevation,
    }[row["angle"]]
    assert angle == ANGLES.near(row["degrees"])


@BENT.each()
def test_refraction_once_it_is_brought_to_the_air_of_the_day(row):
    # by Meeus 1998, p. 107: as the pressure, and against the absolute temperature
    thin = float(row["pressure_hpa"]) / 1010 * 283 / (273 + float(row["temperature_c"]))
    assert thin * refraction(float(row["elevation"])) == BENT.near(row["refraction"])


@DAYS.each()
def test_the_julian_day_of_a_date(row):
    start = datetime(int(row["year"]), int(row["month"]), 1, tzinfo=UTC)
    moment = start + timedelta(days=float(row["day"]) - 1)
    assert julian_day(moment) == DAYS.near(row["julian_day"])


@MEEUS.each()
def test_the_apparent_place_by_the_same_series(row):
    assert getattr(sun_coordinates(2448908.5), row["angle"]) == MEEUS.near(row["degrees"])


@EQUATION.each()
def test_the_equation_of_time(row):
    minutes = sun_coordinates(float(row["julian_day"])).equation_of_time
    assert 60 * minutes == EQUATION.near(row["seconds"])


def seconds_off(row, moment="at"):
    at = datetime.fromisoformat(row[moment])
    events = sun_events(date.fromisoformat(row["day"]), place(row), at.tzinfo)
    return (getattr(events, row["event"]) - at).total_seconds()


@EVENTS.each()
def test_rise_noon_and_set(row):
    assert seconds_off(row) == EVENTS.near(0)


@ROUGH.each()
def test_rise_and_set_by_a_rougher_method(row):
    assert seconds_off(row) == ROUGH.near(0)
    assert seconds_off(row, "full") == EVENTS.near(0)
    rough, full = (datetime.fromisoformat(row[moment]) for moment in ("at", "full"))
    assert (rough - full).total_seconds() == int(row["off"])


@NOONS.each()
def test_the_height_at_noon(row):
    here = (-101.9, float(row["latitude"]))
    noon = sun_events(date.fromisoformat(row["day"]), here, UTC).noon
    assert sun_position(noon, here).elevation == NOONS.near(row["elevation"])


def by_the_book(row, year):
    """Give what a textbook reckons from the day of the year, for one year, at Greenwich."""
    day = date(year, 1, 1) + timedelta(days=int(row["day_of_year"]) - 1)
    here = (0.0, float(row["latitude"] or 0))
    events = sun_events(day, here, UTC, elevation=0.0)
    morning = sun_position(events.noon - timedelta(hours=2.5), here)
    stars = sun_coordinates(events.noon)
    daylight = (events.sunset - events.sunrise).total_seconds() / 3600
    minutes = julian_day(events.noon) + np.arange(-720, 720) / 1440
    rays = np.sin(np.radians(sun_position(minutes, here).elevation)).clip(0).sum()
    return {
        "declination": stars.declination,
        "zenith at 9:30": 90 - morning.elevation,
        "azimuth at 9:30": morning.azimuth,
        "equation of time": stars.equation_of_time,
        "declination in radians": np.radians(stars.declination),
        "sunset angle in radians": np.pi * daylight / 24,
        "daylight hours": daylight,
        "radiation above the air": 0.0820 * 0.985 * rays,
    }[row["what"]]


@BOOKS.each()
@pytest.mark.parametrize("year", LEAP_CYCLE)
def test_textbook_formulas_are_as_near_as_they_can_be(row, year):
    expected = pytest.approx(float(row["value"]), abs=float(row["within"]), rel=0)
    assert by_the_book(row, year) == expected


@GEOMETRY.each()
def test_the_geometry_of_a_textbook_once_the_declination_is_the_same(row):
    spring = julian_day(datetime(2026, 1, 10, tzinfo=UTC)) + np.arange(0, 90, 0.01)
    declination = sun_coordinates(spring).declination
    moment = float(np.interp(float(row["declination"]), declination, spring))
    east = float(row["hour_angle"]) - float(sun_hour_angle(moment, 0.0))
    sun = sun_position(moment, ((east + 180) % 360 - 180, float(row["latitude"])))
    assert 90 - sun.elevation == GEOMETRY.near(row["zenith"])
    assert sun.azimuth == GEOMETRY.near(row["azimuth"])


@SHADOWS.each()
def test_the_length_of_a_shadow(row):
    length = shadow_length(float(row["elevation"]), float(row["height"]))
    if row["length"]:
        assert length == SHADOWS.near(row["length"])
    else:
        assert np.isnan(length)
