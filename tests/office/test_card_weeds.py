"""A phone's card and the office's season say the same of host weeds, where no date was given."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from quarterwalk.card import CardFor, make_card
from quarterwalk.crop import Flowers, Seen
from quarterwalk.office.crop_clocks import Clocks, FieldSeason, season_of
from quarterwalk.office.models import CardRow, FieldRow
from quarterwalk.office.queries.seasons import with_season
from quarterwalk.office.services import cards
from quarterwalk.office.services.cards import cards_for
from quarterwalk.office.services.fields import set_rule
from quarterwalk.office.services.seen import note_seen
from quarterwalk.report.season_ahead import what_comes_next
from quarterwalk.report.season_report import SeasonDone
from tests.office.conftest import Moment
from tests.office.people import People
from tests.office.weathered import planted, station, weathered

BY = "Clear host weeds by "
LEAVE = "Leave host weeds standing until after bloom"
SQUARES = "The first squares are there: leave host weeds standing"
DOUBT = "Leave host weeds standing for now: flowers were seen, but"
LIKELY = "The field most likely blooms by now"
BLOOMS = "The field blooms, so"


@pytest.fixture(autouse=True)
def _after_the_season(moment: Moment) -> None:
    moment.later(hours=24 * 100)


def row_of(people: People) -> FieldRow:
    (row,) = with_season(FieldRow.objects.filter(pk=people.home.pk))
    return row


def card(people: People, on: date) -> Any:
    row = row_of(people)
    given = cards_for([row], on, {})
    return json.loads(bytes(CardRow.objects.get(sha256=given[row.pk].sha256).raw))


def on_card(people: People, on: date) -> str:
    (said,) = [text for text in card(people, on)["texts"]["care"] if "host weeds" in text]
    return str(said)


def on_season_page(people: People, on: date) -> str:
    told = season_of(row_of(people), on)
    assert isinstance(told, FieldSeason)
    ahead = what_comes_next(told.clock, None, SeasonDone())
    return next(text for text in ahead if "ost weeds" in text)


def noted(people: People, on: date, **told: Any) -> None:
    note_seen(field=people.home, seen=Seen(on, **told), by=people.bob)


def grown(people: People, on: date) -> None:
    """Plant the field, with weather to a day."""
    weathered(people.near, station(days=(date(2012, 1, 1), date(2026, 11, 30))))
    planted(people.home, on)


MAY, JUNE = date(2026, 5, 18), date(2026, 6, 12)
SQUARED: dict[str, Any] = {"plants": 40, "pinhead": 4}
FLOWERS: dict[str, Any] = {"bloom": True}


@pytest.mark.parametrize(
    ("plant", "seen", "after", "said", "said_there"),
    [
        (MAY, None, 10, f"{BY}Saturday 13 June at the latest", f"{BY}13 June at the latest"),
        (MAY, None, 40, LEAVE, "Leave host weeds standing: "),
        (JUNE, (date(2026, 6, 30), SQUARED), 18, SQUARES, "Leave host weeds standing: 29 June"),
        (JUNE, (date(2026, 6, 30), SQUARED), 20, SQUARES, "Leave host weeds standing: 29 June"),
        (MAY, (date(2026, 6, 20), FLOWERS), 33, DOUBT, DOUBT),
        (MAY, (date(2026, 6, 20), FLOWERS), 60, DOUBT, DOUBT),
        (MAY, None, 66, LIKELY, LIKELY),
        (MAY, (date(2026, 7, 12), FLOWERS), 58, BLOOMS, BLOOMS),
    ],
)
def test_they_say_the_same_on_every_day_of_a_season(
    people: People,
    plant: date,
    seen: tuple[date, dict[str, Any]] | None,
    after: int,
    said: str,
    said_there: str,
) -> None:
    grown(people, plant)
    if seen is not None:
        noted(people, seen[0], **seen[1])
    on = plant + timedelta(days=after)
    assert on_card(people, on).startswith(said)
    assert on_season_page(people, on).startswith(said_there)


def test_what_is_seen_of_squares_makes_another_card(people: People) -> None:
    grown(people, JUNE)
    on = date(2026, 6, 30)
    assert on_card(people, on).startswith(BY)
    noted(people, on, **SQUARED)
    assert on_card(people, on).startswith(SQUARES)


def test_a_stage_that_tells_more_by_the_same_dates_makes_another_card(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    grown(people, JUNE)
    on = date(2026, 6, 30)
    told = Clocks([people.home], {on.year}).standing(row_of(people), on)
    assert told.stage is not None
    assert told.stage.worked_out is not None
    assert on_card(people, on).startswith(BY)
    worked = replace(told.stage.worked_out, squares_seen=True)
    seen = replace(told, stage=replace(told.stage, worked_out=worked))
    monkeypatch.setattr(cards.Clocks, "standing", lambda *_: seen)
    assert on_card(people, on).startswith(SQUARES)


@pytest.mark.parametrize("flowers", [None, date(2026, 6, 20), date(2026, 7, 12)])
@pytest.mark.parametrize("rule", ["southern-high-plains", "coastal-bend"])
def test_a_card_is_made_from_the_stage_that_the_office_goes_by(
    people: People, monkeypatch: pytest.MonkeyPatch, flowers: date | None, rule: str
) -> None:
    made: list[CardFor] = []
    monkeypatch.setattr(cards, "make_card", lambda about: made.append(about) or make_card(about))
    grown(people, MAY)
    set_rule(field=people.home, guideline=rule, line="")
    if flowers is not None:
        noted(people, flowers, **FLOWERS)
    for on in (MAY + timedelta(days=days) for days in range(10, 80, 10)):
        card(people, on)
        stage = Clocks([people.home], {on.year}).standing(row_of(people), on).stage
        assert stage is not None
        assert stage.worked_out is not None
        assert made[-1].stage == replace(stage, flowers=Flowers())


def test_weather_by_which_nothing_changes_makes_no_card_anew(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    grown(people, MAY)
    on = MAY + timedelta(days=66)
    before = Clocks([people.home], {on.year}).standing(row_of(people), on)
    card(people, on)
    monkeypatch.setattr(cards, "make_card", None)
    weathered(people.near, station(name="Old Gin", days=(date(2012, 1, 1), date(2026, 11, 30))))
    after = Clocks([people.home], {on.year}).standing(row_of(people), on)
    assert (after.dates, after.stage == before.stage) == (before.dates, False)
    card(people, on)
