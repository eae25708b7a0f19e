"""What is written as a weather table reads back the same."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.files.weather_file import read_weather
from quarterwalk.files.weather_writer import write_weather
from quarterwalk.weather.daily import DailyWeather, DayMark, WeatherError
from quarterwalk.weather.station import Station

quick = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
HOT = st.floats(55.0, 75.0), st.floats(0.0, 40.0), st.integers(0, 5)


def weather(days: list[tuple[float, float, int]], station: str = "p1") -> DailyWeather:
    low, more, marks = (np.array(each) for each in zip(*days, strict=True))
    gone = marks == DayMark.MISSING
    tmin, tmax = (np.where(gone, np.nan, each) for each in (low, low + more))
    place = Station(station, 'Pump "House", 2', (-101.9, 33.5), 990.5)
    return DailyWeather(place, date(2026, 6, 1), tmin, tmax, marks.astype(np.uint8))


@quick
@given(st.lists(st.tuples(*HOT), min_size=1, max_size=40), st.sampled_from(["csv", "xlsx"]))
def test_days_read_back_the_same(
    tmp_path: Path, days: list[tuple[float, float, int]], kind: str
) -> None:
    written = weather(days)
    write_weather([written], tmp_path / f"w.{kind}")
    (found,) = read_weather(tmp_path / f"w.{kind}").stations
    assert (found.station, found.first) == (written.station, written.first)
    assert found.marks.tolist() == written.marks.tolist()
    np.testing.assert_allclose(found.tmin_f, written.tmin_f, atol=0.00501, rtol=0)
    np.testing.assert_allclose(found.tmax_f, written.tmax_f, atol=0.00501, rtol=0)


def test_what_was_read_back_is_written_as_it_was(tmp_path: Path) -> None:
    some = [weather([(70.123, 20.0, 1), (71.0, 20.0, 0)], "a"), weather([(70.0, 20.0, 3)], "b")]
    write_weather(some, tmp_path / "one.csv")
    write_weather(read_weather(tmp_path / "one.csv").stations, tmp_path / "two.csv")
    assert (tmp_path / "one.csv").read_bytes() == (tmp_path / "two.csv").read_bytes()


@pytest.mark.parametrize("ids", [[], [""], ["a", "a"]])
def test_stations_that_can_not_be_told_apart_are_not_written(
    tmp_path: Path, ids: list[str]
) -> None:
    with pytest.raises(WeatherError, match="an id of their own"):
        write_weather([weather([(70.0, 20.0, 1)], name) for name in ids], tmp_path / "w.csv")
    assert not list(tmp_path.iterdir())
