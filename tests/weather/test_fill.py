"""Gaps are filled by a stated rule, marked, and else left open."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.weather import DayMark, fill_gaps
from tests.weather.days import days, lacking, years_of

LINE, BESIDE, YEARS = DayMark.BETWEEN, DayMark.NEIGHBOUR, DayMark.OTHER_YEARS


def test_a_neighbour_fills_with_the_mean_difference_between_the_two():
    here = lacking(days(np.full(21, 60.0)), 10)
    there = days(np.where(np.arange(21) % 2, 63.0, 61.0))
    filled = fill_gaps(here, [there])
    assert filled.marks[10] == BESIDE
    assert filled.tmin_f[10] == pytest.approx(61 - 2)
    assert filled.tmax_f[10] == pytest.approx(81 - 2)


def test_lows_and_highs_have_their_own_differences():
    here = lacking(days(np.full(15, 60.0), np.full(15, 90.0)), 7)
    there = days(np.full(15, 64.0), np.full(15, 89.0))
    filled = fill_gaps(here, [there])
    assert (filled.tmin_f[7], filled.tmax_f[7]) == pytest.approx((60, 90))


@pytest.mark.parametrize(("common", "mark"), [(9, LINE), (10, BESIDE)])
def test_a_neighbour_needs_ten_days_on_which_both_measured(common, mark):
    here = lacking(days(np.full(common + 1, 60.0)), 5)
    filled = fill_gaps(here, [days(np.full(common + 1, 65.0))])
    assert filled.marks[5] == mark


def test_only_the_month_before_and_after_tells_the_difference():
    here = lacking(days(np.full(80, 60.0)), 40)
    apart = np.where(np.abs(np.arange(80) - 40) <= 30, 2.0, 50.0)
    filled = fill_gaps(here, [days(60 + apart)])
    assert filled.tmin_f[40] == pytest.approx(60)


def test_the_nearest_neighbour_comes_first_and_the_next_fills_what_it_lacks():
    here = lacking(days(np.full(30, 60.0)), 14, 16)
    near, next_near = lacking(days(np.full(30, 61.0)), 14), days(np.arange(30) + 50.0)
    filled = fill_gaps(here, [near, next_near])
    apart = np.mean([60 - (50 + day) for day in range(30) if day not in (14, 16)])
    assert filled.tmin_f[16] == pytest.approx(60)
    assert filled.tmin_f[14] == pytest.approx(64 + apart)
    assert filled.marks[[14, 16]].tolist() == [BESIDE, BESIDE]


def test_a_neighbour_of_other_days_fills_nothing():
    here = lacking(days(np.full(30, 60.0)), slice(10, 15))
    away = days(np.full(30, 60.0), first=date(2020, 6, 1))
    assert fill_gaps(here, [away]).missing.sum() == 5


def test_three_days_in_a_row_lie_on_a_straight_line():
    filled = fill_gaps(lacking(days([60, 0, 0, 0, 68]), slice(1, 4)))
    assert filled.tmin_f.tolist() == [60, 62, 64, 66, 68]
    assert filled.tmax_f.tolist() == [80, 82, 84, 86, 88]
    assert filled.marks.tolist() == [DayMark.MEASURED, LINE, LINE, LINE, DayMark.MEASURED]


def test_four_days_in_a_row_stay_open():
    assert fill_gaps(lacking(days([60, 0, 0, 0, 0, 68]), slice(1, 5))).missing.sum() == 4


@pytest.mark.parametrize("end", [0, -1])
def test_no_line_runs_past_an_end(end):
    assert fill_gaps(lacking(days([60, 61, 62, 63]), end)).missing.sum() == 1


def test_a_line_may_rest_on_a_day_that_a_neighbour_filled():
    here = lacking(days(np.full(30, 60.0)), slice(10, 14))
    there = lacking(days(np.full(30, 60.0)), slice(11, 14))
    marks = fill_gaps(here, [there]).marks[10:14]
    assert marks.tolist() == [BESIDE, LINE, LINE, LINE]


def test_a_forecast_day_may_end_a_line_and_stays_a_forecast():
    filled = fill_gaps(lacking(days([60, 0, 64], forecast=1), 1))
    assert filled.tmin_f[1] == 62
    assert filled.marks.tolist() == [DayMark.MEASURED, LINE, DayMark.FORECAST]


@pytest.mark.parametrize(("others", "open_days"), [(2, 10), (3, 0), (4, 0)])
def test_other_years_fill_where_there_are_three(others, open_days):
    weather = years_of([50.0 + 2 * year for year in range(others + 1)])
    start = weather.index_of(date(2020 + others, 6, 10))
    filled = fill_gaps(lacking(weather, slice(start, start + 10)))
    gap = slice(start, start + 10)
    assert filled.missing.sum() == open_days
    if not open_days:
        mean = np.mean([50 + 2 * year for year in range(others)])
        assert filled.tmin_f[gap] == pytest.approx(np.full(10, mean))
        assert set(filled.marks[gap].tolist()) == {YEARS}


def test_the_mean_of_other_years_is_over_three_days_either_way():
    first = date(2020, 1, 1)
    dates = [first + timedelta(days=place) for place in range(6 * 365)]
    near = {date(year, 6, day) for year in range(2020, 2025) for day in range(12, 19)}
    weather = days([70.0 if day in near else 50.0 for day in dates], first=first)
    gap = [weather.index_of(date(2025, 6, day)) for day in range(10, 21)]
    filled = fill_gaps(lacking(weather, gap))
    assert filled.tmin_f[gap[5]] == pytest.approx(70)
    assert filled.tmin_f[gap[0]] < 60 < filled.tmin_f[gap[3]]


@pytest.mark.parametrize("gap", [date(2024, 2, 29), date(2024, 3, 1), date(2023, 12, 31)])
def test_other_years_give_the_same_day_of_the_calendar(gap):
    first, leap = date(2016, 1, 1), (2, 29)
    dates = [first + timedelta(days=place) for place in range(365 * 9 + 3)]
    same = [
        date(year, 3, 1) - timedelta(days=1) if (gap.month, gap.day) == leap else gap.replace(year)
        for year in range(2015, 2027)
    ]
    away = np.array([min(abs((one - day).days) for day in same) for one in dates])
    weather = days(np.where(away <= 3, 70.0, 50.0), first=first)
    place = weather.index_of(gap)
    filled = fill_gaps(lacking(weather, slice(place - 2, place + 3)))
    assert filled.tmin_f[place] == pytest.approx(70)


@pytest.mark.parametrize(("long", "open_days"), [(14, 0), (15, 15)])
def test_more_than_fourteen_days_in_a_row_stay_open(long, open_days):
    weather = years_of([60.0] * 5)
    start = weather.index_of(date(2024, 6, 1))
    assert fill_gaps(lacking(weather, slice(start, start + long))).missing.sum() == open_days


def test_what_is_filled_serves_no_mean_of_other_years():
    weather = years_of([50.0, 50.0, 50.0, 80.0])
    gaps = [weather.index_of(date(year, 6, 10)) for year in range(2020, 2024)]
    wide = [slice(gap - 5, gap + 6) for gap in gaps[1:]]
    there = days(np.full(366, 50.0), first=date(2021, 1, 1))
    filled = fill_gaps(lacking(weather, *wide), [there])
    assert filled.marks[gaps[1]] == BESIDE
    assert filled.missing[gaps[3]]


def test_what_is_filled_tells_no_difference_between_stations():
    here = lacking(days(np.full(12, 60.0)), slice(3, 7))
    there = days(np.full(12, 65.0))
    assert fill_gaps(here, [there, there]).missing.sum() == 4


def test_nothing_is_filled_where_nothing_is_missing():
    weather = days(np.arange(40.0) + 30)
    filled = fill_gaps(weather, [days(np.arange(40.0))])
    assert np.array_equal(filled.tmin_f, weather.tmin_f)
    assert np.array_equal(filled.marks, weather.marks)


@st.composite
def broken_weather(draw):
    rng = np.random.default_rng(draw(st.integers(0, 2**32)))
    size = draw(st.sampled_from([5, 30, 1500]))

    def one(name):
        low = rng.normal(60, 12, size)
        weather = days(low, low + rng.exponential(8, size), station=name, forecast=3)
        places = np.flatnonzero(rng.random(size) < draw(st.floats(0, 0.6)))
        start = draw(st.integers(0, size - 1))
        return lacking(weather, places, slice(start, start + draw(st.integers(0, 20))))

    return one("here"), [one("there") for _ in range(draw(st.integers(0, 2)))]


@given(broken_weather())
@settings(max_examples=60, deadline=None)
def test_filling_changes_no_day_that_was_there_and_marks_always_tell_the_truth(made):
    weather, neighbours = made
    filled, known = fill_gaps(weather, neighbours), ~weather.missing
    assert np.array_equal(filled.tmin_f[known], weather.tmin_f[known])
    assert np.array_equal(filled.tmax_f[known], weather.tmax_f[known])
    assert np.array_equal(filled.marks[known], weather.marks[known])
    assert not set(filled.marks[~known].tolist()) & {DayMark.MEASURED, DayMark.FORECAST}
    assert np.array_equal(np.isfinite(filled.tmin_f), ~filled.missing)
    assert np.all(filled.tmin_f[~filled.missing] <= filled.tmax_f[~filled.missing])


@given(broken_weather())
@settings(max_examples=20, deadline=None)
def test_filling_leaves_what_it_was_given_as_it_was(made):
    weather, neighbours = made
    before = [(w.tmin_f.copy(), w.marks.copy()) for w in (weather, *neighbours)]
    fill_gaps(weather, neighbours)
    for each, (low, marks) in zip((weather, *neighbours), before, strict=True):
        assert np.array_equal(each.tmin_f, low, equal_nan=True)
        assert np.array_equal(each.marks, marks)
