"""Other years of a station near by, for one that has few of its own."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from quarterwalk.weather import DailyWeather, DayMark, Station, weather_for

FIELD = (-101.9, 33.6)
PLANTED, ON = date(2026, 5, 8), date(2026, 6, 20)


def series(name, first, *, low=60.0, degrees_away=0.1, last=ON):
    """A station that is as warm every day of its years."""
    days = (last - first).days + 1
    values = np.full(days, low)
    place = (FIELD[0], FIELD[1] + degrees_away)
    marks = np.full(days, DayMark.MEASURED, np.uint8)
    return DailyWeather(Station(name, place=place), first, values, values + 20, marks)


def chosen(*stations):
    return weather_for(stations, FIELD, first=PLANTED, last=ON)


OWN = series("own", date(2026, 4, 1), low=62.0)
ARCHIVE = series("archive", date(2010, 1, 1), low=59.0, degrees_away=0.4)


def test_years_that_a_station_lacks_are_lent_by_the_next_moved_by_what_the_two_differ():
    told = chosen(OWN, ARCHIVE)
    assert told.weather.station.id == "own"
    assert told.weather.first == date(2010, 1, 1)
    june = told.weather.between(date(2015, 6, 1), date(2015, 6, 30))
    assert june.tmin_f == pytest.approx(np.full(30, 62.0))
    assert june.tmax_f == pytest.approx(np.full(30, 82.0))
    assert set(june.marks) == {DayMark.NEIGHBOUR}
    assert told.lender is not None
    assert told.lender.id == "archive"
    assert told.lender_km == pytest.approx(44.4, abs=0.2)


def test_its_own_days_stay_as_they_were_measured():
    told = chosen(OWN, ARCHIVE).weather.between(OWN.first, OWN.last)
    assert told.tmin_f == pytest.approx(OWN.tmin_f)
    assert set(told.marks) == {DayMark.MEASURED}


def test_a_station_with_years_enough_borrows_none():
    long = series("own", date(2016, 1, 1))
    assert chosen(long, ARCHIVE).lender is None


def test_a_year_whose_season_begins_before_the_series_is_none():
    """Planted in May: a station from June 2016 on has nine whole seasons, not ten."""
    assert chosen(series("own", date(2016, 5, 8)), ARCHIVE).lender is None
    assert chosen(series("own", date(2016, 5, 9)), ARCHIVE).lender is not None


def test_no_years_are_lent_by_a_station_that_has_no_more():
    other = series("other", date(2026, 1, 1), degrees_away=0.4)
    told = chosen(OWN, other)
    assert (told.lender, told.weather.first) == (None, OWN.first)


def test_the_nearest_that_has_more_lends():
    near, far = series("near", date(2020, 1, 1), degrees_away=0.2), ARCHIVE
    lender = chosen(OWN, far, near).lender
    assert lender is not None
    assert lender.id == "near"


def test_with_too_few_days_in_common_the_days_are_taken_as_they_are():
    new = series("own", ON - timedelta(days=8), low=62.0)
    told = weather_for([new, ARCHIVE], FIELD, first=ON - timedelta(days=8), last=ON)
    assert told.weather.between(date(2015, 6, 1), date(2015, 6, 1)).tmin_f == pytest.approx([59.0])


def test_a_gap_of_the_lender_stays_a_gap():
    marks = ARCHIVE.marks.copy()
    low = ARCHIVE.tmin_f.copy()
    marks[100], low[100] = DayMark.MISSING, np.nan
    holed = DailyWeather(ARCHIVE.station, ARCHIVE.first, low, ARCHIVE.tmax_f, marks)
    assert chosen(OWN, holed).weather.missing[100]
