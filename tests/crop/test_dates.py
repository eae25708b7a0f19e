"""The dates of a season stand in their order."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.crop import CropDateError, CropDates

FIRST = date(2026, 6, 10)


def june(day: int) -> date:
    return date(2026, 6, day)


def test_a_day_that_is_known_is_a_range_of_one() -> None:
    assert CropDates(FIRST).latest == FIRST
    assert CropDates(FIRST, june(14)).latest == june(14)


def test_a_range_ends_on_or_after_its_first_day() -> None:
    assert CropDates(FIRST, FIRST).latest == FIRST
    with pytest.raises(CropDateError, match="a day or a range, got 2026-06-10 to 2026-06-09"):
        CropDates(FIRST, june(9))


@pytest.mark.parametrize("bloom", [june(9), FIRST])
def test_bloom_comes_after_first_square(bloom: date) -> None:
    with pytest.raises(CropDateError, match="first bloom must be after first square"):
        CropDates(FIRST, bloom=bloom)


def test_bloom_may_come_inside_a_range_of_first_square() -> None:
    assert CropDates(FIRST, june(14), bloom=june(11)).bloom == june(11)


def test_the_last_treatment_before_the_walk_counts() -> None:
    dates = CropDates(FIRST, treated=(june(20), june(12), june(16)))
    assert dates.last_treated_before(june(30)) == june(20)
    assert dates.last_treated_before(june(20)) == june(16)
    assert dates.last_treated_before(june(13)) == june(12)
    assert dates.last_treated_before(june(12)) is None
    assert CropDates(FIRST).last_treated_before(june(30)) is None
