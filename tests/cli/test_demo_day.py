"""The demo's office lives on its Monday, whatever the clock of this machine says."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from quarterwalk.cli.demo_office import days_ahead
from quarterwalk.demo import load_district

MONDAY = date(2026, 7, 13)
ZONE = ZoneInfo("America/Chicago")
# the two that change the clock are 8 March and 1 November 2026
DAYS = [datetime(2026, *day, tzinfo=UTC) for day in ((1, 15), (3, 8), (7, 12), (11, 1), (11, 30))]


def test_the_monday_is_the_day_after_the_last_walks_in_the_districts_own_zone() -> None:
    district = load_district()
    assert district.last_day + timedelta(days=1) == MONDAY
    assert MONDAY.strftime("%A") == "Monday"
    assert ZoneInfo(district.time_zone) == ZONE


@pytest.mark.parametrize("begin", DAYS)
def test_at_every_hour_it_is_monday_in_the_district(begin: datetime) -> None:
    for half_hours in range(48):
        now = begin + timedelta(minutes=30 * half_hours)
        moved = now + timedelta(days=days_ahead(now, MONDAY, ZONE))
        there = moved.astimezone(ZONE)
        assert there.date() == MONDAY
        # noon here is about noon there
        here = now.astimezone(ZONE)
        apart = abs((there.hour * 60 + there.minute) - (here.hour * 60 + here.minute))
        assert min(apart, 24 * 60 - apart) <= 60


def test_the_zone_of_the_machine_does_not_matter() -> None:
    now = datetime(2026, 11, 30, 2, 14, tzinfo=UTC)
    for zone in ("Asia/Tokyo", "America/Chicago", "Pacific/Kiritimati"):
        assert days_ahead(now.astimezone(ZoneInfo(zone)), MONDAY, ZONE) == -139
