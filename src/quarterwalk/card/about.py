"""What a walk card is made from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, tzinfo
from fractions import Fraction

from quarterwalk.call import Verdict
from quarterwalk.crop import CropDates, Stage, StageName, WorkedOut, stage_on
from quarterwalk.field import Layout
from quarterwalk.guideline import Guideline
from quarterwalk.plan import Stopping
from quarterwalk.walk import Method
from quarterwalk.words import ENGLISH


@dataclass(frozen=True, slots=True)
class LastCall:
    """The last call on the field: the day of its walk, and what it said."""

    on: date
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class CardFor:
    """One field on one day, with all that its walk will be held against.

    Parameters
    ----------
    id : str
        The field's public id: 8 characters of figures and small letters without i, l, o
        and u.
    layout : Layout
        The field laid out; the card is for the day that it is laid out for.
    guideline : Guideline or None
        The region's rule; None where none is chosen.
    dates : CropDates or None
        First square, bloom and treatments, given or worked out; None where neither is there.
    worked_out : WorkedOut or None
        First square as the crop's clock has it on the card's day; None where it was given.
    line : Fraction or None
        A line chosen inside the published range; None takes its lower end.
        [insects per 100]
    closed_until : datetime or None
        Until when nobody may enter, with its zone.
    last : LastCall or None
        The last call on the field.
    language : str
        The one that the card is worded in: ``en`` or ``es``.
    zone : tzinfo or None
        Of the clocks where the field lies; without it the card tells nothing of the sun.
    stopping : Stopping or None
        For what a walk may end early; None where no walk may.

    Raises
    ------
    ValueError
        If the time of `closed_until` has no zone.
    """

    id: str
    layout: Layout
    guideline: Guideline | None = None
    dates: CropDates | None = None
    worked_out: WorkedOut | None = None
    line: Fraction | None = None
    closed_until: datetime | None = None
    last: LastCall | None = None
    language: str = ENGLISH
    zone: tzinfo | None = None
    stopping: Stopping | None = None

    def __post_init__(self) -> None:
        if self.closed_until is not None and self.closed_until.utcoffset() is None:
            raise ValueError(f"closed_until must have a zone, got {self.closed_until}. Add it.")

    @property
    def on(self) -> date:
        """The day that the stops are for."""
        return self.layout.on

    @property
    def stage(self) -> Stage | None:
        """Where the crop stands on that day; None where no date is given."""
        return self.stage_at(self.on)

    def stage_at(self, day: date) -> Stage | None:
        """Tell where the crop stands on any day, by what is known on the card's day.

        Parameters
        ----------
        day : date
            The day.

        Returns
        -------
        Stage or None
            None where no date is given.
        """
        if self.dates is None:
            return None
        stage, worked = stage_on(day, self.dates), self.worked_out
        if worked is None:
            return stage
        if stage.name is StageName.BLOOMING and worked.bloom is not None:
            first, last = worked.bloom
            stage = replace(stage, days_blooming=((day - last).days, (day - first).days))
        # what is as likely today is at least as likely later, and tells nothing of days before
        return replace(stage, worked_out=worked) if day >= self.on else stage

    @property
    def method(self) -> Method:
        """How the guideline counts; the terminal check where there is none."""
        return Method.TERMINAL if self.guideline is None else self.guideline.method

    @property
    def followed(self) -> Guideline | None:
        """The guideline, where tables of counts can follow its rule.

        They hold terminals, and a line that low square set does not move.
        """
        rule = self.guideline
        if rule is None or rule.method is not Method.TERMINAL or rule.half_line is not None:
            return None
        return rule
