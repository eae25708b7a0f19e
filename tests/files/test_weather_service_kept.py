"""Answers that are kept: asked for once, fetched again when broken, used when offline."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from quarterwalk.files.weather_service import FetchedWeather
from quarterwalk.files.weather_service_errors import ServiceNotReached
from quarterwalk.weather.daily import DayMark
from tests.files.weather_server import (
    COMING,
    NOW,
    PAST,
    TODAY,
    Asked,
    Reply,
    Served,
    fetched,
    plain_weather,
    serving,
)

SPRING = date(2026, 4, 15)
IN_A_WEEK = TODAY + timedelta(days=7)


def fetch(
    served: Served, cache: Path, *, hours: float = 0.0, first: date = SPRING
) -> FetchedWeather:
    """Fetch some hours later what each test fetches first."""
    return fetched(served.service(), first, IN_A_WEEK, NOW + timedelta(hours=hours), cache)


def down(path: str, asked: Asked) -> Reply:
    return Reply(b"", 503)


def test_what_came_within_three_hours_is_not_asked_for_again(tmp_path: Path) -> None:
    with serving() as served:
        before = fetch(served, tmp_path)
        after = fetch(served, tmp_path, hours=2.9)
    assert served.paths() == ["/forecast", "/archive"]
    assert after.weather.tmax_f.tolist() == before.weather.tmax_f.tolist()
    assert after.notices == before.notices


def test_after_three_hours_it_is_asked_for_again(tmp_path: Path) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        fetch(served, tmp_path, hours=3)
    assert served.paths() == ["/forecast", "/archive"] * 2


def test_years_that_no_longer_change_are_asked_for_once(tmp_path: Path) -> None:
    with serving() as served:
        for days in (0, 30, 300):
            now = NOW + timedelta(days=days)
            fetched(served.service(), date(2024, 5, 1), date(2024, 9, 30), now, tmp_path)
    assert served.paths() == ["/archive"]


def test_other_days_of_the_same_years_need_no_new_answer(tmp_path: Path) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        fetch(served, tmp_path, first=date(2026, 5, 20))
    assert len(served.asked) == 2


def test_the_same_files_are_written_again_the_next_day(tmp_path: Path) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        names = sorted(path.name for path in tmp_path.iterdir())
        served.answering = lambda path, asked: plain_weather(path, asked, IN_A_WEEK)
        fetch(served, tmp_path, hours=7 * 24)
    assert sorted(path.name for path in tmp_path.iterdir()) == names
    assert len(names) == 2


def test_nothing_is_kept_unless_a_folder_is_given(tmp_path: Path) -> None:
    with serving() as served:
        fetched(served.service(), SPRING, IN_A_WEEK)
        fetched(served.service(), SPRING, IN_A_WEEK)
    assert len(served.asked) == 4


def test_a_kept_file_holds_the_answer_as_it_came_and_when_and_no_key(tmp_path: Path) -> None:
    with serving() as served:
        fetched(served.service(key="s3cret"), TODAY, TODAY, NOW, tmp_path)
        raw = plain_weather("/forecast", served.asked[0][1]).body.decode()
    (path,) = tmp_path.iterdir()
    kept = json.loads(path.read_text(encoding="utf-8"))
    assert kept["answer"] == raw
    assert kept["fetched"] == NOW.isoformat()
    assert "s3cret" not in path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "broken",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b"\xff",
        b'{"form": "quarterwalk weather answer 1"}',
        b"[" * 99_999,
    ],
)
def test_a_broken_file_is_fetched_again(tmp_path: Path, broken: bytes) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        for path in tmp_path.iterdir():
            path.write_bytes(broken)
        assert not fetch(served, tmp_path).weather.missing.any()
        fetch(served, tmp_path)
    assert served.paths() == ["/forecast", "/archive"] * 2


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("form", "quarterwalk weather answer 0"),
        ("url", "https://weather.example/other"),
        ("fetched", "2026-06-30T06:00:00"),
        ("fetched", "yesterday"),
        ("fetched", "2031-01-01T00:00:00+00:00"),
        ("answer", "{}"),
        ("answer", '{"error": true, "reason": "no"}'),
        ("answer", None),
    ],
)
def test_a_file_with_one_thing_wrong_is_fetched_again(
    tmp_path: Path, name: str, value: object
) -> None:
    with serving() as served:
        fetched(served.service(), TODAY, TODAY, NOW, tmp_path)
        (path,) = tmp_path.iterdir()
        path.write_text(json.dumps(json.loads(path.read_text()) | {name: value}))
        fetched(served.service(), TODAY, TODAY, NOW, tmp_path)
    assert len(served.asked) == 2


def test_without_a_connection_the_older_answer_is_used_and_said(tmp_path: Path) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        served.answering = down
        told = fetch(served, tmp_path, hours=24)
    (older,) = (notice for notice in told.notices if notice.startswith("Older answers"))
    assert "are used, the oldest of 127.0.0.1 of 2026-06-30 07:00: there is no" in older
    assert not told.weather.missing.any()


def test_of_one_older_answer_its_time_is_said(tmp_path: Path) -> None:
    with serving() as served:
        fetched(served.service(), TODAY, TODAY, NOW, tmp_path)
        served.answering = down
        later = NOW + timedelta(hours=5)
        told = fetched(served.service(), TODAY, TODAY, later, tmp_path)
    (older,) = (notice for notice in told.notices if "lder answer" in notice)
    assert older.startswith("An older answer of 127.0.0.1, of 2026-06-30 07:00, is used")


def test_a_day_that_an_older_answer_foretold_stays_a_forecast(tmp_path: Path) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        served.answering = down
        weather = fetch(served, tmp_path, hours=48).weather
    told = weather.between(date(2026, 6, 28), date(2026, 7, 1))
    assert told.tmax_f.tolist() == [PAST[1]] + [COMING[1]] * 3
    assert told.marks.tolist() == [DayMark.MEASURED] * 2 + [DayMark.FORECAST] * 2


def test_once_nobody_answers_what_is_kept_is_not_asked_for(tmp_path: Path) -> None:
    with serving() as served:
        fetch(served, tmp_path)
        served.answering = down
        fetch(served, tmp_path, hours=24)
    assert served.paths()[2:] == ["/forecast"] * 3


def test_without_a_connection_and_an_answer_the_error_is_told(tmp_path: Path) -> None:
    with serving(down) as served, pytest.raises(ServiceNotReached):
        fetch(served, tmp_path)
    assert not list(tmp_path.iterdir())


def test_a_folder_that_can_not_be_written_is_said_and_the_weather_is_given(tmp_path: Path) -> None:
    in_the_way = tmp_path / "kept"
    in_the_way.write_text("a file, no folder")
    with serving() as served:
        told = fetch(served, in_the_way)
    assert not told.weather.missing.any()
    assert told.notices[-1].startswith("An answer could not be kept")
