"""Ranges said to hold 8 in 10 hold about so many; the whole measure is benchmarks/stages.py.

Of 120 fields a share of .80 has a standard error of .037, and of some .045 as five fields at a time
share a station. In 2000 fields the shares lie between .77 and .85, inside the .75 to .85 that is
asked for; 120 fields are asked for .70 to .90, one standard error more on either side.
"""

from __future__ import annotations

import statistics

import pytest

from benchmarks.looks import KINDS, measured
from benchmarks.stages import LEVEL, READ_ON, coverage
from quarterwalk.crop import RANGE, Event

FIELDS, SEED = 120, 1


@pytest.fixture(scope="module")
def held():
    return coverage(FIELDS, SEED)


def test_the_benchmark_measures_the_range_that_is_printed():
    assert LEVEL == RANGE


@pytest.mark.slow
@pytest.mark.parametrize("after", READ_ON)
@pytest.mark.parametrize("event", [Event.FIRST_SQUARE, Event.FIRST_BLOOM])
def test_ranges_hold_about_eight_in_ten_fields(held, event, after):
    assert 0.70 <= held[after, event] <= 0.90


@pytest.fixture(scope="module")
def looked():
    return measured(FIELDS, SEED)


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_what_a_call_goes_by_holds_about_nine_in_ten_fields_that_were_looked_at(looked, kind):
    """The shares of 2000 fields lie between .89 and .98, and within a day above .98."""
    assert statistics.fmean(looked[kind].called) >= 0.82
    assert statistics.fmean(looked[kind].near) >= 0.93


@pytest.mark.slow
def test_the_more_is_looked_at_the_fewer_days_are_left(looked):
    days = {kind: statistics.fmean(held.days) for kind, held in looked.items()}
    assert days["all, weekly"] < min(days["nodes"], days["pinheads"], days["branches"])
    assert max(days["nodes"], days["pinheads"], days["branches"]) < days["nothing"]


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_chances_come_true_about_as_often_as_they_are_told(looked, kind):
    """Of chances between one half and nine tenths, in 120 fields, within 13 in 100."""
    those = [pair for pair in looked[kind].stood if 0.5 <= pair[0] < 0.9]
    told, true = (statistics.fmean(each) for each in zip(*those, strict=True))
    assert told == pytest.approx(true, abs=0.13)
