"""What a service answers is read strictly: one thing amiss, and nothing of it is taken."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.files.weather_answer import read_answer, reason_told
from quarterwalk.files.weather_service_errors import (
    AnswerNotRead,
    RequestRefused,
    WeatherServiceError,
)
from tests.files.weather_server import days_told

FIRST = date(2026, 6, 29)
WHERE = "https://weather.example/v1"
Json = dict[str, Any]


def told(low: list[Any] | None = None, high: list[Any] | None = None) -> Json:
    return days_told(FIRST, low or [61.5, 70, 68.0], high or [88.1, 99, 101.0])


def refusal(answer: object) -> str:
    data = answer if isinstance(answer, bytes) else json.dumps(answer).encode()
    with pytest.raises(AnswerNotRead) as caught:
        read_answer(data, WHERE)
    return str(caught.value)


def test_days_and_temperatures_are_read_as_they_stand() -> None:
    answer = read_answer(json.dumps(told()).encode(), WHERE)
    assert (answer.first, answer.last) == (FIRST, date(2026, 7, 1))
    assert answer.tmin_f.tolist() == [61.5, 70.0, 68.0]
    assert answer.tmax_f.tolist() == [88.1, 99.0, 101.0]
    assert answer.elevation_m == 975.0


def test_a_day_with_one_temperature_is_missing_whole() -> None:
    answer = read_answer(json.dumps(told([None, 70.0, 68.0], [90.0, None, 99.0])).encode(), WHERE)
    assert np.isnan(answer.tmin_f).tolist() == [True, True, False]
    assert np.isnan(answer.tmax_f).tolist() == [True, True, False]


def test_no_height_is_no_fault() -> None:
    answer = told()
    del answer["elevation"]
    assert read_answer(json.dumps(answer).encode(), WHERE).elevation_m is None


@pytest.mark.parametrize("name", ["temperature_2m_max", "temperature_2m_min", "time"])
def test_another_unit_is_refused_by_name(name: str) -> None:
    answer = told()
    answer["daily_units"][name] = "°C"
    assert f'daily_units.{name} must be "' in refusal(answer)
    assert '"°C"' in refusal(answer)


@pytest.mark.parametrize(
    ("spoil", "expected"),
    [
        (lambda a: a.pop("daily"), "daily must be a JSON object"),
        (lambda a: a.pop("daily_units"), "daily_units must be a JSON object"),
        (lambda a: a["daily_units"].pop("time"), "daily_units.time must be"),
        (lambda a: a["daily"].pop("time"), "daily.time must be a list"),
        (lambda a: a["daily"].update(time=[]), "daily.time must be a list"),
        (lambda a: a["daily"].update(temperature_2m_max=88.0), "daily.temperature_2m_max must be"),
        (lambda a: a["daily"]["temperature_2m_min"].pop(), "one entry a day, 3, got 2"),
        (lambda a: a["daily"]["time"].pop(), "one entry a day, 2, got 3"),
        (lambda a: a["daily"]["time"].__setitem__(1, "2026-07-02"), "must follow one another"),
        (lambda a: a["daily"]["time"].__setitem__(1, "2026-06-29"), "must follow one another"),
        (lambda a: a["daily"]["time"].__setitem__(0, "20260629"), "written like"),
        (lambda a: a["daily"]["time"].__setitem__(0, "2026-W27-1"), "written like"),
        (lambda a: a["daily"]["time"].__setitem__(0, 1782691200), "written like"),
        (lambda a: a["daily"]["time"].__setitem__(0, "9999-12-31"), "written like"),
        (lambda a: a["daily"]["temperature_2m_max"].__setitem__(0, "88"), "a number or null"),
        (lambda a: a["daily"]["temperature_2m_max"].__setitem__(0, True), "a number or null"),
        (lambda a: a["daily"]["temperature_2m_max"].__setitem__(0, [1]), "a number or null"),
        (lambda a: a["daily"]["temperature_2m_max"].__setitem__(0, 10**400), "a number or null"),
        (lambda a: a["daily"]["temperature_2m_max"].__setitem__(2, 60.0), "of 2026-07-01 must not"),
    ],
)
def test_an_answer_of_another_form_is_refused_with_what_is_amiss(
    spoil: Callable[[Json], object], expected: str
) -> None:
    answer = told()
    spoil(answer)
    assert expected in refusal(answer)


@pytest.mark.parametrize(("low", "high"), [(-999.0, 90.0), (70.0, 500.0), (-99.9, -99.9)])
def test_a_day_that_no_place_has_is_refused_by_name(low: float, high: float) -> None:
    said = refusal(told([61.5, low, 68.0], [88.1, high, 101.0]))
    assert "of 2026-06-30 must be possible in °F" in said


def test_days_at_the_level_of_celsius_are_refused() -> None:
    assert "must be in °F, as it says, got summer highs" in refusal(
        told([21, 22, 23], [34, 35, 36])
    )


def test_days_of_a_southern_winter_are_taken() -> None:
    answer = told([28, 30, 31], [45, 46, 44]) | {"latitude": -33.0, "longitude": 150.0}
    assert read_answer(json.dumps(answer).encode(), WHERE).tmax_f.tolist() == [45, 46, 44]


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_a_number_that_is_none_is_refused(number: str) -> None:
    assert refusal(json.dumps(told()).replace("88.1", number).encode())


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\xff\xfe",
        b"<!DOCTYPE html><html><body>Sign in to the network</body></html>",
        json.dumps(told()).encode()[:-40],
        b"[" * 100_000,
    ],
)
def test_what_is_not_whole_json_is_refused_with_how_it_begins(data: bytes) -> None:
    assert "must be whole JSON" in refusal(data)


def test_json_that_is_no_object_is_refused() -> None:
    assert "the answer must be a JSON object" in refusal([1, 2])


def test_a_refusal_names_the_reason_and_who_gave_it() -> None:
    with pytest.raises(RequestRefused, match="start_date is out of range") as caught:
        read_answer(b'{"error": true, "reason": "start_date is out of range"}', WHERE)
    assert str(caught.value).startswith(WHERE)


def test_a_reason_comes_without_control_characters_and_not_too_long() -> None:
    reason = reason_told(json.dumps({"reason": "\x1b[31m" + "x" * 5000}).encode())
    assert "\x1b" not in reason
    assert len(reason) < 300


@given(st.binary(max_size=200) | st.text(max_size=200).map(str.encode))
def test_whatever_bytes_come_are_an_answer_or_an_error_of_the_service(data: bytes) -> None:
    with pytest.raises(WeatherServiceError):
        read_answer(data, WHERE)


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=8,
)


@given(st.sampled_from(["daily", "daily_units", "time", "temperature_2m_max"]), JSON)
def test_whatever_stands_in_one_place_is_read_or_refused(name: str, value: object) -> None:
    answer = told()
    (answer if name in answer else answer["daily"])[name] = value
    try:
        read = read_answer(json.dumps(answer).encode(), WHERE)
    except WeatherServiceError:
        return
    assert read.tmin_f.shape == read.tmax_f.shape
    assert not np.any(read.tmin_f > read.tmax_f)
