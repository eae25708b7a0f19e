"""The demo's weather, and what its scouts saw of the crops."""

from __future__ import annotations

import csv
from datetime import date, timedelta

import numpy as np
import pytest

from quarterwalk.crop import Event, clock_for
from quarterwalk.demo import load_district, make_season, write_season
from quarterwalk.demo.boundaries import demo_middle
from quarterwalk.demo.weather import demo_weather


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    where = tmp_path_factory.mktemp("demo")
    write_season(make_season(load_district(), np.random.default_rng(1)), where)
    return where


def rows(folder, name):
    with (folder / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def clock_of(name):
    field = next(field for field in load_district().fields if field.name == name)
    weather = demo_weather(demo_middle())[0].weather
    return field, clock_for(weather, field.replanted or field.planted, on=date(2026, 7, 12))


def test_the_weather_is_the_same_every_time():
    first, again = demo_weather(demo_middle()), demo_weather.__wrapped__(demo_middle())
    for one, other in zip(first, again, strict=True):
        assert np.array_equal(one.weather.tmin_f, other.weather.tmin_f)


def test_the_file_of_a_station_lacks_days_and_has_one_with_its_values_swapped(folder):
    gin = {row["date"]: row for row in rows(folder, "weather.csv") if row["station"] == "TD-GIN"}
    assert "2026-05-17" not in gin
    swapped = gin["2026-06-03"]
    assert float(swapped["tmin_f"]) > float(swapped["tmax_f"])


def test_plantings_to_work_out_lack_first_square_and_bloom_alone(folder):
    for known, blank in zip(
        rows(folder, "plantings.csv"), rows(folder, "planted.csv"), strict=True
    ):
        assert known["first_square"]
        assert blank == known | {"first_square": "", "bloom": ""}


def test_each_field_was_looked_at_before_and_after_its_first_square(folder):
    seen = rows(folder, "seen.csv")
    for field in load_district().fields:
        days = [date.fromisoformat(row["date"]) for row in seen if row["field"] == field.name]
        assert min(days) < field.squared < max(days)


def test_no_one_saw_anything_after_the_season(folder):
    last = load_district().last_day
    assert max(row["date"] for row in rows(folder, "seen.csv")) <= last.isoformat()


@pytest.mark.parametrize("field", load_district().fields, ids=lambda field: field.name)
def test_most_fields_square_when_the_heat_says(field):
    _, clock = clock_of(field.name)
    away = abs((clock.odds[Event.FIRST_SQUARE].likely - field.squared).days)
    assert away <= (8 if field.name in {"Old Airstrip 150", "Late Forty"} else 4)


def test_one_field_squared_earlier_than_its_heat_says():
    field, clock = clock_of("Old Airstrip 150")
    first, _ = clock.odds[Event.FIRST_SQUARE].within(0.8)
    assert field.squared < first - timedelta(days=1)
