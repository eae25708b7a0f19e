"""The crop's clock against published heat and days by stage, codes and branches."""

from __future__ import annotations

from datetime import timedelta
from functools import cache
from math import floor

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
from quarterwalk.crop.window import days_for, windows_of
from tests.crop.seasons import PLANTED, after, steady
from tests.published.tables import read

MEANS = read("stage_means")
CODES = read("stage_codes")
BRANCHES = read("stage_branches")

# Sums and days of the council's table and codes of the scale, typed apart from the tables:
# our ranges are wide, so a slip of the pen there would show nowhere else.
COUNCIL = {
    ("planting", "emergence"): {"sum": (50, 60), "days": (4, 9)},
    ("emergence", "first_square"): {"sum": (425, 475), "days": (27, 38)},
    ("first_square", "first_bloom"): {"sum": (300, 350), "days": (20, 25)},
    ("planting", "first_bloom"): {"sum": (775, 850), "days": (60, 70)},
}
SCALE = [9, *range(10, 20), 51, 52, 55, 59, 60, 61, 65]


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
    return {"days": (first, last), "sum": ((first - 1) * a_day, last * a_day)}[row["unit"]]


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
    ours = eight_in_ten(row)
    assert ours == (float(row["first"]), float(row["last"]))
    assert stands(low, high, *ours) == row["holds"]


@pytest.mark.parametrize("pair", COUNCIL, ids=" ".join)
def test_the_council_has_one_range_of_sums_and_one_of_days(pair):
    rows = [r for r in MEANS.rows if "Council" in r["source"] and (r["from"], r["to"]) == pair]
    assert [row["unit"] for row in rows] == ["sum", *["days"] * 4]
    for row in rows:
        assert (int(row["low"]), int(row["high"])) == COUNCIL[pair][row["unit"]]
    assert [row["a_day"] for row in rows[2:]] == ["16", "18", "20"]


def test_the_means_of_one_place_add_up_to_its_mean_to_first_bloom():
    means = {(r["from"], r["to"]): int(r["low"]) for r in MEANS.rows if "Cathey" in r["source"]}
    square = means["planting", "emergence"] + means["emergence", "first_square"]
    assert square == means["planting", "first_square"]
    assert square + means["first_square", "first_bloom"] == means["planting", "first_bloom"]


def test_the_need_names_the_range_of_four_seasons():
    (row,) = (row for row in MEANS.rows if "Virginia" in row["source"])
    why = load_needs().needs[Event(row["to"])].why
    assert f"({row['low']} to {row['high']})" in why


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
    assert firsts == {pair: pytest.approx(sums[pair] / days[pair], abs=0.05) for pair in days}


def leaves_seen(count):
    return Seen(after(15), true_leaves=float(count), plants=20, pinhead=0)


def seen_at(row):
    """A clock as read on the day on which what stands in a row was seen."""
    by_sign = {
        "true leaves": leaves_seen(row["count"] or 0),
        "pinheads": Seen(after(30), plants=20, pinhead=10),
        "first flowers": Seen(after(52), bloom=True),
    }
    seen = by_sign[row["seen"]]
    return read_clock(steady(18.0), on=seen.on, seen=[seen])


@cache
def codes_given():
    """Give all codes of a season without a look, and of any count of leaves early in it."""
    clocks = [read_clock(steady(18.0), on=after(day)) for day in range(0, 120, 3)]
    counted = [leaves_seen(count) for count in range(13)]
    clocks += [read_clock(steady(18.0), on=seen.on, seen=[seen]) for seen in counted]
    clocks.append(clock_at_emergence())
    return {bbch(clock) for clock in clocks} - {None}


def clock_at_emergence():
    likely = read_clock(steady(18.0), on=after(0)).odds[Event.EMERGENCE].likely
    return read_clock(steady(18.0), on=likely)


@CODES.each()
def test_what_is_seen_of_a_field_has_its_code(row):
    code = int(row["code"])
    if row["told"] == "no":
        assert code not in codes_given()
        return
    assert bbch(clock_at_emergence() if row["seen"] == "emergence" else seen_at(row)) == code
    if row["count"]:
        assert int(row["count"]) == code - 10  # nine is nine and more


def test_the_codes_given_are_those_of_the_scale_that_are_marked():
    assert [int(row["code"]) for row in CODES.rows] == SCALE
    assert {int(row["code"]) for row in CODES.rows if row["told"] == "yes"} == codes_given()


@BRANCHES.each()
def test_a_count_of_branches_stands_for_days_of_its_week(row):
    branches, days, on = float(row["branches"]), float(row["days"]), after(60)
    assert days_for(branches, load_needs()) == days
    assert floor(days + 0.5) // 7 + 1 == int(row["week"])
    seen = Seen(on, squaring_branches=branches)
    _, window = windows_of(PLANTED, Given(), [seen], load_needs(), on=on)
    left = [(on - day).days for day in (window.last, window.first)]
    assert left == [int(row["least"]), int(row["most"])]


@BRANCHES.each()
def test_where_heat_tells_little_a_count_of_branches_tells_the_week(row):
    slow, week = steady(4.0), int(row["week"])
    square = read_clock(slow, on=after(0)).odds[Event.FIRST_SQUARE].likely
    on = square + timedelta(days=10)
    by_heat = read_clock(slow, on=on)
    assert max(by_heat.weeks.weeks[:3]) < 0.25
    seen = Seen(on, squaring_branches=float(row["branches"]))
    clock = read_clock(slow, on=on, seen=[seen])
    assert clock.weeks.weeks[week - 1] > 0.45
    since = (on - clock.odds[Event.FIRST_SQUARE].likely).days
    assert since == pytest.approx(float(row["days"]), abs=1.5)
