"""Ranges said to hold 8 in 10 hold about so many; the whole measure is benchmarks/stages.py.

Of 120 fields a share of .80 has a standard error of .037, and of some .045 as five fields at a time
share a station. In 2000 fields the shares lie between .77 and .85, inside the .75 to .85 that is
asked for; 120 fields are asked for .70 to .90, one standard error more on either side.
"""

from __future__ import annotations

import pytest

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
