"""Cards: the same field on the same day has the same card; whatever changes makes another."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client

from quarterwalk.call import Verdict
from quarterwalk.card import LastCall
from quarterwalk.field import lay_out
from quarterwalk.office import clock
from quarterwalk.office.models import CardRow, FieldRow
from quarterwalk.office.services import cards
from quarterwalk.office.services.due import with_season
from quarterwalk.office.services.fields import SeasonDates as Dates
from quarterwalk.office.services.fields import close_field, set_dates, set_rule
from quarterwalk.office.translate import to_field
from tests.office.people import People, made_ready, phone
from tests.office.seasoned import DAY, FIRST_SQUARE

pytestmark = pytest.mark.django_db


def given(field: FieldRow, on: date = DAY, last: LastCall | None = None) -> cards.Given:
    fresh = with_season(FieldRow.objects.filter(pk=field.pk))
    return cards.cards_for(fresh, on, {} if last is None else {field.pk: last})[field.pk]


def content(card: cards.Given) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(bytes(CardRow.objects.get(sha256=card.sha256).raw))
    return told


def test_a_card_is_named_by_the_hash_of_its_bytes(people: People) -> None:
    made_ready(people.home)
    card = given(people.home)
    raw = bytes(CardRow.objects.get(sha256=card.sha256).raw)
    assert hashlib.sha256(raw).hexdigest() == card.sha256


def test_a_card_has_the_stops_that_the_field_is_laid_out_with(people: People) -> None:
    made_ready(people.home)
    told = content(given(people.home))
    stops = lay_out(to_field(people.home), DAY).stops
    assert (told["field"]["id"], told["on"]) == (people.home.public_id, "2026-06-18")
    assert len(told["stops"]) == len(stops) == 20


def test_an_unchanged_field_is_not_laid_out_again(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    made_ready(people.home)
    first = given(people.home)

    def refuse(*_: object) -> None:
        raise AssertionError("the field was laid out again")

    monkeypatch.setattr(cards, "lay_out", refuse)
    assert given(people.home) == first


CHANGES: dict[str, Callable[[FieldRow], object]] = {
    "line": lambda field: set_rule(field=field, guideline="southern-high-plains", line="30"),
    "rule": lambda field: set_rule(field=field, guideline="mid-coast", line=""),
    "dates": lambda field: set_dates(
        field=field, year=2026, dates=Dates(first_square=date(2026, 6, 6))
    ),
    "treated": lambda field: set_dates(
        field=field, year=2026, dates=Dates(first_square=FIRST_SQUARE), treated=[date(2026, 6, 16)]
    ),
    "closed": lambda field: close_field(field=field, until=clock.now() + timedelta(hours=20)),
}


@pytest.mark.parametrize("what", CHANGES)
def test_whatever_a_walk_is_held_against_makes_another_card(people: People, what: str) -> None:
    made_ready(people.home)
    before = given(people.home)
    CHANGES[what](people.home)
    assert given(people.home).sha256 != before.sha256


def test_another_day_and_another_last_call_make_another_card(people: People) -> None:
    made_ready(people.home)
    last = LastCall(date(2026, 6, 12), Verdict.HOLD)
    names = {given(people.home).sha256, given(people.home, DAY + timedelta(1)).sha256,
             given(people.home, last=last).sha256}  # fmt: skip
    assert len(names) == 3


def test_a_card_that_was_given_out_stays_when_the_field_changes(people: People) -> None:
    made_ready(people.home)
    before = given(people.home)
    set_rule(field=people.home, guideline="mid-coast", line="")
    given(people.home)
    assert content(before)["guideline"]["name"] == "southern-high-plains"


def test_a_field_that_a_phone_can_not_hold_says_why(people: People) -> None:
    set_rule(field=people.home, guideline="tennessee-sweep", line="")
    card = given(people.home)
    assert not card.walkable
    assert "sweep" in card.why_not


@pytest.mark.parametrize("lacking", ["rule", "dates"])
def test_a_field_without_rule_or_dates_is_walked_without_weeks(
    people: People, lacking: str
) -> None:
    made_ready(people.home)
    if lacking == "rule":
        set_rule(field=people.home, guideline="", line="")
    else:
        set_dates(field=people.home, year=2026, dates=Dates())
    card = given(people.home)
    assert card.walkable
    assert content(card)["weeks"] == []


def test_a_closing_that_has_passed_is_no_longer_on_the_card(people: People) -> None:
    made_ready(people.home)
    close_field(field=people.home, until=clock.now() - timedelta(minutes=1))
    assert content(given(people.home))["closed_until"] is None


def test_a_phone_fetches_the_very_bytes_and_another_district_does_not(people: People) -> None:
    made_ready(people.home)
    card = given(people.home)

    def asked(token: str) -> Any:
        headers = {"Authorization": f"Bearer {token}"}
        return Client().get(f"/sync/cards/{card.sha256}", headers=headers)

    own = asked(phone(people.bob, people.near)[1])
    assert (own.status_code, hashlib.sha256(own.content).hexdigest()) == (200, card.sha256)
    assert own["Content-Type"] == "application/json"
    assert asked(phone(people.charlie, people.far)[1]).status_code == 404
