"""Small rules of weather: shapes, a newer place, a changed day, the nearest minute."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import numpy as np
import pytest

from quarterwalk.weather import Station, WeatherError
from quarterwalk.weather.hourly import HourlyWeather
from quarterwalk.weather.merge import merged
from quarterwalk.weather.sun import nearest_minute
from tests.weather.test_merge import days as merge_days


@pytest.mark.parametrize("hours", [np.zeros(0), np.zeros((2, 3))])
def test_hours_come_in_one_row_and_there_is_one_at_least(hours):
    with pytest.raises(WeatherError, match="arrays of one length"):
        HourlyWeather(Station("S"), datetime.fromisoformat("2026-06-01"), hours, hours)


def test_the_newer_files_place_holds():
    before = replace(merge_days(90), station=Station("S", "Gin", (-100.0, 33.0), 700.0))
    after = replace(merge_days(91), station=Station("S", "", (-100.01, 33.01)))
    told = merged(before, after).weather.station
    assert told == Station("S", "Gin", (-100.01, 33.01), 700.0)


def test_a_day_of_which_one_temperature_is_another_is_counted_as_changed():
    before = merge_days(90, 91)
    colder = replace(before, tmin_f=before.tmin_f - np.array([0.0, 3.0]))
    warmer = replace(before, tmax_f=before.tmax_f + np.array([3.0, 0.0]))
    assert (merged(before, colder).changed, merged(before, warmer).changed) == (1, 1)


@pytest.mark.parametrize(("second", "minute"), [(29, 0), (30, 1), (59, 1)])
def test_half_a_minute_goes_up(second, minute):
    noon = datetime.fromisoformat("2026-06-01T12:00")
    assert nearest_minute(noon.replace(second=second)) == noon.replace(minute=minute)
