"""Walks that are typed in and say one thing or another, and more fields beside those of people."""

from __future__ import annotations

from datetime import date

from quarterwalk.office.models import District, FieldRow, Grower, Person
from quarterwalk.office.services.walks import enter_walk
from quarterwalk.walk import QUADRANTS, InsectCount, PlantCheck, SquareCount
from tests.office.people import square

DAY = date(2026, 6, 18)
"""The day on which the office's clock stands, ten days after first square: squaring week 2."""

FIRST_SQUARE = date(2026, 6, 8)


def walk_in(field: FieldRow, by: Person, *, nymphs: int, lost: int, on: date = DAY) -> str:
    """Walk 25 plants a quarter: `nymphs` of them with one nymph, `lost` of 5 squares on ten."""
    checks = [
        PlantCheck(
            quadrant=quadrant,
            plant=plant,
            insects=InsectCount(0, 1 if plant <= nymphs else 0),
            squares=SquareCount(5 - lost, lost) if plant <= 10 else None,
        )
        for quadrant in QUADRANTS
        for plant in range(1, 26)
    ]
    return enter_walk(field=field, on=on, scout=by.name, checks=checks, by=by)


def more_fields(district: District, count: int) -> list[FieldRow]:
    """Lay out more fields, each with its grower, beside those that are there."""
    begun = district.fields.count()
    return [
        FieldRow.objects.create(
            district=district,
            name=f"Far {number}",
            grower=Grower.objects.create(district=district, name=f"Ned Orr {number}"),
            boundary=square(-101 - number / 50),
            acres=77.0,
        )
        for number in range(begun, begun + count)
    ]
