"""Squaring weeks are counted from first square, seven days each, until bloom."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from quarterwalk.crop import CropDates, Stage, StageName, stage_on, weeks_between

FIRST = date(2026, 6, 10)
BLOOM = date(2026, 7, 2)


def on_day(days: int, dates: CropDates | None = None) -> Stage:
    """Give the stage some days after (the earliest) first square."""
    return stage_on(FIRST + timedelta(days), dates or CropDates(FIRST))


@pytest.mark.parametrize(
    ("days", "week"),
    [(0, 1), (6, 1), (7, 2), (13, 2), (14, 3), (20, 3), (21, 4), (27, 4), (28, 5), (45, 7)],
)
def test_a_squaring_week_is_seven_days_and_week_1_begins_at_first_square(
    days: int, week: int
) -> None:
    stage = on_day(days)
    assert stage.name is StageName.SQUARING
    assert stage.squaring_weeks == (week,)
    assert stage.days == (days, days)


def test_the_day_before_first_square_is_before_squaring() -> None:
    stage = on_day(-1)
    assert stage.name is StageName.BEFORE_SQUARING
    assert stage.squaring_weeks == ()


def test_from_the_day_of_bloom_on_the_crop_is_blooming() -> None:
    dates = CropDates(FIRST, bloom=BLOOM)
    before, bloom, later = (stage_on(BLOOM + timedelta(n), dates) for n in (-1, 0, 7))
    assert (before.name, before.squaring_weeks) == (StageName.SQUARING, (4,))
    assert (bloom.name, bloom.squaring_weeks, bloom.days_blooming) == (
        StageName.BLOOMING,
        (),
        (0, 0),
    )
    assert (later.name, later.squaring_weeks, later.days_blooming) == (
        StageName.BLOOMING,
        (),
        (7, 7),
    )


def test_whether_bloom_is_known_is_said_before_it_comes() -> None:
    assert not on_day(3).bloom_known
    assert on_day(3, CropDates(FIRST, bloom=BLOOM)).bloom_known
    assert on_day(-3, CropDates(FIRST, bloom=BLOOM)).bloom_known


@pytest.mark.parametrize(
    ("days", "weeks"),
    [
        (0, (1,)),  # the last day of the range is still to come
        (4, (1,)),
        (6, (1,)),
        (7, (1, 2)),  # day 3 to 7
        (10, (1, 2)),  # day 6 to 10
        (11, (2,)),  # day 7 to 11
        (14, (2, 3)),
        (17, (2, 3)),
        (18, (3,)),
        (21, (3, 4)),
    ],
)
def test_a_range_of_first_square_gives_every_week_it_allows(
    days: int, weeks: tuple[int, ...]
) -> None:
    stage = on_day(days, CropDates(FIRST, FIRST + timedelta(4)))
    assert stage.name is StageName.SQUARING
    assert stage.squaring_weeks == weeks
    assert stage.days == (days - 4, days)


def test_a_long_range_gives_three_weeks() -> None:
    assert on_day(20, CropDates(FIRST, FIRST + timedelta(14))).squaring_weeks == (1, 2, 3)


def test_before_the_earliest_day_of_a_range_it_is_before_squaring() -> None:
    assert on_day(-1, CropDates(FIRST, FIRST + timedelta(4))).name is StageName.BEFORE_SQUARING


def test_bloom_inside_a_range_ends_the_squaring_weeks() -> None:
    dates = CropDates(FIRST, FIRST + timedelta(40), bloom=BLOOM)
    assert stage_on(BLOOM, dates).squaring_weeks == ()
    assert stage_on(BLOOM, dates).name is StageName.BLOOMING


def test_weeks_between_leaves_out_days_before_first_square() -> None:
    assert weeks_between(-9, -1) == ()
    assert weeks_between(-9, 0) == (1,)
    assert weeks_between(6, 7) == (1, 2)


def test_the_names_are_those_that_calls_print() -> None:
    assert [str(name) for name in StageName] == ["before-squaring", "squaring", "blooming"]
