"""White flowers that were seen, where first square was given and first bloom was not."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from quarterwalk.crop import (
    CropDates,
    Flowers,
    Given,
    Seen,
    SetAside,
    Sign,
    StageName,
    given_standing,
    read_clock,
    stage_on,
)
from quarterwalk.crop.seen import flowers_by
from tests.crop.seasons import after, steady

SQUARE = date(2026, 6, 18)
DAY = date(2026, 7, 10)
GIVEN = CropDates(SQUARE)


def flower(on: date, **told: object) -> Seen:
    return Seen(on, **({"bloom": True} | told))  # type: ignore[arg-type]


def none(on: date) -> Seen:
    return Seen(on, bloom=False)


def test_the_first_day_on_which_flowers_were_seen_stands_for_first_bloom() -> None:
    seen = [flower(date(2026, 7, 9)), flower(date(2026, 7, 8)), none(date(2026, 7, 2))]
    dates, stage = given_standing(DAY, GIVEN, seen)
    assert dates == CropDates(SQUARE, bloom=date(2026, 7, 8))
    assert (stage.name, stage.days_blooming) == (StageName.BLOOMING, (2, 2))
    assert stage.flowers == Flowers(date(2026, 7, 8))


@pytest.mark.parametrize(("ahead", "blooms"), [(0, True), (1, False)])
def test_flowers_of_the_day_itself_count_and_those_of_the_next_do_not(
    ahead: int, blooms: bool
) -> None:
    _, stage = given_standing(DAY, GIVEN, [flower(DAY + timedelta(days=ahead))])
    assert (stage.name is StageName.BLOOMING) == stage.bloom_known == blooms


def test_nodes_above_a_white_flower_are_a_flower_seen() -> None:
    assert flowers_by(DAY, [Seen(DAY, nawf=7.0)], SQUARE).on == DAY


def test_a_first_bloom_that_was_given_holds_whatever_was_seen() -> None:
    given = CropDates(SQUARE, bloom=date(2026, 7, 12))
    assert given_standing(DAY, given, [flower(date(2026, 7, 8))]) == (given, stage_on(DAY, given))


@pytest.mark.parametrize("on", [date(2026, 6, 10), date(2026, 6, 15), SQUARE])
def test_flowers_no_later_than_the_last_day_of_first_square_are_left_out(on: date) -> None:
    given = CropDates(date(2026, 6, 12), SQUARE)
    dates, stage = given_standing(DAY, given, [flower(on)])
    assert dates == given
    aside = SetAside(Sign.FLOWERS, on, Sign.FIRST_SQUARE, SQUARE)
    assert stage.flowers == Flowers(None, (aside,))
    dates, stage = given_standing(DAY, given, [flower(on), flower(date(2026, 7, 8))])
    assert dates.bloom == date(2026, 7, 8)
    assert stage.flowers == Flowers(date(2026, 7, 8), (aside,))


def test_flowers_that_were_seen_hold_before_a_later_look_that_found_none() -> None:
    first = SQUARE + timedelta(days=14)
    assert flowers_by(DAY, [flower(first), none(first + timedelta(days=3))], SQUARE).on == first


def test_flowers_too_soon_after_first_square_are_left_out() -> None:
    first = SQUARE + timedelta(days=13)
    aside = (SetAside(Sign.FLOWERS, first, Sign.FIRST_SQUARE, SQUARE),)
    assert flowers_by(DAY, [flower(first)], SQUARE) == Flowers(None, aside)
    assert flowers_by(DAY, [flower(first), flower(DAY)], SQUARE) == Flowers(DAY, aside)


@pytest.mark.parametrize("days", [-3, 0, 2, 13, 14, 20])
def test_call_and_clock_take_the_same_flowers_where_first_square_is_given(days: int) -> None:
    squared = (after(38), after(40))
    seen = [flower(after(40 + days)), none(after(62))]
    on = after(63)
    _, stage = given_standing(on, CropDates(*squared), seen)
    clock = read_clock(steady(18.0), on=on, given=Given(squared), seen=seen)
    assert clock.stage() == stage
    assert (clock.weeks.blooming > 0.5) is (stage.name is StageName.BLOOMING)
    assert clock.set_aside == stage.flowers.left_out


def test_flowers_that_anybody_saw_on_a_day_are_flowers_of_that_day() -> None:
    assert flowers_by(DAY, [none(DAY), flower(DAY)], SQUARE) == Flowers(DAY)


def test_what_was_seen_of_squares_and_leaves_moves_no_date_that_was_given() -> None:
    looks = [Seen(date(2026, 7, 8), plants=20, pinhead=0, true_leaves=4.0), none(DAY)]
    assert given_standing(DAY, GIVEN, looks) == (GIVEN, stage_on(DAY, GIVEN))
