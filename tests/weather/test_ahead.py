"""A season's heat: what is known, and the station's other years for what may come."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather import DayMark, WeatherError, season_heat
from quarterwalk.weather.ahead import GUESSES
from quarterwalk.weather.heat_averages import simple_average
from tests.weather.days import days, lacking, years_of

PLANTED = date(2024, 5, 8)
LONG = 30


def ahead(weather, *, first=PLANTED, long=LONG, until=date(2024, 5, 20)):
    return season_heat(weather, first, long, until=until, method=simple_average, base=60.0)


def four_years():
    """Four years of 10, 12, 14 and 16 heat units a day, 2021 to 2024."""
    return years_of([60.0, 62.0, 64.0, 66.0], first_year=2021)


def at(weather, day):
    return weather.index_of(day)


def test_known_days_come_first_and_then_each_other_year_in_their_place():
    season = ahead(four_years())
    assert season.years == (2023, 2022, 2021)
    assert season.known == 13
    for row, a_day in zip(season.heat, (14, 12, 10), strict=True):
        assert row.tolist() == [16.0] * 13 + [float(a_day)] * 17


def test_members_agree_on_the_days_that_are_known():
    rng = np.random.default_rng(4)
    low = rng.normal(62, 8, 4 * 365)
    season = ahead(days(low, low + 22, first=date(2021, 1, 1)))
    assert len(set(season.years)) == 3
    assert np.all(season.heat[:, : season.known] == season.heat[0, : season.known])
    assert np.any(season.heat[0, season.known :] != season.heat[1, season.known :])


def test_a_member_is_a_whole_season_of_one_year_and_keeps_the_order_of_its_days():
    low = np.arange(4 * 366, dtype=float) / 50 + 60
    season = ahead(days(low, first=date(2021, 1, 1)))
    there = (date(2022, 5, 8) - date(2021, 1, 1)).days
    expected = low[there : there + LONG] + 10 - 60
    assert season.others[season.years.index(2022)] == pytest.approx(expected)


def test_a_year_that_lacks_a_day_of_the_season_is_no_member():
    weather = four_years()
    assert ahead(lacking(weather, at(weather, date(2022, 6, 1)))).years == (2023, 2021)


def test_a_year_that_lacks_a_day_outside_the_season_is_a_member():
    weather = four_years()
    assert ahead(lacking(weather, at(weather, date(2022, 3, 1)))).years == (2023, 2022, 2021)


def test_its_own_year_is_no_member():
    assert 2024 not in ahead(four_years(), until=PLANTED - timedelta(days=1)).years


def test_no_more_than_thirty_years_are_taken_and_those_the_latest():
    years = ahead(years_of([60.0] * 46, first_year=1979), until=date(2024, 5, 20)).years
    assert years == tuple(range(2023, 1993, -1))


def test_measured_days_after_the_day_asked_for_are_not_looked_at():
    season = ahead(four_years(), until=date(2024, 5, 10))
    assert season.known == 3
    assert season.known_until == date(2024, 5, 10)
    assert season.heat[0].tolist() == [16.0] * 3 + [14.0] * 27


def marked_forecast(weather, first, last):
    marks = weather.marks.copy()
    marks[at(weather, first) : at(weather, last) + 1] = DayMark.FORECAST
    return replace(weather, marks=marks)


def test_forecast_days_that_follow_count_as_known():
    weather = four_years()
    weather = lacking(weather, slice(at(weather, date(2024, 5, 27)), None))
    weather = marked_forecast(weather, date(2024, 5, 21), date(2024, 5, 26))
    assert ahead(weather).known_until == date(2024, 5, 26)


def test_a_forecast_of_today_says_nothing_of_a_season_as_it_was_known_earlier():
    weather = four_years()
    weather = lacking(weather, slice(at(weather, date(2024, 5, 31)), None))
    weather = marked_forecast(weather, date(2024, 5, 25), date(2024, 5, 30))
    assert ahead(weather, until=date(2024, 5, 15)).known_until == date(2024, 5, 15)


def test_before_planting_the_season_is_made_of_other_years_alone():
    season = ahead(four_years(), until=date(2024, 5, 1))
    assert season.known == 0
    assert season.known_until == PLANTED - timedelta(days=1)
    assert np.array_equal(season.heat, season.others)


def test_a_gap_among_the_known_days_is_refused_and_names_station_and_day():
    weather = four_years()
    broken = lacking(weather, slice(at(weather, date(2024, 5, 12)), at(weather, date(2024, 5, 14))))
    with pytest.raises(WeatherError, match="weather of here .* 2 can't be filled") as told:
        ahead(broken)
    assert "the first is 2024-05-12" in str(told.value)


def test_days_that_lack_at_the_end_are_no_gap():
    weather = four_years()
    season = ahead(lacking(weather, slice(at(weather, date(2024, 5, 18)), None)))
    assert season.known_until == date(2024, 5, 17)


def test_a_planting_on_the_29th_of_february_is_the_28th_in_other_years():
    first = date(2024, 2, 29)
    low = np.arange(4 * 366, dtype=float)
    season = ahead(days(low, first=date(2021, 1, 1)), first=first, until=first)
    there = (date(2023, 2, 28) - date(2021, 1, 1)).days
    assert season.years[0] == 2023
    assert season.others[0, 0] == low[there] + 10 - 60


def one_season(a_day, known):
    return days(np.full(known, 50.0 + a_day), first=PLANTED)


def test_without_other_years_what_comes_is_guessed_from_the_last_two_weeks():
    weather = days([50.0] * 10 + [65.0] * 7 + [75.0] * 7, first=PLANTED)
    season = ahead(weather, until=date(2024, 6, 30))
    assert season.guessed
    assert season.years == ()
    assert season.heat[:, -1] == pytest.approx(np.array(GUESSES) * 20)
    assert np.all(season.heat[:, :24] == season.heat[0, :24])


def test_guesses_reach_a_third_less_and_a_third_more():
    assert (min(GUESSES), max(GUESSES)) == pytest.approx((2 / 3, 4 / 3), abs=0.01)
    assert np.mean(GUESSES) == pytest.approx(1)


def test_with_other_years_nothing_is_guessed():
    assert not ahead(four_years()).guessed


def test_without_other_years_fewer_than_fourteen_known_days_are_refused():
    assert ahead(one_season(15.0, 14), until=date(2024, 6, 30)).guessed
    with pytest.raises(WeatherError, match="the last 14 days must be known .* 13 of them are"):
        ahead(one_season(15.0, 13), until=date(2024, 6, 30))
    with pytest.raises(WeatherError, match="and 1 of them is"):
        ahead(one_season(15.0, 1), until=date(2024, 6, 30))


def test_days_before_planting_tell_what_may_come_where_there_are_no_other_years():
    weather = days([60.0] * 12 + [62.0] * 2, first=PLANTED - timedelta(days=12))
    season = ahead(weather, until=date(2024, 5, 9))
    assert season.known == 2
    assert season.heat[:, -1] == pytest.approx(np.array(GUESSES) * (12 * 10 + 2 * 12) / 14)


def test_weather_that_does_not_reach_the_season_is_refused_with_its_days():
    with pytest.raises(WeatherError, match="runs from 2024-01-01 to 2024-01-03"):
        ahead(days([60, 60, 60], first=date(2024, 1, 1)))


def test_a_season_whose_days_are_there_and_empty_is_refused_with_those_days():
    weather = lacking(days(np.full(30, 60.0), first=date(2024, 4, 9)), slice(29, 30))
    assert weather.last == PLANTED
    with pytest.raises(WeatherError, match="here has no temperatures on 2024-05-08") as told:
        ahead(weather)
    assert "runs from" not in str(told.value)
    longer = lacking(days(np.full(40, 60.0), first=date(2024, 4, 9)), slice(29, 40))
    with pytest.raises(WeatherError, match="no temperatures from 2024-05-08 to 2024-05-18"):
        ahead(longer)


def test_sums_count_from_the_first_day_through_each_day():
    season = ahead(four_years())
    assert season.summed[:, 2].tolist() == [48.0] * 3
    assert season.summed[0, -1] == pytest.approx(13 * 16 + 17 * 14)


@given(until=st.integers(-5, 60))
def test_known_heat_does_not_change_as_the_season_goes_on(until):
    season = ahead(four_years(), until=PLANTED + timedelta(days=until))
    assert season.known == min(max(until + 1, 0), LONG)
    assert np.all(season.heat[:, : season.known] == 16)
    assert np.array_equal(season.heat[:, season.known :], season.others[:, season.known :])


def test_a_day_filled_among_forecast_days_takes_none_of_them_away():
    weather = four_years()
    weather = lacking(weather, slice(at(weather, date(2024, 5, 27)), None))
    weather = marked_forecast(weather, date(2024, 5, 21), date(2024, 5, 26))
    marks = weather.marks.copy()
    marks[at(weather, date(2024, 5, 23))] = DayMark.NEIGHBOUR
    assert ahead(replace(weather, marks=marks)).known_until == date(2024, 5, 26)


def test_the_mean_of_other_years_at_the_end_is_no_known_day():
    weather = four_years()
    weather = lacking(weather, slice(at(weather, date(2024, 5, 21)), None))
    marks = weather.marks.copy()
    last = slice(at(weather, date(2024, 5, 15)), at(weather, date(2024, 5, 21)))
    marks[last] = DayMark.OTHER_YEARS
    assert ahead(replace(weather, marks=marks)).known_until == date(2024, 5, 14)
