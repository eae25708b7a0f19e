"""What a phone looks up in a card is the verdict that the core gives the same walk."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import product

import pytest

from quarterwalk.call import make_call
from quarterwalk.crop import CropDates, WeekOdds, WorkedOut, stage_on
from quarterwalk.guideline import load_guideline
from tests.call.made import call, reading
from tests.card import by_hand
from tests.card.ground import FIRST_SQUARE, ON, Json, content, lean

FULL, SQUARES = 100, 300
DAYS = {1: 3, 2: 10, 3: 17, 4: 24}
EVENLY_GONE = (0, 29, 30, 31, 45, 46, 60, 61, 75, 76, 90, 91, 300)


def around(*limits: int) -> list[int]:
    """Give the counts at each limit, and one below and above."""
    return sorted({limit + step for limit in limits for step in (-1, 0, 1)})


@pytest.mark.parametrize("week", DAYS)
@pytest.mark.parametrize("name", by_hand.LINES)
def test_a_full_even_walk_comes_to_the_cores_verdict(name: str, week: int) -> None:
    read = content(name)
    if week not in [told["week"] for told in read["weeks"]]:
        assert call(reading(0), name, day=DAYS[week]).verdict == "none"
        return
    line = by_hand.LINES[name]
    kind = "blasted" if name == "kansas" else "missing"
    for insects, gone in product(around(line // 3 + 1, 2 * line // 3, line), EVENLY_GONE):
        walked = reading(insects, healthy=SQUARES - gone, **{kind: gone})
        made = call(walked, name, day=DAYS[week])
        assert not made.provisional
        assert lean(read, week, (FULL, insects, SQUARES, gone)) == made.verdict, (insects, gone)


@pytest.mark.parametrize("insects", [8, 9, 16, 17, 24, 25, 60])
@pytest.mark.parametrize("squares", [0, 49])
def test_a_walk_with_too_few_squares_comes_to_the_cores_verdict(insects: int, squares: int) -> None:
    made = call(reading(insects, missing=squares), day=DAYS[2])
    assert lean(content(), 2, (FULL, insects, squares, squares)) == made.verdict


@pytest.mark.parametrize("insects", [0, 3, 4, 6, 7, 9, 10, 30])
def test_in_bloom_the_line_still_holds_where_the_guideline_says_so(insects: int) -> None:
    dates = CropDates(FIRST_SQUARE, bloom=FIRST_SQUARE + timedelta(days=25))
    read = content("coastal-bend", dates=dates)
    made = call(reading(insects), "coastal-bend", day=28, bloom=25)
    assert lean(read, None, (FULL, insects, 0, 0)) == made.verdict


@pytest.mark.parametrize("name", ["southern-high-plains", "coastal-bend", "oklahoma"])
@pytest.mark.parametrize("bloom", [None, 24])
def test_treating_may_stand_on_exactly_the_days_on_which_the_core_says_treat(
    name: str, bloom: int | None
) -> None:
    latest, treated = 3, 9
    sprayed = FIRST_SQUARE + timedelta(days=treated)
    flowers = None if bloom is None else FIRST_SQUARE + timedelta(days=bloom)
    dates = CropDates(FIRST_SQUARE, FIRST_SQUARE + timedelta(days=latest), flowers, (sprayed,))
    read = content(name, dates=dates)
    over = reading(90, missing=300)
    for day in range(-2, 60):
        before = day - treated if day > treated else None
        made = call(over, name, day=day, latest=latest, bloom=bloom, treated=before)
        on = (FIRST_SQUARE + timedelta(days=day)).isoformat()
        treat = any(span["from"] <= on <= span["to"] for span in read["treat_days"])
        assert treat == (made.verdict == "treat"), day
        inside = any(week["from"] <= on <= week["to"] for week in read["weeks"])
        assert inside == (made.verdict != "none"), day


def worked_out(**told: object) -> WorkedOut:
    """Give first square as a clock has it."""
    odds = WeekOdds(0.0, (1.0,), 0.0)
    return WorkedOut(FIRST_SQUARE, FIRST_SQUARE, FIRST_SQUARE, **{"weeks": odds} | told)  # type: ignore[arg-type]


def may_treat(read: Json, on: date) -> bool:
    """Look up whether a case to treat may stand on a day."""
    return any(span["from"] <= on.isoformat() <= span["to"] for span in read["treat_days"])


@pytest.mark.parametrize("name", ["southern-high-plains", "coastal-bend", "oklahoma"])
@pytest.mark.parametrize("blooming", [0.4, 0.6])
@pytest.mark.parametrize("a_week", [0.4, 0.6])
def test_treating_may_not_stand_where_weather_has_likely_ended_the_season(
    name: str, blooming: float, a_week: float
) -> None:
    odds = WeekOdds(0.0, (1 - blooming,), blooming)
    worked = worked_out(weeks=odds, bloomed_a_week=a_week)
    dates = CropDates(FIRST_SQUARE)
    read = content(name, dates=dates, worked_out=worked)
    stage = replace(stage_on(ON, dates), worked_out=worked)
    made = make_call(reading(90, missing=300), stage, load_guideline(name), on=ON)
    assert may_treat(read, ON) == (made.verdict == "treat")
    # later days are no surer, and those before the card's own are as they were
    assert may_treat(read, ON + timedelta(days=3)) <= may_treat(read, ON)
    assert may_treat(read, ON - timedelta(days=1))


@pytest.mark.parametrize("ago", [(0, 0), (2, 6), (3, 9), (6, 7), (1, 17), (7, 12)])
def test_where_the_day_of_bloom_is_a_range_the_days_are_the_cores(ago: tuple[int, int]) -> None:
    latest, earliest = (ON - timedelta(days=days) for days in ago)
    dates = CropDates(date(2026, 6, 1), bloom=ON - timedelta(days=sum(ago) // 2))
    worked = worked_out(bloom=(earliest, latest))
    read = content("coastal-bend", dates=dates, worked_out=worked)
    stage = replace(stage_on(ON, dates), worked_out=worked, days_blooming=ago)
    made = make_call(reading(90, missing=300), stage, load_guideline("coastal-bend"), on=ON)
    assert may_treat(read, ON) == (made.verdict == "treat")
    inside = any(each["from"] <= ON.isoformat() <= each["to"] for each in read["weeks"])
    assert inside == (made.verdict != "none")


def test_a_field_that_may_be_in_two_weeks_has_both() -> None:
    dates = CropDates(date(2026, 6, 22), date(2026, 6, 25))
    read = content(dates=dates)
    spans = {told["week"]: (told["from"], told["to"]) for told in read["weeks"][:3]}
    # week 2 is days 7 to 13: from 29 June if it squared first on the 22nd, to 8 July if on the 25th
    assert spans[1] == ("2026-06-22", "2026-07-01")
    assert spans[2] == ("2026-06-29", "2026-07-08")
    assert [told["floor"] for told in read["weeks"][:4]] == [0.9, 0.85, 0.75, 0.75]
