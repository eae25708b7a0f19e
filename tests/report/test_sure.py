"""How sure a report says a call is: no word of no doubt beside what may still change it."""

from __future__ import annotations

import pytest

from quarterwalk.call import Sureness
from quarterwalk.report.sure import how_sure
from quarterwalk.walk import Method
from tests.call.made import call, reading
from tests.report.made_reports import PAST_BOTH

NOT_TREAT = "Clear. The rule does not call for treating, and there is little doubt of it."


def told(read, rule="southern-high-plains", **dates):
    return list(how_sure(call(read, rule, **dates), read))


def test_a_walk_that_is_not_finished_says_how_far_it_came():
    read = reading(15, plants=(8, 8, 0, 0), healthy=57, missing=7)
    assert call(read, day=20).sure is Sureness.CLEAR
    assert told(read, day=20) == [
        "Not yet: 16 of 100 plants.",
        "About 84 more plants finish the walk.",
    ]


def test_a_quarter_left_out_of_a_long_walk_is_asked_for():
    read = reading(15, plants=(50, 50, 0, 0))
    assert told(read) == ["Not yet: a quarter is still to be walked.", "Walk every quarter."]


def test_sweeps_are_counted_as_sweeps():
    read = reading(3, method=Method.SWEEP, plants=(10, 10, 10, 10), sweeps=1)
    assert told(read, "tennessee-sweep")[0] == "Not yet: 40 of 100 sweeps."


@pytest.mark.parametrize(
    ("counts", "rule", "first"),
    [
        (
            {"insects": 0, "healthy": 240},
            "southern-high-plains",
            "Clear by what was found: the rule does not call for treating.",
        ),
        (
            {"insects": 60, **PAST_BOTH},
            "southern-high-plains",
            "Clear by what was found: the rule calls for treating.",
        ),
        (
            {"insects": 0},
            "southern-high-plains",
            "Clear by what was found: the insects are short of their line.",
        ),
    ],
)
def test_a_clear_call_that_lacks_something_is_clear_by_what_was_found(counts, rule, first):
    read = reading(counts.pop("insects"), plants=(15, 15, 15, 15), **counts)
    made = call(read, rule)
    assert made.provisional
    assert made.sure is Sureness.CLEAR
    said = told(read, rule)
    assert said[0] == first
    assert said[1] == "The call is provisional: what is still lacking may change it."
    assert "little doubt" not in " ".join(said)


def test_weeks_that_differ_are_never_called_clear():
    read = reading(25, healthy=539, missing=60)
    made = call(read, day=17, latest=12)
    assert made.sure is Sureness.CLEAR
    assert "weeks-differ" in {reason.code for reason in made.reasons}
    assert told(read, day=17, latest=12)[0] == (
        "Close. The rule likely does not call for treating, but it may."
    )


def test_a_firm_clear_call_leaves_little_doubt():
    assert told(reading(0, healthy=300)) == [NOT_TREAT]
