"""What is told of a first square that was worked out, at the edges of its rules."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.call.clock_told import worked_out
from quarterwalk.crop import Seen, Stage, StageName, WeekOdds, WorkedOut, read_clock
from tests.crop.seasons import after, steady

FIRST, LAST = date(2026, 6, 15), date(2026, 6, 16)


@pytest.mark.parametrize(
    ("likely", "other"), [(FIRST, "Tuesday 16 June"), (LAST, "Monday 15 June")]
)
def test_of_two_days_the_one_that_is_not_the_likelier_is_told_beside_it(likely, other):
    told = WorkedOut(FIRST, LAST, likely, WeekOdds(0.0, (1.0,), 0.0))
    reason = next(worked_out(Stage(StageName.SQUARING, (4, 5), worked_out=told)))
    assert f"very likely that day or {other}." in reason.text


def test_one_in_twenty_is_still_told():
    told = WorkedOut(FIRST, LAST, FIRST, WeekOdds(0.05, (0.85, 0.05), 0.05))
    reasons = worked_out(Stage(StageName.SQUARING, (4, 5), worked_out=told))
    said = next(each.text for each in reasons if each.code == "week-chances")
    few = "less than 1 in 10"
    assert f"not squaring yet, {few}" in said
    assert f"week 2, {few}" in said
    assert f"blooming, {few}" in said


def test_less_than_one_in_twenty_is_not_told():
    told = WorkedOut(FIRST, LAST, FIRST, WeekOdds(0.049, (0.853, 0.049), 0.049))
    reasons = worked_out(Stage(StageName.SQUARING, (4, 5), worked_out=told))
    said = next(each.text for each in reasons if each.code == "week-chances")
    assert said.endswith("Where the field stands: week 1, about 9 in 10.")


@pytest.mark.parametrize("heat", [4.0, 5.0, 6.0])
def test_flowers_where_the_weather_has_none_this_season_are_told_of_without_an_error(heat):
    looks = [Seen(after(30), plants=20, pinhead=18), Seen(after(60), bloom=True)]
    stage = read_clock(steady(heat), on=after(62), seen=looks).stage()
    assert [each.code for each in worked_out(stage)][0] == "first-square-worked-out"
