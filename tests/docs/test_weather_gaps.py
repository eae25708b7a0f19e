"""The example on the page of weather gaps comes out of the code too."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from quarterwalk.weather import DayMark, fill_gaps
from quarterwalk.weather.fill import (
    LONGEST_LINE,
    LONGEST_MEAN,
    NEIGHBOUR_LEAST,
    NEIGHBOUR_REACH,
    SEASON_REACH,
    YEARS_LEAST,
)
from tests.docs.said import DOCS, rows, section
from tests.weather.days import days, lacking

PAGE = DOCS / "methods" / "weather-gaps.md"


def told():
    """Days of June as the page fills them: {day: (lowest, highest)}."""
    cells = {int(row[0]): row for row in rows(PAGE, "On paper")}
    return {day: tuple(map(float, row[3].split(","))) for day, row in cells.items()}


def test_a_person_with_paper_and_the_code_fill_the_same_days():
    before = 11
    home = days([60.0] * before + [62, 0, 0, 0, 66], [90.5] * before + [92, 0, 0, 0, 89.5])
    other = days([62.0] * before + [64, 65, 0, 0, 0], [90.0] * before + [91, 92, 0, 0, 0])
    # one day of the twelve stands on the page; the others make the mean differences
    home.tmax_f[0] -= 0.5
    filled = fill_gaps(lacking(home, slice(12, 15)), [lacking(other, slice(13, 16))])
    for day, (low, high) in told().items():
        place = filled.index_of(date(2026, 6, day))
        assert (filled.tmin_f[place], filled.tmax_f[place]) == pytest.approx((low, high))
    marks = [DayMark.NEIGHBOUR, DayMark.BETWEEN, DayMark.BETWEEN]
    assert filled.marks[12:15].tolist() == marks


def test_the_numbers_of_the_rule_are_those_of_the_code():
    text = section(PAGE, "The rule")
    assert f"{NEIGHBOUR_LEAST} days or more of the {NEIGHBOUR_REACH} before" in text
    assert f"1 to {LONGEST_LINE} missing days" in text
    assert f"1 to {LONGEST_MEAN} missing days in a row, {YEARS_LEAST} other years" in text
    assert f"the {SEASON_REACH} on either side" in text


def test_the_mean_of_other_years_is_that_on_the_page():
    lows = np.repeat([61.0, 63.0, 65.0, 70.0], 365)
    weather = days(lows, first=date(2021, 1, 1))
    start = weather.index_of(date(2024, 6, 13))
    filled = fill_gaps(lacking(weather, slice(start, start + 7)))
    assert filled.tmin_f[start] == pytest.approx(63)
