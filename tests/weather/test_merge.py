"""A later file laid over an earlier one: what was measured is never lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from quarterwalk.weather import DailyWeather, DayMark, Station
from quarterwalk.weather.merge import merged

JUNE = date(2026, 6, 1)


def days(
    *highs: float | None, mark: DayMark = DayMark.MEASURED, first: date = JUNE
) -> DailyWeather:
    """Give days in a row; None is missing."""
    tmax = np.array([np.nan if high is None else high for high in highs])
    marks = np.where(np.isnan(tmax), DayMark.MISSING, mark).astype(np.uint8)
    return DailyWeather(Station("S"), first, tmax - 20, tmax, marks)


def highs(weather: DailyWeather) -> list[float | None]:
    return [None if np.isnan(high) else high for high in weather.tmax_f.tolist()]


def test_of_two_measured_days_the_newer_files_holds_and_is_counted() -> None:
    done = merged(days(90, 91, 92), days(91, 95, 92))
    assert highs(done.weather) == [91, 95, 92]
    assert (done.added, done.changed, done.since) == (0, 2, JUNE)


def test_a_measured_day_beats_a_forecast_whichever_comes_first() -> None:
    forecast = days(80, 81, mark=DayMark.FORECAST)
    assert highs(merged(days(90), forecast).weather) == [90, 81]
    later = merged(forecast, days(90))
    assert (highs(later.weather), later.measured) == ([90, 81], 1)
    assert later.weather.marks.tolist() == [DayMark.MEASURED, DayMark.FORECAST]


def test_a_day_that_the_newer_file_lacks_stays() -> None:
    assert highs(merged(days(90, 91), days(None, 95)).weather) == [90, 95]


def test_days_apart_leave_a_gap_that_is_missing() -> None:
    done = merged(days(90), days(95, first=JUNE + timedelta(days=2)))
    assert (highs(done.weather), done.added) == ([90, None, 95], 1)


def test_the_same_file_again_changes_nothing() -> None:
    done = merged(days(90, None, 92), days(90, None, 92))
    assert (done.added, done.changed, done.measured, done.since) == (0, 0, 0, None)


def test_a_file_without_a_place_keeps_the_place_that_is_known() -> None:
    before = replace(days(90), station=Station("S", "Gin", (-100.0, 33.0), 700.0))
    assert merged(before, days(91)).weather.station == before.station


def test_the_first_day_that_is_another_is_named() -> None:
    assert merged(days(90, 91, 92), days(90, 91, 93)).since == JUNE + timedelta(days=2)
    forecast = days(91, mark=DayMark.FORECAST, first=JUNE + timedelta(days=1))
    assert merged(merged(days(90), forecast).weather, days(90, 91)).since == forecast.first


def test_another_name_is_another_station_from_its_first_day_on() -> None:
    renamed = replace(days(92, first=JUNE + timedelta(days=1)), station=Station("S", "Gin"))
    assert merged(days(90, 91), renamed).since == JUNE
