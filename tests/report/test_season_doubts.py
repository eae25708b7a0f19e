"""What does not agree: what was seen, both days, what would settle it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from quarterwalk.crop import CropClock, Disagreement, Event, Given, Seen, SetAside, Sign
from quarterwalk.report.season_doubts import doubts
from quarterwalk.report.season_settle import what_settles
from tests.report.made_seasons import clock, day

EXPECTED = (day(6, 14), day(6, 22))
HOLDS = "What was seen or given holds; the days here go by it."


def at_odds(seen: Seen | None, sign: Sign, event: Event, *window, expected=EXPECTED) -> CropClock:
    """Put one disagreement into a season."""
    on = day(6, 12) if seen is None else seen.on
    told = Disagreement(sign, on, event, window, expected, 0.05)
    looked = () if seen is None else (seen,)
    return replace(clock(day(6, 20)), seen=looked, disagreements=(told,), set_aside=())


ON, AFTER = day(6, 12), day(6, 13)
SQUARE, BLOOM = Event.FIRST_SQUARE, Event.FIRST_BLOOM
CASES = {
    "On 12 June 14 plants of 20 had a pinhead square;"
    " by the weather alone first square comes 14 to 22 June.": (
        Seen(ON, plants=20, pinhead=14), Sign.PINHEADS, SQUARE, None, ON,
    ),
    "On 12 June 1 plant of 20 had a pinhead square;"
    " by the weather alone first square comes 14 to 22 June.": (
        Seen(ON, plants=20, pinhead=1), Sign.PINHEADS, SQUARE, AFTER, None,
    ),
    "On 12 June plants had 3.4 squaring branches, which puts first square at 28 May to 8 June;"
    " by the weather alone it comes 14 to 22 June.": (
        Seen(ON, squaring_branches=3.4), Sign.BRANCHES, SQUARE, day(5, 28), day(6, 8),
    ),
    "On 12 June plants had 0.2 squaring branches, too few for first square to have come;"
    " by the weather alone it comes 14 to 22 June.": (
        Seen(ON, squaring_branches=0.2), Sign.BRANCHES, SQUARE, AFTER, None,
    ),
    "On 12 June white flowers stood in the field;"
    " by the weather alone first bloom comes 14 to 22 June.": (
        Seen(ON, bloom=True), Sign.FLOWERS, BLOOM, None, ON,
    ),
    "On 12 June no white flower stood in the field;"
    " by the weather alone first bloom comes 14 to 22 June.": (
        Seen(ON, bloom=False), Sign.FLOWERS, BLOOM, AFTER, None,
    ),
    "On 12 June there were 7.5 nodes above white flower, so the field bloomed;"
    " by the weather alone first bloom comes 14 to 22 June.": (
        Seen(ON, nawf=7.5), Sign.ABOVE_FLOWER, BLOOM, None, ON,
    ),
    "On 12 June there were 4 nodes above white flower;"
    " by the weather alone cutout comes 14 to 22 June.": (
        Seen(ON, nawf=4.0), Sign.ABOVE_FLOWER, Event.CUTOUT, None, ON,
    ),
    "On 12 June plants with leaves stood in the field;"
    " by the weather alone it comes up 14 to 22 June.": (
        Seen(ON, true_leaves=1.0), Sign.LEAVES, Event.EMERGENCE, None, ON,
    ),
    "On 12 June plants had 3 true leaves, which puts first square at 25 to 30 June;"
    " by the weather alone it comes 14 to 22 June.": (
        Seen(ON, true_leaves=3.0), Sign.LEAVES, SQUARE, day(6, 25), day(6, 30),
    ),
    "On 12 June plants had 8.5 nodes, which puts first square at 1 to 6 June;"
    " by the weather alone it comes 14 to 22 June.": (
        Seen(ON, nodes=8.5), Sign.NODES, SQUARE, day(6, 1), day(6, 6),
    ),
    "First square is given as 1 to 4 June; by the weather alone it comes 14 to 22 June.": (
        None, Sign.FIRST_SQUARE, SQUARE, day(6, 1), day(6, 4),
    ),
    "First bloom is given as 1 June; by the weather alone it comes 14 to 22 June.": (
        None, Sign.FIRST_BLOOM, BLOOM, day(6, 1), day(6, 1),
    ),
}  # fmt: skip


@pytest.mark.parametrize("said", CASES)
def test_each_disagreement_is_one_sentence_with_both_days(said):
    assert doubts(at_odds(*CASES[said])) == (said, HOLDS)


def test_the_look_that_disagrees_is_told_where_two_share_a_day():
    few, many = Seen(ON, plants=20, pinhead=4), Seen(ON, plants=10, pinhead=9)
    read = at_odds(many, Sign.PINHEADS, SQUARE, None, ON)
    assert doubts(replace(read, seen=(few, many)))[0].startswith("On 12 June 9 plants of 10 had")


def test_an_event_past_all_days_by_the_weather_alone_is_told_so():
    read = at_odds(Seen(ON, bloom=True), Sign.FLOWERS, BLOOM, None, ON, expected=None)
    assert doubts(read)[0].endswith("by the weather alone first bloom comes after this season.")


def many() -> CropClock:
    """Count the same much too early on many days."""
    early = [Seen(day(5, 20 + i), plants=20, pinhead=18, nodes=12.0) for i in range(5)]
    flowers = [Seen(day(6, 10 + i), bloom=bool(i % 2)) for i in range(9)]
    return clock(day(6, 20), seen=(*early, *flowers))


def test_of_many_looks_of_a_kind_the_last_is_told_and_the_others_are_numbered():
    told = doubts(many())
    assert [each for each in told if "pinhead" in each and each.startswith("On ")] == [
        "On 24 May 18 plants of 20 had a pinhead square;"
        " by the weather alone first square comes 14 to 22 June."
    ]
    assert any("other days disagree" in each for each in told)


def test_of_many_looks_that_are_set_aside_the_last_are_told_and_the_others_numbered():
    told = [each for each in doubts(many()) if "set aside" in each]
    assert len(told) == 3
    assert told[0].startswith("2 earlier looks are set aside")


def test_where_all_agree_nothing_is_said():
    read = clock(day(6, 20), seen=(Seen(day(6, 19), plants=20, pinhead=12),))
    assert doubts(read) == ()


@pytest.mark.parametrize("sign", Sign)
@pytest.mark.parametrize("by", Sign)
def test_what_is_set_aside_is_named_with_what_stands_against_it(sign, by):
    aside = SetAside(sign, day(6, 1), by, day(6, 3))
    (said,) = doubts(replace(clock(day(6, 20)), disagreements=(), set_aside=(aside,)))
    what, other = said.split(" is set aside: it can't be true beside ")
    assert what.endswith("1 June")
    assert other.endswith("3 June.")
    assert said[0].isupper()


def test_the_set_aside_count_of_plants_reads_as_a_sentence():
    seen = (Seen(day(6, 12), plants=20, pinhead=14), Seen(day(6, 14), plants=20, pinhead=4))
    assert doubts(clock(day(6, 20), seen=seen))[-1] == (
        "The count of plants with a pinhead square of 12 June is set aside: it can't be true"
        " beside the count of plants with a pinhead square of 14 June."
    )


BRANCHES = (
    "Count the fruiting branches with a square, or with the scar of a lost one, on five plants"
    " in each quarter: 1 or 2 are about week 1 of squaring, 3 or 4 week 2, 5 and more week 3."
)


def test_an_unsure_week_is_settled_by_squaring_branches_and_pinheads():
    first, second = what_settles(clock(day(6, 24)))
    assert first == BRANCHES
    assert second.startswith("Count how many plants have a pinhead square")


def test_a_sure_week_asks_for_nothing():
    seen = (Seen(day(6, 17), plants=20, pinhead=10), Seen(day(6, 19), squaring_branches=1.2))
    assert what_settles(clock(day(6, 21), seen=seen)) == ()


@pytest.mark.parametrize(
    ("event", "asked"),
    [
        (Event.FIRST_SQUARE, BRANCHES),
        (Event.FIRST_BLOOM, "Look for the first white flower."),
        (Event.CUTOUT, "Count the nodes above white flower on five plants in each quarter."),
        (
            Event.EMERGENCE,
            "Make sure of the day of planting; where the stand was planted again, that day counts.",
        ),
    ],
)
def test_each_disagreement_is_settled_by_what_tells_of_its_event(event, asked):
    assert asked in what_settles(at_odds(None, Sign.FIRST_SQUARE, event, None, ON))


@pytest.mark.parametrize("event", [Event.FIRST_SQUARE, Event.EMERGENCE])
def test_where_it_was_planted_again_that_day_is_to_be_made_sure_of(event):
    read = at_odds(None, Sign.FIRST_SQUARE, event, None, ON)
    told = [each for each in what_settles(read, replanted=True) if "sure of the day" in each]
    assert told == ["Make sure of the day of replanting."]


def test_a_week_that_is_unsure_is_settled_however_sure_squaring_is():
    read = clock(day(6, 24))
    weeks = replace(read.weeks, before=0.0, weeks=(0.5, 0.5), blooming=0.0)
    assert BRANCHES in what_settles(replace(read, weeks=weeks, disagreements=()))


def test_squaring_branches_are_not_asked_for_before_any_can_be_there():
    assert BRANCHES not in what_settles(clock(day(6, 8)))


def test_pinheads_are_not_asked_for_once_all_plants_have_one():
    late = clock(day(7, 6), seen=(Seen(day(6, 17), plants=20, pinhead=10),))
    assert 0.1 < late.weeks.blooming < 1 / 2
    assert what_settles(late) == (FLOWER,)


def test_days_of_first_square_that_branches_would_not_narrow_ask_for_none():
    """First square is known to two days, and today lies between week 1 and week 2."""
    seen = (Seen(day(6, 16), plants=20, pinhead=9), Seen(day(6, 17), plants=20, pinhead=12))
    told = what_settles(clock(day(6, 23), seen=seen))
    assert BRANCHES not in told


FLOWER = "Look for the first white flower."
ABOVE = "Count the nodes above white flower on five plants in each quarter."


def asked_of(event: Event, *seen: Seen, given: Given | None = None) -> tuple[str, ...]:
    read = at_odds(None, Sign.FIRST_SQUARE, event, None, ON)
    return what_settles(replace(read, seen=seen, given=given or Given()))


@pytest.mark.parametrize(
    "seen", [Seen(ON, bloom=True), Seen(ON, nawf=7.0), Seen(day(6, 20), bloom=False)]
)
def test_a_flower_that_was_seen_or_looked_for_today_is_not_asked_for(seen):
    assert FLOWER not in asked_of(BLOOM, seen)


def test_a_flower_is_asked_for_where_none_was_seen_on_a_day_before():
    assert FLOWER in asked_of(BLOOM, Seen(ON, bloom=False))


def test_a_flower_is_not_asked_for_where_bloom_is_given():
    assert FLOWER not in asked_of(BLOOM, given=Given(bloom=day(6, 18)))


def test_a_flower_whose_sight_is_set_aside_is_asked_for():
    read = at_odds(Seen(ON, bloom=True), Sign.FIRST_BLOOM, BLOOM, None, ON)
    aside = SetAside(Sign.FLOWERS, ON, Sign.PINHEADS, day(6, 14))
    assert FLOWER in what_settles(replace(read, set_aside=(aside,)))


@pytest.mark.parametrize(("counted", "asked"), [(16, True), (17, False), (20, False)])
def test_nodes_above_white_flower_are_asked_for_where_three_days_lie_between(counted, asked):
    told = asked_of(Event.CUTOUT, Seen(day(6, counted), nawf=5.0))
    assert (ABOVE in told) == asked


def test_squaring_branches_counted_today_are_not_asked_for():
    told = asked_of(SQUARE, Seen(day(6, 20), squaring_branches=2.0))
    assert BRANCHES not in told
    assert told[0].startswith("Count how many plants have a pinhead square")


def test_pinheads_counted_today_are_not_asked_for():
    told = asked_of(SQUARE, Seen(day(6, 20), plants=20, pinhead=9))
    assert [each for each in told if each.startswith("Count")] == [BRANCHES]


def test_counts_of_yesterday_are_asked_for_again():
    yesterday = Seen(day(6, 19), plants=20, pinhead=9, squaring_branches=1.0)
    assert len([each for each in asked_of(SQUARE, yesterday) if each.startswith("Count")]) == 2
