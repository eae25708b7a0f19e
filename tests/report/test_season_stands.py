"""Where a season stands is said with its odds, and how its days are known."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from quarterwalk.crop import CropClock, DayOdds, Event, Given, Seen, SetAside, Sign, WeekOdds
from quarterwalk.report.season_stands import headline, stands
from tests.report.made_seasons import PLANTED, clock, day


def standing(before: float = 0.0, *weeks: float, blooming: float = 0.0) -> CropClock:
    return replace(clock(day(6, 24)), weeks=WeekOdds(before, weeks, blooming))


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (
            standing(0.0, 0.05, 0.82, 0.13),
            "Week 2 of squaring, most likely: about 8 in 10; week 3: about 1 in 10.",
        ),
        (
            standing(0.21, 0.66, 0.12),
            "Week 1 of squaring, most likely: about 7 in 10;"
            " not squaring yet: about 2 in 10; week 2: about 1 in 10.",
        ),
        (
            standing(0.0, 0.0, 0.0, 0.08, 0.34, 0.26, blooming=0.32),
            "Squaring, most likely: about 7 in 10, in week 4 (about 3 in 10)"
            " or week 5 (about 3 in 10); blooming: about 3 in 10.",
        ),
        (
            standing(0.2, 0.4, 0.35, blooming=0.05),
            "Squaring, most likely: about 8 in 10, in week 1 (about 4 in 10)"
            " or week 2 (about 4 in 10); not squaring yet: about 2 in 10.",
        ),
        (
            standing(0.4, *(0.09,) * 6, blooming=0.06),
            "Squaring, most likely: about 5 in 10; not squaring yet: about 4 in 10.",
        ),
        (
            standing(0.02, 0.3, 0.4, 0.25, blooming=0.03),
            "Week 2 of squaring, most likely: about 4 in 10;"
            " week 1: about 3 in 10; week 3: about 2 in 10.",
        ),
        (standing(0.97, 0.03), "Not squaring yet: better than 19 in 20."),
        (
            standing(0.7, 0.3),
            "Not squaring yet, most likely: about 7 in 10; squaring: about 3 in 10.",
        ),
        (standing(0.999, 0.001), "Not squaring yet."),
        (
            standing(0.0, 0.0, 0.0, 0.0, 0.3, blooming=0.7),
            "Blooming, most likely: about 7 in 10; squaring: about 3 in 10.",
        ),
        (standing(blooming=1.0), "Blooming: better than 99 in 100."),
        (
            standing(0.0, 0.0, 0.8, blooming=0.2),
            "Week 2 of squaring, most likely: about 8 in 10; blooming: about 2 in 10.",
        ),
        (standing(0.0, 0.0, 0.0, 1.0), "Week 3 of squaring."),
    ],
)
def test_the_headline_gives_the_likeliest_and_what_it_may_also_be(told, said):
    assert headline(told) == said


FLOWER = Seen(day(7, 10), bloom=True)


def test_a_field_at_cutout_is_said_to_have_cut_out():
    read = clock(day(7, 24), seen=(FLOWER, Seen(day(7, 20), nawf=4.5), Seen(day(7, 24), nawf=3.0)))
    assert headline(read) == "The field has cut out: 4.5 nodes above white flower on 20 July."
    assert not any("Cutout" in each for each in stands(read))


@pytest.mark.parametrize("nawf", [5.5, 7.0])
def test_a_field_with_more_nodes_above_white_flower_has_not(nawf):
    assert headline(clock(day(7, 20), seen=(FLOWER, Seen(day(7, 20), nawf=nawf)))) == (
        "The field blooms."
    )


def test_a_cutout_that_is_set_aside_is_none():
    read = clock(day(7, 24), seen=(Seen(day(7, 10), nawf=4.0), Seen(day(7, 20), nawf=9.0)))
    assert read.set_aside
    assert headline(read) == "The field blooms."


def test_a_cutout_that_is_likely_is_told_as_likely():
    late = clock(day(9, 10))
    (said,) = [each for each in stands(late) if each.startswith("Cutout")]
    assert said.startswith("Cutout most likely came about ")
    assert said.endswith("; a count of nodes above white flower makes it sure.")
    assert not any("Cutout" in each for each in stands(clock(day(7, 12))))


def test_a_cutout_without_a_range_is_not_told():
    late = clock(day(9, 10))
    odds = late.odds[Event.CUTOUT]
    less = replace(odds, chance=0.7 * odds.chance / odds.chance.sum(), beyond=0.3)
    unsure = replace(late, odds={**late.odds, Event.CUTOUT: less})
    assert not any(each.startswith("Cutout") for each in stands(unsure))


def dated(first: int, last: int, *, on: int) -> CropClock:
    """Put first square evenly on days of June, and read the clock on another."""
    began = (day(6, first) - PLANTED).days
    chance = [0.0] * began + [1 / (last - first + 1)] * (last - first + 1)
    read = clock(day(6, on))
    odds = DayOdds(PLANTED, _array(chance))
    return replace(read, odds={**read.odds, Event.FIRST_SQUARE: odds})


def _array(values):
    return clock(day(6, 24)).heat.heat[0][: len(values)] * 0 + values


@pytest.mark.parametrize(
    ("read", "said"),
    [
        (dated(10, 14, on=20), "First square most likely came about 12 June (10 to 13 June)."),
        (dated(10, 14, on=12), "First square is between 10 June and 13 June, most likely 12 June."),
        (dated(10, 14, on=8), "First square will be 10 to 13 June, most likely 12 June."),
        (dated(10, 10, on=20), "First square, most likely: 10 June."),
    ],
)
def test_first_square_is_told_in_the_tense_of_its_days(read, said):
    assert said in stands(read)


def test_a_first_square_that_was_seen_was():
    seen = (Seen(day(6, 10), plants=20, pinhead=4), Seen(day(6, 17), plants=20, pinhead=15))
    told = stands(clock(day(6, 24), seen=seen))
    assert told[0].startswith("First square was 1")


def test_a_bloom_that_nobody_saw_most_likely_came():
    (said,) = [each for each in stands(clock(day(8, 5))) if each.startswith("First bloom")]
    assert said.startswith("First bloom most likely came about ")
    assert said.endswith("July), but nobody saw it.")


def test_a_bloom_that_was_seen_was():
    told = stands(clock(day(7, 24), seen=(FLOWER,)))
    assert any(each.startswith("First bloom was ") for each in told)


def test_a_stand_that_was_planted_again_is_told_so():
    told = stands(clock(day(6, 24)), replanted=True)
    assert "from the heat since replanting on 8 May; nothing was seen" in told[-1]


def test_a_first_square_that_was_given_is_told_as_given_and_nothing_is_worked_out():
    read = clock(day(6, 24), given=Given((day(6, 10), day(6, 13))))
    assert stands(read) == ("First square is given as 10 to 13 June.",)


def test_a_bloom_that_was_given_is_told_as_given():
    read = clock(day(7, 20), given=Given(bloom=day(7, 8)))
    assert "First bloom is given as 8 July." in stands(read)


def test_before_emergence_it_is_said_that_nothing_is_up():
    told = stands(clock(day(5, 11)))
    assert told[0].startswith("The stand is most likely not up yet; it comes up 1")


def test_after_emergence_nothing_is_said_of_it():
    assert not any("not up" in each for each in stands(clock(day(6, 24))))


def test_where_nothing_was_seen_that_is_said():
    assert stands(clock(day(6, 24)))[-1] == (
        "That is worked out from the heat since planting on 8 May;"
        " nothing was seen in the field yet."
    )


def test_what_was_seen_is_named_by_its_days():
    seen = (Seen(day(6, 10), plants=20, pinhead=4), Seen(day(6, 17), plants=20, pinhead=15))
    assert stands(clock(day(6, 24), seen=seen))[-1] == (
        "That is worked out from the heat since planting on 8 May"
        " and from what was seen on 10 June and 17 June."
    )


def test_of_many_days_on_which_something_was_seen_the_number_is_told():
    seen = tuple(
        Seen(day(5, 20) + timedelta(days=i), true_leaves=1 + i / 3) for i in range(0, 12, 3)
    )
    assert stands(clock(day(6, 24), seen=seen))[-1].endswith("seen on 4 days, the last on 29 May.")


def test_what_lies_past_all_days_is_said_to():
    read = clock(day(6, 24))
    none = DayOdds(PLANTED, read.odds[Event.FIRST_SQUARE].chance * 0, 1.0)
    late = replace(read, odds={**read.odds, Event.FIRST_SQUARE: none})
    assert "First square lies past the days that can be worked out." in stands(late)


def test_a_look_that_is_wholly_set_aside_is_no_footing():
    seen = (Seen(day(6, 12), plants=20, pinhead=14), Seen(day(6, 14), plants=20, pinhead=4))
    assert stands(clock(day(6, 20), seen=seen))[-1] == (
        "That is worked out from the heat since planting on 8 May"
        " and from what was seen on 14 June."
    )


def test_where_all_that_was_seen_is_set_aside_that_is_said():
    aside = SetAside(Sign.PINHEADS, day(6, 12), Sign.FIRST_BLOOM, day(6, 1))
    read = clock(day(6, 20), seen=(Seen(day(6, 12), plants=20, pinhead=14),))
    assert stands(replace(read, set_aside=(aside,)))[-1] == (
        "That is worked out from the heat since planting on 8 May;"
        " what was seen in the field is set aside."
    )
