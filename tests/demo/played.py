"""Seasons of the demo district with their calls, made once for all tests."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from quarterwalk.call import Call, make_call
from quarterwalk.crop import stage_on
from quarterwalk.demo import Season, Truth, load_district, make_season
from quarterwalk.guideline import load_guideline
from quarterwalk.reading import Reading, take_reading
from quarterwalk.walk import Walk


@dataclass(frozen=True, slots=True)
class Played:
    """One walk with its truth, reading and call."""

    walk: Walk
    truth: Truth
    reading: Reading
    call: Call

    @property
    def codes(self) -> set[str]:
        return {reason.code for reason in self.call.reasons}

    @property
    def field(self) -> str:
        return self.walk.field


@cache
def season(seed: int) -> Season:
    return make_season(load_district(), np.random.default_rng(seed))


@cache
def played(seed: int) -> tuple[Played, ...]:
    """Judge every walk of a season by the dates known at its end, field by field."""
    made = season(seed)
    guideline = load_guideline(made.district.guideline)
    found = []
    for own in made.fields:
        for each in own.walks:
            on, reading = each.walk.date, take_reading(each.walk)
            treated = own.dates.last_treated_before(on)
            stage = stage_on(on, own.dates)
            call = make_call(reading, stage, guideline, on=on, treated=treated)
            found.append(Played(each.walk, each.truth, reading, call))
    return tuple(found)
