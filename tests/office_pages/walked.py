"""Fields with a rule and dates, and walks that say one thing or another."""

from __future__ import annotations

from datetime import date

from quarterwalk.office.models import FieldRow, Person
from quarterwalk.office.services.fields import SeasonDates, set_dates, set_rule
from quarterwalk.office.services.walks import enter_walk
from quarterwalk.walk import QUADRANTS, InsectCount, PlantCheck, SquareCount

SQUARES = 5
"""Squares on each plant. [count]"""


def judge(field: FieldRow, guideline: str = "southern-high-plains") -> None:
    """Give a field its rule, and first square eleven days before the first of July."""
    set_rule(field=field, guideline=guideline, line="")
    dates = SeasonDates(planted=date(2026, 5, 14), first_square=date(2026, 6, 20))
    set_dates(field=field, year=2026, dates=dates, treated=())


def walk_in(field: FieldRow, by: Person, on: date, *, nymphs: int, lost: int) -> str:
    """Walk a field: 25 plants a quarter, `nymphs` of them with one nymph, `lost` of 5 squares."""
    checks = [
        PlantCheck(
            quadrant=quadrant,
            plant=plant,
            insects=InsectCount(0, 1 if plant <= nymphs else 0),
            squares=SquareCount(SQUARES - lost, lost) if plant <= 10 else None,
        )
        for quadrant in QUADRANTS
        for plant in range(1, 26)
    ]
    return enter_walk(field=field, on=on, scout=by.name, checks=checks, by=by)
