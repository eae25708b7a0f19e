"""A day made of hours has their lowest and highest, or is missing where too few are known."""

from __future__ import annotations

from datetime import datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather.daily import DailyWeather, DayMark, WeatherError
from quarterwalk.weather.hourly import HourlyWeather, daily_from_hours
from quarterwalk.weather.station import Station

HERE = Station("here")
MIDNIGHT = datetime(2026, 6, 1)  # noqa: DTZ001


def hours(temps: list[float], first: datetime = MIDNIGHT) -> HourlyWeather:
    return HourlyWeather(HERE, first, np.array(temps), np.full(len(temps), np.nan))


def without(*at: int) -> DailyWeather:
    """Give a day of 24 hours of which some are not known."""
    return daily_from_hours(hours([np.nan if i in at else 70.0 + i for i in range(24)]))


def test_a_whole_day_has_its_lowest_and_highest_hour() -> None:
    day = without()
    assert (day.tmin_f.tolist(), day.tmax_f.tolist()) == ([70.0], [93.0])
    assert day.marks.tolist() == [DayMark.MEASURED]


def test_twenty_hours_suffice_where_no_gap_is_longer_than_three() -> None:
    assert not without(1, 5, 9, 13).missing[0]
    assert not without(4, 5, 6).missing[0]


def test_nineteen_hours_do_not_suffice() -> None:
    assert without(1, 5, 9, 13, 17).missing[0]


def test_a_gap_of_four_hours_is_too_long() -> None:
    assert without(4, 5, 6, 7).missing[0]


def test_hours_before_the_first_are_not_known() -> None:
    at_three, at_four = (datetime(2026, 6, 1, hour) for hour in (3, 4))  # noqa: DTZ001
    assert not daily_from_hours(hours([70.0] * 21, at_three)).missing[0]
    assert daily_from_hours(hours([70.0] * 20, at_four)).missing[0]


def test_days_run_from_midnight_to_midnight() -> None:
    days = daily_from_hours(hours([float(i) for i in range(72)]))
    assert days.tmin_f.tolist() == [0.0, 24.0, 48.0]
    assert days.tmax_f.tolist() == [23.0, 47.0, 71.0]


@given(st.lists(st.one_of(st.floats(-50, 120), st.just(float("nan"))), min_size=1, max_size=100))
def test_a_day_is_never_outside_of_its_hours(temps: list[float]) -> None:
    days = daily_from_hours(hours(temps))
    known = [temp for temp in temps if temp == temp]
    assert days.marks.size == -(-len(temps) // 24)
    for low, high in zip(days.tmin_f, days.tmax_f, strict=True):
        assert np.isnan(low) or min(known) <= low <= high <= max(known)


def test_a_place_on_the_axis_and_its_hour_go_both_ways() -> None:
    some = hours([70.0] * 30)
    assert some.index_of(some.last) == 29
    assert some.hour_at(29) == some.last


def test_a_first_hour_that_is_not_full_is_refused() -> None:
    with pytest.raises(WeatherError, match="full one"):
        hours([70.0], datetime(2026, 6, 1, 0, 53))  # noqa: DTZ001


def test_arrays_of_different_length_are_refused() -> None:
    with pytest.raises(WeatherError, match="one length"):
        HourlyWeather(HERE, MIDNIGHT, np.zeros(3), np.zeros(2))
