"""Walk cards: made once for a day, made again when anything they rest on changes."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from typing import Any

import pytest

from quarterwalk.call import Verdict
from quarterwalk.card import LastCall, card_hash, make_card
from quarterwalk.field import lay_out
from quarterwalk.office.models import CardRow, FieldRow
from quarterwalk.office.queries.seasons import with_season
from quarterwalk.office.services import cards, fields
from quarterwalk.office.services.cards import cards_for
from quarterwalk.office.services.fields import SeasonDates
from quarterwalk.office.translate import to_field
from tests.office.conftest import Moment
from tests.office.people import People, made_ready

DAY = date(2026, 6, 18)


def card(people: People, on: date = DAY, last: LastCall | None = None) -> CardRow:
    field = with_season(FieldRow.objects.filter(pk=people.home.pk))[0]
    given = cards_for([field], on, {} if last is None else {field.pk: last})
    return CardRow.objects.get(sha256=given[field.pk].sha256)


@pytest.fixture(autouse=True)
def _ready(people: People) -> None:
    made_ready(people.home)


def test_a_card_is_made_once_a_day(people: People, monkeypatch: pytest.MonkeyPatch) -> None:
    made = []
    monkeypatch.setattr(cards, "make_card", lambda about: made.append(about) or make_card(about))
    first = card(people)
    assert card(people) == first
    assert len(made) == 1
    assert card_hash(bytes(first.raw)) == first.sha256
    card(people, date(2026, 6, 19))
    assert len(made) == 2


CHANGES: dict[str, Any] = {
    "name": lambda f: FieldRow.objects.filter(pk=f.pk).update(name="Home 81"),
    "farm": lambda f: FieldRow.objects.filter(pk=f.pk).update(farm="Vane"),
    "grower": lambda f: FieldRow.objects.filter(pk=f.pk).update(grower=None),
    "gate": lambda f: FieldRow.objects.filter(pk=f.pk).update(
        gate_longitude=-100.0, gate_latitude=33.0
    ),
    "rows": lambda f: FieldRow.objects.filter(pk=f.pk).update(rows=45.0),
    "rule": lambda f: fields.set_rule(field=f, guideline="oklahoma", line=""),
    "line": lambda f: fields.set_rule(field=f, guideline="southern-high-plains", line="30"),
    "dates": lambda f: fields.set_dates(
        field=f, year=2026, dates=SeasonDates(first_square=date(2026, 6, 9))
    ),
    "bloom": lambda f: fields.set_dates(
        field=f, year=2026, dates=SeasonDates(first_square=date(2026, 6, 8), bloom=date(2026, 7, 1))
    ),
    "treated": lambda f: fields.set_dates(
        field=f, year=2026, dates=SeasonDates(first_square=date(2026, 6, 8)),
        treated=[date(2026, 6, 12)],
    ),
    "closed": lambda f: fields.close_field(field=f, until=datetime(2026, 6, 20, tzinfo=UTC)),
}  # fmt: skip


@pytest.mark.parametrize("what", CHANGES)
def test_what_a_card_rests_on_makes_another_card(people: People, what: str) -> None:
    before = card(people)
    CHANGES[what](people.home)
    assert card(people).sha256 != before.sha256
    assert CardRow.objects.filter(sha256=before.sha256).exists()


def test_another_last_call_makes_another_card(people: People) -> None:
    last = card(people, last=LastCall(date(2026, 6, 15), Verdict.HOLD))
    assert json.loads(bytes(last.raw))["last"]["verdict"] == "hold"
    assert last != card(people, last=LastCall(date(2026, 6, 15), Verdict.TREAT))


def test_a_field_opens_when_its_time_has_come(people: People, moment: Moment) -> None:
    before = card(people)
    fields.close_field(field=people.home, until=datetime(2026, 6, 18, 19, tzinfo=UTC))
    closed = json.loads(bytes(card(people).raw))
    assert closed["closed_until"] == "2026-06-18T14:00:00-05:00"
    moment.later(hours=1)
    assert card(people) == before


def test_a_change_that_no_card_shows_gives_the_same_card_and_is_remembered(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = card(people)
    dates = SeasonDates(first_square=date(2026, 6, 8), first_square_latest=date(2026, 6, 8))
    fields.set_dates(field=people.home, year=2026, dates=dates)
    assert card(people).sha256 == before.sha256
    monkeypatch.setattr(cards, "make_card", None)
    assert card(people).sha256 == before.sha256


def test_a_card_has_the_stops_that_the_field_is_laid_out_with(people: People) -> None:
    told = json.loads(bytes(card(people).raw))
    assert (told["field"]["id"], told["on"]) == (people.home.public_id, "2026-06-18")
    places = [tuple(stop["place"]) for stop in told["stops"]]
    laid_out = [stop.place for stop in lay_out(to_field(people.home), DAY).stops]
    assert len(places) == len(laid_out) == 20
    for place, drawn in zip(places, laid_out, strict=True):
        assert place == pytest.approx(drawn, abs=1e-6)


def test_the_sun_on_a_card_goes_by_the_clocks_of_the_district(people: People) -> None:
    central = json.loads(bytes(card(people).raw))["sun"]
    people.home.district.time_zone = "America/Denver"
    people.home.district.save()
    mountain = json.loads(bytes(card(people).raw))["sun"]
    assert (central["offset"], mountain["offset"]) == (-300, -360)
    assert mountain["sunset"] == central["sunset"] - 60


def test_a_field_without_a_rule_is_walked_without_weeks(people: People) -> None:
    fields.set_rule(field=people.home, guideline="", line="")
    told = json.loads(bytes(card(people).raw))
    assert (told["walkable"], told["weeks"]) == (True, [])
