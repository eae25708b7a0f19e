"""How hot it feels, by the rule's branches."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather.daily import WeatherError
from quarterwalk.weather.heat_index import heat_index


def test_temperatures_and_humidities_are_taken_together():
    table = heat_index(np.array([[80.0], [90.0], [100.0]]), np.array([20.0, 40.0]))
    assert table.shape == (3, 2)
    assert table[2, 1] == heat_index(100.0, 40.0)


@pytest.mark.parametrize(("temp_f", "humidity"), [(np.nan, 50), (90, np.nan)])
def test_what_is_not_known_stays_unknown(temp_f, humidity):
    assert np.isnan(heat_index(temp_f, humidity))


@pytest.mark.parametrize("humidity", [-1.0, 101.0])
def test_a_humidity_that_cannot_be_is_refused(humidity):
    with pytest.raises(WeatherError, match=f"got {humidity:g}"):
        heat_index([90.0, 90.0], [50.0, humidity])


@pytest.mark.parametrize("temp_f", [80, 87])
def test_damp_air_adds_nothing_where_its_addition_ends(temp_f):
    humidity = 85.0
    nearly = heat_index(temp_f, np.nextafter(humidity, 100))
    assert heat_index(temp_f, humidity) == pytest.approx(float(nearly))


def test_dry_air_takes_nothing_off_outside_its_temperatures():
    at_edge, past_it = heat_index(112.0, 10.0), heat_index(112.0 + 1e-9, 10.0)
    assert at_edge == pytest.approx(float(past_it), abs=1e-4)


def test_the_simple_formula_is_averaged_with_the_temperature():
    simple = 0.5 * (70 + 61 + (70 - 68) * 1.2 + 50 * 0.094)
    assert heat_index(70.0, 50.0) == pytest.approx((simple + 70) / 2)


@given(st.floats(80, 110), st.floats(40, 84), st.floats(40, 84))
def test_it_feels_hotter_the_damper_the_air_is(temp_f, one, other):
    dry, damp = sorted((one, other))
    assert heat_index(temp_f, damp) >= heat_index(temp_f, dry) - 1e-9


@given(st.floats(40, 75), st.floats(0, 100), st.floats(0, 100))
def test_it_feels_hotter_the_damper_mild_air_is(temp_f, one, other):
    dry, damp = sorted((one, other))
    assert heat_index(temp_f, damp) >= heat_index(temp_f, dry)


@given(st.floats(82, 110), st.floats(82, 110), st.floats(40, 84))
def test_it_feels_hotter_the_hotter_the_air_is(one, other, humidity):
    cool, hot = sorted((one, other))
    assert heat_index(hot, humidity) >= heat_index(cool, humidity) - 1e-9


@given(st.floats(-20, 125), st.floats(0, 100))
def test_every_air_has_a_heat_index(temp_f, humidity):
    assert np.isfinite(heat_index(temp_f, humidity))
