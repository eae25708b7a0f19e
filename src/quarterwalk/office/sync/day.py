"""The day as a phone shows it: which fields, which is due, and which card each has."""

from __future__ import annotations

from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from quarterwalk.call import Verdict
from quarterwalk.call.verdict import verdict_words
from quarterwalk.card import LastCall
from quarterwalk.office import clock
from quarterwalk.office.access import may_walk, walkers
from quarterwalk.office.models import Device, FieldRow
from quarterwalk.office.pages.due import Due, due_of
from quarterwalk.office.pages.season import stage_words
from quarterwalk.office.queries.standing import Standing, standings
from quarterwalk.office.services.cards import Given, cards_for

Json = dict[str, Any]


def day_of(device: Device) -> Json:
    """Tell what is to be walked today.

    Parameters
    ----------
    device : Device
        The phone that asks.

    Returns
    -------
    dict
        As phones read it; no field and nobody where its person may not walk any more.
    """
    district, person = device.district, device.person
    told: Json = {
        "person": {"id": person.public_id, "name": person.name} if person else None,
        "district": {
            "id": district.public_id,
            "name": district.name,
            "demo": district.is_demo,
        },
        "scouts": [],
        "fields": [],
    }
    if person is None or not may_walk(person, district):
        return told
    told["scouts"] = [{"id": each.public_id, "name": each.name} for each in walkers(district)]
    today = clock.today(district)
    fields = FieldRow.objects.filter(district=district).select_related("grower", "district")
    found = [(each, due_of(each, today)) for each in standings(fields, today)]
    last = {each.field.pk: call for each, _ in found if (call := _last(each)) is not None}
    cards = cards_for([each.field for each, _ in found], today, last)
    told["fields"] = [
        _field(each, due, cards[each.field.pk], last.get(each.field.pk), today)
        for each, due in sorted(found, key=_soonest)
    ]
    return told


def _last(told: Standing) -> LastCall | None:
    if told.walk is None or told.walk.on is None or told.call is None:
        return None
    return LastCall(told.walk.on, Verdict(told.call["call"]["verdict"]))


def _soonest(told: tuple[Standing, Due]) -> tuple[bool, date, str]:
    standing, due = told
    return due.on is None, due.on or date.max, standing.field.name


def _field(told: Standing, due: Due, card: Given, last: LastCall | None, today: date) -> Json:
    field = told.field
    until = field.closed_until
    closed = until is not None and until > clock.now()
    return {
        "id": field.public_id,
        "name": field.name,
        "grower": field.grower.name if field.grower else "",
        "farm": field.farm,
        "acres": round(field.acres, 1),
        "due": {
            "on": None if due.on is None else due.on.isoformat(),
            "text": f"{due.why}, {due.since}",
            "now": due.may_be(today),
        },
        "stage": stage_words(told.crop.stage) or "first square not given",
        "last": None
        if last is None
        else {
            "on": last.on.isoformat(),
            "verdict": last.verdict.value,
            "words": verdict_words(last.verdict),
        },
        "closed_until": until.astimezone(ZoneInfo(field.district.time_zone)).isoformat()
        if until is not None and closed
        else None,
        "card": card.sha256 if card.walkable else None,
        "no_card": None if card.walkable else card.why_not,
    }
