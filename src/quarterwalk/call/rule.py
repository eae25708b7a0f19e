"""The rule itself: one reading, one squaring week, one guideline, one verdict.

Every comparison is exact: counts are fractions and so are lines, thirds and floors.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from quarterwalk.call.verdict import Verdict
from quarterwalk.guideline import BlastedShare, Guideline, load_routine
from quarterwalk.reading import Reading


class Insects(StrEnum):
    """Where the insects stand against the line."""

    OVER = "over"
    NEAR = "near"  # two thirds of the line or more
    MIDDLE = "middle"  # a third to two thirds
    FEW = "few"  # under a third


class Squares(StrEnum):
    """Where the squares stand against the floor, or the blasted share."""

    NOT_ASKED = "not-asked"
    NOT_READABLE = "not-readable"
    FINE = "fine"
    UNDER = "under"
    WELL_UNDER = "well-under"


@dataclass(frozen=True, slots=True)
class Bounds:
    """What one squaring week is judged by.

    Parameters
    ----------
    week : int or None
        Squaring week; None while blooming. [from 1]
    full_line : Fraction
        The line before any halving. [insects per 100]
    line : Fraction
        The line in force. [insects per 100]
    floor : Fraction or None
        The square set floor. [fraction]
    blasted : BlastedShare or None
        The blasted share asked instead of a floor.
    half_at : Fraction or None
        Square set at or below which the line is halved. [fraction]
    """

    week: int | None
    full_line: Fraction
    line: Fraction
    floor: Fraction | None
    blasted: BlastedShare | None
    half_at: Fraction | None

    @property
    def halved(self) -> bool:
        """Whether low square set has halved the line."""
        return self.line != self.full_line


@dataclass(frozen=True, slots=True)
class Judged:
    """The verdict for one squaring week, and how it came about.

    `days` are the soonest and the latest next look. [days after the walk]
    """

    bounds: Bounds
    verdict: Verdict
    days: tuple[int, int]
    insects: Insects
    squares: Squares


def full_line(guideline: Guideline, week: int | None, chosen: Fraction | None) -> Fraction:
    """Give the line of one squaring week, before low square set may halve it.

    Parameters
    ----------
    guideline : Guideline
        The region's rule.
    week : int or None
        Squaring week; None while blooming. [from 1]
    chosen : Fraction or None
        A line chosen inside the published range. [insects per 100]

    Returns
    -------
    Fraction
        The chosen one, else the lower end of what is published. [insects per 100]
    """
    return guideline.line_for(week).low if chosen is None else chosen


def bounds_for(
    reading: Reading, guideline: Guideline, week: int | None, chosen: Fraction | None
) -> Bounds:
    """Give what a reading is judged by in one squaring week.

    Parameters
    ----------
    reading : Reading
        Its square set decides whether a line is halved.
    guideline : Guideline
        The region's rule.
    week : int or None
        Squaring week; None while blooming. [from 1]
    chosen : Fraction or None
        A line chosen inside the published range. [insects per 100]

    Returns
    -------
    Bounds
    """
    full = full_line(guideline, week, chosen)
    half = guideline.half_line
    low_set = (
        half is not None
        and reading.set_readable
        and reading.square_set is not None
        and reading.square_set <= half.at_or_below
    )
    floor = guideline.floor_for(week)
    return Bounds(
        week=week,
        full_line=full,
        line=full / 2 if low_set else full,
        floor=None if floor is None else floor.floor,
        blasted=guideline.blasted,
        half_at=None if half is None else half.at_or_below,
    )


def judge(reading: Reading, guideline: Guideline, bounds: Bounds) -> Judged:
    """Apply the rule in one squaring week.

    Parameters
    ----------
    reading : Reading
        With at least one insect check.
    guideline : Guideline
        The region's rule.
    bounds : Bounds
        What this week is judged by.

    Returns
    -------
    Judged
    """
    if reading.per_100 is None:
        raise ValueError("a reading must have an insect check to be judged, got none.")
    insects = insect_side(reading.per_100, bounds.line)
    squares = _squares(reading, bounds) if guideline.needs_set else Squares.NOT_ASKED
    verdict, days = _table(insects, squares)
    return Judged(bounds, verdict, days, insects, squares)


def insect_side(per_100: Fraction, line: Fraction) -> Insects:
    """Say where so many insects stand against a line.

    Parameters
    ----------
    per_100 : Fraction
        What was found. [insects per 100]
    line : Fraction
        The line in force. [insects per 100]

    Returns
    -------
    Insects
    """
    routine = load_routine()
    if per_100 >= line:
        return Insects.OVER
    if per_100 >= routine.near_line * line:
        return Insects.NEAR
    return Insects.MIDDLE if per_100 >= routine.low_line * line else Insects.FEW


def set_side(square_set: Fraction, floor: Fraction) -> Squares:
    """Say where a square set that can be read stands against a floor.

    Parameters
    ----------
    square_set : Fraction
        Share of squares still healthy. [fraction, 0 to 1]
    floor : Fraction
        The week's floor. [fraction, 0 to 1]

    Returns
    -------
    Squares
    """
    if square_set < floor - load_routine().well_under:
        return Squares.WELL_UNDER
    return Squares.UNDER if square_set < floor else Squares.FINE


def blasted_side(share: Fraction, blasted: BlastedShare) -> Squares:
    """Say where a blasted share that can be read stands against what a rule asks for.

    Parameters
    ----------
    share : Fraction
        Share of squares blasted. [fraction, 0 to 1]
    blasted : BlastedShare
        What the rule asks for.

    Returns
    -------
    Squares
    """
    if share > blasted.well_over:
        return Squares.WELL_UNDER
    return Squares.UNDER if share >= blasted.at_least else Squares.FINE


def _squares(reading: Reading, bounds: Bounds) -> Squares:
    if not reading.set_readable or reading.square_set is None or reading.blasted_share is None:
        return Squares.NOT_READABLE
    if bounds.blasted is not None:
        return blasted_side(reading.blasted_share, bounds.blasted)
    if bounds.floor is not None:
        return set_side(reading.square_set, bounds.floor)
    return Squares.NOT_READABLE


def verdict_for(insects: Insects, squares: Squares) -> Verdict:
    """Give what the two sides together come to.

    Parameters
    ----------
    insects : Insects
        Where the insects stand.
    squares : Squares
        Where the squares stand.

    Returns
    -------
    Verdict
        Never ``none``.
    """
    return _table(insects, squares)[0]


def _table(insects: Insects, squares: Squares) -> tuple[Verdict, tuple[int, int]]:
    """Give the verdict and the days to the next look."""
    routine = load_routine()
    under = squares in (Squares.UNDER, Squares.WELL_UNDER)
    hold = (Verdict.HOLD, (routine.hold, routine.hold))
    sooner = (Verdict.LOOK_SOONER, routine.look_sooner)
    if insects is Insects.OVER:
        if under or squares is Squares.NOT_ASKED:
            return Verdict.TREAT, (routine.not_treated, routine.not_treated)
        if squares is Squares.NOT_READABLE:
            return Verdict.LOOK_SOONER, (routine.not_readable, routine.not_readable)
        return sooner
    if insects is Insects.NEAR:
        return sooner
    if insects is Insects.MIDDLE:
        return sooner if under else hold
    if squares is Squares.WELL_UNDER:
        return sooner
    if squares is Squares.UNDER:
        return Verdict.HOLD, (routine.hold_low_set, routine.hold_low_set)
    return hold
