"""The crop's clock against published heat and days by stage, codes and branches."""

from __future__ import annotations

from datetime import timedelta

import numpy as np
import pytest

from quarterwalk.crop import (
    SEASON_DAYS,
    DayOdds,
    Event,
    Given,
    Seen,
    bbch,
    load_needs,
    read_clock,
)
from quarterwalk.crop.chain import steps_of
from tests.crop.seasons import PLANTED, after, steady
from tests.published.tables import read

MEANS = read("stage_means")
CODES = read("stage_codes")
BRANCHES = read("stage_branches")


def odds_between(first, event, a_day):
    """Odds of the days from one event to another when every day brings the same heat."""
    clock = read_clock(steady(a_day), on=after(0))
    if first == "planting":
        return clock.odds[event]
    start = (clock.odds[Event(first)].likely - PLANTED).days
    if first == "emergence":
        heat = np.arange(SEASON_DAYS)[None, :] * a_day
        chance = steps_of(heat, load_needs())[event].chance[0, start]
        return DayOdds(after(1), chance)  # the first column is one day on
    given = Given(first_square=(after(start), after(start)))
    held = read_clock(steady(a_day), on=after(0), given=given).odds[event]
    return DayOdds(PLANTED, held.chance[start:])


def eight_in_ten(row):
    """Our range: days, or the heat that has come by the day before the first and by the last."""
    a_day = float(row["a_day"])
    span = odds_between(row["from"], Event(row["to"]), a_day).within(0.8)
    first, last = ((day - PLANTED).days for day in span)
    return (first, last) if row["unit"] == "days" else ((first - 1) * a_day, last * a_day)


def stands(low, high, first, last):
    """How a published range stands to ours."""
    if high < first or last < low:
        return "apart"
    if first <= low and high <= last:
        return "inside"
    if low <= first and last <= high:
        return "around"
    return "low end" if low < first else "high end"


@MEANS.each()
def test_a_published_range_stands_to_ours_as_the_table_says(row):
    low, high = float(row["low"]), float(row["high"])
    assert stands(low, high, *eight_in_ten(row)) == row["holds"]


def test_every_published_mean_of_sums_lies_in_our_range():
    means = [row for row in MEANS.rows if row["unit"] == "sum" and row["low"] == row["high"]]
    assert len(means) == 5
    assert {row["holds"] for row in means} == {"inside"}


def test_no_published_sum_lies_wholly_outside_our_range():
    assert "apart" not in {row["holds"] for row in MEANS.rows if row["unit"] == "sum"}


@pytest.mark.parametrize("a_day", ["16", "18"])
def test_at_the_heat_of_a_season_days_overlap_those_published(a_day):
    rows = [row for row in MEANS.rows if row["a_day"] == a_day]
    assert len(rows) == 4
    assert "apart" not in {row["holds"] for row in rows}


def test_the_heat_at_which_days_are_read_first_is_that_of_the_table_itself():
    sums, days = (
        {
            (r["from"], r["to"]): (float(r["low"]) + float(r["high"])) / 2
            for r in MEANS.rows
            if r["unit"] == unit and "Council" in r["source"]
        }
        for unit in ("sum", "days")
    )
    firsts = {}
    for row in MEANS.rows:
        if row["unit"] == "days":
            firsts.setdefault((row["from"], row["to"]), float(row["a_day"]))
    assert firsts == {pair: pytest.approx(sums[pair] / days[pair], abs=0.06) for pair in days}


def seen_at(row):
    """A clock as read on the day on which what stands in a row was seen."""
    leaves = Seen(after(15), true_leaves=float(row["count"] or 0), plants=20, pinhead=0)
    by_sign = {
        "true leaves": leaves,
        "pinheads": Seen(after(30), plants=20, pinhead=10),
        "first flowers": Seen(after(52), bloom=True),
    }
    seen = by_sign[row["seen"]]
    return read_clock(steady(18.0), on=seen.on, seen=[seen])


@CODES.each()
def test_what_is_seen_of_a_field_has_its_code(row):
    if row["told"] == "no":
        codes = {bbch(read_clock(steady(18.0), on=after(day))) for day in range(0, 120, 3)}
        assert int(row["code"]) not in codes
        return
    if row["seen"] == "emergence":
        likely = read_clock(steady(18.0), on=after(0)).odds[Event.EMERGENCE].likely
        clock = read_clock(steady(18.0), on=likely)
    else:
        clock = seen_at(row)
    assert bbch(clock) == int(row["code"])


@BRANCHES.each()
def test_branches_in_the_middle_of_a_week_tell_it(row):
    week = int(row["week"])
    square = read_clock(steady(18.0), on=after(0)).odds[Event.FIRST_SQUARE].likely
    day = square + timedelta(days=7 * week - 4)
    seen = Seen(day, squaring_branches=float(row["branches"]))
    clock = read_clock(steady(18.0), on=day, seen=[seen])
    assert clock.weeks.likely_week == week
    assert clock.weeks.weeks[week - 1] > 0.5
