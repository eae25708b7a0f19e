"""A season of the demo district: each call says when the next walk is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from quarterwalk.call import Call, Verdict, make_call
from quarterwalk.crop import CropDates, stage_on
from quarterwalk.demo.district import DemoField, District, Visit
from quarterwalk.demo.plants import Outing, draw_walk
from quarterwalk.demo.truth import Truth, true_field
from quarterwalk.guideline import Guideline, load_guideline, load_routine
from quarterwalk.reading import take_reading
from quarterwalk.walk import Walk, WalkTable


@dataclass(frozen=True, slots=True)
class TrueWalk:
    """One walk, and the truth that it was drawn from."""

    walk: Walk
    truth: Truth


@dataclass(frozen=True, slots=True)
class FieldSeason:
    """One field's walks, and its dates with the treatments that came of them."""

    field: DemoField
    dates: CropDates
    walks: tuple[TrueWalk, ...]


@dataclass(frozen=True, slots=True)
class Season:
    """All walks of the district, by day and then by field, and the fields they are of."""

    district: District
    fields: tuple[FieldSeason, ...]
    walks: tuple[TrueWalk, ...]

    @property
    def table(self) -> WalkTable:
        """The walks as one table."""
        return WalkTable.from_walks(each.walk for each in self.walks)


def make_season(district: District, rng: np.random.Generator) -> Season:
    """Walk the district for a season.

    Parameters
    ----------
    district : District
        The fields and what is true of them.
    rng : numpy.random.Generator
        The dice; each field has its own, so that no field changes another's.

    Returns
    -------
    Season
        The walks with the truth that each was drawn from.
    """
    guideline = load_guideline(district.guideline)
    dice = rng.spawn(len(district.fields))
    fields = tuple(
        _field_season(field, district, guideline, own)
        for field, own in zip(district.fields, dice, strict=True)
    )
    walks = [each for season in fields for each in season.walks]
    return Season(district, fields, tuple(sorted(walks, key=lambda each: each.walk.date)))


def _field_season(
    field: DemoField, district: District, guideline: Guideline, rng: np.random.Generator
) -> FieldSeason:
    """Visit one field from its first visit on, whenever the last call says so."""
    walks: list[TrueWalk] = []
    dates, calls_to_treat = field.dates, 0
    on: date | None = field.first_visit
    while on is not None and on <= district.last_day:
        visit = field.visits.get(len(walks) + 1, Visit())
        outing = Outing(field, on, visit, _helper(district, field))
        truth = true_field(field, district.nature, on, dates.treated)
        walk = draw_walk(outing, truth, district.nature, rng)
        walks.append(TrueWalk(walk, truth))
        call = _call(walk, dates, guideline)
        on = _next_visit(call, walk.date)
        if call.verdict is Verdict.TREAT:
            calls_to_treat += 1
            if calls_to_treat == field.sprays_at_call:
                sprayed = walk.date + timedelta(days=1)
                dates = replace(dates, treated=(*dates.treated, sprayed))
                on = sprayed + timedelta(days=load_routine().treated[0])
    return FieldSeason(field, dates, tuple(walks))


def _helper(district: District, field: DemoField) -> str:
    return next(name for name in district.scouts if name != field.scout)


def _call(walk: Walk, dates: CropDates, guideline: Guideline) -> Call:
    treated = dates.last_treated_before(walk.date)
    stage = stage_on(walk.date, dates)
    return make_call(take_reading(walk), stage, guideline, on=walk.date, treated=treated)


def _next_visit(call: Call, walked: date) -> date | None:
    """Give the day of the next visit: a field due at once is walked the next morning."""
    if call.next_look is None:
        return None
    return max(call.next_look.latest, walked + timedelta(days=1))
