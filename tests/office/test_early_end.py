"""Walks that may end early: off until a lead says so, and only where it saves minutes."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from quarterwalk.field import lay_out
from quarterwalk.office.early_end import cost_in, stopping_in
from quarterwalk.office.models import CallRow, CardRow, FieldRow, WalkRow
from quarterwalk.office.queries.seasons import with_season
from quarterwalk.office.services.calls import call_for
from quarterwalk.office.services.cards import cards_for
from quarterwalk.office.services.district import set_stopping
from quarterwalk.office.services.fields import SeasonDates, set_dates, set_rule
from quarterwalk.office.services.projections import rebuild
from quarterwalk.office.translate import to_dates, to_field
from quarterwalk.plan import Stopping, shelved_named
from tests.office.people import People, made_ready
from tests.office.sender import Sender

DAY = date(2026, 6, 18)
"""In the second week of squaring where first square was on 8 June."""


@pytest.fixture(autouse=True)
def _ready(people: People) -> None:
    made_ready(people.home)


def row_of(field: FieldRow) -> FieldRow:
    return with_season(FieldRow.objects.filter(pk=field.pk))[0]


def card(field: FieldRow) -> tuple[str, dict[str, Any]]:
    """Give the name of a field's card of the day, and what stands on it."""
    sha256 = cards_for([row_of(field)], DAY, {})[field.pk].sha256
    return sha256, json.loads(bytes(CardRow.objects.get(sha256=sha256).raw))


def may_end(field: FieldRow) -> Stopping | None:
    row = row_of(field)
    return stopping_in(row, DAY, to_dates(row, DAY))


def test_it_is_off_until_somebody_switches_it_on(people: People) -> None:
    assert people.near.stopping == ""
    assert may_end(people.home) is None
    assert not card(people.home)[1].get("plans")


@pytest.mark.parametrize("stopping", Stopping)
def test_a_card_has_plans_of_the_kind_that_was_chosen(people: People, stopping: Stopping) -> None:
    set_stopping(district=people.near, stopping=stopping)
    plans = card(people.home)[1]["plans"]
    found = [shelved_named(each["hash"]) for each in plans]
    assert 2 in [each["week"] for each in plans]
    assert {each.plan.stopping for each in found if each is not None} == {stopping}


def test_every_change_makes_another_card_and_off_gives_the_first_one_again(people: People) -> None:
    off = card(people.home)[0]
    named = [off]
    for stopping in Stopping:
        set_stopping(district=people.near, stopping=stopping)
        named.append(card(people.home)[0])
    assert len(set(named)) == 3
    set_stopping(district=people.near, stopping=None)
    assert card(people.home)[0] == off


def test_another_district_stays_as_it_is(people: People) -> None:
    made_ready(people.away)
    before = card(people.away)
    set_stopping(district=people.near, stopping=Stopping.EITHER_WAY)
    assert card(people.away) == before


def test_where_one_round_would_be_quicker_the_cost_says_so(people: People) -> None:
    # by a line of 15 alone few walks may end after 40 plants, and two loops are longer than one
    set_rule(field=people.home, guideline="mid-coast", line="")
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    row = row_of(people.home)
    cost = cost_in(row, lay_out(to_field(row), DAY), to_dates(row, DAY))
    assert cost is not None
    assert cost.saves < 0 < cost.by_look[-1] - cost.minutes
    assert card(people.home)[1]["plans"]


UNANSWERED: dict[str, Callable[[FieldRow], None]] = {
    "no rule": lambda f: set_rule(field=f, guideline="", line=""),
    "sweeps": lambda f: set_rule(field=f, guideline="tennessee-sweep", line=""),
    "another line": lambda f: set_rule(field=f, guideline="southern-high-plains", line="30"),
    "no dates": lambda f: set_dates(field=f, year=2026, dates=SeasonDates()),
    "before squaring": lambda f: set_dates(
        field=f, year=2026, dates=SeasonDates(first_square=date(2026, 6, 20))
    ),
    "one of two floors": lambda f: set_dates(
        field=f, year=2026,
        dates=SeasonDates(first_square=date(2026, 6, 8), first_square_latest=date(2026, 6, 14)),
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", UNANSWERED)
def test_without_one_plan_for_what_the_walk_must_answer_it_is_finished(
    people: People, what: str
) -> None:
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    assert may_end(people.home) is Stopping.HOLD_ONLY
    UNANSWERED[what](people.home)
    assert may_end(people.home) is None


def test_two_weeks_that_ask_the_same_do_not_matter(people: People) -> None:
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    set_rule(field=people.home, guideline="oklahoma", line="")
    dates = SeasonDates(first_square=date(2026, 6, 8), first_square_latest=date(2026, 6, 14))
    set_dates(field=people.home, year=2026, dates=dates)
    assert may_end(people.home) is Stopping.HOLD_ONLY


def ended_early(bobs: Sender, people: People) -> tuple[WalkRow, str]:
    """Send a walk that ended after the first loop by the plan on its card."""
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    (plan,) = (each for each in card(people.home)[1]["plans"] if each["week"] == 2)
    *said, closed = bobs.walk(people.home, plan["looks"][0]["plants"])
    closed["body"]["plan"] = plan["hash"]
    bobs.send(*said, closed)
    return WalkRow.objects.get(walk_id=closed["walk"]), plan["hash"]


def test_the_plan_of_a_walk_reaches_its_call(bobs: Sender, people: People) -> None:
    row, plan = ended_early(bobs, people)
    judged = call_for(row)
    assert judged is not None
    assert (row.plan, judged.walk.plan, judged.head.plan, judged.reading.plan) == (plan,) * 4
    told = json.loads(CallRow.objects.get(walk_id=row.walk_id).content)
    codes = [reason["code"] for reason in told["call"]["reasons"]]
    assert "ended-by-plan" in codes
    assert "few-plants" not in codes


def test_the_plan_of_a_walk_is_there_after_a_rebuild(bobs: Sender, people: People) -> None:
    row, plan = ended_early(bobs, people)
    WalkRow.objects.filter(pk=row.pk).update(plan="")
    assert rebuild(check=False).differing == (row.walk_id,)
    assert WalkRow.objects.get(pk=row.pk).plan == plan
