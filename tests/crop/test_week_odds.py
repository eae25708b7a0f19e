"""Days of first square make the weeks of a day."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.crop import WeekOdds
from quarterwalk.crop.week_odds import week_odds


def share_out(chances, place, *, days=60, blooming=0.0):
    """Share out first-square days given as {day from planting: chance}."""
    square = np.zeros(days + 1)
    for day, chance in chances.items():
        square[day] = chance
    return week_odds(square * (1 - blooming), square, place)


@pytest.mark.parametrize(("since", "week"), [(0, 1), (6, 1), (7, 2), (13, 2), (14, 3), (21, 4)])
def test_a_week_is_seven_days_from_first_square_on(since, week):
    odds = share_out({20: 1.0}, 20 + since)
    assert odds.likely_week == week
    assert odds.weeks[week - 1] == pytest.approx(1)
    assert sum(odds.weeks) == pytest.approx(1)


def test_the_day_before_first_square_is_before_squaring():
    odds = share_out({20: 1.0}, 19)
    assert odds == WeekOdds(1.0, (), 0.0)
    assert odds.likely_week is None


def test_days_on_either_side_of_a_week_share_its_chance():
    odds = share_out({20: 0.3, 24: 0.5, 30: 0.2}, 27)
    assert odds.weeks == pytest.approx((0.5, 0.3))
    assert odds.before == pytest.approx(0.2)


def test_what_blooms_is_in_no_squaring_week():
    odds = share_out({20: 1.0}, 41, blooming=0.75)
    assert odds.blooming == pytest.approx(0.75)
    assert odds.weeks[3] == pytest.approx(0.25)
    assert odds.likely_week is None


def test_a_first_square_beyond_all_days_is_still_to_come():
    assert share_out({20: 0.6, 60: 0.4}, 59).before == pytest.approx(0.4)


def test_a_week_as_likely_as_what_is_beside_it_is_named():
    assert WeekOdds(0.4, (0.4, 0.2), 0.0).likely_week == 1


@pytest.mark.parametrize(
    ("told", "likely", "week"),
    [
        (WeekOdds(0.0, (0.0, 0.0, 0.1, 0.3, 0.28), 0.32), "squaring", 4),
        (WeekOdds(0.35, (0.33, 0.32), 0.0), "squaring", 1),
        (WeekOdds(0.6, (0.4,), 0.0), "before", None),
        (WeekOdds(0.0, (0.0, 0.4), 0.6), "blooming", None),
        (WeekOdds(0.5, (0.5,), 0.0), "before", None),
        (WeekOdds(1.0, (), 0.0), "before", None),
    ],
)
def test_all_weeks_together_are_set_against_before_and_after_them(told, likely, week):
    assert (told.likely, told.likely_week) == (likely, week)
    assert told.stretches[0][0] == likely
    assert sum(chance for _, chance in told.stretches) == pytest.approx(1)


def test_on_the_day_of_planting_nothing_squares():
    assert share_out({20: 1.0}, 0) == WeekOdds(1.0, (), 0.0)


@given(
    st.lists(st.floats(0, 1), min_size=61, max_size=61).filter(lambda w: sum(w) > 0),
    st.integers(0, 59),
    st.floats(0, 1),
)
def test_the_shares_add_up_to_one_whatever_the_days(weights, place, blooming):
    square = np.array(weights) / sum(weights)
    odds = week_odds(square * (1 - blooming), square, place)
    assert odds.before + sum(odds.weeks) + odds.blooming == pytest.approx(1)
    assert min(odds.before, odds.blooming, *odds.weeks, 0) >= 0
    assert len(odds.weeks) <= place // 7 + 1
