"""The sun on the card: which way to face at each time of the day, and when it is overhead."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.card.sun import sun_of
from quarterwalk.field import Layout
from quarterwalk.weather.shadow import overhead_span
from quarterwalk.weather.sun import sun_position
from tests.card.ground import ON, card, content, laid_out

Json = dict[str, Any]
TEXAS = ZoneInfo("America/Chicago")
PAGE = (-101.9, 33.5)  # where the page on sun and heat works its examples
DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))


def on_day(day: date, rows: float | None = 90.0, gate: tuple[float, float] = PAGE) -> Layout:
    """Give the first demo field on another day, with rows and a gate of one's own."""
    layout = laid_out()
    loops = (replace(layout.loops[0], line=(gate, gate)), *layout.loops[1:])
    return replace(layout, on=day, loops=loops, field=replace(layout.field, rows=rows))


def sun(day: date = ON, rows: float | None = 90.0) -> Json:
    told = sun_of(on_day(day, rows), TEXAS)
    assert told is not None
    return told


def row_at(told: Json, hour: int, minute: int = 0) -> list[Any]:
    """Look a time up as a phone does."""
    asked = 60 * hour + minute
    return [row for row in told["rows"] if row[0] <= asked][-1]  # type: ignore[no-any-return]


def test_a_card_without_a_zone_tells_nothing_of_the_sun() -> None:
    assert "sun" not in content()
    assert content(zone=TEXAS)["sun"] == sun_of(laid_out(), TEXAS)


def test_the_sun_changes_nothing_else_on_the_card_and_takes_little_room() -> None:
    told = content(zone=TEXAS)
    assert {key: told[key] for key in told if key != "sun"} == content()
    assert len(card(zone=TEXAS).bytes) - len(card().bytes) < 1500


def test_at_ten_the_scout_faces_the_sun_as_on_the_page_on_sun_and_heat() -> None:
    # worked on paper there: 2026-06-24, 10:00 daylight time, 33.5 north, 101.9 west: 85.6
    row = row_at(sun(date(2026, 6, 24)), 10)
    assert row == [600, 86, 2, 0, 0]
    assert sun()["compass"][row[2]] == "east"


def test_the_sun_is_overhead_at_the_hours_of_the_page_on_sun_and_heat() -> None:
    june, august = sun(date(2026, 6, 21)), sun(date(2026, 8, 15))
    assert june["overhead"] == [12 * 60 + 18, 15 * 60 + 21]
    assert august["overhead"] == [13 * 60 + 5, 14 * 60 + 39]
    assert june["texts"]["overhead"].startswith("The sun is overhead from 12:18 to 15:21:")
    assert "Lean back from the plant." in june["texts"]["overhead"]


def test_in_winter_the_sun_is_never_overhead() -> None:
    told = sun(date(2026, 12, 21))
    assert (told["overhead"], told["texts"]["overhead"]) == (None, "")
    assert not any(row[3] for row in told["rows"])


@given(DAYS)
def test_a_row_begins_with_the_light_each_half_hour_and_where_the_sun_is_overhead(
    day: date,
) -> None:
    told = sun(day)
    minutes = [row[0] for row in told["rows"]]
    halves = [minute for minute in range(0, 1440, 30) if minutes[0] <= minute < told["sunset"]]
    assert minutes == sorted({minutes[0], *halves, *(told["overhead"] or [])})
    for minute, _, _, over, _ in told["rows"]:
        high = told["overhead"] or [0, 0]
        assert bool(over) == (high[0] <= minute < high[1])


@given(DAYS, st.integers(0, 1439))
def test_a_row_looked_up_says_where_the_sun_stands_near_enough(day: date, minute: int) -> None:
    told = sun(day)
    if not told["rows"][0][0] <= minute < told["sunset"]:
        return
    began, heading, *_ = row_at(told, 0, minute)
    offset = timedelta(minutes=told["offset"])
    at = datetime(day.year, day.month, day.day, tzinfo=UTC) - offset + timedelta(minutes=began)
    stands = float(sun_position(at, PAGE).azimuth)
    assert minute - began < 30
    assert abs((heading - stands + 180) % 360 - 180) <= 0.5


@pytest.mark.parametrize(
    ("rows", "hour", "along"),
    [(90, 10, 0), (90, 18, 1), (0, 10, 2), (0, 18, 2), (27, 10, 0), (25, 10, 2), (None, 10, None)],
)
def test_rows_are_followed_to_the_nearer_side_up_to_60_degrees_off(
    rows: float | None, hour: int, along: int | None
) -> None:
    told = sun(date(2026, 6, 24), rows)  # the sun stands at 86 at ten, at 274 at six
    assert row_at(told, hour)[4] == along


def test_each_way_along_the_rows_has_its_words_and_rows_across_have_theirs() -> None:
    one, other, across = sun(rows=45)["texts"]["along"]
    assert one == "Along the rows, face north-east (45°)."
    assert other == "Along the rows, face south-west (225°)."
    assert across == "The rows run across the sun: look at the row on the sun's side."
    assert sun(rows=None)["texts"]["along"] == []


def test_the_words_leave_the_gaps_that_the_phone_fills() -> None:
    facing = sun()["texts"]["facing"]
    said = facing.replace("{compass}", "east").replace("{degrees}", "83")
    assert said == "Walk in facing the sun, east (83°). Your shadow falls behind you."


def test_the_times_are_those_of_the_clock_at_the_field() -> None:
    assert sun(date(2026, 6, 21))["offset"] == -300
    assert sun(date(2026, 12, 21))["offset"] == -360
    high = overhead_span(ON, PAGE, UTC)
    assert high is not None
    assert sun()["overhead"][0] == (high[0].hour - 5) * 60 + high[0].minute


@pytest.mark.parametrize("zone", ["Asia/Tokyo", "Australia/Sydney"])
def test_a_zone_whose_midnight_cuts_the_daylight_gives_no_sun(zone: str) -> None:
    assert sun_of(on_day(ON), ZoneInfo(zone)) is None


def test_where_the_sun_does_not_set_there_is_none_on_the_card() -> None:
    assert sun_of(on_day(ON, gate=(20.0, 70.0)), UTC) is None
