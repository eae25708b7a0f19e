"""What is true of a field on a day, and what the guideline says of the true field."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

import numpy as np

from quarterwalk.crop import CropDates, StageName, stage_on
from quarterwalk.demo.district import DemoField, Nature
from quarterwalk.guideline import Guideline

_COURSE_DAYS = (0, 7, 14, 21, 28)


@dataclass(frozen=True, slots=True)
class Truth:
    """One true field on one day.

    Parameters
    ----------
    per_100 : tuple of float
        Insects of NW, NE, SW and SE. [insects per 100 plants]
    clumping : float
        k of the gamma-Poisson counts. [dimensionless]
    square_set : float
        [fraction]
    lost_as : tuple of float
        Lost squares that are missing, blasted and flared. [fractions that add up to 1]
    sites : float
        Mean first positions of a plant; 0 before first square. [count]
    squaring_week : int or None
        The true one; None outside squaring. [from 1]
    """

    per_100: tuple[float, ...]
    clumping: float
    square_set: float
    lost_as: tuple[float, ...]
    sites: float
    squaring_week: int | None

    @property
    def field_per_100(self) -> float:
        """Insects per 100 plants of the whole field: quadrants have equal area."""
        return sum(self.per_100) / len(self.per_100)


def true_field(field: DemoField, nature: Nature, on: date, treated: tuple[date, ...]) -> Truth:
    """Give what is true of a field on a day.

    Parameters
    ----------
    field : DemoField
        The field.
    nature : Nature
        What it has in common with the others.
    on : date
        The day.
    treated : tuple of date
        Days on which it was sprayed so far.

    Returns
    -------
    Truth
        What every plant counted would come to.
    """
    days = (on - field.squared).days
    insects = _course(days, field.per_100) * _left(nature, on, treated)
    sites = _course(days, nature.sites) * field.sites_times if days >= 0 else 0.0
    stage = stage_on(on, CropDates(field.squared, bloom=field.dates.bloom))
    weeks = stage.squaring_weeks if stage.name is StageName.SQUARING else ()
    return Truth(
        per_100=tuple(insects * share for share in field.quadrants),
        clumping=field.clumping,
        square_set=_course(days, field.square_set),
        lost_as=field.lost_as,
        sites=sites,
        squaring_week=weeks[0] if weeks else None,
    )


def _course(days: int, values: tuple[float, ...]) -> float:
    return float(np.interp(days, _COURSE_DAYS, values))


def _left(nature: Nature, on: date, treated: tuple[date, ...]) -> float:
    """Share of the insects that the last spray has left."""
    before = [(on - day).days for day in treated if day < on]
    if not before:
        return 1.0
    ends = (nature.spray_holds_days, nature.back_after_days)
    return float(np.interp(min(before), ends, (nature.left_after_spray, 1.0)))


def rule_says_treat(truth: Truth, guideline: Guideline) -> bool | None:
    """Apply the guideline to the true field, as if every plant had been counted.

    Parameters
    ----------
    truth : Truth
        The true field.
    guideline : Guideline
        A rule that asks for insects and for lost squares.

    Returns
    -------
    bool or None
        None outside squaring.
    """
    week = truth.squaring_week
    floor = guideline.floor_for(week)
    if week is None or floor is None:
        return None
    over = Fraction(truth.field_per_100) >= guideline.line_for(week).low
    return over and Fraction(truth.square_set) < floor.floor
