"""Which station a field goes by."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from quarterwalk.weather import DailyWeather, DayMark, WeatherError, weather_for
from tests.weather.days import FIRST, days, lacking

FIELD = (-101.9, 33.6)
LAST = date(2026, 7, 10)


def station(name, degrees_away, *gaps, low=60.0):
    place = None if degrees_away is None else (FIELD[0], FIELD[1] + degrees_away)
    return lacking(days(np.full(40, low), station=name, place=place), *gaps)


def chosen(*stations, place=FIELD):
    return weather_for(stations, place, first=FIRST, last=LAST)


def test_a_field_goes_by_the_nearest_station_and_says_how_far_it_is():
    told = chosen(station("far", 1.0), station("near", 0.1))
    assert told.weather.station.id == "near"
    assert told.distance_km == pytest.approx(11.1, abs=0.05)
    assert told.passed_over == ()


@pytest.mark.parametrize(("lacks", "goes_by"), [(8, "near"), (9, "far")])
def test_a_station_that_lacks_more_than_a_fifth_of_the_season_is_passed_over(lacks, goes_by):
    told = chosen(station("near", 0.1, slice(0, lacks)), station("far", 1.0))
    assert told.weather.station.id == goes_by
    assert told.passed_over == (() if goes_by == "near" else ("near",))


def test_a_station_that_ended_early_is_passed_over():
    ended = days(np.full(20, 60.0), station="near", place=FIELD)
    assert chosen(ended, station("far", 1.0)).passed_over == ("near",)


def test_only_the_season_counts_for_what_a_station_lacks():
    near = station("near", 0.1, slice(0, 20))
    told = weather_for([near, station("far", 1.0)], FIELD, first=date(2026, 6, 21), last=LAST)
    assert told.weather.station.id == "near"


def test_where_all_lack_too_much_the_nearest_is_taken():
    told = chosen(station("near", 0.1, slice(0, 20)), station("far", 1.0, slice(0, 20)))
    assert told.weather.station.id == "near"
    assert told.passed_over == ()


def test_a_station_further_off_is_never_told_as_passed_over():
    told = chosen(station("a", 0.1, slice(0, 20)), station("b", 0.5), station("c", 1.0))
    assert told.weather.station.id == "b"
    assert told.passed_over == ("a",)


def test_the_others_fill_its_gaps_the_nearest_of_them_first():
    here = station("here", 0.0, slice(10, 15))
    near, far = station("near", 0.2, slice(10, 12), low=63.0), station("far", 0.9, low=55.0)
    told = chosen(far, here, near)
    assert told.weather.tmin_f == pytest.approx(np.full(40, 60.0))
    assert told.filled(FIRST, LAST) == {DayMark.NEIGHBOUR: 5}


def test_a_station_that_was_passed_over_still_fills_gaps():
    near, far = station("near", 0.1, slice(20, 40)), station("far", 1.0, slice(5, 9))
    told = chosen(near, far)
    assert told.weather.station.id == "far"
    assert told.filled(FIRST, LAST) == {DayMark.NEIGHBOUR: 4}


def test_only_filled_days_of_the_season_are_counted_by_how():
    told = chosen(station("only", 0.1, slice(3, 5), 20))
    assert told.filled(FIRST, LAST) == {DayMark.BETWEEN: 3}
    assert told.filled(FIRST, date(2026, 6, 10)) == {DayMark.BETWEEN: 2}
    assert told.filled(date(2026, 6, 10), date(2026, 6, 12)) == {}


def test_the_only_station_is_taken_wherever_it_is():
    assert chosen(station("only", 20.0)).distance_km == pytest.approx(2217, abs=10)
    assert chosen(station("only", None)).distance_km is None
    assert chosen(station("only", 0.1), place=None).distance_km is None


def test_the_only_station_is_taken_however_much_it_lacks():
    assert chosen(station("only", 0.1, slice(0, 30))).weather.station.id == "only"


def test_several_stations_without_the_place_of_the_field_are_refused():
    with pytest.raises(WeatherError, match="with 2 stations the place of the field must be known"):
        chosen(station("a", 0.1), station("b", 0.2), place=None)


def test_several_stations_without_their_places_are_refused():
    with pytest.raises(WeatherError, match="their places must be known"):
        chosen(station("a", None), station("b", None))


def test_of_several_stations_those_with_a_place_are_taken():
    assert chosen(station("a", None), station("b", 2.0)).weather.station.id == "b"


def test_no_station_at_all_is_refused():
    with pytest.raises(WeatherError, match="one station at least"):
        chosen()


def test_what_was_measured_later_fills_no_gap():
    # 10 July is missing; a line from the 9th to the 11th would fill it, but on the 10th
    # nobody knew the 11th
    season = station("near", 0.1, 39)
    after = days(np.full(42, 60.0), station="near", place=season.station.place)
    after = lacking(after, 39)
    on_the_day = weather_for([season], FIELD, first=FIRST, last=LAST).weather
    told_later = weather_for([after], FIELD, first=FIRST, last=LAST).weather
    assert told_later.missing[39]
    assert on_the_day.missing[39]
    assert told_later.last == LAST
    assert not weather_for([after], FIELD, first=FIRST, last=after.last).weather.missing[39]


def test_a_forecast_that_follows_the_last_measured_day_is_kept():
    told = days(np.full(45, 60.0), station="near", place=FIELD, forecast=5)
    assert weather_for([told], FIELD, first=FIRST, last=LAST).weather.last == told.last


def test_weather_that_begins_after_the_day_is_refused():
    late = days(np.full(5, 60.0), first=date(2026, 8, 1), place=FIELD)
    with pytest.raises(WeatherError, match=f"must begin by {FIRST}"):
        chosen(late)


def test_a_station_that_is_a_few_days_late_is_not_passed_over_for_one_far_off():
    """Planted three days ago, and yesterday's day is not in yet."""
    ended = days(np.full(38, 60.0), station="near", place=FIELD)
    told = weather_for([ended, station("far", 9.0)], FIELD, first=date(2026, 7, 8), last=LAST)
    assert told.weather.station.id == "near"


def test_a_forecast_with_a_filled_day_is_kept():
    told = days(np.full(45, 60.0), station="near", place=FIELD, forecast=5)
    marks = told.marks.copy()
    marks[42] = DayMark.BETWEEN
    holed = DailyWeather(told.station, told.first, told.tmin_f, told.tmax_f, marks)
    assert weather_for([holed], FIELD, first=FIRST, last=LAST).weather.last == told.last
