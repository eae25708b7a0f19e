"""The verdict table, row by row and edge by edge, with the numbers written out by hand."""

import pytest

from tests.call.made import call, codes, days_to_next_look, reading

# High Plains, week 2: line 25, floor 85 of 100; 300 squares, so 255 healthy are just not under.
BOTH = [
    # insects, healthy of 300, verdict, days to the next look, a code
    (25, 254, "treat", 3, "both-past"),
    (25, 200, "treat", 3, "both-past"),
    (25, 255, "look-sooner", 4, "insects-only"),
    (90, 300, "look-sooner", 4, "insects-only"),
    (24, 254, "look-sooner", 4, "insects-near"),
    (24, 300, "look-sooner", 4, "insects-near"),
    (17, 300, "look-sooner", 4, "insects-near"),  # two thirds of 25 is 16.67
    (16, 300, "hold", 7, "insects-middle"),
    (16, 254, "look-sooner", 4, "squares-only"),
    (16, 255, "hold", 7, "set-not-under"),
    (9, 254, "look-sooner", 4, "squares-only"),  # a third of 25 is 8.33
    (8, 254, "hold", 5, "other-causes"),
    (8, 240, "hold", 5, "other-causes"),  # under by exactly .05
    (8, 239, "look-sooner", 4, "other-causes"),  # under by more than .05
    (8, 255, "hold", 7, "set-not-under"),
    (0, 0, "look-sooner", 4, "set-well-under"),
    (0, 300, "hold", 7, "set-not-under"),
]


@pytest.mark.parametrize(("insects", "healthy", "verdict", "days", "code"), BOTH)
def test_a_guideline_that_asks_for_both(insects, healthy, verdict, days, code):
    made = call(reading(insects, healthy=healthy, missing=300 - healthy))
    assert (made.verdict, days_to_next_look(made)) == (verdict, days)
    assert code in codes(made)
    assert not made.provisional


@pytest.mark.parametrize(
    ("insects", "squares", "verdict", "days"),
    [(25, 0, "look-sooner", 3), (25, 49, "look-sooner", 3), (17, 49, "look-sooner", 4),
     (16, 49, "hold", 7), (0, 0, "hold", 7)],
)  # fmt: skip
def test_a_set_that_cannot_be_read(insects, squares, verdict, days):
    made = call(reading(insects, healthy=0, missing=squares))
    assert (made.verdict, days_to_next_look(made)) == (verdict, days)
    assert not made.provisional
    assert "set-not-readable" in codes(made)


@pytest.mark.parametrize(
    ("guideline", "insects", "verdict", "days"),
    [("mid-coast", 15, "treat", 3), ("mid-coast", 14, "look-sooner", 4),
     ("mid-coast", 10, "look-sooner", 4), ("mid-coast", 9, "hold", 7),
     ("upper-coast", 15, "treat", 3), ("coastal-bend", 10, "treat", 3),
     ("coastal-bend", 6, "hold", 7), ("coastal-bend", 7, "look-sooner", 4),
     ("blacklands", 10, "treat", 3), ("blacklands", 9, "look-sooner", 4),
     ("oklahoma", 30, "treat", 3), ("oklahoma", 29, "look-sooner", 4),
     ("oklahoma", 20, "look-sooner", 4), ("oklahoma", 19, "hold", 7)],
)  # fmt: skip
def test_guidelines_that_go_by_insects_alone(guideline, insects, verdict, days):
    made = call(reading(insects, missing=300), guideline)
    assert (made.verdict, days_to_next_look(made)) == (verdict, days)


@pytest.mark.parametrize(
    ("insects", "blasted", "verdict", "days"),
    [(25, 30, "treat", 3), (25, 29, "look-sooner", 4), (9, 30, "look-sooner", 4),
     (8, 30, "hold", 5), (8, 45, "hold", 5), (8, 46, "look-sooner", 4), (8, 29, "hold", 7)],
)  # fmt: skip
def test_kansas_asks_for_a_tenth_blasted(insects, blasted, verdict, days):
    made = call(reading(insects, healthy=300 - blasted, blasted=blasted), "kansas")
    assert (made.verdict, days_to_next_look(made)) == (verdict, days)
    assert made.guideline.floor is None
    assert made.chances.under is None


@pytest.mark.parametrize(
    ("day", "healthy", "verdict"),
    [(6, 270, "look-sooner"), (6, 269, "treat"), (7, 269, "look-sooner"), (13, 254, "treat"),
     (14, 254, "look-sooner"), (14, 224, "treat"), (30, 225, "look-sooner"), (30, 224, "treat")],
)  # fmt: skip
def test_the_floor_changes_at_the_days_edge(day, healthy, verdict):
    made = call(reading(30, healthy=healthy, missing=300 - healthy), day=day)
    assert made.verdict == verdict


def test_fields_are_compared_exactly_not_after_rounding():
    # quadrant means of 7/28, 6/24, 6/24, 6/24 are each exactly .25
    even = reading(0, plants=(28, 24, 24, 24))
    assert even.per_100 == 0
    made = call(reading(25, plants=(28, 24, 24, 24), healthy=200, missing=100))
    assert made.verdict in {"treat", "look-sooner"}
