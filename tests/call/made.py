"""Walks made to order for the tests of calls: so many insects, so many squares."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from quarterwalk.call import Call, CallOptions, make_call
from quarterwalk.crop import CropDates, stage_on
from quarterwalk.guideline import Guideline, load_guideline
from quarterwalk.reading import Reading, take_reading
from quarterwalk.walk import (
    QUADRANTS,
    InsectCount,
    Method,
    PlantCheck,
    SquareCount,
    Walk,
)

FIRST_SQUARE = date(2026, 6, 10)


def shared(total: int, parts: int) -> list[int]:
    """Split a total over parts as evenly as whole numbers allow."""
    return [total // parts + (i < total % parts) for i in range(parts)]


def walk(
    insects: int = 0,
    *,
    plants: Sequence[int] = (25, 25, 25, 25),
    healthy: int = 0,
    missing: int = 0,
    blasted: int = 0,
    on: date = FIRST_SQUARE,
    method: Method = Method.TERMINAL,
    sweeps: int | None = None,
    plan: str = "",
) -> Walk:
    """Spread so many insects and squares over so many plants a quadrant."""
    places = [(q, i) for q, n in zip(QUADRANTS, plants, strict=True) for i in range(n)]
    n = len(places)
    kinds = (insects, healthy, missing, blasted)
    counts = zip(*(shared(total, n) for total in kinds), strict=True)
    checks = [
        PlantCheck(
            quadrant,
            i + 1,
            insects=InsectCount(found),
            squares=SquareCount(h, m, b) if healthy + missing + blasted else None,
            sweeps=sweeps,
        )
        for (quadrant, i), (found, h, m, b) in zip(places, counts, strict=True)
    ]
    return Walk("Home 40", on, tuple(checks), method=method, plan=plan)


def reading(insects: int = 0, **choices: object) -> Reading:
    """Read a walk made to order."""
    return take_reading(walk(insects, **choices))  # type: ignore[arg-type]


def call(
    read: Reading,
    guideline: str | Guideline = "southern-high-plains",
    *,
    day: int = 10,
    latest: int = 0,
    bloom: int | None = None,
    treated: int | None = None,
    options: CallOptions | None = None,
) -> Call:
    """Judge a reading `day` days after first square; `treated` days before the walk."""
    on = FIRST_SQUARE + timedelta(days=day)
    dates = CropDates(
        FIRST_SQUARE,
        FIRST_SQUARE + timedelta(days=latest),
        None if bloom is None else FIRST_SQUARE + timedelta(days=bloom),
        () if treated is None else (on - timedelta(days=treated),),
    )
    rule = load_guideline(guideline) if isinstance(guideline, str) else guideline
    before = dates.last_treated_before(on)
    chosen = options or CallOptions()
    return make_call(read, stage_on(on, dates), rule, on=on, treated=before, options=chosen)


def days_to_next_look(made: Call, *, day: int = 10) -> int | None:
    """Give the days from the walk to the last good day of the next look."""
    on = FIRST_SQUARE + timedelta(days=day)
    return None if made.next_look is None else (made.next_look.latest - on).days


def codes(made: Call) -> set[str]:
    """Give the codes of a call's reasons."""
    return {reason.code for reason in made.reasons}
